#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "console/common.hpp"
#include "console/context.hpp"
#include "console/options.hpp"
#include "project/project.hpp"
#include "show/check.hpp"

// A ball change of a project: what `check` advises and `join` records.
namespace ballchange {

[[nodiscard]] const OptionGroup& end_options();  // old, new, new-from, ball

// What was read of both ends. Taken from the command line once: standard input can't be read again.
struct EndTexts {
  std::optional<std::string> old_text, new_text;  // no new one: that on record
};
[[nodiscard]] EndTexts end_texts(const Options& options, const Context& context);

// What lengths mean in a project, with the yarn per stitch that --yarn-per-stitch tells before that of its gauge.
[[nodiscard]] Measures project_measures(const Options& options, const Project& project, const State& state);
// What the work is, as far as options say otherwise than its gauge.
[[nodiscard]] Fabric fabric_in(const Options& options, const State& state, const Ruler& ruler);

// How this join is to be made and what it goes into: as options say, otherwise as the project does.
struct ProjectTerms {
  Measures measures;
  MatchOptions match;
  JoinWish wish;
  Fabric fabric;
  std::optional<RowStitch> hook;
  std::vector<std::string> notes;  // worth a complaint
};
[[nodiscard]] ProjectTerms terms_of(const Options& options, const Project& project, const State& state);

// Where one end lies, read so; of the new one as the ball that the options name, or that it must be.
[[nodiscard]] Strand end_in(const Project& project, const State& state, const Options& options, std::string_view text,
                            End end);

// The ball that options name, with its end told by --new (`is_read`) or on record. Throws Problem(content).
[[nodiscard]] const BallState& ball_to_join(const State& state, const std::string& id, bool is_read);

// Throws Problem(content), "--ball: ball B is in the work; name a fresh ball".
[[noreturn]] void refuse_not_fresh(const BallState& ball);

// A fresh ball that could be joined instead.
struct OtherBall {
  std::string ball;
  Strand strand;
  Advice advice;  // to cut
};
struct ProjectAdvice {
  Yarn yarn;
  ProjectTerms terms;
  Strand old_strand = {}, new_strand = {};
  std::string new_text = {};  // as it was read
  Unit new_bare = Unit::cm;   // what its bare numbers mean
  Advice advice = {};
  std::vector<OtherBall> others = {};  // cheapest first
  CheckProject on_record = {};

  // Looks into this.
  [[nodiscard]] CheckShown shown() const {
    return {&yarn, yarn.repeat.colours(), old_strand, new_strand, terms.fabric, terms.wish, advice, &on_record};
  }
};

// With --new that reading, with --ball the recorded end of that ball, otherwise of the fresh ball that costs least now;
// all other fresh balls are ranked. Throws Problem(content) for what is missing or can't be.
[[nodiscard]] ProjectAdvice advise_in(const Project& project, const State& state, const Options& options,
                                      const EndTexts& texts);

// Both ends, with no join advised: of the new one what --new tells, otherwise what is on record of that ball. The old
// end must be told, and one of both for the new: asserted.
[[nodiscard]] ProjectAdvice ends_in(const Project& project, const State& state, const Options& options,
                                    const EndTexts& texts, const BallState& ball);

// Whether the end that a ball is worked from is known: read, or where an offcut was cut.
[[nodiscard]] bool knows_first_end(const Project& project, const State& state, const BallState& ball);

// Which of the ways to cut: --take, from 1; otherwise the first.
[[nodiscard]] std::size_t way_to_take(const Options& options);
// That one of what is advised. Throws Problem(content) where there are fewer.
[[nodiscard]] const Join& join_to_take(const Advice& advice, const Options& options);
// No row is on record, though rows could be counted: a join can't be recorded before one is told.
[[nodiscard]] bool needs_row(const State& state, const Fabric& fabric);

// The entry that records that way to cut, of advice whose verdict is to cut (asserted). Throws Problem(content) where
// there is none such, or where the fresh ball isn't known.
[[nodiscard]] did::Join entry_of(const ProjectAdvice& advised, const Project& project, const State& state,
                                 const Options& options, const EndTexts& texts);
struct JoinAsCut {
  did::Join entry;
  std::vector<std::string> minds;  // what the readings and the record say against it
};
// The same for ends that were cut otherwise, or a knot that was left: what the options tell, the shift as far as the
// ends that were read tell it. Throws Problem(content) too where no row is on record and none is told.
[[nodiscard]] JoinAsCut entry_as_cut(const Project& project, const State& state, const Options& options,
                                     const EndTexts& texts);

}  // namespace ballchange
