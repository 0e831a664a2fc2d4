#include <doctest/doctest.h>
#include <fmt/format.h>

#include <cmath>
#include <string>

#include "base/random.hpp"
#include "join_ends.hpp"
#include "offcut/offcut.hpp"

using namespace ballchange;
using namespace ballchange::offcuts;

namespace {

double tenths(Length length) { return std::round(length.cm() * 10) / 10 + 0.0; }

// "77 plum 15, sand 11, rust 22 125": where it begins, its colours, where it ends; in working order.
std::string text_of(const Offcut& offcut, const Repeat& repeat) {
  std::string text = fmt::format("{}", tenths(offcut.start));
  for (const Stretch& stretch : offcut.stretches) {
    text += fmt::format("{} {} {}", text.find(' ') == std::string::npos ? "" : ",",
                        repeat.colours()[stretch.colour].name, tenths(stretch.length));
  }
  return fmt::format("{}, {}{}", text, tenths(offcut.finish),
                     offcut.direction == Direction::backward ? " backward" : "");
}

std::string off(End end, const char* reading, Length trim, Worked worked = Worked::usual_end) {
  const Yarn yarn = orchard();
  MatchOptions options;
  options.worked = worked;
  return text_of(off_end(yarn.repeat, end_read(yarn, end, reading, {}, options), trim), yarn.repeat);
}

}  // namespace

// By hand: plum 0-92, sand to 103, rust to 183, moss to 197, navy to 267, grey to 276.
TEST_CASE("what comes off an end: its colours and the places of its two ends") {
  struct Case {
    End end;
    const char* reading;
    Length trim;
    const char* expected;
  };
  const Case cases[] = {
      {End::new_end, "plum 15, sand 11, rust 30", 48_cm, "77 plum 15, sand 11, rust 22, 125"},
      {End::new_end, "plum 15, sand 11, rust 30", 10_cm, "77 plum 10, 87"},
      {End::new_end, "plum 15, sand 11, rust 30", 26_cm, "77 plum 15, sand 11, 103"},
      {End::old_end, "rust 30, sand 11, plum", 35_cm, "98 sand 5, rust 30, 133"},
      {End::old_end, "rust 30, sand 11, plum", 12_cm, "121 rust 12, 133"},
      // A section that came out shorter is as long as it was read; what was not read, as the repeat has it.
      {End::new_end, "plum 15, sand 9, rust 30", 40_cm, "77 plum 15, sand 9, rust 16, 119"},
      {End::new_end, "plum 15, sand 11, rust 30", 110_cm, "77 plum 15, sand 11, rust 80, moss 4, 187"},
      // Longer than a repeat.
      {End::new_end, "plum 15, sand 11, rust 30", 300_cm,
       "77 plum 15, sand 11, rust 80, moss 14, navy 70, grey 9, plum 92, sand 9, 101"},
  };
  for (const Case& c : cases) {
    CAPTURE(c.reading);
    CAPTURE(c.trim.cm());
    CHECK(off(c.end, c.reading, c.trim) == c.expected);
  }
}

// Worked from its other end a ball shows the mirrored repeat: place p is 276 - p on it.
TEST_CASE("what comes off an end that runs backward") {
  CHECK(off(End::new_end, "rust 30, sand 11, plum 40", 35_cm, Worked::other_end) ==
        "143 rust 30, sand 5, 178 backward");
  CHECK(off(End::old_end, "plum 15, sand 11, rust 30", 48_cm, Worked::other_end) ==
        "151 rust 22, sand 11, plum 15, 199 backward");
}

TEST_CASE("turned round an offcut has its last end first, and turned again it is itself") {
  const Yarn yarn = orchard();
  const Offcut offcut = off_end(yarn.repeat, end_read(yarn, End::new_end, "plum 15, sand 11, rust 30"), 48_cm);
  const Offcut other = turned(yarn.repeat, offcut);
  CHECK(text_of(other, yarn.repeat) == "151 rust 22, sand 11, plum 15, 199 backward");
  CHECK(text_of(turned(yarn.repeat, other), yarn.repeat) == text_of(offcut, yarn.repeat));
}

TEST_CASE("a part of an offcut is told from the change nearest to its ends") {
  const Yarn yarn = orchard();
  // Sand came out 2 cm short, so that both ends are 2 cm nearer than the repeat has them.
  const Offcut offcut = off_end(yarn.repeat, end_read(yarn, End::new_end, "plum 15, sand 9, rust 40"), 60_cm);
  const auto part = [&](double from, double to) {
    return text_of(part_of(yarn.repeat, offcut, Length::cm(from), Length::cm(to)), yarn.repeat);
  };
  CHECK(part(0, 60) == "77 plum 15, sand 9, rust 36, 139");
  CHECK(part(0, 10) == "77 plum 10, 87");
  CHECK(part(5, 20) == "82 plum 10, sand 5, 97");
  CHECK(part(18, 60) == "97 sand 6, rust 36, 139");
  CHECK(part(30, 60) == "109 rust 30, 139");
  CHECK(part(30, 50) == "109 rust 20, 129");
}

TEST_CASE("the ends of an offcut in hand lie where it was cut") {
  const Yarn yarn = orchard();
  const Offcut offcut = off_end(yarn.repeat, end_read(yarn, End::new_end, "plum 15, sand 11, rust 30"), 48_cm);
  const Offcut other = turned(yarn.repeat, offcut);
  const auto end = [&](const Offcut& of, End which) {
    const Strand strand = end_of(yarn.repeat, of, which);
    REQUIRE(strand.placing.verdict == Verdict::settled);
    return fmt::format("{} at {}", format_reading(strand.reading, yarn.repeat.colours()),
                       tenths(strand.placing.best().place));
  };
  CHECK(end(offcut, End::new_end) == "plum 15, sand 11, rust 22 at 77");
  CHECK(end(offcut, End::old_end) == "rust 22, sand 11, plum 15 at 125");
  CHECK(end(other, End::new_end) == "rust 22, sand 11, plum 15 at 125");
  CHECK(end(other, End::old_end) == "plum 15, sand 11, rust 22 at 77");
}

// Against the repeat itself: sections as long as usual, the piece from a to b is what lies between.
TEST_CASE("random offcuts of exact yarn end as far along the repeat as they are long") {
  const Yarn yarn = orchard();
  const Length period = yarn.repeat.total();
  Random random(20261126);
  for (int n = 0; n < 2000; ++n) {
    const Length place = Length::cm(random.uniform() * period.cm());
    const Length trim = Length::cm(1 + random.uniform() * 400);
    const End end = random.uniform() < 0.5 ? End::old_end : End::new_end;
    CAPTURE(n);
    CAPTURE(place.cm());
    CAPTURE(trim.cm());
    const Offcut offcut = off_end(yarn.repeat, exact_end(yarn, end, place, 3), trim);
    CHECK(offcut.length().cm() == doctest::Approx(trim.cm()).epsilon(1e-9));
    CHECK(abs(nearest((end == End::new_end ? offcut.start : offcut.finish) - place, period)) < 1e-6_cm);
    CHECK(abs(nearest(offcut.finish - offcut.start - trim, period)) < 1e-6_cm);
    const Length middle = trim * random.uniform();
    if (middle < 0.01_cm || trim - middle < 0.01_cm) continue;
    const Offcut left = part_of(yarn.repeat, offcut, Length(), middle);
    const Offcut right = part_of(yarn.repeat, offcut, middle, trim);
    CHECK(abs(nearest(left.finish - right.start, period)) < 1e-6_cm);
    CHECK(abs(nearest(right.start - offcut.start - middle, period)) < 1e-6_cm);
  }
}
