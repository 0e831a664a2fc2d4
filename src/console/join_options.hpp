#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "base/measure.hpp"
#include "console/common.hpp"
#include "console/options.hpp"
#include "join/advice.hpp"
#include "ledger/project.hpp"
#include "show/text.hpp"

// How somebody wants to join, and the work it goes into, as options say it.
namespace ballchange {

[[nodiscard]] const OptionGroup& join_options();
// The same for all joins of a work at once.
[[nodiscard]] const OptionGroup& joining_options();
[[nodiscard]] const OptionGroup& work_options();
// What --method may be, as help tells it.
[[nodiscard]] std::string_view method_names();

// Throws Problem(content) for what can be no whole section: nothing, `hook`, or one too short.
void refuse_no_section(std::string_view text);
void refuse_short_section(std::string_view text, Length length);

[[nodiscard]] std::optional<Method> method_option(const Options& options);
[[nodiscard]] Working worked_option(const Options& options);
[[nodiscard]] JoinWish join_wish(const Options& options, const Ruler& ruler, const Tape& tape);
// What a project says of its joins, where the command line is silent; of keeping from the start it leaves the wish as
// it is.
void take_habits(const JoinHabit& habit, const Ruler& ruler, JoinWish& wish);
// Throws Problem(content) where every join would be in step.
// --multiple "4+1". Throws Problem(content).
[[nodiscard]] std::optional<Multiple> multiple_option(const Options& options);
void refuse_wide_tolerance(const JoinWish& wish, const Repeat& repeat, Told told);
[[nodiscard]] Fabric fabric_of(const Options& options, const Ruler& ruler);
// The message of what is lacking, with the option or key that tells it.
[[nodiscard]] std::string with_what_to_type(const Lacking& lacking, const Options& options);
// Where one end lies on a yarn without a project, read so.
[[nodiscard]] Strand end_of_yarn(const Options& options, const Yarn& yarn, const Measures& measures, End end,
                                 Reading reading);
// A row is done, the turn after it is not: its last stitch, or, where it isn't known how many there are, the beginning
// of the next.
[[nodiscard]] constexpr RowStitch row_finished(int row, std::optional<int> stitches) {
  return stitches ? RowStitch{row, *stitches} : RowStitch{row + 1, 0};
}
// Where the hook is: --row and --stitch; a row alone is finished. `stitches` are those of a row, as far as known.
[[nodiscard]] std::optional<RowStitch> hook_of(const Options& options, std::optional<int> stitches);

}  // namespace ballchange
