#include "show/asking.hpp"

#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "orchard.hpp"
#include "show/check_project.hpp"

using namespace ballchange;

namespace {

// What is asked of that reading of the orchard yarn, and how it is answered.
std::string asked(const std::string& text, End end, const Question& question) {
  const Yarn yarn = orchard();
  Palette palette{yarn.repeat.colours(), false};
  const Reading reading = parse_reading(text, end, palette, {Unit::cm, 2_cm}, "reading");
  Placing placing = place_reading(yarn, reading, {});
  placing.ask = question;
  return settling_asked({yarn, reading, placing}, Told::centimetres).lines;
}

}  // namespace

TEST_CASE("every question that would settle a reading says how it is answered") {
  using Kind = Question::Kind;
  struct Case {
    std::string reading;
    End end;
    Kind kind;
    std::size_t entry, other;
    std::string said;
  };
  const std::string three = "plum 15, sand 11, rust 30";
  const std::string worked = "rust 30, sand 11, hook, plum 14st";
  const std::vector<Case> cases{
      {three, End::new_end, Kind::how_long, 1, 0,
       "how long is sand on the new strand? Answer with the length of sand."},
      {three, End::new_end, Kind::first_length, 0, 0,
       "how far is it from the loose end to the end of plum on the new strand? Answer with the length of plum."},
      {three, End::new_end, Kind::next_change, 2, 0,
       "how far does rust go on the new strand? Measure to where it changes, and write down the colour that follows. "
       "Answer with both, like 40, moss."},
      {three, End::new_end, Kind::which_follows, 2, 0,
       "which colour follows rust on the new strand? Answer with one of plum, sand, rust, moss, navy and grey."},
      {three, End::new_end, Kind::look_alike, 1, 5,
       "is entry 2 of the new strand really sand, or is it grey? Answer with sand or grey."},
      {"plum 15, sand 11, rust 80, navy", End::new_end, Kind::overlooked, 2, 3,
       "is there a short piece of moss in or beside rust on the new strand? If so, type the reading again, with a "
       "length for each ?: plum 15, sand 11, rust ?, moss ?, navy"},
      {three, End::new_end, Kind::wrong_way, 0, 0,
       "was the new strand written down from its loose end? It only fits the other way round. If not, type the reading "
       "again: rust 30, sand 11, plum 15"},
      {worked, End::old_end, Kind::which_follows, 2, 0,
       "which colour was worked before plum? Answer with one of plum, sand, rust, moss, navy and grey."},
      {worked, End::old_end, Kind::next_change, 2, 0,
       "how far does plum go on the old strand? Count the plum stitches in the work back to where plum began, and "
       "write them as 14st |. "},
      {worked, End::old_end, Kind::overlooked, 0, 1,
       "is there a short piece of sand in or beside rust on the old strand? If so, type the reading again as it is."},
      {worked, End::old_end, Kind::wrong_way, 0, 0,
       "was the old strand written down from its loose end? It only fits the other way round. If not, type the reading "
       "again as it is."},
  };
  for (const Case& c : cases) CHECK(asked(c.reading, c.end, {c.kind, c.entry, c.other}) == "Can't tell yet: " + c.said);
}

TEST_CASE("a count that two gauges read otherwise names both") {
  ContestedShift shift{8_cm, Length(), 1.95_cm, 2.12_cm, true};
  CHECK(contested_words(shift, Told::centimetres) ==
        "by the scale a stitch takes 2.12 cm, not 1.95 cm: the colours are then in step, not 8 cm skipped. Measure a "
        "swatch, record it with ballchange gauge, and tell the count again.");
  CHECK(contested_text(shift, Told::centimetres) ==
        "Are the colours 8 cm skipped or in step? The joined sections were counted with 1.95 cm of yarn a stitch; by "
        "the scale it is 2.12 cm. Measure a swatch, and tell which holds: --out-of-step 8 or --out-of-step 0.");
  shift.by_scale = false;
  CHECK(contested_words(shift, Told::centimetres) ==
        "by the gauge told since a stitch takes 2.12 cm, not 1.95 cm: the colours are then in step, not 8 cm skipped. "
        "Measure a swatch, record it with ballchange gauge, and tell the count again.");
  CHECK(
      contested_text(shift, Told::centimetres) ==
      "Are the colours 8 cm skipped or in step? The joined sections were counted with 1.95 cm of yarn a stitch; by the "
      "gauge told since it is 2.12 cm. Measure a swatch, and tell which holds: --out-of-step 8 or --out-of-step 0.");
}

TEST_CASE("where no profile was found the path of one is asked for") {
  CHECK(yarn_asked({}).lines == "Which yarn? No profile was found here: write the path of its file.");
  CHECK(yarn_asked({"orchard"}).lines == "Which yarn? Profiles found: orchard; or the path of another file.");
}
