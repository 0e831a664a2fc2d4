#pragma once
#include <string>

#include "show/check.hpp"

// The sentences that tell a person what to do with one end, and what to lay together before cutting.
namespace ballchange {

// "past plum and sand into rust. Pull out to where rust ends (moss begins); mark 58 cm before that."; "leave it." where
// nothing comes off.
[[nodiscard]] std::string end_text(const CheckShown& shown, const Join& join, End end, Told told);
// "overlap the old end and the new mark by 8 cm: from the sand-rust change (old) to the rust-moss change (new) must be
// 80 cm. If not, measure both ends again before cutting."
[[nodiscard]] std::string dry_fit_text(const Join& join, Told told);
// "at the mark (about 48 cm comes off the new end) and join (felted)."; "as they are (felted)." where nothing comes
// off. For a join that is worked: over how many stitches, and from which.
[[nodiscard]] std::string cut_text(const CheckShown& shown, const Join& join, Told told);
[[nodiscard]] bool cuts_nothing(const Join& join, Told told);
// "26 cm into rust, about stitch 41 of row 118 (give or take 2). ..."
[[nodiscard]] std::string landing_text(const Join& join, const Fabric& fabric, Told told);
// "The work is back in step."; "Out of step afterwards: 0.5 cm repeated (--out-of-step -0.5 at the next join)."
[[nodiscard]] std::string afterwards_text(const CheckShown& shown, const Join& join, Told told);
// "The colours skip 3 cm (about 2 stitches)."; empty where they run on.
[[nodiscard]] std::string shift_text(Length shift, const Fabric& fabric, Told told);
// " (about 2 stitches)", behind a length that is told; empty where that is none, or the gauge not known.
[[nodiscard]] std::string in_stitches_words(Length shift, const Fabric& fabric, Told told);
// "4 stitches (7 cm)", in yarn alone where the gauge is not known.
[[nodiscard]] std::string ravel_text(Length yarn, const Fabric& fabric, Told told);

}  // namespace ballchange
