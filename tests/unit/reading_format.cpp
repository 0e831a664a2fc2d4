#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <vector>

#include "base/problem.hpp"
#include "base/random.hpp"
#include "base/text.hpp"
#include "reading/name.hpp"
#include "reading/reading.hpp"

namespace ballchange {
namespace {

std::vector<Colour> colours() {
  std::vector<Colour> all;
  for (const char* name : {"plum", "plum red", "sand", "\u85cd", "\u00c9cru", "hooked"})
    all.push_back({name, std::nullopt});
  return all;
}
Ruler by_hand() { return {Unit::cm, 1.85_cm, false}; }

Reading read(const std::string& text, End end, const Ruler& ruler) {
  Palette palette{colours(), false};
  return parse_reading(text, end, palette, ruler, "reading");
}

TEST_CASE("a reading is written as somebody would write it") {
  const auto again = [](const char* text, End end) {
    return format_reading(read(text, end, by_hand()), colours(), by_hand());
  };
  CHECK(again("plum 15 cm,sand  110mm, plum r 30.25+", End::new_end) == "plum 15, sand 11, plum red 30.25");
  CHECK(again("|plum, sand 1in|", End::new_end) == "| plum, sand 2.54 |");
  CHECK(again("plum 30, sand 11, hook, plum 14st", End::old_end) == "plum 30, sand 11, hook, plum 14st");
  CHECK(again("plum 30, sand 11, sand 5 st, plum", End::old_end) == "plum 30, sand 11, hook, sand 5st, plum");
  CHECK(again("plum 30, sand 11, hook|", End::old_end) == "plum 30, sand 11, hook |");
}

TEST_CASE("bare numbers are in the ruler's unit") {
  const Ruler inches{Unit::in, std::nullopt, false};
  CHECK(format_reading(read("plum 3 1/2, sand 1yd", End::new_end, inches), colours(), inches) == "plum 3.5, sand 36");
  const Ruler stitches{Unit::st, std::nullopt, true};
  CHECK(format_reading(read("plum 30, hook, sand 11st", End::old_end, stitches), colours(), stitches) ==
        "plum 30, hook, sand 11");
}

TEST_CASE("without a yarn per stitch what is worked is written as loose yarn") {
  CHECK(format_reading(read("plum 30, sand 10st", End::old_end, by_hand()), colours()) == "plum 30, sand 18.5");
  CHECK(format_reading(read("plum 30, hook, sand", End::old_end, by_hand()), colours()) == "plum 30, hook, sand");
}

// A reading such as people write, valid by construction.
struct RandomText {
  Random random;
  End end;
  bool in_stitches;
  std::string text;

  RandomText(std::uint64_t seed, bool stitches)
      : random(seed), end(random.below(2) == 0 ? End::old_end : End::new_end), in_stitches(stitches) {
    const std::uint64_t loose = 1 + random.below(5);
    const std::uint64_t worked = end == End::old_end ? random.below(4) : 0;
    const bool hook = end == End::old_end && random.below(2) == 0;
    if (random.below(4) == 0) text += "| ";
    for (std::uint64_t i = 0; i < loose; ++i) entry(i > 0, false);
    if (hook) text += ", hook";
    for (std::uint64_t i = 0; i < worked; ++i) entry(true, !in_stitches);
    if (random.below(4) == 0) text += " |";
  }

