#include "join/alternatives.hpp"

#include <doctest/doctest.h>

#include "join_ends.hpp"

// Yarn that a join costs: other lengths and methods that save much of it, and what is usual in the craft.
namespace ballchange {
namespace {

TEST_CASE("what saves a whole repeat is offered, the same method first") {
  struct Row {
    std::string what, new_end;
    Method method;
    double allowance;  // told
    std::vector<Alternative> expected;
  };
  // The old end is 30 into rust; the new one so much before that: what leaves the work is that gap.
  const Row rows[] = {
      {"a gap of 7: a shorter overlap, and felting",
       "rust 57, moss 14, navy",
       Method::threaded,
       10,
       {{Method::threaded, 7_cm, 0_cm, 0_cm}, {Method::felted, 7_cm, 0_cm, 0_cm}}},
      {"a gap of 20: no join takes so much and cuts nothing, but none costs a repeat",
       "rust 70, moss 14, navy",
       Method::threaded,
       10,
       {}},
      {"a gap of 22 and woven ends of 25: a shorter one, and all others",
       "rust 72, moss 14, navy",
       Method::woven,
       25,
       {{Method::woven, 22_cm, 0_cm, 0_cm},
        {Method::felted, 8_cm, 14_cm, 0_cm},
        {Method::threaded, 10_cm, 12_cm, 0_cm},
        {Method::knotted, 20_cm, 2_cm, 0_cm}}},
      {"a gap of 3: felting; a threaded join of 5 that skips 2",
       "rust 53, moss 14, navy",
       Method::threaded,
       10,
       {{Method::threaded, 5_cm, 0_cm, 2_cm}, {Method::felted, 3_cm, 0_cm, 0_cm}}},
      {"the whole tolerance: 3.5 to skip, of 3.7",
       "rust 51.5, moss 14, navy",
       Method::threaded,
       10,
       {{Method::threaded, 5_cm, 0_cm, 3.5_cm}, {Method::felted, 2.5_cm, 0_cm, 1_cm}}},
      {"all of the 3.7, which rounding must not take away",
       "rust 51.3, moss 14, navy",
       Method::threaded,
       10,
       {{Method::threaded, 5_cm, 0_cm, 3.7_cm}, {Method::felted, 2.5_cm, 0_cm, 1.2_cm}}},
      {"3.8 to skip is more than that: felting only",
       "rust 51.2, moss 14, navy",
       Method::threaded,
       10,
       {{Method::felted, 2.5_cm, 0_cm, 1.3_cm}}},
  };
  for (const Row& row : rows) {
    CAPTURE(row.what);
    Asked asked;
    asked.fabric.yarn_per_stitch = 1.85_cm;
    asked.wish.method = row.method;
    asked.wish.allowance = Length::cm(row.allowance);
    const Advice advice = asked.with("rust 30, sand 11, plum", row.new_end);
    REQUIRE(advice.verdict == JoinVerdict::cut);
    const Join& best = advice.joins.front();
    CHECK(close(best.allowance, row.allowance));  // the joins keep what was told
    std::vector<Alternative> told = advice.alternatives;
    std::erase_if(told, [](const Alternative& other) { return other.method == Method::doubled; });
    REQUIRE(told.size() == row.expected.size());
    for (std::size_t i = 0; i < told.size(); ++i) {
      CAPTURE(i);
      CHECK(told[i].method == row.expected[i].method);
      CHECK(close(told[i].allowance, row.expected[i].allowance.cm()));
      CHECK(close(told[i].discard, row.expected[i].discard.cm()));
      CHECK(close(told[i].shift, row.expected[i].shift.cm()));
    }
  }
}

TEST_CASE("an alternative saves at least 20 cm, within its method's range and the tolerance") {
  std::size_t offered = 0;
  for (const MethodRow& row : methods()) {
    const Method method = row.method;
    for (int gap = 0; gap < 276; ++gap) {
      CAPTURE(gap);
      CAPTURE(row.name);
      Asked asked;
      asked.fabric.yarn_per_stitch = 1.85_cm;
      asked.wish.method = method;
      const Strand old_end = exact_end(asked.yarn, End::old_end, 133_cm, 4);
      const Strand new_end = exact_end(asked.yarn, End::new_end, wrap(Length::cm(133 - gap), 276_cm), 8);
      const Advice advice = advise(asked.yarn, old_end, new_end, asked.fabric, std::nullopt, asked.wish);
      const Length now = *advice.joins.front().discard + advice.joins.front().allowance;
      for (std::size_t i = 0; i < advice.alternatives.size(); ++i) {
        const Alternative& other = advice.alternatives[i];
        ++offered;
        const auto range = allowance_range(other.method, Reckoning::centimetres, 1.85_cm);
        CHECK(other.allowance >= range->low);
        CHECK(other.allowance <= range->high);
        CHECK(now - other.discard - other.allowance >= 20_cm - 1e-9_cm);
        CHECK(abs(other.shift) <= 3.7_cm + 1e-9_cm);
        if (other.method == method) CHECK(i == 0);
        // In truth a whole repeat, or nothing: the sum is fixed by the two ends.
        const Length lost = other.discard + other.allowance - other.shift;
        CHECK(close(wrap(lost - Length::cm(gap) + 1_cm, 276_cm), 1, 1e-6));
      }
    }
  }
  CHECK(offered > 50);
}

TEST_CASE("a saving of 20 cm counts as 20 whatever rounding made of it") {
  const auto offered = [](double now, double left_behind) {
    const joining::Offers offers{Reckoning::centimetres, {}, false, 20_cm, Length::cm(now), {}};
    const auto price = [&](Method method, Length allowance) -> std::optional<Alternative> {
      if (method != Method::woven || allowance != 20_cm) return std::nullopt;
      return Alternative{method, allowance, Length::cm(left_behind) - allowance, Length()};
    };
    return joining::alternatives(offers, Method::threaded, 10_cm, price).size() == 1;
  };
  const double nearly_three_tenths = 0.1 + 0.2;
  REQUIRE(40.3 - (20 + nearly_three_tenths) < 20);
  CHECK(offered(40.3, 20 + nearly_three_tenths));
  CHECK(offered(40, 20));
  CHECK(!offered(39.99, 20));
}

// 46 to 91 cm (common practice, no source), on average, when nothing is known of how the two ends fall.
TEST_CASE("half a yard to a yard is given up at a join of a long repeat") {
  for (const double repeat : {92.0, 120.0, 150.0, 183.0}) {
    CAPTURE(repeat);
    Asked asked;
    std::vector<Section> sections = asked.yarn.repeat.sections();
    for (Section& section : sections) section.length = section.length * (repeat / 276);
    asked.yarn.repeat = Repeat(asked.yarn.repeat.colours(), sections);
    constexpr int places = 400;
    double lost = 0;
    for (int n = 0; n < places; ++n) {
      const Strand old_end = exact_end(asked.yarn, End::old_end, 20_cm, 2);
      const Strand new_end = exact_end(asked.yarn, End::new_end, Length::cm(repeat * (n + 0.5) / places), 2);
      const Join join = advise(asked.yarn, old_end, new_end, {}, std::nullopt, asked.wish).joins.front();
      lost += join.discard->cm();
    }
    // Half a repeat, less the little that may be skipped without a cut.
    CHECK(lost / places >= 46 - 1.5);
    CHECK(lost / places <= 91 + 0.5);
  }
}

TEST_CASE(
    "the more of a colour is used on the old strand, the less of it is kept on the new: common practice, no source") {
  for (const double allowance : {5.0, 10.0}) {
    double last = 1000;
    for (int used = 10; used <= 80; used += 5) {
      CAPTURE(used);
      Asked asked;
      asked.wish.allowance = Length::cm(allowance);
      const Strand old_end = exact_end(asked.yarn, End::old_end, Length::cm(103 + used - 0.001), 3);
      const Strand new_end = exact_end(asked.yarn, End::new_end, 60_cm, 3);
      const Advice advice = advise(asked.yarn, old_end, new_end, {}, std::nullopt, asked.wish);
      for (const Join& join : advice.joins) {
        if (*join.trim_old != Length() || join.new_mark.colour != "rust") continue;
        CHECK(join.new_mark.distance.cm() < last);
        last = join.new_mark.distance.cm();
        CHECK(close(Length::cm(used + last), 80 + allowance, 0.01));
      }
    }
    CHECK(last < 21);  // nearly all used: little to keep
  }
}

}  // namespace
}  // namespace ballchange
