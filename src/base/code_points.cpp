#include "base/code_points.hpp"

#include <algorithm>
#include <array>
#include <string_view>

#include "base/text.hpp"

namespace ballchange {
namespace {

struct Range {
  char32_t first;
  char32_t last;
};

template <std::size_t N>
bool within(const std::array<Range, N>& ranges, char32_t c) {
  const auto at = std::lower_bound(ranges.begin(), ranges.end(), c, [](Range r, char32_t v) { return r.last < v; });
  return at != ranges.end() && at->first <= c;
}

constexpr std::array<Range, 24> kUnprintable{{
    {0x0000, 0x001F},   {0x007F, 0x009F},   {0x00AD, 0x00AD},   {0x034F, 0x034F},    {0x061C, 0x061C},
    {0x115F, 0x1160},   {0x17B4, 0x17B5},   {0x180B, 0x180F},   {0x200B, 0x200F},    {0x2028, 0x202E},
    {0x2060, 0x206F},   {0x2800, 0x2800},   {0x3164, 0x3164},   {0xD800, 0xDFFF},    {0xE000, 0xF8FF},
    {0xFEFF, 0xFEFF},   {0xFFA0, 0xFFA0},   {0xFFF0, 0xFFFB},   {0xFFFE, 0xFFFF},    {0x1BCA0, 0x1BCA3},
    {0x1D173, 0x1D17A}, {0xE0000, 0xE00FF}, {0xE01F0, 0xE0FFF}, {0xF0000, 0x10FFFF},
}};

// Marks that stand on the character before them (general categories Mn and Me of the scripts a colour's name may use).
constexpr std::array<Range, 27> kCombining{{
    {0x0300, 0x036F}, {0x0483, 0x0489}, {0x0591, 0x05BD},   {0x05BF, 0x05BF}, {0x05C1, 0x05C2}, {0x05C4, 0x05C5},
    {0x05C7, 0x05C7}, {0x0610, 0x061A}, {0x064B, 0x065F},   {0x0670, 0x0670}, {0x06D6, 0x06DC}, {0x06DF, 0x06E4},
    {0x06E7, 0x06E8}, {0x06EA, 0x06ED}, {0x093C, 0x093C},   {0x0941, 0x0948}, {0x094D, 0x094D}, {0x0E31, 0x0E31},
    {0x0E34, 0x0E3A}, {0x0E47, 0x0E4E}, {0x1AB0, 0x1AFF},   {0x1DC0, 0x1DFF}, {0x20D0, 0x20FF}, {0x3099, 0x309A},
    {0xFE00, 0xFE0F}, {0xFE20, 0xFE2F}, {0xE0100, 0xE01EF},
}};

// East Asian wide and fullwidth (UAX 11) and emoji shown as pictures (UTS 51).
constexpr std::array<Range, 53> kWide{{
    {0x1100, 0x115F},   {0x231A, 0x231B},   {0x2329, 0x232A},   {0x23E9, 0x23EC},   {0x23F0, 0x23F0},
    {0x23F3, 0x23F3},   {0x25FD, 0x25FE},   {0x2614, 0x2615},   {0x2648, 0x2653},   {0x267F, 0x267F},
    {0x2693, 0x2693},   {0x26A1, 0x26A1},   {0x26AA, 0x26AB},   {0x26BD, 0x26BE},   {0x26C4, 0x26C5},
    {0x26CE, 0x26CE},   {0x26D4, 0x26D4},   {0x26EA, 0x26EA},   {0x26F2, 0x26F3},   {0x26F5, 0x26F5},
    {0x26FA, 0x26FA},   {0x26FD, 0x26FD},   {0x2705, 0x2705},   {0x270A, 0x270B},   {0x2728, 0x2728},
    {0x274C, 0x274C},   {0x274E, 0x274E},   {0x2753, 0x2755},   {0x2757, 0x2757},   {0x2795, 0x2797},
    {0x27B0, 0x27B0},   {0x27BF, 0x27BF},   {0x2B1B, 0x2B1C},   {0x2B50, 0x2B50},   {0x2B55, 0x2B55},
    {0x2E80, 0x303E},   {0x3041, 0x4DBF},   {0x4E00, 0xA4CF},   {0xA960, 0xA97C},   {0xAC00, 0xD7A3},
    {0xF900, 0xFAFF},   {0xFE10, 0xFE19},   {0xFE30, 0xFE6F},   {0xFF00, 0xFF60},   {0xFFE0, 0xFFE6},
    {0x1F18E, 0x1F18E}, {0x1F191, 0x1F19A}, {0x1F200, 0x1F320}, {0x1F32D, 0x1F64F}, {0x1F680, 0x1F6FC},
    {0x1F7E0, 0x1F7EB}, {0x1F90C, 0x1FAFF}, {0x20000, 0x3FFFD},
}};

constexpr bool even(char32_t c) { return c % 2 == 0; }

char32_t lower_latin(char32_t c) {
  if (c >= 'A' && c <= 'Z') return c + 32;
  if (c >= 0xC0 && c <= 0xDE && c != 0xD7) return c + 32;
  if (c == 0x130) return 'i';
  if (c == 0x178) return 0xFF;
  const bool capital_is_even = (c >= 0x100 && c <= 0x137) || (c >= 0x14A && c <= 0x177);
  const bool capital_is_odd = (c >= 0x139 && c <= 0x148) || (c >= 0x179 && c <= 0x17E);
  if ((capital_is_even && even(c)) || (capital_is_odd && !even(c))) return c + 1;
  return c;
}

char32_t lower_greek(char32_t c) {
  if ((c >= 0x391 && c <= 0x3A1) || (c >= 0x3A3 && c <= 0x3AB)) return c + 32;
  if (c == 0x386) return 0x3AC;
  if (c >= 0x388 && c <= 0x38A) return c + 37;
  if (c == 0x38C) return 0x3CC;
  if (c == 0x38E || c == 0x38F) return c + 63;
  return c == 0x3C2 ? 0x3C3 : c;  // the sigma at a word's end
}

struct Accent {
  char32_t mark;
  std::u32string_view letters, joined;  // one for one
};
// Canonical compositions (UnicodeData.txt) within Latin-1 and Latin Extended-A.
constexpr std::array<Accent, 13> kAccents{{
    {0x0300, U"aeiou", U"àèìòù"},
    {0x0301, U"aceilnorsuyz", U"áćéíĺńóŕśúýź"},
    {0x0302, U"aceghijosuwy", U"âĉêĝĥîĵôŝûŵŷ"},
    {0x0303, U"ainou", U"ãĩñõũ"},
    {0x0304, U"aeiou", U"āēīōū"},
    {0x0306, U"aegiou", U"ăĕğĭŏŭ"},
    {0x0307, U"cegz", U"ċėġż"},
    {0x0308, U"aeiouy", U"äëïöüÿ"},
    {0x030A, U"au", U"åů"},
    {0x030B, U"ou", U"őű"},
    {0x030C, U"cdelnrstz", U"čďěľňřšťž"},
    {0x0327, U"cgklnrst", U"çģķļņŗşţ"},
    {0x0328, U"aeiu", U"ąęįų"},
}};

}  // namespace

char32_t with_mark(char32_t letter, char32_t mark) {
  for (const Accent& accent : kAccents) {
    if (accent.mark != mark) continue;
    const std::size_t at = accent.letters.find(letter);
    return at == std::u32string_view::npos ? U'\0' : accent.joined[at];
  }
  return 0;
}

bool is_unprintable(char32_t c) { return within(kUnprintable, c); }

bool is_blank(char32_t c) {
  if (c < 0xA0) return c == ' ' || (c >= '\t' && c <= '\r');
  return c == 0xA0 || c == 0x1680 || (c >= 0x2000 && c <= 0x200A) || c == 0x202F || c == 0x205F || c == 0x3000;
}

bool is_variation_selector(char32_t c) { return (c >= 0xFE00 && c <= 0xFE0F) || (c >= 0xE0100 && c <= 0xE01EF); }

char32_t lower_case(char32_t c) {
  if (c < 0x180) return lower_latin(c);
  if (c >= 0x370 && c < 0x400) return lower_greek(c);
  if (c >= 0x400 && c <= 0x40F) return c + 80;
  if (c >= 0x410 && c <= 0x42F) return c + 32;
  return c;
}

std::size_t column_count(char32_t c) {
  if (c < 0x300) return is_unprintable(c) ? 0 : 1;
  if (within(kCombining, c) || is_unprintable(c)) return 0;
  return within(kWide, c) ? 2 : 1;
}

}  // namespace ballchange
