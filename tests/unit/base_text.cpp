#include "base/text.hpp"

#include <doctest/doctest.h>

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "base/caret.hpp"
#include "base/code_points.hpp"
#include "base/number.hpp"
#include "base/random.hpp"

namespace ballchange {
namespace {

TEST_CASE("UTF-8 is taken in its shortest form only") {
  // The Unicode Standard 15, table 3-7: well-formed byte sequences.
  for (const char* good : {"", "plum", "\u00e9", "\u20ac", "\xF4\x8F\xBF\xBF", "\xED\x9F\xBF", "\xEE\x80\x80"}) {
    CHECK(valid_utf8(good));
  }
  for (const char* bad :
       {"\x80", "\xC3", "\xC0\xAF", "\xC1\xBF", "\xE0\x80\x80", "\xE0\x9F\xBF", "\xED\xA0\x80", "\xF0\x8F\xBF\xBF",
        "\xF4\x90\x80\x80", "\xF5\x80\x80\x80", "\xFF", "\xE2\x82", "a\xE2\x28\xA1"}) {
    CAPTURE(bad);
    CHECK_FALSE(valid_utf8(bad));
  }
}

TEST_CASE("a broken sequence reads as one replacement character a byte") {
  const std::string text = "\xE2\x82z";
  std::size_t at = 0;
  CHECK(next_code_point(text, at) == 0xFFFD);
  CHECK(at == 1);
  CHECK(next_code_point(text, at) == 0xFFFD);
  CHECK(next_code_point(text, at) == U'z');
  CHECK(at == 3);
}

TEST_CASE("what can't be seen is written out before it is printed") {
  CHECK(printable("plum") == "plum");
  CHECK(printable("a\nb\x1B[31m") == "a\\x0Ab\\x1B[31m");
  CHECK(printable("\u202Egnol") == "\\u{202E}gnol");
  CHECK(printable("zero\u200Bwidth\uFEFF") == "zero\\u{200B}width\\u{FEFF}");
  CHECK(printable("\u0085") == "\\u{0085}");
  CHECK(printable("\xFFplum") == "\\xFFplum");
  CHECK(printable("caf\u00e9 \u5e2f") == "caf\u00e9 \u5e2f");
}

TEST_CASE("printed text is cut to its columns, the ellipsis included") {
  CHECK(printable("abcdef", 6) == "abcdef");
  CHECK(printable("abcdefg", 6) == "abcde…");
  CHECK(printable("\u5e2f\u5e2f\u5e2f", 5) == "\u5e2f\u5e2f…");
  CHECK(printable("\u5e2f\u5e2f\u5e2f", 6) == "\u5e2f\u5e2f\u5e2f");
  CHECK(printable("abc", 0).empty());
}

TEST_CASE("whatever the bytes, what is printed is valid, visible and no wider than allowed") {
  for (std::uint64_t seed = 0; seed < 2000; ++seed) {
    CAPTURE(seed);
    Random random(seed);
    std::string bytes;
    for (std::uint64_t n = random.below(40); n > 0; --n) bytes += static_cast<char>(random.below(256));
    const std::string text = printable(bytes, 30);
    CHECK(valid_utf8(text));
    CHECK(display_width(text) <= 30);
    for (std::size_t at = 0; at < text.size();) CHECK_FALSE(is_unprintable(next_code_point(text, at)));
    CHECK(printable(text, 30) == text);
  }
}

TEST_CASE("case is folded in Latin, Greek and Cyrillic") {
  // Unicode CaseFolding.txt, status C and S.
  const std::vector<std::array<const char*, 2>> pairs = {
      {"PLUM", "plum"},
      {"\u00c9CRU", "\u00e9cru"},
      {"\u0160ED\u00c1", "\u0161ed\u00e1"},
      {"\u0141\u00d3D\u0179", "\u0142\u00f3d\u017a"},
      {"\u0178", "\u00ff"},
      {"\u0391\u03a3", "\u03b1\u03c3"},
      {"\u03c2", "\u03c3"},
      {"\u038f", "\u03ce"},
      {"\u0421\u0418\u041d\u0418\u0419", "\u0441\u0438\u043d\u0438\u0439"},
      {"\u0401", "\u0451"},
      {"\u00d7\u00f7", "\u00d7\u00f7"},
      // Canonical compositions of UnicodeData.txt.
      {"sa\u0301nd", "s\u00e1nd"},
      {"A\u030aO\u0308", "\u00e5\u00f6"},
      {"a\u0302\u0301", "\u00e2\u0301"},
      {"q\u0301\u0301", "q\u0301\u0301"},
      {"\u0301a", "\u0301a"}};
  for (const auto& [from, to] : pairs) CHECK(fold_case(from) == to);
}

TEST_CASE("columns: marks take none, wide characters two") {
  CHECK(display_width("plum") == 4);
  CHECK(display_width("e\u0301") == 1);
  CHECK(display_width("\u85cd") == 2);
  CHECK(display_width("\U0001F9F6") == 2);  // a ball of yarn
  CHECK(display_width("\uFF21") == 2);
  CHECK(display_width("\u200B") == 0);
}

TEST_CASE("trimming takes white space off both ends") {
  CHECK(trim("  plum 15 \r\n") == "plum 15");
  CHECK(trim(" \t ").empty());
  CHECK(trim("\u3000\u00a0plum\u20035\u202f\r") == "plum\u20035");
  CHECK(trim("\xFF \xE2\x80") == "\xFF \xE2\x80");
}

TEST_CASE("every space of Unicode is a blank, what has no width is not") {
  // The Unicode Standard 15, general category Zs.
  for (const char32_t c : std::u32string{0x20, 0xA0, 0x1680, 0x2000, 0x2003, 0x200A, 0x202F, 0x205F, 0x3000}) {
    CHECK(is_blank(c));
  }
  for (const char32_t c : std::u32string{0x1F, 0x41, 0x9F, 0x167F, 0x1FFF, 0x200B, 0x2028, 0x2060, 0x3001, 0xFEFF}) {
    CHECK_FALSE(is_blank(c));
  }
}

TEST_CASE("numbers are told without decimals that say nothing") {
  CHECK(plain_number(48, 4) == "48");
  CHECK(plain_number(48.5, 4) == "48.5");
  CHECK(plain_number(1.0 / 3, 4) == "0.3333");
  CHECK(plain_number(-2.25, 1) == "-2.2");
  CHECK(plain_number(100, 0) == "100");
  CHECK(plain_number(-0.00001, 4) == "0");
  CHECK(plain_number(1e15, 2) == "1000000000000000");
}

TEST_CASE("a whole number is the whole word, and from the least to the most") {
  CHECK(whole_number("41", 1, 100) == 41);
  CHECK(whole_number("1", 1, 100) == 1);
  CHECK(whole_number("100", 1, 100) == 100);
  CHECK(whole_number("007", 1, 100) == 7);
  CHECK(whole_number("-3", -5, 5) == -3);
  for (const char* none : {"", "0", "101", "-1", "+41", " 41", "41 ", "41.5", "41 st", "4e1", "0x29", "99999999999"}) {
    CAPTURE(none);
    CHECK(whole_number(none, 1, 100) == std::nullopt);
  }
}

TEST_CASE("edit distance counts changes, swaps too") {
  CHECK(edit_distance("", "rust") == 4);
  CHECK(edit_distance("rust", "rust") == 0);
  CHECK(edit_distance("rsut", "rust") == 1);
  CHECK(edit_distance("rus", "rust") == 1);
  CHECK(edit_distance("russt", "rust") == 1);
  CHECK(edit_distance("dust", "rust") == 1);
  CHECK(edit_distance("\u00e9cru", "ecru") == 1);
  CHECK(edit_distance("moss", "navy") == 4);
}

TEST_CASE("the name that was meant is found, a stranger is not") {
  const std::vector<std::string> names = {"plum", "sand", "rust", "\u00c9cru"};
  CHECK(closest("rsut", names) == "rust");
  CHECK(closest("PLUMB", names) == "plum");
  CHECK(closest("\u00e9cruu", names) == "\u00c9cru");
  CHECK_FALSE(closest("turquoise", names));
  CHECK_FALSE(closest(std::string(100'000, 'x'), names));
  CHECK_FALSE(closest("plum", std::vector<std::string>{}));
}

TEST_CASE("the caret stands under its byte, however wide the text before it") {
  using Lines = std::vector<std::string>;
  CHECK(caret_lines("plum 15, sadn 11", 9) == Lines{"plum 15, sadn 11", "         ^"});
  CHECK(caret_lines("\u85cd 15, sadn", 8) == Lines{"\u85cd 15, sadn", "       ^"});
  CHECK(caret_lines("a\n\x1B"
                    "b",
                    3) == Lines{"a \\x1Bb", "      ^"});
  CHECK(caret_lines("", 0) == Lines{"", "^"});
}

TEST_CASE("a long text is shown around the spot") {
  const std::string text = std::string(5000, 'a') + "X" + std::string(5000, 'b');
  const std::vector<std::string> lines = caret_lines(text, 5000);
  REQUIRE(lines.size() == 2);
  CHECK(display_width(lines[0]) == 76);
  CHECK(lines[0].starts_with("…a"));
  CHECK(lines[0].ends_with("b…"));
  CHECK(lines[1] == std::string(49, ' ') + "^");
  CHECK(lines[0].substr(std::string("…").size() + 48, 1) == "X");
}

}  // namespace
}  // namespace ballchange
