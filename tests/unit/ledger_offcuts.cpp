#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "base/random.hpp"
#include "ledger_log.hpp"

using namespace ballchange;

namespace {

// Entry 4: a join that takes 10 cm and leaves 30 cm of A and 90 cm of B.
std::vector<std::string> with_join(const std::vector<std::string>& more) {
  std::vector<std::string> log{"ball, ball: A, dye_lot: \"17\"", "ball, ball: B", "row, row: 40",
                               "join, ball: B, trim_old: 30 cm, trim_new: 90 cm"};
  log.insert(log.end(), more.begin(), more.end());
  return log;
}

// "4 old 30, 4 new 90 ball 60"
std::string offcuts_of(const State& state) {
  std::string out;
  for (const OffcutState& offcut : state.offcuts) {
    out += fmt::format("{}{} {} {}", out.empty() ? "" : ", ", offcut.entry, cut_from_name(offcut.cut_from),
                       text_of(offcut.length));
    if (offcut.use == OffcutUse::as_ball) out += " ball " + text_of(offcut.used);
    if (offcut.use == OffcutUse::used_up) out += " used up";
  }
  return out;
}

// "begin 0, step 30, allowance 10, knots 0; waste 40; bought 10000; used 0"
std::string sums_of(const State& state) {
  const Totals& t = state.totals;
  return fmt::format("begin {}, step {}, allowance {}, knots {}; waste {}; bought {}; used {}",
                     text_of(t.by_cause.begin), text_of(t.by_cause.step), text_of(t.by_cause.allowance),
                     text_of(t.by_cause.knots), text_of(t.waste), text_of(t.bought), text_of(t.offcuts_used));
}

}  // namespace

TEST_CASE("what is trimmed is kept as offcuts, and what is made of them is no waste") {
  struct Case {
    std::vector<std::string> log;
    std::string offcuts, sums;
  };
  const std::vector<Case> cases{
      {with_join({}), "4 old 30, 4 new 90",
       "begin 0, step 120, allowance 10, knots 0; waste 130; bought 10000; used 0"},
      {with_join({"ball, ball: C, offcut: 4, cut_from: new"}), "4 old 30, 4 new 90 ball 90",
       "begin 0, step 30, allowance 10, knots 0; waste 40; bought 10000; used 0"},
      // So much of it was kept.
      {with_join({"ball, ball: C, offcut: 4, cut_from: new, length: 60 cm"}), "4 old 30, 4 new 90 ball 60",
       "begin 0, step 60, allowance 10, knots 0; waste 70; bought 10000; used 0"},
      {with_join({"note, text: sewed, offcut: 4, cut_from: old"}), "4 old 30 used up, 4 new 90",
       "begin 0, step 90, allowance 10, knots 0; waste 100; bought 10000; used 30"},
      {with_join({"note, text: sewed, offcut: 4, cut_from: old", "cancel, entry: 5"}), "4 old 30, 4 new 90",
       "begin 0, step 120, allowance 10, knots 0; waste 130; bought 10000; used 0"},
      // What is trimmed off it is waste again, and an offcut in its turn.
      {with_join({"ball, ball: C, offcut: 4, cut_from: new", "join, ball: C, trim_new: 25 cm"}),
       "4 old 30, 4 new 90 ball 90, 6 new 25",
       "begin 0, step 55, allowance 20, knots 0; waste 75; bought 10000; used 0"},
      // A join that came apart leaves its trims cut off.
      {with_join({"join, ball: A, knot: true", "cancel, entry: 5", "rip, row: 3"}), "4 old 30, 4 new 90",
       "begin 0, step 120, allowance 10, knots 0; waste 130; bought 10000; used 0"},
      {{"ball, ball: A", "row, row: 5", "join, ball: A, knot: true, trim_old: 20 cm, trim_new: 70 cm",
        "ball, ball: C, offcut: 3, cut_from: new"},
       "3 old 20, 3 new 70 ball 70",
       "begin 0, step 0, allowance 0, knots 30; waste 30; bought 5000; used 0"},
      {{"ball, ball: A", "begin, ball: A, trim_new: 60 cm", "ball, ball: C, offcut: 2"},
       "2 new 60 ball 60",
       "begin 0, step 0, allowance 0, knots 0; waste 0; bought 5000; used 0"},
  };
  for (const Case& c : cases) {
    CAPTURE(project_text(c.log));
    const State state = fold_of(c.log);
    CHECK(troubles_of(state).empty());
    CHECK(offcuts_of(state) == c.offcuts);
    CHECK(sums_of(state) == c.sums);
  }
}

