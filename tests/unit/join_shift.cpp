#include <doctest/doctest.h>

#include "base/random.hpp"
#include "join_ends.hpp"

// What shift a join left that was cut by hand.
namespace ballchange {
namespace {

std::optional<Length> left(std::string_view old_text, std::string_view new_text, const Cut& cut) {
  const Yarn yarn = orchard();
  return shift_left(yarn, end_read(yarn, End::old_end, old_text), end_read(yarn, End::new_end, new_text), cut);
}

TEST_CASE("the shift of a join follows from both ends and what was cut") {
  struct Case {
    const char *old_text, *new_text;
    Cut cut;
    double shift;
  };
  // Places 133 and 77, R = 276: 77 - 133 + x + y + m.
  for (const Case& c : {Case{"rust 30, sand 11, plum", "plum 15, sand 11, rust 30", {0_cm, 48_cm, 8_cm}, 0},
                        {"rust 30, sand 11, plum", "plum 15, sand 11, rust 30", {0_cm, 0_cm, 8_cm}, -48},
                        {"rust 30, sand 11, plum", "plum 15, sand 11, rust 30", {10_cm, 30_cm, 8_cm}, -8},
                        {"rust 30, sand 11, plum", "plum 15, sand 11, rust 30", {0_cm, 51_cm, 8_cm}, 3},
                        // A sand read 2 cm longer than usual hides 2 cm: kept from the rust-moss change.
                        {"rust 30, sand 11, plum", "plum 15, sand 13, rust 30", {0_cm, 50_cm, 8_cm}, 0},
                        {"rust 30, sand 13, plum", "plum 15, sand 11, rust 30", {45_cm, 5_cm, 8_cm}, 0}}) {
    CAPTURE(c.old_text);
    CAPTURE(c.new_text);
    CAPTURE(c.cut.trim_new.cm());
    const auto shift = left(c.old_text, c.new_text, c.cut);
    REQUIRE(shift);
    CHECK(shift->cm() == doctest::Approx(c.shift).epsilon(1e-9));
  }
}

TEST_CASE("ends that aren't settled, or run different ways, tell no shift") {
  CHECK_FALSE(left("rust 30, sand 11, plum", "rust 30", {0_cm, 0_cm, 8_cm}));
  CHECK_FALSE(left("rust 30, sand 11, plum", "rust 30, sand 11, plum 15", {0_cm, 0_cm, 8_cm}));
}

// An end as the repeat has it, with every whole section read a little longer or shorter.
Strand uneven_end(const Yarn& yarn, End end, Length place, Random& random) {
  Strand strand = exact_end(yarn, end, place, 5);
  for (std::size_t i = 1; i < 4; ++i) {
    *strand.reading.entries[i].length += Length::cm(2 * random.uniform() - 1);
  }
  return strand;
}

TEST_CASE("a join cut as advised leaves the shift that was advised") {
  const std::uint64_t seed = 20260302;
  CAPTURE(seed);
  Random random(seed);
  const Yarn yarn = orchard();
  for (int n = 0; n < 500; ++n) {
    const Length old_place = Length::cm(276 * random.uniform());
    const Length new_place = Length::cm(276 * random.uniform());
    CAPTURE(n);
    CAPTURE(old_place.cm());
    CAPTURE(new_place.cm());
    const Strand old_end = uneven_end(yarn, End::old_end, old_place, random);
    const Strand new_end = uneven_end(yarn, End::new_end, new_place, random);
    const Advice advice = advise(yarn, old_end, new_end, {}, {}, {});
    for (const Join& join : advice.joins) {
      CAPTURE(join.trim_old->cm());
      CAPTURE(join.trim_new->cm());
      const auto shift = shift_left(yarn, old_end, new_end, {*join.trim_old, *join.trim_new, join.allowance});
      REQUIRE(shift);
      CHECK(shift->cm() == doctest::Approx(join.shift.cm()).epsilon(1e-6));
    }
  }
}

}  // namespace
}  // namespace ballchange
