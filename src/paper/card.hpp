#pragma once
#include <string>

#include "show/card.hpp"

namespace ballchange {

// The join card as a page to print: a card for each long section, its table and its strip. Where the yarn is reckoned
// in stitches, without strips.
[[nodiscard]] std::string card_page(const CardShown& shown, Told told);
// "Join card, Harbour wrap".
[[nodiscard]] std::string card_title(const CardShown& shown);

}  // namespace ballchange
