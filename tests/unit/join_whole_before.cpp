#include <doctest/doctest.h>

#include <string>

#include "join_ends.hpp"

// With nothing but whole lengths: what reaches beyond the section, and what is said where the new strand shows too
// little of it.
namespace ballchange {
namespace {

TEST_CASE(
    "a section longer than was told is joined in at its end at most, and no cut is told where no tape explains it") {
  struct Row {
    std::string old_end;
    double into;  // where there is a cut
    bool questioned;
  };
  // 0.5 and 1 % of the whole length, twice: 2.7 above 84.
  const Row rows[] = {{"plum 84, fern", 79, false},
                      {"plum 86.5, fern", 81.5, false},
                      {"plum 87, fern", 0, true},
                      {"plum 90, fern", 0, true}};
  for (const Row& row : rows) {
    CAPTURE(row.old_end);
    const Advice advice = WholeAsked{{"plum 84"}}.with(row.old_end, "plum 20, oat");
    CHECK(advice.too_long.has_value() == row.questioned);
    if (row.questioned) {
      CHECK(advice.verdict == JoinVerdict::measure_more);
      CHECK(advice.joins.empty());
      CHECK(advice.too_long->end == End::old_end);
    } else {
      CHECK(close(advice.joins.front().into, row.into));
    }
  }
}

TEST_CASE("with less used than the overlap the cut lies in the section before, where the new strand shows it") {
  struct Row {
    std::string what, whole, old_end, new_end, colour;
    double distance, trim;
    std::size_t changes;
    double shift;
  };
  // Kept: whole + 10 - used, of which the whole is one section.
  const Row rows[] = {
      {"84 + 10 - 4", "plum 84", "plum 4, fern", "fern 20, plum 84, oat", "fern", 6, 14, 0, 0},
      {"20 + 10 - 8", "fern 20", "fern 8, plum", "plum 30, fern 20, oat", "plum", 2, 28, 0, 0},
      {"further along", "fern 20", "fern 8, plum", "teal 9, plum 30, fern 20, oat", "plum", 2, 9 + 28, 1, 0},
      {"not read to its end", "plum 84", "plum 4, fern", "fern 20, plum 30", "fern", 6, 14, 0, 0},
      {"all there is of it, and one skipped", "fern 20", "fern 7, plum", "plum 2, fern 20, oat", "plum", 2, 0, 0, 1},
      {"no colour before it known", "plum 84", "plum 4 |", "fern 20, plum 84, oat", "fern", 6, 14, 0, 0},
      {"one that came out short", "plum 84", "plum 4, fern", "fern 20, plum 81, oat", "fern", 9, 11, 0, 0},
      {"as much as was used fits in", "plum 84", "plum 10, fern", "fern 20, plum 84, oat", "plum", 84, 20, 1, 0},
  };
  for (const Row& row : rows) {
    CAPTURE(row.what);
    WholeAsked asked{{row.whole}};
    asked.wish.tolerance = 3_cm;
    const Advice advice = asked.with(row.old_end, row.new_end);
    const Join& join = advice.joins.front();
    REQUIRE(join.trim_new);
    CHECK(close(*join.trim_old, 0));
    CHECK(close(*join.trim_new, row.trim));
    CHECK(close(*join.discard, row.trim));
    CHECK(close(join.shift, row.shift));
    CHECK(join.new_mark.changes == row.changes);
    CHECK(join.new_mark.colour == row.colour);
    CHECK(join.new_mark.from == MarkFrom::end);
    CHECK(close(join.new_mark.distance, row.distance));
    CHECK(!has(advice, Remark::next_section));
  }
}

TEST_CASE("two like changes inside the overlap lie on each other") {
  const Join join = WholeAsked{{"plum 84"}}.with("plum 4, fern", "fern 20, plum 84, oat").joins.front();
  REQUIRE(join.dry_fit);
  CHECK(close(join.dry_fit->length, 0));
  CHECK(join.dry_fit->from_before == "fern");
  CHECK(join.dry_fit->to_before == "fern");
  CHECK(join.dry_fit->to_after == "plum");
  // A plum of 81 is not the whole told: its end shows by how much.
  const Join shorter = WholeAsked{{"plum 84"}}.with("plum 4, fern", "fern 20, plum 81, oat").joins.front();
  CHECK(close(shorter.dry_fit->length, 84));
  CHECK(shorter.dry_fit->to_before == "plum");
  CHECK(shorter.dry_fit->to_after == "oat");
}

TEST_CASE("with less used than the overlap and nothing seen before the section, the mark lies before the next one") {
  for (const std::string new_end : {"fern 20, oat", "plum 1, fern 20, oat", "teal 30, fern 20, oat", "oat 12, teal"}) {
    CAPTURE(new_end);
    WholeAsked asked{{"fern 20"}};
    asked.wish.tolerance = 1.5_cm;
    const Join join = asked.with("fern 8, plum", new_end).joins.front();
    CHECK(!join.new_mark.changes);
    CHECK(!join.trim_new);
    CHECK(join.new_mark.colour == "plum");
    CHECK(join.new_mark.next_colour == "fern");
    CHECK(close(join.new_mark.distance, 2));
    CHECK(close(join.dry_fit->length, 20));
    CHECK(join.dry_fit->to_before == "fern");
  }
  CHECK(WholeAsked{{"fern 20"}}.with("fern 8 |", "oat 12, teal").joins.front().new_mark.colour.empty());
}

TEST_CASE("why another section is used is told only as far as it is known") {
  WholeAsked asked{{"plum 84"}};
  CHECK(has(asked.with("plum 31, fern", "plum 20, oat"), Remark::next_section));
  CHECK(has(asked.with("plum 31, fern", "oat 12, fern 30"), Remark::not_seen_yet));
  // There is one, but how far from the loose end was not measured.
  const Advice unmeasured = asked.with("plum 31, fern", "oat 12, fern, plum 84");
  CHECK(!unmeasured.joins.front().new_mark.changes);
  CHECK(!has(unmeasured, Remark::next_section));
  CHECK(!has(unmeasured, Remark::not_seen_yet));
}

TEST_CASE("with less used than half the overlap the join lands at the section's start, not beyond it") {
  const Join join = WholeAsked{{"plum 84"}}.with("plum 3, fern", "oat 12, teal").joins.front();
  CHECK(close(join.into, 0));
  CHECK(join.new_mark.colour == "fern");
  CHECK(close(join.new_mark.distance, 7));
}

}  // namespace
}  // namespace ballchange
