#pragma once
#include <string>

#include "show/check.hpp"

// The sentences that tell a person what to do with one end, and what to lay together before cutting.
namespace ballchange {

// "past plum and sand into rust. Pull out until moss shows; mark 58 cm before it."; "leave it." where nothing comes
// off.
[[nodiscard]] std::string end_text(const Reading& reading, const std::vector<Colour>& colours, const Mark& mark,
                                   const std::optional<Length>& trim, Told told);
// "overlap the old end and the new mark 8 cm: from the sand-rust change (old) to the rust-moss change (new) must be
// 80 cm."
[[nodiscard]] std::string dry_fit_text(const Join& join, Told told);
// "cut 48 cm off the new end and join (felted)."
[[nodiscard]] std::string cut_text(const Join& join, std::string_view method, Told told);
// "26 cm into rust, about stitch 41 of row 118 (give or take 2). ..."
[[nodiscard]] std::string landing_text(const Join& join, Told told);
// "The colours skip 3 cm (about 2 stitches)."; empty where they run on.
[[nodiscard]] std::string shift_text(Length shift, const Fabric& fabric, Told told);
// "6 cm in the join instead of 8 cm: nothing to cut off, saves 1.1 m."
[[nodiscard]] std::string alternative_text(const Alternative& other, const CheckShown& shown, Told told);

}  // namespace ballchange
