#include <doctest/doctest.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "creep/follow.hpp"
#include "creep/stretch.hpp"
#include "unit/ledger_log.hpp"

using namespace ballchange;
using namespace ballchange::creeping;

namespace {

// The work begins 100 cm into plum (150 cm, then rust, 126). Rows of 50 x 2 + 10 cm, the foundation 10.
constexpr Length kBegins = 100_cm;

struct Followed {
  State state;
  Creep creep;
};

Followed followed(const std::vector<std::string>& log, bool begin_known = true) {
  Followed f{fold_of(log), {}};
  const auto creep =
      follow(f.state, f.state.yarn.repeat, begin_known ? std::optional(Start{kBegins, 0.25}) : std::nullopt);
  REQUIRE(creep);
  f.creep = *creep;
  return f;
}

std::string uses(const Creep& creep) {
  std::string text;
  for (const Watched& watched : creep.sightings) {
    text += text.empty() ? "" : " ";
    switch (watched.use) {
      case Use::counted:
        text += "counted";
        break;
      case Use::first:
        text += "first";
        break;
      case Use::several:
        text += "several";
        break;
      case Use::unfitting:
        text += "unfitting";
        break;
      case Use::again:
        text += "again";
        break;
      case Use::no_place:
        text += "no-place";
        break;
    }
  }
  return text;
}

// Every beginning of plum and rust in `rows` rows, worked with so much yarn a stitch; stitches count from 1.
std::string all_seen(double per_stitch, int rows, double repeat_longer = 1) {
  const double row = 50 * per_stitch + 10;
  std::string list;
  for (int n = 0;; ++n) {
    const double place = (n % 2 == 0 ? 150 : 276) + 276.0 * (n / 2);  // rust begins, plum begins, ...
    const double used = (place - kBegins.cm()) * repeat_longer - 10;
    const int at = static_cast<int>(std::floor(used / row));
    if (at >= rows) break;
    const double stitch = std::min((used - at * row) / per_stitch, 50.0);
    list += fmt::format("{}\"row {} stitch {} {} begins\"", list.empty() ? "" : ", ", at + 1,
                        std::min(static_cast<int>(std::lround(stitch)) + 1, 50), n % 2 == 0 ? "rust" : "plum");
  }
  return list;
}

std::vector<std::string> worked(double per_stitch, int rows, double repeat_longer = 1) {
  return {"ball, ball: A", "begin, ball: A",
          fmt::format("row, row: {}, seen: [{}]", rows, all_seen(per_stitch, rows, repeat_longer))};
}

}  // namespace

// Rust begins 50 cm in: 10 of foundation, 20 stitches. It ends 126 cm later: 30 stitches, a turn, 28 stitches.
TEST_CASE("colours that fall where they should say that nothing creeps") {
  const auto [state, creep] =
      followed({"ball, ball: A", "begin, ball: A",
                "row, row: 3, seen: [\"row 1 stitch 21 rust begins\", \"row 2 stitch 28 rust ends\"]"});
  CHECK(uses(creep) == "counted counted");
  CHECK(creep.known);
  CHECK(std::abs(creep.creep.mean) < 1e-9);
  CHECK(creep.per_stitch.cm() == doctest::Approx(2).epsilon(1e-9));
  CHECK_FALSE(creep.plain());
}

TEST_CASE("the same change told again is no more evidence") {
  const std::string rows = "row, row: 3, seen: [\"row 1 stitch 21 rust begins\", \"row 2 stitch 26 rust ends\"]";
  const auto [once, told] = followed({"ball, ball: A", "begin, ball: A", rows});
  const auto [state, again] =
      followed({"ball, ball: A", "begin, ball: A", rows,
                "row, row: 3, seen: [\"row 2 stitch 26 rust ends\", \"row 2 stitch 26 rust ends\"]"});
  CHECK(uses(again) == "counted counted again again");
  CHECK(again.creep.mean == told.creep.mean);
  CHECK(again.creep.sd == told.creep.sd);
}

TEST_CASE("the real yarn per stitch and the creep of a long work are found") {
  for (const double real : {1.9, 1.96, 2.0, 2.04, 2.1}) {
    CAPTURE(real);
    const auto [state, creep] = followed(worked(real, 60));
    CHECK(uses(creep).find("unfitting") == std::string::npos);
    // What a stitch takes more of the repeat as it is is all of it; hand and ball share it 9 to 4.
    const double more = real / 2 - 1;
    CHECK(creep.creep.mean == doctest::Approx(more).epsilon(0.08).scale(0.05));
    CHECK(creep.looser.mean == doctest::Approx(more * 9 / 13).epsilon(0.08).scale(0.05));
    CHECK(creep.per_repeat.cm() == doctest::Approx(276 * more).scale(10).epsilon(0.08));
    CHECK(creep.plain() == (std::abs(more) > 0.01));
  }
}

