#include <doctest/doctest.h>

#include "join_ends.hpp"

// Where to cut and what the join will be, end to end from two written readings. Lengths in cm.
namespace ballchange {
namespace {

const char* const old_text = "rust 30, sand 11, plum";
const char* const new_text = "plum 15, sand 11, rust 30";

Asked felted() {
  Asked asked;
  asked.fabric.yarn_per_stitch = 1.85_cm;
  asked.wish.method = Method::felted;
  asked.wish.allowance = 8_cm;
  return asked;
}

TEST_CASE("every number of the manual's example") {
  const Advice advice = felted().with(old_text, new_text);
  REQUIRE(advice.verdict == JoinVerdict::cut);
  CHECK(close(advice.tolerance, 3.7));
  CHECK(close(advice.allowance, 8));
  CHECK(advice.sureness > 0.98);
  REQUIRE(!advice.joins.empty());
  const Join& join = advice.joins.front();
  CHECK(close(*join.trim_old, 0));
  CHECK(close(*join.trim_new, 48));
  CHECK(close(*join.discard, 48));
  CHECK(close(join.shift, 0));
  CHECK(close(join.running_shift, 0));
  CHECK(join.colour == "rust");
  CHECK(close(join.into, 26));
  CHECK(join.old_mark.changes == 0U);
  CHECK(join.old_mark.colour == "rust");
  CHECK(join.old_mark.from == MarkFrom::start);
  CHECK(close(join.old_mark.distance, 30));
  CHECK(join.old_mark.next_colour == "sand");
  CHECK(join.new_mark.changes == 2U);
  CHECK(join.new_mark.colour == "rust");
  CHECK(join.new_mark.from == MarkFrom::end);
  CHECK(close(join.new_mark.distance, 58));
  CHECK(join.new_mark.next_colour == "moss");
  CHECK(!join.new_mark.seen);  // the reading stops before moss: pull out until it shows
  REQUIRE(join.dry_fit);
  CHECK(join.dry_fit->from_before == "sand");
  CHECK(join.dry_fit->from_after == "rust");
  CHECK(join.dry_fit->to_before == "rust");
  CHECK(join.dry_fit->to_after == "moss");
  CHECK(close(join.dry_fit->length, 80));
  CHECK(join.afterwards == 43);
}

TEST_CASE("the place in the colour counts, not only the colour: common practice, no source") {
  // The same colours at both ends every time; what comes off follows how far into rust both loose ends lie.
  for (int used = 20; used <= 60; used += 10) {
    CAPTURE(used);
    const std::string old_end = "rust " + std::to_string(used) + ", sand 11, plum";
    const Advice advice = felted().with(old_end, "rust 65, moss 14, navy");
    REQUIRE(advice.verdict == JoinVerdict::cut);
    // p_e = 103 + used, p_s = 118: what leaves the work is used - 15, trims and overlap together.
    const double expected = used - 15 - 8 < -2.2 ? used - 23 + 276 : std::max(0, used - 23);
    CHECK(close(*advice.joins.front().discard, expected));
    CHECK(std::abs((*advice.joins.front().trim_old + *advice.joins.front().trim_new).cm() -
                   advice.joins.front().discard->cm()) < 1e-9);
  }
}

TEST_CASE("a new end is told from its section's end, beyond the reading and within it") {
  struct Row {
    std::string what;
    std::string old_end;
    const char* new_end;
    std::size_t changes;
    const char* colour;
    double distance;
    const char* next;
    bool seen;
    double trim;
  };
  // p_e = 133 except where told otherwise; kept of rust: 80 + 8 - 30 = 58.
  const Row rows[] = {
      {"open, not read to its end", old_text, "plum 15, sand 11, rust 30", 2, "rust", 58, "moss", false, 48},
      {"read whole, as long as usual", old_text, "plum 15, sand 11, rust 80, moss", 2, "rust", 58, "moss", true, 48},
      {"read whole, 4 longer than usual: 4 more to cut off", old_text, "plum 15, sand 11, rust 84, moss 14, navy", 2,
       "rust", 58, "moss", true, 52},
      {"read whole, 4 shorter", old_text, "plum 15, sand 11, rust 76, moss 14, navy", 2, "rust", 58, "moss", true, 44},
      {"what is passed is as long as it was read", old_text, "plum 15, sand 13, rust 80, moss", 2, "rust", 58, "moss",
       true, 50},
      {"a length left out counts as usual", old_text, "plum 15, sand, rust 80, moss", 2, "rust", 58, "moss", true, 48},
      {"at a change: a bar at the loose end", old_text, "| sand 11, rust 80, moss", 1, "rust", 58, "moss", true, 33},
      {"the whole section under a bar", old_text, "plum 15, sand 11, rust 80 |", 2, "rust", 58, "moss", true, 48},
      {"further than anything read", old_text, "grey 4, plum 92, sand 11", 3, "rust", 58, "moss", false, 129},
  };
  for (const Row& row : rows) {
    CAPTURE(row.what);
    const Advice advice = felted().with(row.old_end, row.new_end);
    REQUIRE(advice.verdict == JoinVerdict::cut);
    const Mark& mark = advice.joins.front().new_mark;
    CHECK(mark.from == MarkFrom::end);
    CHECK(mark.changes == row.changes);
    CHECK(mark.colour == row.colour);
    CHECK(close(mark.distance, row.distance));
    CHECK(mark.next_colour == row.next);
    CHECK(mark.seen == row.seen);
    CHECK(close(*advice.joins.front().trim_new, row.trim));
  }
}

TEST_CASE("an entry with an overlooked splash is told from the change that was seen") {
  // Grey, 9 cm, was passed over: navy 70 + grey 9 + plum are read as navy, then plum. Only up to 5 cm is that easy.
  Yarn yarn = orchard();
  std::vector<Section> sections = yarn.repeat.sections();
  sections[5].length = 4_cm;
  sections[5].plus_minus = 0.5_cm;
  yarn.repeat = Repeat(yarn.repeat.colours(), sections);
  Asked asked = felted();
  asked.yarn = yarn;
  const Advice advice = asked.with("plum 40, navy 74, moss 14, rust", "moss 8, navy 74, plum 30");
  REQUIRE(advice.verdict == JoinVerdict::cut);
  // kept of plum: 92 + 8 - 40 = 60, so 32 of it comes off.
  const Join& join = advice.joins.front();
  CHECK(join.new_mark.changes == 2U);
  CHECK(join.new_mark.colour == "plum");
  CHECK(close(join.new_mark.distance, 60));
  CHECK(close(*join.trim_new, 8 + 74 + 32));
  CHECK(close(join.old_mark.distance, 40));
  CHECK(join.old_mark.next_colour == "navy");  // as the strand was read
  CHECK(close(join.dry_fit->length, 92));
  for (const Join& other : advice.joins) {
    CAPTURE(other.colour);
    CAPTURE(other.trim_old->cm());
    // A cut in what was read as navy is told from the change after the splash, not from the splash.
    if (other.new_mark.colour == "navy") CHECK(other.new_mark.next_colour == "plum");
  }
}

TEST_CASE("a cut of the old end whose section starts in the work is told from the loose end") {
  struct Row {
    std::string what;
    std::string old_end;
    std::size_t changes;
    MarkFrom from;
    double distance;
    double trim;
  };
  // Plum is nearly used up, so that the overlap is clear of its end only when 9.5 comes off: 92 - 12 = 80 is kept. Told
  // from both changes the marks are best when both are short: 50 each.
  const Row rows[] = {
      {"start on the loose yarn", "plum 89.5, grey 9, navy", 0, MarkFrom::start, 50, 39.5},
      {"start right at the hook", "plum 89.5, hook, grey 5st, navy", 0, MarkFrom::start, 50, 39.5},
      {"start already worked", "plum 69.5, hook, plum 10st, grey 4st", 0, MarkFrom::loose_end, 9.5, 9.5},
      {"the same, counted in stitches", "plum 69.5, plum 10st, grey 4st", 0, MarkFrom::loose_end, 9.5, 9.5},
  };
  for (const Row& row : rows) {
    CAPTURE(row.what);
    Asked asked = felted();
    asked.fabric.yarn_per_stitch = 2_cm;
    const Advice advice = asked.with(row.old_end, "grey 4, plum 92, sand 11, rust");
    REQUIRE(advice.verdict == JoinVerdict::cut);
    const Join& join = advice.joins.front();
    CHECK(join.whole_overlap_inside);
    CHECK(close(*join.trim_old, row.trim));
    CHECK(join.old_mark.colour == "plum");
    CHECK(join.old_mark.changes == row.changes);
    CHECK(join.old_mark.from == row.from);
    CHECK(close(join.old_mark.distance, row.distance));
  }
}

TEST_CASE("an old end left uncut needs no mark: dry fit and stitches are told though its section starts in the work") {
  Asked asked = felted();
  const Advice advice = asked.with("rust 20, hook, rust 6st, sand 6st", new_text);
  REQUIRE(advice.verdict == JoinVerdict::cut);
  const Join& join = advice.joins.front();
  CHECK(close(*join.trim_old, 0));
  CHECK(join.old_mark.from == MarkFrom::start);
  CHECK(close(join.old_mark.distance, 20 + 6 * 1.85));
  REQUIRE(join.dry_fit);
  CHECK(close(join.dry_fit->length, 80));
  CHECK(join.afterwards == 43);
}

TEST_CASE("an old strand that shows no change before its cut is cut by its loose end") {
  Asked asked = felted();
  asked.wish.edge = Edge::any;
  const Advice advice = asked.with("| plum 80", "grey 4, plum 92, sand 11, rust");
  REQUIRE(advice.verdict == JoinVerdict::cut);
  const Join& join = advice.joins.front();
  CHECK(join.old_mark.from == MarkFrom::loose_end);
  CHECK(join.old_mark.changes == 0U);
  CHECK(close(*join.trim_old, 12));
  CHECK(close(join.old_mark.distance, 12));
  CHECK(join.old_mark.next_colour.empty());
  CHECK(!join.dry_fit);
  CHECK(has(advice, Remark::cut_not_markable));
}

TEST_CASE("where the join lies from the hook") {
  struct Row {
    std::string old_end;
    std::optional<double> loose;
  };
  const Row rows[] = {
      {"rust 30, sand 11, plum", {}},
      {"rust 30, sand 11, hook, plum 14st", 41},
      {"rust 30, hook, sand 6st, plum 14st", 30},
      {"rust 30, sand 11, plum 5, hook", 46},
      {"rust 30, sand 6st, plum 14st", 30},
  };
  for (const Row& row : rows) {
    CAPTURE(row.old_end);
    Asked asked = felted();
    asked.fabric.stitches = 60;
    asked.hook = RowStitch{118, 10};
    const Advice advice = asked.with(row.old_end, new_text);
    REQUIRE(advice.verdict == JoinVerdict::cut);
    const Join& join = advice.joins.front();
    CHECK(has(advice, Remark::loose_unknown) == !row.loose);
    REQUIRE(join.to_join.has_value() == row.loose.has_value());
    REQUIRE(join.lands.has_value() == row.loose.has_value());
    if (!row.loose) continue;
    CHECK(close(*join.to_join, *row.loose - 4));
    CHECK(join.lands->row == 118);
    CHECK(join.lands->stitch == 10 + std::lround((*row.loose - 4) / 1.85));
    CHECK(join.give_or_take >= 1);
  }
}

TEST_CASE("too little loose yarn is remarked on, with how much to ravel back") {
  Asked asked = felted();
  const Advice advice = asked.with("rust 20, hook, rust 6st, sand 6st", new_text);
  CHECK(has(advice, Remark::not_enough_room));
  CHECK(close(advice.ravel_back, 15 + 8 - 20));
  asked.wish.room = 10_cm;
  CHECK(!has(asked.with("rust 20, hook, rust 6st, sand 6st", new_text), Remark::not_enough_room));
}

}  // namespace
}  // namespace ballchange
