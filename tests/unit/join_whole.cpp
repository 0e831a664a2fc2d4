#include <doctest/doctest.h>

#include <optional>
#include <string>
#include <vector>

#include "base/random.hpp"
#include "join_ends.hpp"

// With nothing but whole lengths of sections: used + kept - allowance = whole.
namespace ballchange {
namespace {

TEST_CASE("used on the old, and kept on the new, less the overlap, make a whole section") {
  struct Row {
    std::string what, old_end, new_end;
    double whole, allowance, tolerance;
    std::optional<double> trim_new;  // nothing: the next such section
    double kept, shift;
  };
  // s = used + left - allowance - whole, by hand. Tolerance 3: 1.5 of it is the join's own doubt.
  const Row rows[] = {
      {"s 18: trim it", "plum 51, fern", "plum 61, oat", 84, 10, 3, 18, 43, 0},
      {"s 0: nothing to cut", "plum 33, fern", "plum 61, oat", 84, 10, 3, 0, 61, 0},
      {"s -1: join and skip it", "plum 32, fern", "plum 61, oat", 84, 10, 3, 0, 61, 1},
      {"s -1.5: the most that may be skipped", "plum 31.5, fern", "plum 61, oat", 84, 10, 3, 0, 61, 1.5},
      {"s -1.6: the next one", "plum 31.4, fern", "plum 61, oat", 84, 10, 3, {}, 62.6, 0},
      {"s -1 with no tolerance: the next one", "plum 32, fern", "plum 61, oat", 84, 10, 0, {}, 62, 0},
      {"s -2: the next one", "plum 31, fern", "plum 61, oat", 84, 10, 3, {}, 63, 0},
      {"a felted overlap", "plum 31, fern", "plum 61, oat", 84, 8, 3, 0, 61, 0},
      {"woven ends", "plum 51, fern", "plum 61, oat", 84, 25, 3, 3, 58, 0},
      {"nearly all used", "plum 80, fern", "plum 61, oat", 84, 10, 3, 47, 14, 0},
      {"hardly begun", "plum 12, fern", "plum 84, oat", 84, 10, 3, 2, 82, 0},
      {"the new ball shows another colour", "plum 31, fern", "oat 12, teal", 84, 10, 3, {}, 63, 0},
      {"a whole one further on the new ball", "plum 31, fern", "oat 12, plum 84, teal", 84, 10, 3, 12 + 21, 63, 0},
      {"one further on that came out long", "plum 31, fern", "oat 12, plum 88, teal", 84, 10, 3, 12 + 25, 63, 0},
      {"one further on, not read to its end", "plum 31, fern", "oat 12, plum 20", 84, 10, 3, 12 + 21, 63, 0},
      {"one further on, its length left out", "plum 31, fern", "oat 12, plum, teal", 84, 10, 3, 12 + 21, 63, 0},
      {"too little here, another further on", "plum 31, fern", "plum 20, oat 12, plum 84, teal", 84, 10, 3,
       20 + 12 + 21, 63, 0},
      {"what lies before it was not measured", "plum 31, fern", "plum 20, oat, plum 84", 84, 10, 3, {}, 63, 0},
      {"a bar at the new end: a whole one", "plum 31, fern", "| plum, oat", 84, 10, 3, 21, 63, 0},
  };
  for (const Row& row : rows) {
    CAPTURE(row.what);
    WholeAsked asked{{"plum " + std::to_string(row.whole)}};
    asked.wish.allowance = Length::cm(row.allowance);
    asked.wish.tolerance = Length::cm(row.tolerance);
    const Advice advice = asked.with(row.old_end, row.new_end);
    REQUIRE(advice.verdict == JoinVerdict::cut);
    REQUIRE(advice.joins.size() == 1);
    const Join& join = advice.joins.front();
    CHECK(join.colour == "plum");
    CHECK(close(*join.trim_old, 0));
    CHECK(join.old_mark.changes == 0U);
    CHECK(join.old_mark.from == MarkFrom::start);
    CHECK(join.old_mark.next_colour == "fern");
    CHECK(join.new_mark.from == MarkFrom::end);
    CHECK(join.new_mark.colour == "plum");
    CHECK(close(join.new_mark.distance, row.kept));
    CHECK(join.new_mark.changes.has_value() == row.trim_new.has_value());
    CHECK(join.trim_new.has_value() == row.trim_new.has_value());
    CHECK(join.discard.has_value() == row.trim_new.has_value());
    const bool none_seen = row.new_end == "oat 12, teal";
    CHECK(has(advice, Remark::next_section) == (!row.trim_new && !none_seen));
    CHECK(has(advice, Remark::not_seen_yet) == none_seen);
    if (row.trim_new) CHECK(close(*join.trim_new, *row.trim_new));
    CHECK(close(join.shift, row.shift));
    // The rule itself.
    CHECK(close(join.old_mark.distance + join.new_mark.distance - join.allowance, row.whole - row.shift));
    REQUIRE(join.dry_fit);
    CHECK(close(join.dry_fit->length, row.whole - row.shift));
  }
}

TEST_CASE("the sum holds for any three numbers, and less is kept the more was used") {
  constexpr std::uint64_t seed = 81;
  Random random(seed);
  for (int n = 0; n < 300; ++n) {
    const int whole = 40 + static_cast<int>(random.below(80));
    const int left = 5 + static_cast<int>(random.below(static_cast<std::uint64_t>(whole - 4)));
    const int allowance = 5 + static_cast<int>(random.below(11));
    double last = 1e9;
    for (int used = 5; used <= whole; used += 5) {
      CAPTURE(seed);
      CAPTURE(n);
      CAPTURE(whole);
      CAPTURE(left);
      CAPTURE(allowance);
      CAPTURE(used);
      WholeAsked asked{{"plum " + std::to_string(whole)}};
      asked.wish.allowance = Length::cm(allowance);
      const Join join =
          asked.with("plum " + std::to_string(used) + ", fern", "plum " + std::to_string(left) + ", oat").joins.front();
      // A mark before the section keeps all of it and that much more.
      const bool before = join.new_mark.colour != join.colour;
      const Length kept = join.new_mark.distance + (before ? Length::cm(whole) : Length());
      CHECK(close(join.old_mark.distance + kept - join.allowance + join.shift, whole));
      CHECK(join.shift >= Length());
      CHECK(join.shift <= 1.5_cm);
      if (join.trim_new) {
        CHECK(*join.trim_new >= Length());
        CHECK(close(*join.trim_new + join.new_mark.distance, left));
      }
      CHECK(join.old_mark.distance == Length::cm(used));
      // Nothing but a skip within the tolerance lets a little less be kept than the rule says.
      CHECK(kept.cm() < last);
      last = kept.cm();
    }
  }
}

TEST_CASE("several whole lengths: the section that costs least is joined in") {
  WholeAsked asked{{"plum 84", "oat 60"}};
  // In plum: 31 + 20 - 10 - 84 is too little here. In oat: 60 + 60 - 10 - 60 = 50, and both pieces of plum come off.
  const Advice in_oat = asked.with("plum 31, oat 60, fern", "plum 20, oat 60, teal");
  REQUIRE(in_oat.verdict == JoinVerdict::cut);
  CHECK(in_oat.joins.front().colour == "oat");
  CHECK(close(*in_oat.joins.front().discard, 31 + 20 + 50));
  CHECK(close(in_oat.joins.front().dry_fit->length, 60));
  // With enough plum left that costs least.
  const Advice in_plum = asked.with("plum 51, oat 60, fern", "plum 61, oat 60, teal");
  CHECK(in_plum.joins.front().colour == "plum");
  CHECK(close(*in_plum.joins.front().discard, 18));
  // A further colour needs a whole length only where it helps.
  CHECK(asked.with("plum 51, fern", "plum 61, teal").verdict == JoinVerdict::cut);
}

TEST_CASE("an old end whose colour's whole length is not told is asked for") {
  WholeAsked asked{{"plum 84"}};
  try {
    (void)asked.with("oat 5, plum 84, fern", "plum 61, oat");
    FAIL("not refused");
  } catch (const Lacking& lacking) {
    CHECK(lacking.fault() == Fault::content);
    CHECK(lacking.fact() == Lacking::Fact::whole_length);
    CHECK(lacking.colour() == "oat");
    CHECK(std::string(lacking.what()) == "the old strand ends in oat: tell how long a whole section of it is");
  }
}

TEST_CASE("the first length is asked for where it is missing") {
  struct Row {
    std::string old_end, new_end;
    std::optional<End> asked;
  };
  const Row rows[] = {
      {"plum, fern", "plum 61, oat", End::old_end}, {"plum 31, fern", "plum, oat", End::new_end},
      {"plum, fern", "plum, oat", End::old_end},    {"| plum, fern", "plum 61, oat", {}},
      {"plum 51, fern", "| plum, oat", {}},         {"plum 51, fern", "plum 61, oat", {}},
  };
  for (const Row& row : rows) {
    CAPTURE(row.old_end);
    CAPTURE(row.new_end);
    const Advice advice = WholeAsked{{"plum 84"}}.with(row.old_end, row.new_end);
    CHECK((advice.verdict == JoinVerdict::measure_more) == row.asked.has_value());
    CHECK(advice.ask_first_length == row.asked);
    CHECK(advice.joins.empty() == row.asked.has_value());
  }
}

TEST_CASE("a strand that shows no change is asked for the colour that ends its first stretch") {
  // 31 is only how far somebody measured: how much of the section is used is not known.
  for (const std::string old_end : {"plum 31", "plum 31+", "plum 20, hook, plum 5st"}) {
    CAPTURE(old_end);
    WholeAsked asked{{"plum 84"}};
    asked.fabric.yarn_per_stitch = 2_cm;
    const Advice advice = asked.with(old_end, "plum 63, oat");
    CHECK(advice.verdict == JoinVerdict::measure_more);
    CHECK(advice.ask_next_colour == End::old_end);
    CHECK(!advice.ask_first_length);
  }
  // Nor is it known then how much is left on the new one.
  for (const std::string new_end : {"plum 20", "plum 61", "plum 61+"}) {
    CAPTURE(new_end);
    CHECK(WholeAsked{{"plum 84"}}.with("plum 51, fern", new_end).ask_next_colour == End::new_end);
  }
  CHECK(WholeAsked{{"plum 84"}}.with("plum", "plum 63, oat").ask_first_length == End::old_end);
  CHECK(WholeAsked{{"plum 84"}}.with("plum 31 |", "plum 70, oat").verdict == JoinVerdict::cut);
  // A bar at the loose end says that it is a whole one, however far it was measured.
  const Advice whole_new = WholeAsked{{"plum 84"}}.with("plum 51, fern", "| plum 20");
  CHECK(close(*whole_new.joins.front().trim_new, 84 - 43));
  const Advice whole_old = WholeAsked{{"plum 84"}}.with("| plum 20", "oat 4, teal");
  CHECK(close(whole_old.joins.front().new_mark.distance, 10));
}

TEST_CASE("more used than a whole section and the overlap together comes off the old end") {
  WholeAsked asked{{"plum 84"}};
  asked.wish.allowance = 1_cm;
  // 86 used of a section that came out a little long; none of it is needed from the new ball.
  const Join join = asked.with("plum 86, fern", "oat 12, teal").joins.front();
  CHECK(close(*join.trim_old, 1));
  CHECK(close(join.old_mark.distance, 85));
  CHECK(close(join.new_mark.distance, 0));
  CHECK(close(join.dry_fit->length, 84));
}

TEST_CASE("with the hook told: row and stitch, and how much to ravel back") {
  WholeAsked asked{{"plum 84"}};
  asked.fabric = {Working::rows, 2_cm, 1_cm, 40};
  asked.hook = RowStitch{12, 5};
  const Advice advice = asked.with("plum 51, hook, fern 3st", "plum 61, oat");
  REQUIRE(advice.verdict == JoinVerdict::cut);
  const Join& join = advice.joins.front();
  CHECK(close(*join.to_join, 46));
  REQUIRE(join.lands);
  CHECK(join.lands->row == 12);
  CHECK(join.lands->stitch == 5 + 23);
  CHECK(join.afterwards == 42);
  CHECK(!has(advice, Remark::not_enough_room));
  CHECK(!has(advice, Remark::loose_unknown));
  const Advice tight = asked.with("plum 20, hook, plum 16st, fern 3st", "plum 61, oat");
  CHECK(has(tight, Remark::not_enough_room));
  CHECK(close(tight.ravel_back, 5));
}

TEST_CASE("the old end keeps its room: what lies too near the hook is not cut away") {
  WholeAsked asked{{"plum 84", "oat 60"}};
  asked.fabric.yarn_per_stitch = 2_cm;
  // As in the oat above, but 31 of plum and the room before the hook are all that hangs loose.
  const Advice advice = asked.with("plum 31, hook, oat 30st, fern", "plum 20, oat 60, teal");
  REQUIRE(advice.verdict == JoinVerdict::cut);
  CHECK(advice.joins.front().colour == "plum");
  CHECK(*advice.joins.front().trim_old == Length());
}

TEST_CASE("a knot inside one section is left where used and left make a whole one") {
  struct Row {
    std::string what, old_end, new_end;
    bool leave;
    double shift;
  };
  // whole 84, tolerance 3, of which a join's own doubt takes 1.5.
  const Row rows[] = {
      {"exactly", "plum 31, fern", "plum 53, oat", true, 0},
      {"1.5 missing", "plum 31, fern", "plum 51.5, oat", true, 1.5},
      {"1.5 too many", "plum 31, fern", "plum 54.5, oat", true, -1.5},
      {"1.6 missing", "plum 31, fern", "plum 51.4, oat", false, 0},
      {"another colour", "plum 31, fern", "oat 53, plum", false, 0},
      {"the new strand begins at a change", "plum 31, fern", "| plum 53", false, 0},
  };
  for (const Row& row : rows) {
    CAPTURE(row.what);
    WholeAsked asked{{"plum 84"}};
    asked.wish.tolerance = 3_cm;
    asked.wish.knot = true;
    const Advice advice = asked.with(row.old_end, row.new_end);
    REQUIRE(advice.verdict == JoinVerdict::cut);
    REQUIRE(advice.joins.size() == 1);
    const Join& join = advice.joins.front();
    CHECK(join.leave_knot == row.leave);
    if (!row.leave) continue;
    CHECK(close(join.shift, row.shift));
    CHECK(close(*join.discard, 0));
    CHECK(close(join.allowance, 0));
    asked.wish.knot = false;
    CHECK(!asked.with(row.old_end, row.new_end).joins.front().leave_knot);
  }
}

TEST_CASE("with whole lengths too the shift in the work counts where all joins are judged together") {
  struct Row {
    std::string what;
    double out_of_step;
    bool from_the_start, sparing;
    double trim, shift, running;
  };
  // In step: 51 + 61 - 10 - 84 = 18 comes off. Tolerance 3.7, less 1.5.
  const Row rows[] = {
      {"each join by itself", 2, false, false, 18, 0, 2},
      {"skipped before: repeat it", 2, true, false, 16, -2, 0},
      {"repeated before: skip it", -2, true, false, 20, 2, 0},
      {"more than one join may put right", 5, true, false, 15.8, -2.2, 2.8},
      {"sparing", 0, false, true, 15.8, -2.2, -2.2},
      {"sparing, repeated before", -1, true, true, 16.8, -1.2, -2.2},
  };
  for (const Row& row : rows) {
    CAPTURE(row.what);
    WholeAsked asked{{"plum 84"}};
    asked.wish.tolerance = 3.7_cm;
    asked.wish.out_of_step = Length::cm(row.out_of_step);
    asked.wish.from_the_start = row.from_the_start;
    asked.wish.sparing = row.sparing;
    const Join join = asked.with("plum 51, fern", "plum 61, oat").joins.front();
    CHECK(close(*join.discard, row.trim));
    CHECK(close(join.shift, row.shift));
    CHECK(close(join.running_shift, row.running));
    CHECK(close(join.dry_fit->length, 84 - row.shift));
  }
}

TEST_CASE("too little left for the usual overlap: a shorter one that fits is offered") {
  WholeAsked asked{{"plum 84"}};
  asked.wish.tolerance = 3_cm;
  // 31 + 61 - 84 = 8 for the overlap, where 10 is usual.
  const Advice advice = asked.with("plum 31, fern", "plum 61, oat");
  CHECK(has(advice, Remark::next_section));
  REQUIRE(!advice.alternatives.empty());
  const Alternative& shorter = advice.alternatives.front();
  CHECK(shorter.method == Method::threaded);
  CHECK(close(shorter.allowance, 8));
  CHECK(close(shorter.discard, 0));
  CHECK(close(shorter.shift, 0));
  // With only 2 for it, 5 are the least, and 3 are skipped: all of the tolerance.
  const Advice skipped = asked.with("plum 31, fern", "plum 55, oat");
  REQUIRE(!skipped.alternatives.empty());
  CHECK(close(skipped.alternatives.front().allowance, 5));
  CHECK(close(skipped.alternatives.front().shift, 3));
  // With 1 for it that would be too much.
  for (const Alternative& other : asked.with("plum 31, fern", "plum 54, oat").alternatives) {
    CHECK(other.method != Method::threaded);
  }
}

TEST_CASE("the whole length alone says the same as the profile it is in") {
  // Rust is 80 long: 30 used, 65 left.
  const Join by_profile = Asked().with("rust 30, sand 11, plum", "rust 65, moss 14, navy").joins.front();
  WholeAsked asked{{"rust 80"}};
  const Join by_whole = asked.with("rust 30, sand 11, plum", "rust 65, moss 14, navy").joins.front();
  CHECK(close(*by_whole.trim_old, by_profile.trim_old->cm()));
  CHECK(close(*by_whole.trim_new, by_profile.trim_new->cm()));
  CHECK(close(by_whole.new_mark.distance, by_profile.new_mark.distance.cm()));
  CHECK(by_whole.new_mark.next_colour == by_profile.new_mark.next_colour);
  CHECK(by_whole.old_mark.next_colour == by_profile.old_mark.next_colour);
  CHECK(close(by_whole.dry_fit->length, by_profile.dry_fit->length.cm()));
  CHECK(close(by_whole.into, by_profile.into.cm()));
}

TEST_CASE("a stated felted join is taken on the crafter's word, and none is offered otherwise") {
  WholeAsked asked{{"plum 84"}};
  asked.wish.method = Method::felted;
  CHECK(asked.with("plum 31, fern", "plum 61, oat").verdict == JoinVerdict::cut);
  asked.wish.method.reset();
  for (const Alternative& other : asked.with("plum 31, fern", "plum 61, oat").alternatives) {
    CHECK(other.method != Method::felted);
  }
}

TEST_CASE("a neighbour on the wrong side is asked about, and colours that go on alike turn the ball") {
  struct Row {
    std::string old_end, new_end;
    JoinVerdict verdict;
  };
  const Row rows[] = {
      {"plum 31, fern", "plum 73, oat", JoinVerdict::cut},
      {"plum 31, fern", "plum 73, fern", JoinVerdict::measure_more},
      {"plum 31, fern", "oat 20, plum 84, fern", JoinVerdict::measure_more},
      {"plum 31, fern, teal", "plum 73, fern", JoinVerdict::measure_more},
      {"plum 31, fern, teal", "plum 73, fern, oat", JoinVerdict::cut},
      {"plum 31, fern, oat", "plum 73, fern, oat", JoinVerdict::turn_ball},
      {"plum 31, fern, oat", "oat 5, plum 84, fern, oat", JoinVerdict::turn_ball},
      {"plum 31, fern", "fern 5, plum 84, fern", JoinVerdict::cut},
      {"plum 31 |", "plum 73, fern", JoinVerdict::cut},
  };
  for (const Row& row : rows) {
    CAPTURE(row.old_end);
    CAPTURE(row.new_end);
    WholeAsked asked{{"plum 84"}};
    CHECK(asked.with(row.old_end, row.new_end).verdict == row.verdict);
    asked.wish.either_way = true;
    CHECK(asked.with(row.old_end, row.new_end).verdict == JoinVerdict::cut);
  }
}

}  // namespace
}  // namespace ballchange
