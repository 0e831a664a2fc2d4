#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <vector>

#include "base/problem.hpp"
#include "base/text.hpp"
#include "reading/reading.hpp"

namespace ballchange {
namespace {

Palette orchard() {
  Palette palette;
  for (const char* name : {"plum", "sand", "rust", "moss", "navy", "grey", "dark green", "dark blue", "Rust red"}) {
    palette.colours.push_back({name, std::nullopt});
  }
  return palette;
}
constexpr ColourId plum = 0, sand = 1, rust = 2, dark_green = 6, rust_red = 8;

Ruler by_hand() { return {Unit::cm, 1.85_cm, false}; }
Reading old_end(std::string_view text, const Ruler& ruler = by_hand()) {
  Palette palette = orchard();
  return parse_reading(text, End::old_end, palette, ruler, "old reading");
}
Reading new_end(std::string_view text, const Ruler& ruler = by_hand()) {
  Palette palette = orchard();
  return parse_reading(text, End::new_end, palette, ruler, "new reading");
}

// An entry as "colour length", the length -1 when it was left out.
struct Wanted {
  ColourId colour;
  double cm;
};
void check_entries(const Reading& reading, const std::vector<Wanted>& wanted) {
  REQUIRE(reading.entries.size() == wanted.size());
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    CAPTURE(i);
    CHECK(reading.entries[i].colour == wanted[i].colour);
    CHECK(reading.entries[i].length.has_value() == (wanted[i].cm >= 0));
    if (reading.entries[i].length) CHECK(std::abs(reading.entries[i].length->cm() - wanted[i].cm) < 1e-9);
  }
}

TEST_CASE("colours and lengths are read from the loose end inward") {
  const Reading reading = new_end("plum 15, sand 11, rust 30+");
  check_entries(reading, {{plum, 15}, {sand, 11}, {rust, 30}});
  CHECK(reading.end == End::new_end);
  CHECK_FALSE(reading.bar_at_loose_end);
  CHECK_FALSE(reading.bar_at_open_end);
  CHECK_FALSE(reading.loose);
  CHECK(std::abs(reading.measured().cm() - 56) < 1e-12);
  check_entries(new_end("plum 15 , sand 3 1/2in,rust 1yd 6in +\n"), {{plum, 15}, {sand, 8.89}, {rust, 106.68}});
  check_entries(new_end("plum\t15,\n dark\ngreen\t11"), {{plum, 15}, {dark_green, 11}});
  check_entries(new_end("plum ½in, sand 2 in"), {{plum, 1.27}, {sand, 5.08}});
}

TEST_CASE("every blank is a blank: no-break, wide and thin ones, a lone carriage return") {
  check_entries(new_end("plum\u00a015,\u2003dark\u3000green\u202f11\r,\rsand\u2009 3\u00a01/2\u2009in"),
                {{plum, 15}, {dark_green, 11}, {sand, 8.89}});
}

TEST_CASE("an empty reading is refused with nothing to point at") {
  for (const char* text : {"", " ", "\u3000\r\n"}) {
    try {
      (void)new_end(text);
      FAIL("was read");
    } catch (const Problem& problem) {
      CHECK(std::string(problem.what()) ==
            "new reading: nothing written: write colours and lengths from the loose end, like plum 15, sand 11");
      CHECK(problem.shown().empty());
    }
  }
}

TEST_CASE("with an open palette a number marks where a comma is missing, and no name takes its sign") {
  struct Row {
    const char* text;
    const char* message;
  };
  for (const Row& row :
       {Row{"plum 15 sand 11", "--whole, entry 1: no comma before 'sand': write one between entries"},
        Row{"plum 15, sand 11 plum", "--whole, entry 2: no comma before 'plum': write one between entries"},
        Row{"plum 15 furlong", "--whole, entry 1: no unit 'furlong': write mm, cm, m, in, ft, yd or st"},
        Row{"plum -5", "--whole, entry 1: '-5' is below zero: leave out the minus"},
        Row{"plum .5", "--whole, entry 1: '.5' has no digit before the point: write 0.5"}}) {
    Palette palette{{}, true};
    CHECK_THROWS_WITH_AS((void)parse_reading(row.text, End::new_end, palette, {}, "--whole"), row.message, Problem);
  }
}

TEST_CASE("a length may be left out") {
  check_entries(new_end("rust 30, sand, plum"), {{rust, 30}, {sand, -1}, {plum, -1}});
  check_entries(new_end("rust, sand 11, plum+"), {{rust, -1}, {sand, 11}, {plum, -1}});
}

TEST_CASE("a bar at an end says that a change is seen there") {
  const Reading both = new_end("| plum 92, sand 11 |");
  CHECK(both.bar_at_loose_end);
  CHECK(both.bar_at_open_end);
  CHECK(new_end("|plum, sand 11").bar_at_loose_end);
  CHECK(new_end("plum 4, sand 11|").bar_at_open_end);
  CHECK(old_end("plum 4, sand 11 |, hook").bar_at_open_end);
  CHECK(old_end("plum 4, sand 11, hook |").bar_at_open_end);
}

TEST_CASE("names may be shortened, case ignored, an exact one winning") {
  check_entries(new_end("pl 15, S 11, RUST 3, rust r 4, dark  g 5"),
                {{plum, 15}, {sand, 11}, {rust, 3}, {rust_red, 4}, {dark_green, 5}});
}

TEST_CASE("with an open palette new names are added as they come, in full") {
  Palette palette{{}, true};
  const Reading reading = parse_reading("plum 31, Dark  fern 4, PLUM, pl", End::new_end, palette, {}, "new reading");
  check_entries(reading, {{0, 31}, {1, 4}, {0, -1}, {2, -1}});
  REQUIRE(palette.colours.size() == 3);
  CHECK(palette.colours[1].name == "Dark fern");
  CHECK_THROWS_AS((void)parse_reading("moss 3, oat 0", End::new_end, palette, {}, "new reading"), Problem);
  CHECK(palette.colours.size() == 3);
}

TEST_CASE("neighbouring entries of one colour add up") {
  const Reading reading = new_end("plum 15, PLUM 5, sand 11, sand, rust 4");
  check_entries(reading, {{plum, 20}, {sand, -1}, {rust, 4}});
  CHECK(std::abs(reading.entries[0].rounding_variance - 2.0 / 12) < 1e-12);
  CHECK(reading.entries[1].rounding_variance == 0);
  CHECK(reading.entries[1].written_as == 3);
  CHECK(reading.entries[2].written_as == 5);
}

TEST_CASE("rounding is reckoned unit by unit over all lengths of a unit") {
  const Reading reading = new_end("plum 15, sand 3 1/2 in, rust 11.5, moss 2 in, plum");
  const double half_inch = 1.27 * 1.27 / 12;
  CHECK(std::abs(reading.entries[0].rounding_variance - 0.25 / 12) < 1e-12);
  CHECK(std::abs(reading.entries[1].rounding_variance - half_inch) < 1e-12);
  CHECK(std::abs(reading.entries[2].rounding_variance - 0.25 / 12) < 1e-12);
  CHECK(std::abs(reading.entries[3].rounding_variance - half_inch) < 1e-12);
  CHECK(reading.entries[4].rounding_variance == 0);
  CHECK(new_end("plum 15.1, sand 11.25").entries[0].rounding_variance == 0);
  CHECK(std::abs(old_end("plum 15, sand 3st").entries[1].rounding_variance - 1.85 * 1.85 / 12) < 1e-12);
}

TEST_CASE("hook or stitches tell how much of the old strand is loose") {
  struct Case {
    const char* text;
    double loose;  // -1: can't be told
    std::size_t entry;
  };
  for (const Case& c : {Case{"rust 30, sand 11, hook, plum 14st", 41, 2}, Case{"rust 30, sand 11, plum 14st", 41, 2},
                        Case{"rust 30, sand 11, hook, sand 5st, plum", 41, 1},
                        Case{"rust 30, sand 11, sand 5st", 41, 1}, Case{"rust 30, sand 11, hook", 41, 2},
                        Case{"rust 30, sand 11, HOOK, plum", 41, 2}, Case{"hook, plum 14st, sand", 0, 0},
                        Case{"plum 14st, sand", 0, 0}, Case{"rust 30, sand, hook, plum 14st", -1, 0},
                        Case{"rust 30, sand, plum 14st", -1, 0}, Case{"rust 30, sand 11", -1, 0}}) {
    CAPTURE(c.text);
    const Reading reading = old_end(c.text);
    CHECK(reading.loose.has_value() == (c.loose >= 0));
    if (reading.loose) CHECK(std::abs(reading.loose->cm() - c.loose) < 1e-9);
    CHECK(reading.hook_entry == c.entry);
  }
  check_entries(old_end("rust 30, sand 11, hook, sand 5st, plum"), {{rust, 30}, {sand, 20.25}, {plum, -1}});
}

TEST_CASE("in a yarn reckoned in stitches only hook tells") {
  const Ruler stitches{Unit::st, std::nullopt, true};
  CHECK_FALSE(old_end("rust 30, sand 11", stitches).loose);
  const Reading reading = old_end("rust 30, hook, sand 11st", stitches);
  REQUIRE(reading.loose);
  CHECK(reading.loose->cm() == 30);
  CHECK(reading.hook_entry == 1);
  CHECK(std::abs(reading.entries[0].rounding_variance - 1.0 / 12) < 1e-12);
}

struct Refusal {
  const char* text;
  const char* message;
  std::size_t column;  // of the caret
};
void check_refusals(End end, std::string_view what, const std::vector<Refusal>& refusals) {
  for (const Refusal& r : refusals) {
    CAPTURE(r.text);
    Palette palette = orchard();
    try {
      (void)parse_reading(r.text, end, palette, by_hand(), what);
      FAIL_CHECK("was read");
    } catch (const Problem& problem) {
      CHECK(problem.fault() == Fault::content);
      CHECK(std::string(problem.what()) == r.message);
      REQUIRE(problem.shown().size() == 2);
      CHECK(problem.shown()[1] == std::string(r.column, ' ') + "^");
    }
  }
}

TEST_CASE("what does not hold is refused with where, and what would be right") {
  check_refusals(
      End::new_end, "new reading",
      {{"plum 15, snad 11", "new reading, entry 2: no colour 'snad' in this yarn: did you mean sand?", 9},
       {"plum 15, turquoise",
        "new reading, entry 2: no colour 'turquoise' in this yarn: write plum, sand, rust, moss, navy, grey, …", 9},
       {"dark 5", "new reading, entry 1: 'dark' could be dark green or dark blue: write more of it", 0},
       {"plum 60,5", "new reading, entry 2: no colour: if this is a decimal, write it with a point, plum 60.5", 8},
       {"60 plum", "new reading, entry 1: no colour: the colour stands first, then its length, like plum 15", 0},
       {"plum cm, 5",
        "new reading, entry 1: no colour 'plum cm' in this yarn: write plum, sand, rust, moss, navy, grey, …", 0},
       {"plum 15,, sand", "new reading, entry 2: no colour: write one, like plum 15, or leave out the comma or bar", 8},
       {"plum 15,", "new reading, entry 2: no colour: write one, like plum 15, or leave out the comma or bar", 8},
       {"|", "new reading, entry 1: no colour: write one, like plum 15, or leave out the comma or bar", 1},
       {"plum 15+, sand 11",
        "new reading, entry 1: '+' tells where measuring stopped: write it after the last length, or not at all", 7},
       {"plum 15, | sand 11",
        "new reading, entry 2: a bar tells of a change right at an end: write it first or last, or not at all", 9},
       {"plum 15 |, sand 11",
        "new reading, entry 1: a bar tells of a change right at an end: write it first or last, or not at all", 8},
       {"plum 15, sand 11+ |",
        "new reading, entry 2: '+' says the colour goes on, '|' that it ends here: write one of them", 16},
       {"plum 15++", "new reading, entry 1: '+' stands here twice: write it once", 7},
       {"plum 15 | sand 11", "new reading, entry 1: '|' between two entries: write a comma in its place", 8},
       {"plum 15 + sand 11", "new reading, entry 1: '+' between two entries: write a comma in its place", 8},
       {"plum 15 sand 11", "new reading, entry 1: no comma before 'sand': write one between entries", 8},
       {"plum 1yd 6in　SA 11", "new reading, entry 1: no comma before 'SA': write one between entries", 14},
       {"plum 15cm dark green 11", "new reading, entry 1: no comma before 'dark green': write one between entries", 10},
       {"rust 30, sand 11 moss", "new reading, entry 2: no comma before 'moss': write one between entries", 17},
       {"plum 15; 16", "new reading, entry 1: '15; 16' is not a length, like 15 or 3 1/2in", 5},
       {"plum 15 / sand 11", "new reading, entry 1: '15 / sand 11' is not a length, like 15 or 3 1/2in", 5},
       {"plum 1e-1", "new reading, entry 1: '1e-1' has an exponent: write the number out, like 1500 or 0.1", 5},
       {"plum .5", "new reading, entry 1: '.5' has no digit before the point: write 0.5", 5},
       {"plum - 5", "new reading, entry 1: '- 5' is below zero: leave out the minus", 5},
       {"plum 0", "new reading, entry 1: a length of 0: write how long it is", 5},
       {"plum 0, sand 4",
        "new reading, entry 1: a length of 0: leave the entry out, and write | for a change right at an end", 5},
       {"plum 0.0001", "new reading, entry 1: shorter than 0.01 mm: check number and unit", 5},
       {"@plum 4", "new reading, entry 1: the name '@plum' can't begin with @ or -: leave it out", 0},
       {"plum 5, sa\uFFFDnd",
        "new reading, entry 2: the name 'sa\uFFFDnd' holds a character that was lost on the way (U+FFFD): write it "
        "again",
        10},
       {"plum 15, sand 5001 m", "new reading, entry 2: too long: one entry is at most 5000 m", 14},
       {"plum 15, sand 5 furlong", "new reading, entry 2: no unit 'furlong': write mm, cm, m, in, ft, yd or st", 14},
       {"plum -5", "new reading, entry 1: '-5' is below zero: leave out the minus", 5},
       {"pl+um 5", "new reading, entry 1: the name 'pl+um' can't hold a comma, bar, plus or quote: leave it out", 2},
       {"\"plum\" 5", "new reading, entry 1: the name '\"plum\"' can't hold a comma, bar, plus or quote: leave it out",
        0},
       {"plum 5, sa\u200Bnd",
        "new reading, entry 2: the name 'sa\\u{200B}nd' holds a character that can't be seen: write it again without",
        10},
       {"plum 5, \u202Edn",
        "new reading, entry 2: the name '\\u{202E}dn' holds a character that can't be seen: write it again without", 8},
       {"plum 5, s\x1B[0m",
        "new reading, entry 2: the name 's\\x1B[0m' holds a character that can't be seen: write it again without", 9},
       {"plum 5, sand\uFE0F",
        "new reading, entry 2: the name 'sand\uFE0F' holds a character that can't be seen: write it again without", 12},
       {"plum 5, sa\U000E0100nd",
        "new reading, entry 2: the name 'sa\U000E0100nd' holds a character that can't be seen: write it again without",
        10},
       {"\u0301plum 5",
        "new reading, entry 1: the name '\u0301plum' has an accent with no letter under it: write the letter before it",
        0},
       {"dark \u0301plum 5",
        "new reading, entry 1: the name 'dark \u0301plum' has an accent with no letter under it: write the letter "
        "before "
        "it",
        5},
       {"plum 5, \xFFsand", "new reading: not valid UTF-8: write it again", 8},
       {"plum 5, hook", "new reading, entry 2: hook belongs to the old strand: leave it out on the new one", 8}});
}

TEST_CASE("what is loose and what is worked must fit together on the old strand") {
  check_refusals(
      End::old_end, "old reading",
      {{"hook", "old reading, entry 1: hook alone: write the colours and lengths around it, like plum 15, hook", 0},
       {"rust 30, hook, sand 4st, hook",
        "old reading, entry 4: hook stands here twice: write it once, where the hook is", 25},
       {"hook, hook", "old reading, entry 2: hook stands here twice: write it once, where the hook is", 6},
       {"rust 30 hook", "old reading, entry 1: no comma before 'hook': write one between entries", 8},
       {"rust 30, hook 5st", "old reading, entry 2: hook is a spot and has no length: write hook alone", 14},
       {"rust 30st, hook, sand",
        "old reading, entry 1: stitches are already worked, so they come after hook: write loose yarn in cm or in", 5},
       {"rust 30, hook, sand 11", "old reading, entry 3: after hook comes what is already worked: write it in st", 20},
       {"rust 30, sand 4st, plum 11",
        "old reading, entry 3: loose yarn after stitches already worked: write it in st, or before them", 24}});
}

TEST_CASE("stitches without a yarn per stitch are refused where they stand") {
  Palette palette = orchard();
  try {
    (void)parse_reading("rust 30, sand 4st", End::old_end, palette, {}, "old reading");
    FAIL("was read");
  } catch (const Problem& problem) {
    CHECK(std::string(problem.what()) ==
          "old reading, entry 2: stitches, but the yarn per stitch is not known: write cm or in, or tell the yarn per "
          "stitch");
    CHECK(problem.shown() == std::vector<std::string>{"rust 30, sand 4st", "              ^"});
  }
}

TEST_CASE("a reading has at most 1,000 entries and 256 kB, in which they fit with the longest names") {
  const auto many = [](int pairs) {
    std::string text = "plum 1, sand 1";
    for (int i = 1; i < pairs; ++i) text += ", plum 1, sand 1";
    return text;
  };
  CHECK(new_end(many(500)).entries.size() == 1000);
  try {
    (void)new_end(many(501));
    FAIL("was read");
  } catch (const Problem& problem) {
    CHECK(std::string(problem.what()) == "new reading: at most 1000 entries");
    CHECK(display_width(problem.shown().at(0)) <= 76);
  }
  CHECK_THROWS_WITH_AS((void)new_end("plum 15" + std::string(kMostReadingBytes, ' ')),
                       "new reading: too long: at most 256 kB", Problem);
  Palette open{{}, true};
  std::string longest;
  for (int i = 0; i < 1000; ++i) {
    if (i > 0) longest += ", ";
    longest += std::string(199, 'a') + (i % 2 == 0 ? "b" : "c") + " 123.45 cm";
  }
  CHECK(parse_reading(longest, End::new_end, open, {}, "new reading").entries.size() == 1000);
}

}  // namespace
}  // namespace ballchange