// Ball A as the yarn says for 40 rows, 4410 cm, where place 94 of plum is reached; then B, whose sections are 6 %
// longer: rust begins 56 cm on, plum 182.
TEST_CASE("a ball with a longer repeat is told from a tight hand by the ball before it") {
  std::string list;
  for (int n = 0; n < 60; ++n) {
    const double used = 4400 + 1.06 * ((n % 2 == 0 ? 56 : 182) + 276.0 * (n / 2));
    const int at = static_cast<int>(std::floor(used / 110));
    list += fmt::format("{}\"row {} stitch {} {} begins\"", list.empty() ? "" : ", ", at + 1,
                        std::min(static_cast<int>(std::lround((used - at * 110) / 2)) + 1, 50),
                        n % 2 == 0 ? "rust" : "plum");
  }
  std::vector<std::string> log = worked(2, 40);
  log.insert(log.begin() + 1, "ball, ball: B");
  log.emplace_back("join, ball: B, row: 40, stitch: 50, shift: 0 cm");
  log.push_back(fmt::format("row, row: 130, seen: [{}]", list));
  const auto [state, creep] = followed(log);
  CHECK(uses(creep).find("unfitting") == std::string::npos);
  REQUIRE(creep.balls.size() == 2);
  CHECK(creep.balls[0].ball == "A");
  CHECK(creep.balls[1].ball == "B");
  CHECK_FALSE(plain(creep.balls[0].longer));
  CHECK(plain(creep.balls[1].longer));
  CHECK(creep.balls[1].longer.mean > 0.025);
  CHECK(creep.balls[1].longer.mean < 0.06);
  CHECK(creep.creep.mean == doctest::Approx(-0.06).epsilon(0.25));
}

TEST_CASE("without a beginning the first change only says where the colours lie") {
  const auto [state, creep] =
      followed({"ball, ball: A", "begin, ball: A",
                "row, row: 3, seen: [\"row 1 stitch 30 rust begins\", \"row 2 stitch 38 rust ends\"]"},
               false);
  CHECK(uses(creep) == "first counted");
  CHECK(creep.known);
}

TEST_CASE("one change alone tells nothing where the beginning isn't known") {
  const auto [state, creep] =
      followed({"ball, ball: A", "begin, ball: A", "row, row: 3, seen: [\"row 1 stitch 30 rust begins\"]"}, false);
  CHECK(uses(creep) == "first");
  CHECK_FALSE(creep.known);
}

TEST_CASE("a first change that is a slip is looked past where those after it agree") {
  // The first true one, rust's beginning, told thirty stitches late; all others as they are.
  std::string list = all_seen(2, 60);
  const std::size_t first_end = list.find(", ");
  REQUIRE(list.substr(0, first_end) == "\"row 1 stitch 21 rust begins\"");
  list.replace(0, first_end, "\"row 2 stitch 1 rust begins\"");
  const Followed f = followed({"ball, ball: A", "begin, ball: A", "row, row: 60, seen: [" + list + "]"}, false);
  CHECK(uses(f.creep).starts_with("unfitting first counted counted"));
  CHECK(f.creep.unfitting == 1);
  CHECK_FALSE(f.creep.doubtful());
  CHECK_FALSE(f.creep.plain());
  CHECK(f.creep.per_stitch.cm() == doctest::Approx(2).epsilon(0.01));
}

TEST_CASE("so is the first one counted on a beginning that is known") {
  std::string list = all_seen(2, 60);
  const std::size_t first_end = list.find(", ");
  list.replace(0, first_end, "\"row 1 stitch 40 rust begins\"");  // 38 cm late, 3.3 of its standard deviations
  const Followed f = followed({"ball, ball: A", "begin, ball: A", "row, row: 60, seen: [" + list + "]"});
  CHECK_FALSE(f.creep.doubtful());
  CHECK_FALSE(f.creep.plain());
  CHECK(f.creep.unfitting <= 1);
  CHECK(f.creep.per_stitch.cm() == doctest::Approx(2).epsilon(0.01));
}

TEST_CASE("where more that was seen speaks against the others than for them nothing is made of it") {
  const Followed f = followed({"ball, ball: A", "begin, ball: A",
                               "row, row: 20, seen: [\"row 1 stitch 21 rust begins\", \"row 1 stitch 40 plum begins\", "
                               "\"row 4 stitch 1 plum begins\", \"row 6 stitch 10 plum begins\"]"});
  CAPTURE(uses(f.creep));
  CHECK(f.creep.doubtful());
  CHECK_FALSE(f.creep.plain());
}

TEST_CASE("a change that lies nowhere near is told, not used") {
  const auto [state, creep] = followed(
      {"ball, ball: A", "begin, ball: A",
       "row, row: 3, seen: [\"row 1 stitch 21 rust begins\", \"row 2 stitch 20 plum begins\", \"row 2 stitch 50 "
       "plum begins\"]"});
  // Plum begins at stitch 29 of row 2, to some 20 cm.
  CHECK(uses(creep) == "counted counted unfitting");
}