TEST_CASE("a ball made of an offcut holds what was cut off, and is of its dye lot") {
  const State state = fold_of(with_join({"ball, ball: C, offcut: 4, cut_from: old"}));
  CHECK(balls_of(state) == "A used up, B working 4905, C fresh 30");  // 5000 - 90 - 5
  const BallState& ball = state.balls.back();
  CHECK(ball.dye_lot == "17");
  CHECK(ball.first_as_cut());
  CHECK(ball.other_as_cut());
  CHECK(text_of(state.left.length) == "4935");
}

TEST_CASE("an end of an offcut is as it was cut off until it is joined, cut or not all of it kept") {
  const auto ends = [](const std::vector<std::string>& more) {
    const State state = fold_of(with_join(more));
    const BallState* ball = state.find_ball("C");
    REQUIRE(ball != nullptr);
    return std::string(ball->first_as_cut() ? "first" : "") + (ball->other_as_cut() ? " other" : "");
  };
  const std::string made = "ball, ball: C, offcut: 4, cut_from: new";
  CHECK(ends({made}) == "first other");
  CHECK(ends({made + ", length: 60 cm"}) == "");
  CHECK(ends({made, "swatch, ball: C, length: 20 cm"}) == " other");
  CHECK(ends({made, "join, ball: C"}) == " other");
  CHECK(ends({made, "join, ball: C", "ball, ball: D", "row, row: 41", "join, ball: D"}) == "");
}

TEST_CASE("an offcut of an offcut knows what it was cut off") {
  const State state = fold_of(with_join({"ball, ball: C, offcut: 4, cut_from: new", "ball, ball: D",
                                         "join, ball: C, trim_new: 25 cm", "join, ball: D, trim_old: 20 cm"}));
  CHECK(troubles_of(state).empty());
  CHECK(offcuts_of(state) == "4 old 30, 4 new 90 ball 90, 7 new 25, 8 old 20");
  CHECK(state.offcuts[2].of == std::optional<std::size_t>(1));
  CHECK(state.offcuts[3].of == std::optional<std::size_t>(1));
  CHECK(!state.offcuts[1].of);
}

TEST_CASE("an offcut keeps what was read of its end: with the join, or of the ball before it") {
  const auto readings = [](const std::string& ball, const std::string& join) {
    const State state = fold_of({"ball, ball: A, inside: \"rust 30, plum\"", ball, "row, row: 40", join});
    std::string out;
    for (const OffcutState& offcut : state.offcuts) out += offcut.reading.value_or("?") + "; ";
    return out;
  };
  const std::string trims = ", trim_old: 30 cm, trim_new: 90 cm";
  const std::string read = "ball, ball: B, outside: \"plum 15, rust\"";
  CHECK(readings("ball, ball: B", "join, ball: B" + trims) == "rust 30, plum; ?; ");
  CHECK(readings(read, "join, ball: B" + trims) == "rust 30, plum; plum 15, rust; ");
  CHECK(readings(read, "join, ball: B, old: \"rust 9, plum\", new: \"plum 4, rust\"" + trims) ==
        "rust 9, plum; plum 4, rust; ");
  // At a knot neither is an end of the ball.
  CHECK(readings(read, "join, ball: A, knot: true" + trims) == "?; ?; ");
}

