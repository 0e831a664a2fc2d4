#pragma once
#include <string>
#include <string_view>

#include "base/measure.hpp"
#include "console/context.hpp"
#include "console/options.hpp"
#include "files/find_profile.hpp"
#include "ledger/entry.hpp"
#include "match/place.hpp"
#include "show/paint.hpp"
#include "show/text.hpp"

// What most commands share: the options on every one, the yarn, the readings.
namespace ballchange {

[[nodiscard]] const OptionGroup& common_options();
[[nodiscard]] const OptionGroup& reading_options();  // sure, tape, from, wound

enum class Format { text, json };

struct Common {
  Format format = Format::text;
  bool inches = false;
  bool ask = true;
  bool verbose = false;
  Screen screen;
};
[[nodiscard]] Common common_of(const Options& options, const Context& context);

// What bare numbers mean, and what answers are told in.
struct Measures {
  Ruler ruler;
  Told told = Told::centimetres;
};
// With a yarn reckoned in stitches everything is in stitches; `yarn` may be null.
[[nodiscard]] Measures measures_of(const Options& options, const Common& common, const Yarn* yarn);

// The profile --yarn names; one written in stitches is turned into centimetres where --yarn-per-stitch is given.
// Unknown keys are complained of.
[[nodiscard]] Yarn yarn_of(const Options& options, const Context& context);

// Where profiles are looked for.
[[nodiscard]] Surroundings surroundings_of(const Context& context);

// An option's length as a log holds it, in the unit it was told in. Throws Problem(content).
[[nodiscard]] std::optional<Amount> amount_option(const Options& options, std::string_view name, Unit bare);
[[nodiscard]] std::optional<Length> length_option(const Options& options, std::string_view name, const Ruler& ruler);
// A number of stitches or rows from 0.1 to 1000. Throws Problem(content).
[[nodiscard]] std::optional<double> count_in_10cm(const Options& options, std::string_view name);
// --sure and --tape alone.
[[nodiscard]] MatchOptions placing_options(const Options& options, const Measures& measures);
// --yarn-per-stitch. Throws Problem(content) for what no stitch takes.
[[nodiscard]] std::optional<Length> stitch_option(const Options& options, const Ruler& ruler);
[[nodiscard]] MatchOptions match_options(const Options& options, const Measures& measures);
// The end the fresh ball is worked from: --new-from, otherwise `usual`.
[[nodiscard]] Worked new_from(const Options& options, Worked usual);
[[nodiscard]] Reading reading_option(const Options& options, End end, Palette& palette, const Ruler& ruler,
                                     const Context& context);

// What is worth knowing of the yarn, as lines of a screen: with --verbose, or where nothing was settled.
[[nodiscard]] std::string yarn_notes(const Yarn& yarn, const Common& common, Outcome outcome);

// Writes an answer as the screen can hold it.
void answer(const Context& context, const Common& common, const std::string& text);

// The name of a file that is to be written: with .yaml where it has no ending. `told_as` is what told it: "--out".
// Throws Problem(content) for none, or one that can't be shown.
[[nodiscard]] std::string new_file(const std::string& word, std::string_view told_as);

}  // namespace ballchange