  void entry(bool comma, bool worked) {
    if (comma) text += ", ";
    const auto names = colours();
    text += names[random.below(names.size())].name;
    if (random.below(6) == 0) return;
    text += " " + std::to_string(1 + random.below(90));
    if (worked) {
      text += "st";
    } else if (!in_stitches && random.below(3) == 0) {
      text += random.below(2) == 0 ? " 1/2in" : ".5";
    }
  }
};

void check_same(const Reading& x, const Reading& y) {
  CHECK(x.end == y.end);
  CHECK(x.bar_at_loose_end == y.bar_at_loose_end);
  CHECK(x.bar_at_open_end == y.bar_at_open_end);
  CHECK(x.loose.has_value() == y.loose.has_value());
  if (x.loose && y.loose) CHECK(std::abs((*x.loose - *y.loose).cm()) < 1e-3);
  CHECK(x.hook_entry == y.hook_entry);
  REQUIRE(x.entries.size() == y.entries.size());
  for (std::size_t i = 0; i < x.entries.size(); ++i) {
    CAPTURE(i);
    CHECK(x.entries[i].colour == y.entries[i].colour);
    REQUIRE(x.entries[i].length.has_value() == y.entries[i].length.has_value());
    // Two parts of an entry, each to four decimals of a unit up to 2.54 cm.
    if (x.entries[i].length) CHECK(std::abs((*x.entries[i].length - *y.entries[i].length).cm()) < 3e-4);
  }
}

TEST_CASE("what is written back reads the same, hook included") {
  for (const bool in_stitches : {false, true}) {
    const Ruler ruler = in_stitches ? Ruler{Unit::st, std::nullopt, true} : by_hand();
    for (std::uint64_t seed = 0; seed < 3000; ++seed) {
      const RandomText written(seed, in_stitches);
      CAPTURE(seed);
      CAPTURE(written.text);
      const Reading reading = read(written.text, written.end, ruler);
      const std::string text = format_reading(reading, colours(), ruler);
      CAPTURE(text);
      const Reading again = read(text, written.end, ruler);
      check_same(reading, again);
      CHECK(format_reading(again, colours(), ruler) == text);
    }
  }
}

TEST_CASE("whatever is typed is read or refused with a complete first line") {
  const std::vector<std::string> scraps = {
      "plum", " ",  ",",  "15",     "+",       "|",  "hook",           "st", "1/2", "½", ".", "\u85cd", "\xE8", "cm",
      "-",    "\"", "\n", "\u202E", "sand 11", ", ", "99999999999999", "/",  "@"};
  for (std::uint64_t seed = 0; seed < 20'000; ++seed) {
    Random random(seed);
    std::string text;
    for (std::uint64_t n = random.below(12); n > 0; --n) text += scraps[random.below(scraps.size())];
    CAPTURE(seed);
    CAPTURE(text);
    try {
      const Reading reading = read(text, random.below(2) == 0 ? End::old_end : End::new_end, by_hand());
      CHECK_FALSE(reading.entries.empty());
    } catch (const Problem& problem) {
      const std::string message = problem.what();
      CHECK(message.starts_with("reading"));
      CHECK(printable(message, 2000) == message);
      if (trim(text).empty()) continue;  // nothing to point at
      REQUIRE(problem.shown().size() == 2);
      CHECK(printable(problem.shown()[0], 2000) == problem.shown()[0]);
      CHECK(display_width(problem.shown()[1]) <= 77);
    }
  }
}

TEST_CASE("a colour's name holds nothing that a reading would take apart") {
  for (const char* good : {"plum", "dark green", "\u85cd", "\u00e9cru", "blue-green", "tone (light)", "no.5"}) {
    CAPTURE(good);
    CHECK_FALSE(name_fault(good));
  }
  struct Bad {
    const char* name;
    std::size_t at;
    const char* why;
  };
  const char* const mark = "can't hold a comma, bar, plus or quote: leave it out";
  const char* const unseen = "holds a character that can't be seen: write it again without";
  const char* const number = "can't have a word that begins with a digit: a length would start there";
  const char* const missing = "a colour's name is missing: write one, like plum";
  const char* const accent = "has an accent with no letter under it: write the letter before it";
  for (const Bad& bad :
       {Bad{"", 0, missing}, Bad{" \u3000", 0, missing}, Bad{"a,b", 1, mark}, Bad{"a|b", 1, mark}, Bad{"a+b", 1, mark},
        Bad{"a\"b", 1, mark}, Bad{"robin's egg", 5, mark}, Bad{"a\nb\x01", 1, unseen}, Bad{"a\u200Bb", 1, unseen},
        Bad{"a\u2067b", 1, unseen}, Bad{"tone 5", 5, number}, Bad{"5 plum", 0, number}, Bad{"½ plum", 0, number},
        Bad{"tone -5", 5, number}, Bad{"tone .5", 5, number}, Bad{"a\u2003\u0308b", 4, accent},
        Bad{"Hook", 0, "hook tells where the hook is: give the colour another name"},
        Bad{"a\xFF", 1, "is not valid UTF-8: write it again"}}) {
    CAPTURE(bad.name);
    const auto fault = name_fault(bad.name);
    REQUIRE(fault);
    CHECK(fault->at == bad.at);
    CHECK(fault->why.ends_with(bad.why));
  }
  CHECK(name_fault(std::string(201, 'a'))->why == "a colour's name has at most 200 bytes");
  CHECK(single_spaced("  dark \u00a0 green ") == "dark green");
}

}  // namespace
}  // namespace ballchange