TEST_CASE("offcuts that are none are told, and count for nothing") {
  struct Case {
    std::vector<std::string> more;
    const char* troubles;
  };
  const Case cases[] = {
      {{"ball, ball: C, offcut: 3"},
       "5: nothing was cut off at entry 3; name the entry of the join that left the offcut (log --offcuts)\n"},
      {{"ball, ball: C, offcut: 9"},
       "5: nothing was cut off at entry 9; name the entry of the join that left the offcut (log --offcuts)\n"},
      {{"ball, ball: C, offcut: 4"},
       "5: two pieces were cut off at entry 4; say which with cut_from: old or cut_from: new\n"},
      {{"ball, ball: C, cut_from: old"}, "5: cut_from says which end an offcut was cut off; write offcut too\n"},
      {{"note, text: sewed, cut_from: old"}, "5: cut_from says which end an offcut was cut off; write offcut too\n"},
      {{"ball, ball: C, offcut: 4, cut_from: new", "ball, ball: D, offcut: 4, cut_from: new"},
       "6: the offcut of entry 4 (from the new end) is ball C already, since entry 5\n"},
      {{"note, text: sewed, offcut: 4, cut_from: old", "note, text: again, offcut: 4, cut_from: old"},
       "6: the offcut of entry 4 (from the old end) is used up, by entry 5\n"},
      {{"ball, ball: B, offcut: 4, cut_from: new"},
       "5: ball B is there already, since entry 2; name another for the offcut\n"},
      {{"ball, ball: C, offcut: 4, cut_from: new, mass: 3 g"},
       "5: an offcut holds what was cut off, of the same yarn; leave out mass and plain\n"},
      {{"ball, ball: C, offcut: 4, cut_from: new, length: 91 cm"},
       "5: length is longer than the offcut of entry 4 (from the new end); leave it out, or tell what was kept of "
       "it\n"},
      {{"ball, ball: C, offcut: 4, cut_from: new", "ball, ball: C, mass: 1 g"},
       "6: ball C is the offcut of entry 4 (from the new end), and holds what was cut off; leave out mass, length and "
       "plain\n"},
      {{"join, ball: A, knot: true, trim_new: 50 cm", "cancel, entry: 5", "ball, ball: C, offcut: 5"},
       "7: nothing was cut off at entry 5; name the entry of the join that left the offcut (log --offcuts)\n"},
      {{"join, ball: B, knot: true, trim_new: 50 cm", "ball, ball: C, offcut: 5, cut_from: old"},
       "6: nothing was cut off the old end at entry 5; leave out cut_from\n"},
  };
  for (const Case& c : cases) {
    CAPTURE(project_text(with_join(c.more)));
    CHECK(troubles_of(fold_of(with_join(c.more))) == c.troubles);
  }
}

TEST_CASE("a join whose offcut became a ball can't be cancelled before that") {
  const Project project = project_of(with_join({"ball, ball: C, offcut: 4, cut_from: new"}));
  const std::vector<Trouble> troubles = check_next(project, fold(project), did::Cancel{4}).troubles;
  REQUIRE(troubles.size() == 1);
  CHECK(troubles.front().entry == 5);
  CHECK(troubles.front().skipped);
}

// Yarn is never lost: what was bought is in the work, in hand, cut off, used up, or lies behind a join on a ball that
// was changed before it ended.
TEST_CASE("random ball changes with offcuts lose no yarn") {
  int as_balls = 0;
  for (std::uint64_t seed = 1; seed <= 100; ++seed) {
    Random random(seed);
    std::vector<std::string> log{"ball, ball: A", "begin, ball: A, trim_new: 70 cm"};
    std::vector<std::pair<int, std::string>> kept{{2, "new"}};  // offcuts nothing was made of
    Length behind;
    const auto join = [&](const std::string& ball, int most_old, int most_new) {
      const State before = fold_of(log);
      const BallState& old_ball = before.balls[*before.working];
      const auto trim_old = 1 + static_cast<int>(random.below(static_cast<std::uint64_t>(most_old)));
      const auto trim_new = 1 + static_cast<int>(random.below(static_cast<std::uint64_t>(most_new)));
      log.push_back(fmt::format("join, ball: {}, trim_old: {} cm, trim_new: {} cm", ball, trim_old, trim_new));
      behind += *old_ball.left - old_ball.overdrawn - Length::cm(trim_old) - 5_cm;  // half the allowance
      kept.emplace_back(static_cast<int>(log.size()), "old");
      kept.emplace_back(static_cast<int>(log.size()), "new");
    };
    int row = 1;
    for (int change = 0; change < 6; ++change) {
      row += 20;
      log.push_back(fmt::format("row, row: {}", row));
      const auto at = static_cast<std::size_t>(random.below(kept.size()));
      const std::string which = fmt::format("offcut: {}, cut_from: {}", kept[at].first, kept[at].second);
      kept.erase(kept.begin() + static_cast<std::ptrdiff_t>(at));
      if (random.below(3) == 0) {
        log.push_back("note, text: sewed, " + which);
      } else {
        const std::string name = fmt::format("O{}", change);
        log.push_back(fmt::format("ball, ball: {}, {}", name, which));
        if (random.below(4) != 0) join(name, 90, 20);
        ++as_balls;
      }
      log.push_back(fmt::format("ball, ball: B{}", change));
      join(fmt::format("B{}", change), 20, 90);
    }
    CAPTURE(seed);
    CAPTURE(project_text(log));
    const State state = fold_of(log);
    CHECK(troubles_of(state).empty());
    const Totals& t = state.totals;
    CHECK(text_of(t.bought) == text_of(*state.used + *state.left.length + t.waste + t.offcuts_used + behind));
    CHECK(text_of(t.waste) ==
          text_of(t.by_cause.begin + t.by_cause.step + t.by_cause.allowance + t.by_cause.knots + t.by_cause.swatches));
  }
  CHECK(as_balls > 100);
}
