#pragma once
#include <cstddef>

// What text.hpp needs to know about single code points.
namespace ballchange {

[[nodiscard]] char32_t lower_case(char32_t c);
// The small Latin letter that a letter and the mark after it make; 0 where that is none of Latin-1 or Extended-A.
[[nodiscard]] char32_t with_mark(char32_t letter, char32_t mark);
[[nodiscard]] bool is_blank(char32_t c);  // ASCII white space and every space of Unicode (general category Zs)
[[nodiscard]] bool is_variation_selector(char32_t c);  // picks another look for the character before it
[[nodiscard]] std::size_t column_count(char32_t c);    // 0, 1 or 2

}  // namespace ballchange
