#include "console/common.hpp"

#include <fmt/core.h>

#include <array>
#include <charconv>
#include <ostream>
#include <system_error>

#include "base/text.hpp"
#include "console/screen.hpp"
#include "console/yarn_per_stitch.hpp"
#include "files/source.hpp"
#include "files/yaml_values.hpp"
#include "show/profile_notes.hpp"

namespace ballchange {
namespace {

constexpr std::array<OptionRow, 6> kCommon{{
    {"format", "text|json", "the answer as text or as JSON"},
    {"units", "cm|in", "what lengths are told in and a bare number means (cm)"},
    {"colour", "auto|always|never", "colour in the answer (auto: on a terminal)"},
    {"no-ask", "", "never wait for an answer"},
    {"verbose", "", "also why, what else it could be, all there is to choose from"},
    {"help", "", "this text"},
}};
constexpr OptionGroup kCommonGroup{"On every command", kCommon};

constexpr std::array<OptionRow, 5> kReading{{
    {"sure", "95%", "how sure a place must be before a cut is advised"},
    {"tape", "\"0.5 cm + 1 %\"", "how far off your measuring may be"},
    {"from", "usual|other", "the end the balls are worked from (usual)"},
    {"wound", "mill|hand", "how the balls were wound (mill)"},
    {"yarn-per-stitch", "L", "yarn one stitch takes"},
}};
constexpr OptionGroup kReadingGroup{"The reading", kReading};
constexpr std::string_view kAskForStitch = "tell the yarn per stitch (--yarn-per-stitch 1.85cm)";

}  // namespace

const OptionGroup& common_options() { return kCommonGroup; }
const OptionGroup& reading_options() { return kReadingGroup; }

Common common_of(const Options& options, const Context& context) {
  Common common;
  common.format = choice(options, "format", Format::text, {{"text", Format::text}, {"json", Format::json}});
  common.inches = choice(options, "units", false, {{"cm", false}, {"in", true}});
  common.ask = !options.has("no-ask");
  common.verbose = options.has("verbose");
  const auto wish =
      choice(options, "colour", ColourWish::when_it_can,
             {{"auto", ColourWish::when_it_can}, {"always", ColourWish::always}, {"never", ColourWish::never}});
  common.screen = screen_of(context, wish);
  return common;
}

Measures measures_of(const Options& options, const Common& common, const Yarn* yarn) {
  Measures measures;
  if (yarn != nullptr && yarn->reckoning == Reckoning::stitches) {
    measures.ruler = {Unit::st, std::nullopt, true, kAskForStitch};
    measures.told = Told::stitches;
    return measures;
  }
  measures.ruler.bare = common.inches ? Unit::in : Unit::cm;
  measures.told = common.inches ? Told::inches : Told::centimetres;
  measures.ruler.ask_for_stitch = kAskForStitch;
  measures.ruler.yarn_per_stitch = stitch_option(options, measures.ruler);
  return measures;
}

Yarn yarn_of(const Options& options, const Context& context) {
  Profile profile = load_profile(options.text("yarn").value_or(""), context.disk, surroundings_of(context));
  for (const std::string& note : profile.notes) remark(context, note);
  if (profile.yarn.reckoning == Reckoning::centimetres || !options.has("yarn-per-stitch")) return profile.yarn;
  const Measures measures = measures_of(options, common_of(options, context), nullptr);
  return in_centimetres(std::move(profile.yarn), *measures.ruler.yarn_per_stitch);
}

Surroundings surroundings_of(const Context& context) {
  return {context.environment("HOME"), context.environment("XDG_DATA_HOME"), context.environment("XDG_DATA_DIRS"),
          BALLCHANGE_DATADIR};
}

std::optional<Amount> amount_option(const Options& options, std::string_view name, Unit bare) {
  const auto text = options.text(name);
  if (!text) return std::nullopt;
  const Written written = parse_written(*text, bare, "--" + std::string(name));
  const double number = to_four_decimals(written.number);
  if (number == 0 && written.number > 0) {
    throw Problem(Fault::content, fmt::format("--{}: '{}' is too little to be measured: write 0, or at least 0.0001 {}",
                                              name, printable(*text, 40), unit_name(written.unit)));
  }
  return Amount{number, written.unit};
}

std::optional<double> count_in_10cm(const Options& options, std::string_view name) {
  const auto text = options.text(name);
  if (!text) return std::nullopt;
  const std::string_view word = trim(*text);
  double value = 0;
  const auto [end, error] = std::from_chars(word.data(), word.data() + word.size(), value, std::chars_format::fixed);
  if (error != std::errc() || end != word.data() + word.size() || !can_be_in_10cm(value)) {
    throw Problem(Fault::content,
                  fmt::format("--{}: '{}' is not a number {}, like 18 or 18.5", name, printable(word, 40), kIn10cm));
  }
  return value;
}

std::optional<Length> length_option(const Options& options, std::string_view name, const Ruler& ruler) {
  const auto text = options.text(name);
  if (!text) return std::nullopt;
  return parse_length(*text, ruler, "--" + std::string(name));
}

MatchOptions placing_options(const Options& options, const Measures& measures) {
  MatchOptions match;
  if (const auto text = options.text("sure")) {
    match.sure = parse_share(*text, "--sure", "50 % to 99.99 %, like 95 % or 0.95");
    if (match.sure < 0.5 || match.sure > 0.9999) {
      throw Problem(Fault::content,
                    fmt::format("--sure: {} is too far; it goes from 50 % to 99.99 %", printable(*text, 40)));
    }
  }
  const Reckoning reckoning = measures.ruler.in_stitches ? Reckoning::stitches : Reckoning::centimetres;
  match.tape.fixed = habits(reckoning).tape_fixed;
  if (const auto text = options.text("tape")) {
    match.tape = parse_tape(*text, measures.ruler, "--tape");
    if (match.tape.fixed > 10_cm || match.tape.share > 0.2) {
      const std::string_view most = measures.ruler.in_stitches ? "10 st" : "10 cm";
      throw Problem(Fault::content, fmt::format("--tape: {} is too far off to place anything; it goes up to {} + 20 %",
                                                printable(*text, 40), most));
    }
  }
  return match;
}

std::optional<Length> stitch_option(const Options& options, const Ruler& ruler) {
  const auto told = yarn_per_stitch_option(options, ruler.bare);
  if (!told) return std::nullopt;
  return to_length({told->number, told->unit}, ruler, "--yarn-per-stitch");
}

MatchOptions match_options(const Options& options, const Measures& measures) {
  MatchOptions match = placing_options(options, measures);
  match.wound = choice(options, "wound", Wound::mill, {{"mill", Wound::mill}, {"hand", Wound::hand}});
  match.worked =
      choice(options, "from", Worked::usual_end, {{"usual", Worked::usual_end}, {"other", Worked::other_end}});
  return match;
}

Worked new_from(const Options& options, Worked usual) {
  return choice(options, "new-from", usual, {{"usual", Worked::usual_end}, {"other", Worked::other_end}});
}

Reading reading_option(const Options& options, End end, Palette& palette, const Ruler& ruler, const Context& context) {
  const std::string name = end == End::old_end ? "--old" : "--new";
  const std::string argument = options.text(name.substr(2)).value_or("");
  const std::string text = reading_text(argument, context.disk, context.in, name);
  return parse_reading(text, end, palette, ruler, name);
}

std::string yarn_notes(const Yarn& yarn, const Common& common, Outcome outcome) {
  std::string out;
  if (!common.verbose && outcome == Outcome::done) return out;
  for (const std::string& note : profile_notes(yarn)) out += labelled("Yarn", note, common.screen.text_columns());
  return out;
}

void answer(const Context& context, const Common& common, const std::string& text) {
  const bool as_it_is = common.screen.utf8 || common.format == Format::json;
  context.out << (as_it_is ? text : plain_ascii(text));
}

std::string new_file(const std::string& word, std::string_view told_as) {
  constexpr std::size_t most_bytes = 4096;  // what the system takes
  if (const auto fault = line_fault(word, told_as, most_bytes)) throw Problem(Fault::content, *fault);
  const std::size_t name = word.rfind('/') == std::string::npos ? 0 : word.rfind('/') + 1;
  return name < word.size() && word.find('.', name) == std::string::npos ? word + ".yaml" : word;
}

}  // namespace ballchange