// 3 % of 90 m is 2.7 m, a whole repeat.
TEST_CASE("after a long way with nothing seen the repeats can't be counted any more") {
  const auto [state, creep] =
      followed({"ball, ball: A", "begin, ball: A",
                "row, row: 90, seen: [\"row 1 stitch 21 rust begins\", \"row 90 stitch 10 rust begins\"]"});
  CHECK(uses(creep) == "counted first");
  CHECK(std::abs(creep.creep.mean) < 1e-9);
}

TEST_CASE("a join whose shift isn't known loses the place, and the next change finds it") {
  std::vector<std::string> log{"ball, ball: A", "ball, ball: B", "begin, ball: A",
                               "row, row: 3, seen: [\"row 1 stitch 21 rust begins\"]", "join, ball: B"};
  log.emplace_back("row, row: 6, seen: [\"row 4 stitch 30 rust begins\", \"row 5 stitch 38 rust ends\"]");
  const auto [state, creep] = followed(log);
  CHECK(uses(creep) == "counted first counted");
}

TEST_CASE("without the stitch a change counts as somewhere in its row") {
  const auto [state, exact] =
      followed({"ball, ball: A", "begin, ball: A", "row, row: 3, seen: [\"row 1 stitch 21 rust begins\"]"});
  const auto [again, vague] =
      followed({"ball, ball: A", "begin, ball: A", "row, row: 3, seen: [\"row 1 rust begins\"]"});
  CHECK(uses(vague) == "counted");
  CHECK(vague.looser.sd > exact.looser.sd);
}

TEST_CASE("sightings count for nothing without the stitches of a row") {
  const Project project = project_of({"ball, ball: A", "begin, ball: A", "row, row: 3, seen: [\"row 2 rust begins\"]"},
                                     "piece: {yarn_per_stitch: 2 cm}\n");
  const State state = fold(project);
  const auto creep = follow(state, state.yarn.repeat, Start{kBegins, 0.25});
  REQUIRE(creep);
  CHECK(uses(*creep) == "no-place");
}

namespace {

// Plum 150 +- 9.5, rust 126 +- 8.06, a ball 2 %.
std::optional<Longer> longer(const std::string& text) {
  const Project project = project_of({"ball, ball: A"});
  Palette palette{project.yarn.repeat.colours(), false};
  const Reading reading = parse_reading(text, End::new_end, palette, {}, "reading");
  return longer_by(project.yarn, reading, Matcher(project.yarn).match(reading, {}), {});
}

}  // namespace

// By hand for one whole section of 134 cm where the yarn has 126: variance 8.06^2 + (0.5 + 1.34)^2 + 1/12 = 68.435;
// weights 1 / 0.02^2 = 2500 and 126^2 / 68.435 = 231.99; 126 * 8 / 68.435 / (2500 + 231.99) = 0.00539.
TEST_CASE("whole sections of a reading say how much longer a ball's repeat is") {
  const auto one = longer("plum 50, rust 134, plum 20");
  REQUIRE(one);
  CHECK(one->likely.mean == doctest::Approx(0.00539).epsilon(0.001));
  CHECK(one->likely.sd == doctest::Approx(1 / std::sqrt(2731.99)).epsilon(0.001));
  CHECK(one->as_read == doctest::Approx(8.0 / 126).epsilon(0.001));
  CHECK_FALSE(longer("plum 50, rust 60"));
  CHECK_FALSE(one->tells());
  const auto many = longer(
      "plum 50, rust 138, plum 164, rust 138, plum 164, rust 138, plum 164, rust 138, plum 164, rust 138, plum 164, "
      "rust 138, plum 164, rust 138, plum 164, rust 30");
  REQUIRE(many);
  CHECK(many->likely.mean > 0.05);
  CHECK(plain(many->likely));
  CHECK(many->tells());
}

// By hand as above, one section of 126 and a ball: for 146 cm 0.5 + 1.46 of tape, 68.89 / 126^2 + 0.02^2 = 0.0689^2,
// of which one reading in fifty shows more than 2.326 times: 0.1602, 20.2 cm; for 106, 67.48: 0.1586, just under 20.
TEST_CASE("a repeat that reads longer than balls differ is told as it was read") {
  struct Row {
    std::string rust;
    bool unusual;
  };
  for (const Row& row : {Row{"146", false}, {"147", true}, {"107", false}, {"105", true}, {"126", false}}) {
    CAPTURE(row.rust);
    const auto read = longer("plum 50, rust " + row.rust + ", plum 20");
    REQUIRE(read);
    CHECK(read->unusual == row.unusual);
    CHECK(read->tells() == row.unusual);
    CHECK(read->share() == doctest::Approx(row.unusual ? read->as_read : read->likely.mean).epsilon(1e-9));
  }
}
