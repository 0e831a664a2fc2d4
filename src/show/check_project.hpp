#pragma once
#include <optional>
#include <string>
#include <vector>

#include "show/check.hpp"
#include "show/json.hpp"

// What a project adds to the advice at a ball change.
namespace ballchange {

// Of the fresh balls, and of the ends they can be started from, what costs so much less in all that it is better than
// what is advised here; null where none does, or where the crafter chose.
[[nodiscard]] const BallAhead* better_ball(const CheckProject& record);

// "Take ball C. ", or where another or its other end is better "Better take ball E: ... With ball C: ", before what to
// do with its end; empty where the crafter chose it.
[[nodiscard]] std::string take_ball_text(const CheckShown& shown, Told told);
// "Cut away so far 1.86 m of 720 m."; empty without a project.
[[nodiscard]] std::string waste_so_far_text(const CheckShown& shown, Told told);
// What the fresh ball told as cheaper saves at this join; nothing where none is, or where a better one is told first.
[[nodiscard]] Length saved_by_another(const CheckShown& shown);
// Which fresh ball costs less, and what the others cost, as lines of a screen.
[[nodiscard]] std::string other_balls_lines(const CheckShown& shown, std::size_t columns, Told told);

// "ball D (its outside end is yet to be read), E (its outside end fits nowhere). A ball not read yet costs 1.3 m on
// average.": what a ranking that is told leaves out; empty
// where it leaves out none.
[[nodiscard]] std::string not_ranked_text(const CheckShown& shown, Told in);

// What to do, and the line to type for it; empty: none.
struct AndTyped {
  std::string text, typed;
};
// "ball C costs 12 cm more now, but the joins after it 1.4 m less: take it with --ball C.", "ball C from its inside end
// costs ...", or "ball D follows with nothing to cut off."; nothing where looking ahead changes nothing.
[[nodiscard]] std::optional<AndTyped> ahead_told(const CheckShown& shown, Told told);
// An offcut that fits between.
[[nodiscard]] std::optional<AndTyped> offcut_offer(const CheckShown& shown, Told told);

// "By the record ball A still holds 70.9 m, but its end is 1.07 m from the hook: tell where the hook is with --row and
// --stitch (or it is another ball, or a knot)."
[[nodiscard]] std::string too_much_left_text(const TooMuchLeft& much, Told told);
// "By the record ball A still holds 70.9 m at the end of row 12, and all of it counts as used up after the join: ..."
[[nodiscard]] std::string left_behind_text(const TooMuchLeft& much, Working working, Told told);
// "By the record the work stands at row 66, stitch 64, past row 66, stitch 20: see that --row and --stitch are right
// ..."
[[nodiscard]] std::string knot_behind_text(const KnotBehind& behind, Working working);
[[nodiscard]] std::string reaches_before_text(const BallReach& reach, Working working);
// "Ball B's outer end is on record as plum 40. Another ball, or its other end?"
[[nodiscard]] std::string read_otherwise_text(const OtherEnd& end);
// What to do with a strand that was ravelled back, before it is measured.
[[nodiscard]] std::string kinked_text();
// "Is the work 8 cm skipped or in step? ... ": what is to be settled before anything is cut.
[[nodiscard]] std::string contested_text(const ContestedShift& shift, Told told);
// The same where nothing is to be cut: "by the scale a stitch takes 2.12 cm, not 1.95 cm: the colours are then in step,
// not 8 cm skipped. Measure a swatch, record it with ballchange gauge, and tell the count again."
[[nodiscard]] std::string contested_words(const ContestedShift& shift, Told told);
// What the record says against the ends in hand, a sentence or two each; what stands in the way of landing not among
// them.
[[nodiscard]] std::vector<std::string> record_minds(const CheckShown& shown, Told told);

// "ball B is of dye lot 18, ball A of 17: the shade may differ. Lay them side by side in daylight before joining."
[[nodiscard]] std::string other_lot_text(const OtherLot& lot);

// What the readings say against themselves ("grey seems passed over in plum"), then what the record says.
[[nodiscard]] std::vector<std::string> advice_minds(const CheckShown& shown, Told told);
// Of these, what still matters once the join is made and recorded.
[[nodiscard]] std::vector<std::string> made_minds(const CheckShown& shown, Told told);

// Of these, what sets the fresh ball apart from the work: a longer or shorter repeat, another dye lot.
[[nodiscard]] std::vector<std::string> set_apart_minds(const CheckShown& shown, Told told);

// With what each leaves for the balls after it, where that is known.
void others_member(Json& json, const CheckShown& shown);
// Trims, allowances and swatches before this join and after it.
void waste_member(Json& json, const CheckShown& shown);

}  // namespace ballchange
