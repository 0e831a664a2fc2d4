#pragma once
#include <cstddef>
#include <string>

#include "show/check.hpp"
#include "show/page.hpp"

// What is said where a cut, no cut or a knot that stays is advised.
namespace ballchange {

void cut_screen(Page& page, const CheckShown& shown, bool verbose);

// Another allowance or method, and the options that ask for it.
struct Remedy {
  std::string text, options;
};
// Why more tolerance must be typed than the colours skip: "the tolerance holds 1.5 cm back for the join itself".
[[nodiscard]] std::string held_back(Length doubt, Told told);
// "2.5 cm in the join: nothing to cut off, 2.75 m saved, but the colours skip 0.5 cm." and "--allowance 2.5".
[[nodiscard]] Remedy cheaper_way(const Alternative& other, const CheckShown& shown, Told told);
// So many of the alternatives are told; JSON has them all.
inline constexpr std::size_t kAlternativesTold = 2;
// What one of those or another ball saves against the cut that is advised, where that is a good part of it: "2.75 m".
// Empty otherwise.
[[nodiscard]] std::string saved_below(const CheckShown& shown, Told told);

}  // namespace ballchange
