#include <doctest/doctest.h>

#include "join_ends.hpp"

// A yarn whose repeat was written down several times over: any of the equal places will do.
namespace ballchange {
namespace {

// Stripes of 24, written four times: it comes round after 48.
Yarn stripes(double uneven = 0) {
  std::vector<Section> sections;
  for (std::size_t k = 0; k < 8; ++k) {
    sections.push_back({k % 2, Length::cm(24 + (k == 2 ? uneven : 0)), 1.5_cm});
  }
  return {.name = "Stripes",
          .fibre = "",
          .ball_mass = {},
          .ball_length = {},
          .repeat = Repeat({{"tar", {}}, {"sailcloth", {}}}, sections)};
}

TEST_CASE("the join reckons with the repeat that really comes back") {
  struct Row {
    std::string what, old_end, new_end;
    double allowance, trims;
  };
  // Old place less new place less the allowance, modulo 48, by hand.
  const Row rows[] = {
      {"28 - 20 - 8", "sailcloth 4, tar", "tar 4, sailcloth", 8, 0},
      {"10 - 43 - 10", "tar 10, sailcloth 24", "sailcloth 5, tar 24", 10, 5},
      {"10 - 40 - 10", "tar 10, sailcloth 24", "sailcloth 8, tar 24", 10, 8},
      {"10 - 4 - 10", "tar 10, sailcloth 24", "tar 20, sailcloth 24", 10, 44},
  };
  for (const Row& row : rows) {
    CAPTURE(row.what);
    Asked asked;
    asked.yarn = stripes();
    asked.wish.allowance = Length::cm(row.allowance);
    const Advice advice = asked.with(row.old_end, row.new_end);
    REQUIRE(advice.verdict == JoinVerdict::cut);
    for (const Join& join : advice.joins) {
      CHECK(close(*join.discard, row.trims));
      CHECK(close(join.shift, 0));
      REQUIRE(join.dry_fit);
      CHECK(close(wrap(join.dry_fit->length + 1_cm, 24_cm), 1));
      CHECK(join.old_mark.colour != join.old_mark.next_colour);
      CHECK(join.new_mark.colour != join.new_mark.next_colour);
    }
  }
}

TEST_CASE("a shorter overlap that saves the shorter repeat is offered") {
  Asked asked;
  asked.yarn = stripes();
  const Advice advice = asked.with("tar 10, sailcloth 24", "tar 20, sailcloth 24");
  REQUIRE(!advice.alternatives.empty());
  CHECK(close(advice.alternatives.front().allowance, 6));
  CHECK(close(advice.alternatives.front().discard, 0));
  CHECK(close(advice.alternatives.front().shift, 0));
}

TEST_CASE("a knot between two of the equal places is left") {
  Asked asked;
  asked.yarn = stripes();
  asked.wish.knot = true;
  const Advice advice = asked.with("tar 10, sailcloth 24", "tar 14, sailcloth 24");
  REQUIRE(advice.verdict == JoinVerdict::cut);
  CHECK(advice.joins.front().leave_knot);
  CHECK(close(*advice.knot_shift, 0));
}

TEST_CASE("wherever among the equal places both ends were put, the advice is the same") {
  const Yarn yarn = stripes();
  for (int old_turn = 0; old_turn < 4; ++old_turn) {
    for (int new_turn = 0; new_turn < 4; ++new_turn) {
      CAPTURE(old_turn);
      CAPTURE(new_turn);
      const Strand old_end = exact_end(yarn, End::old_end, Length::cm(30 + 48 * old_turn), 3);
      const Strand new_end = exact_end(yarn, End::new_end, Length::cm(6 + 48 * new_turn), 3);
      const Advice advice = advise(yarn, old_end, new_end, {}, std::nullopt, {});
      CHECK(close(*advice.joins.front().discard, 14));
      const Join& join = advice.joins.front();
      const auto shift = shift_left(yarn, old_end, new_end, {*join.trim_old, *join.trim_new, join.allowance});
      REQUIRE(shift);
      CHECK(close(*shift, 0));
    }
  }
}

TEST_CASE("backward on such a yarn too") {
  Asked asked;
  asked.yarn.repeat = Repeat(
      {{"tar", {}}, {"oat", {}}, {"fern", {}}},
      {{0, 30_cm, 1_cm}, {1, 20_cm, 1_cm}, {2, 10_cm, 1_cm}, {0, 30_cm, 1_cm}, {1, 20_cm, 1_cm}, {2, 10_cm, 1_cm}});
  asked.old_options.worked = asked.new_options.worked = Worked::other_end;
  // Backward the yarn runs fern 10, oat 20, tar 30: places 20 and 55 of 60.
  const Advice advice = asked.with("oat 10, fern 10, tar 30", "tar 5, fern 10, oat");
  REQUIRE(advice.verdict == JoinVerdict::cut);
  CHECK(close(*advice.joins.front().discard, 20 - 55 - 10 + 60));
}

TEST_CASE("the shorter repeat has the means, and is kept to only where every change then stays in its place") {
  CHECK(shortest(orchard().repeat, 1.5_cm).size() == 6);
  CHECK(shortest(stripes().repeat, 1.5_cm).size() == 2);
  const Repeat uneven = shortest(stripes(1).repeat, 1.5_cm);
  REQUIRE(uneven.size() == 2);
  CHECK(close(uneven.sections()[0].length, 24.25));
  CHECK(close(uneven.sections()[1].length, 24));
  CHECK(close(uneven.sections()[0].plus_minus, 1.5));
  // A tape may not tell these apart section by section, but it does tell where on the yarn they are.
  REQUIRE(hidden_repeats(stripes(6).repeat) == 4);
  CHECK(shortest(stripes(6).repeat, 1.5_cm).size() == 8);
}

}  // namespace
}  // namespace ballchange
