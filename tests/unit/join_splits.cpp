#include "join/split.hpp"

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <cmath>
#include <string>

#include "base/random.hpp"
#include "join_ends.hpp"
#include "slow/strand.hpp"

// One amount to cut off, taken from the old end, the new one or both: which ways are offered, and in which order.
namespace ballchange {
namespace {

struct Drawn {
  Asked asked;
  Strand old_end, new_end;
  Length loose;
};

Drawn draw(Random& random) {
  Drawn drawn;
  drawn.asked.yarn = slow::random_yarn(random, {3, 9, false});
  const Repeat& repeat = drawn.asked.yarn.repeat;
  const std::size_t entries = 2 + random.below(8);
  drawn.old_end = exact_end(drawn.asked.yarn, End::old_end, random.uniform() * repeat.total(), entries);
  drawn.new_end = exact_end(drawn.asked.yarn, End::new_end, random.uniform() * repeat.total(), entries);
  drawn.loose = drawn.old_end.reading.measured();
  if (random.uniform() < 0.7) {
    // The hook stands at the last change seen.
    drawn.old_end.reading.loose = drawn.loose - *drawn.old_end.reading.entries.back().length;
    drawn.old_end.reading.hook_entry = entries - 1;
    drawn.loose = *drawn.old_end.reading.loose;
  }
  Fabric& fabric = drawn.asked.fabric;
  fabric.yarn_per_stitch = Length::cm(1 + 2 * random.uniform());
  fabric.yarn_per_turn = 1_cm;
  fabric.stitches = 20 + static_cast<int>(random.below(80));
  drawn.asked.hook = RowStitch{20, static_cast<int>(random.below(static_cast<std::uint64_t>(*fabric.stitches)))};
  constexpr Edge edges[] = {Edge::as_method, Edge::any, Edge::avoid, Edge::seek};
  drawn.asked.wish.edge = edges[random.below(4)];
  constexpr Method methods[] = {Method::threaded, Method::doubled, Method::woven, Method::knotted};
  drawn.asked.wish.method = methods[random.below(4)];
  return drawn;
}

Advice advice_for(const Drawn& drawn) {
  return advise(drawn.asked.yarn, drawn.old_end, drawn.new_end, drawn.asked.fabric, drawn.asked.hook, drawn.asked.wish);
}

Length room_left(const Drawn& drawn, const Advice& advice) {
  return std::max(Length(), drawn.loose - advice.allowance - 15_cm);
}

TEST_CASE("every way offered keeps to the limits") {
  constexpr std::uint64_t seed = 61;
  Random random(seed);
  std::size_t several = 0;
  for (int n = 0; n < 3000; ++n) {
    CAPTURE(seed);
    CAPTURE(n);
    const Drawn drawn = draw(random);
    const Repeat& repeat = drawn.asked.yarn.repeat;
    const Advice advice = advice_for(drawn);
    REQUIRE(advice.verdict == JoinVerdict::cut);
    REQUIRE(!advice.joins.empty());
    CHECK(advice.joins.size() <= 5);
    several += advice.joins.size() > 1;
    const Length between = wrap(drawn.old_end.placing.place - drawn.new_end.placing.place, repeat.total());
    for (const Join& join : advice.joins) {
      CAPTURE(join.colour);
      CAPTURE(join.trim_old->cm());
      CHECK(*join.trim_old >= Length());
      CHECK(*join.trim_new >= -0.000001_cm);
      CHECK(*join.trim_old <= room_left(drawn, advice) + 0.000001_cm);
      CHECK(std::abs((*join.discard - *join.trim_old - *join.trim_new).cm()) < 1e-9);
      // No second cut for less than 2 cm where the other end can give it all.
      if (*join.trim_old > 0.000001_cm && *join.trim_new > 0.000001_cm) {
        CHECK(*join.trim_old > 1.999999_cm);
        if (*join.discard < room_left(drawn, advice)) CHECK(*join.trim_new > 1.999999_cm);
      }
      // Strands as long as the repeat: what leaves the work is the gap between the places, less what is skipped.
      const Length left_over = wrap(*join.discard + join.allowance - between - join.shift, repeat.total());
      CHECK(std::min(left_over, repeat.total() - left_over) < 0.000001_cm);
      // The middle lies where it is said to: half an overlap behind the old cut.
      const Spot spot = repeat.spot(drawn.old_end.placing.place - *join.trim_old - join.allowance / 2 + 0.0000001_cm);
      CHECK(join.section == spot.section);
      CHECK(std::abs((join.into - spot.into).cm()) < 1e-6);
    }
    // No two that a tape would not tell apart.
    for (std::size_t i = 1; i < advice.joins.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j)
        CHECK(abs(*advice.joins[i].trim_old - *advice.joins[j].trim_old) >= 0.4999_cm);
    }
    // The join's middle lies in another section each time, unless they are a whole repeat apart.
    for (std::size_t i = 0; i < advice.joins.size(); ++i) {
      for (std::size_t j = i + 1; j < advice.joins.size(); ++j) {
        CAPTURE(advice.joins[i].trim_old->cm());
        CAPTURE(advice.joins[j].trim_old->cm());
        const Length apart = abs(*advice.joins[i].trim_old - *advice.joins[j].trim_old);
        CHECK((advice.joins[i].section != advice.joins[j].section ||
               apart > repeat.total() - repeat.sections()[advice.joins[i].section].length));
      }
    }
  }
  CHECK(several > 1000);
}

TEST_CASE("where it lands follows the strand in hand, whatever its sections measured") {
  Asked asked;
  asked.fabric.yarn_per_stitch = 2_cm;
  asked.fabric.stitches = 60;
  asked.hook = RowStitch{5, 0};
  asked.wish.method = Method::woven;
  asked.wish.edge = Edge::any;
  std::size_t beyond = 0;
  // Sand is 11 cm by the repeat.
  for (const int sand : {9, 11, 14}) {
    const int loose = 20 + sand + 92 + 5;
    const Advice advice =
        asked.with(fmt::format("rust 20, sand {}, plum 92, grey 5, hook", sand), "moss 4, navy 70, grey");
    REQUIRE(advice.verdict == JoinVerdict::cut);
    for (const Join& join : advice.joins) {
      CAPTURE(sand);
      CAPTURE(join.old_mark.colour);
      REQUIRE(join.to_join);
      CHECK(close(*join.to_join, loose - join.trim_old->cm() - 12.5));
      // Told from where plum begins, 5 cm from the hook, however much sand there was.
      if (join.old_mark.colour != "plum") continue;
      ++beyond;
      CHECK(close(*join.to_join, 5 + join.old_mark.distance.cm() - 12.5));
      REQUIRE(join.lands);
      CHECK(join.lands->stitch == std::lround(join.to_join->cm() / 2));
    }
  }
  CHECK(beyond == 3);
}

TEST_CASE("in a yarn counted in stitches the marks are whole stitches and add up to the section") {
  Asked asked;
  asked.yarn.reckoning = Reckoning::stitches;
  std::size_t both = 0;
  for (int kept = 1; kept < 60; ++kept) {
    const Advice advice = asked.with("rust 30, sand 11, plum 40", fmt::format("plum {}, sand 11, rust 30", kept));
    for (const Join& join : advice.joins) {
      if (*join.trim_old == Length() || *join.trim_new == Length()) continue;
      ++both;
      CAPTURE(kept);
      CAPTURE(join.trim_old->cm());
      CHECK(std::abs(join.old_mark.distance.cm() - std::round(join.old_mark.distance.cm())) < 1e-6);
      CHECK(std::abs(join.new_mark.distance.cm() - std::round(join.new_mark.distance.cm())) < 1e-6);
    }
  }
  CHECK(both > 20);
}

// Row by row, what of the section lies in stitches and not in a turn.
double stitches_counted(const Asked& asked, const Join& join) {
  const double stitch = asked.fabric.yarn_per_stitch->cm();
  const double length = join.dry_fit->length.cm();
  if (!asked.hook || !join.to_join || !asked.fabric.stitches) return length / stitch;
  const double row = *asked.fabric.stitches * stitch + asked.fabric.yarn_per_turn.cm();
  const double middle = asked.hook->stitch * stitch + join.to_join->cm();
  const double begins = middle - (join.old_mark.distance - join.allowance / 2).cm();
  double counted = 0;
  for (double at = -1000 * row; at < begins + length; at += row) {
    counted += std::max(0.0, std::min(at + *asked.fabric.stitches * stitch, begins + length) - std::max(at, begins));
  }
  return counted / stitch;
}

TEST_CASE("where both marks lie in one section the dry fit is that section, less what is skipped") {
  constexpr std::uint64_t seed = 62;
  Random random(seed);
  std::size_t in_one_section = 0;
  for (int n = 0; n < 3000; ++n) {
    CAPTURE(seed);
    CAPTURE(n);
    const Drawn drawn = draw(random);
    const Repeat& repeat = drawn.asked.yarn.repeat;
    for (const Join& join : advice_for(drawn).joins) {
      if (!join.whole_overlap_inside || join.old_mark.from == MarkFrom::loose_end) continue;
      CAPTURE(join.colour);
      CAPTURE(join.trim_old->cm());
      CAPTURE(join.shift.cm());
      REQUIRE(join.dry_fit);
      CHECK(std::abs((join.old_mark.distance + join.new_mark.distance - join.allowance - join.dry_fit->length).cm()) <
            1e-9);
      if (join.old_mark.colour != join.new_mark.colour) continue;  // a skip put one mark over the change
      ++in_one_section;
      CHECK(std::abs((join.dry_fit->length - repeat.sections()[join.section].length + join.shift).cm()) < 1e-6);
      REQUIRE(join.afterwards);
      CHECK(std::abs(*join.afterwards - stitches_counted(drawn.asked, join)) <= 0.5 + 1e-6);
      CHECK(join.dry_fit->from_after == join.colour);
      CHECK(join.dry_fit->to_before == join.colour);
      const std::size_t k = join.section;
      CHECK(join.dry_fit->from_before == repeat.name_of((k + repeat.size() - 1) % repeat.size()));
      CHECK(join.dry_fit->to_after == repeat.name_of((k + 1) % repeat.size()));
    }
  }
  CHECK(in_one_section > 2000);
}

// What the order is by, judged from what the advice says and nothing else.
bool inside(const Drawn& drawn, const Join& join) {
  const Section& section = drawn.asked.yarn.repeat.sections()[join.section];
  const Length margin = std::max(3_cm, 2 * section.plus_minus) - 0.002_cm;
  const Length half = join.allowance / 2;
  return join.into - half >= margin && section.length - join.into - half >= margin;
}

TEST_CASE("inside one section means 3 cm and twice its plus-minus away from both changes") {
  constexpr std::uint64_t seed = 63;
  Random random(seed);
  for (int n = 0; n < 2000; ++n) {
    CAPTURE(seed);
    CAPTURE(n);
    const Drawn drawn = draw(random);
    for (const Join& join : advice_for(drawn).joins) {
      CAPTURE(join.into.cm());
      CHECK(join.whole_overlap_inside == inside(drawn, join));
    }
  }
}

TEST_CASE("the order of the ways offered") {
  constexpr std::uint64_t seed = 64;
  Random random(seed);
  std::size_t by_edge = 0;
  for (int n = 0; n < 3000; ++n) {
    const Drawn drawn = draw(random);
    const Advice advice = advice_for(drawn);
    Edge edge = drawn.asked.wish.edge;
    if (edge == Edge::as_method) edge = advice.method == Method::woven ? Edge::seek : Edge::avoid;
    // Every section of these strands is as long as usual, so every cut can be marked but those told from the loose end.
    const auto marked = [](const Join& join) { return join.old_mark.from != MarkFrom::loose_end; };
    const auto wished = [&](const Join& join) {
      return edge == Edge::any || !join.lands || join.at_edge == (edge == Edge::seek);
    };
    const auto error = [](const Join& join) {
      const double a = 0.5 + 0.01 * join.old_mark.distance.cm();
      const double b = 0.5 + 0.01 * join.new_mark.distance.cm();
      return a * a + b * b;
    };
    for (std::size_t i = 1; i < advice.joins.size(); ++i) {
      const Join& a = advice.joins[i - 1];
      const Join& b = advice.joins[i];
      CAPTURE(seed);
      CAPTURE(n);
      CAPTURE(i);
      if (!marked(a) || !marked(b)) continue;
      if (inside(drawn, a) != inside(drawn, b)) {
        CHECK(inside(drawn, a));
        continue;
      }
      if (wished(a) != wished(b)) {
        CHECK(wished(a));
        ++by_edge;
        continue;
      }
      const bool a_uncut = *a.trim_old == Length();
      const bool b_uncut = *b.trim_old == Length();
      if (a_uncut != b_uncut) {
        CHECK(a_uncut);
        continue;
      }
      CHECK(error(a) <= error(b) + 1e-6);
    }
  }
  CHECK(by_edge > 20);
}

TEST_CASE("where the join falls in the row is as wished, if any cut allows it") {
  // Much of both ends may come off: three rows of 60 cm hang loose.
  struct Row {
    Edge edge;
    Method method;
    bool at_edge;
  };
  constexpr Row rows[] = {
      {Edge::seek, Method::threaded, true},      {Edge::avoid, Method::threaded, false},
      {Edge::as_method, Method::woven, true},    {Edge::as_method, Method::threaded, false},
      {Edge::as_method, Method::knotted, false},
  };
  for (int stitch = 0; stitch < 30; stitch += 3) {
    for (const Row& row : rows) {
      CAPTURE(stitch);
      CAPTURE(static_cast<int>(row.edge));
      CAPTURE(static_cast<int>(row.method));
      Asked asked;
      asked.fabric = {Working::rows, 2_cm, 1_cm, 30};
      asked.hook = RowStitch{40, stitch};
      asked.wish.method = row.method;
      asked.wish.edge = row.edge;
      const Advice advice =
          asked.with("plum 80, grey 9, navy 70, moss 14, hook, rust", "rust 30, moss 14, navy 70, grey");
      REQUIRE(advice.verdict == JoinVerdict::cut);
      const Join& best = advice.joins.front();
      REQUIRE(best.lands);
      CHECK(best.whole_overlap_inside);
      CHECK(best.at_edge == row.at_edge);
      const bool beside = best.lands->stitch <= 2 || best.lands->stitch > 28;
      CHECK(beside == row.at_edge);
    }
  }
}

TEST_CASE("a cut that can be marked comes before one that can't, wherever the overlap lies") {
  Asked asked;
  // In rust, with the old end left as it is, 60 of it would be kept; on this new strand it came out no longer than 55.
  const Advice advice = asked.with("rust 30, sand 11, plum 60", "plum 15, sand 11, rust 55, moss 14, navy");
  REQUIRE(advice.verdict == JoinVerdict::cut);
  for (const Join& join : advice.joins) CHECK((join.new_mark.colour != "rust" || join.new_mark.distance <= 55_cm));
  CHECK(*advice.joins.front().trim_old > Length());
  CHECK(!advice.joins.front().whole_overlap_inside);
  // Where it came out longer than that the old end is left as it is, and the whole overlap lies in rust.
  const Join uncut = asked.with("rust 30, sand 11, plum 60", "plum 15, sand 11, rust 65, moss 14, navy").joins.front();
  CHECK(*uncut.trim_old == Length());
  CHECK(uncut.whole_overlap_inside);
}

TEST_CASE("of ways that are alike in all else the one that takes less off the old end comes first") {
  // Every section as long as the others: every cut has its like one section further on.
  Asked asked;
  asked.yarn.repeat = Repeat({{"plum", {}}, {"sand", {}}, {"rust", {}}, {"moss", {}}},
                             {{0, 50_cm, 2_cm}, {1, 50_cm, 2_cm}, {2, 50_cm, 2_cm}, {3, 50_cm, 2_cm}});
  const Strand old_end = exact_end(asked.yarn, End::old_end, 10_cm, 6);
  const Strand new_end = exact_end(asked.yarn, End::new_end, 30_cm, 6);
  const Advice advice = advise(asked.yarn, old_end, new_end, {}, std::nullopt, asked.wish);
  REQUIRE(advice.joins.size() >= 3);
  std::size_t alike = 0;
  for (std::size_t i = 1; i < advice.joins.size(); ++i) {
    const Join& a = advice.joins[i - 1];
    const Join& b = advice.joins[i];
    if (a.whole_overlap_inside != b.whole_overlap_inside) continue;
    if (!close(a.old_mark.distance, b.old_mark.distance.cm())) continue;
    if (!close(a.new_mark.distance, b.new_mark.distance.cm())) continue;
    ++alike;
    CHECK(*a.trim_old < *b.trim_old);
  }
  CHECK(alike > 0);
}

TEST_CASE("a join's middle right on a change is offered once") {
  Asked asked;
  asked.wish.allowance = 8_cm;
  const Advice advice = asked.with("rust 4, sand 11, plum 92, grey", "plum 15, sand 11, rust 30");
  REQUIRE(advice.verdict == JoinVerdict::cut);
  std::size_t uncut = 0;
  for (const Join& join : advice.joins) uncut += *join.trim_old == Length();
  CHECK(uncut == 1);
}

TEST_CASE("sections shorter than the overlap: a change further on the new strand lies on the old one's") {
  Asked asked;
  asked.yarn.repeat = Repeat({{"poppy", {}}, {"oat", {}}, {"lagoon", {}}, {"ink", {}}},
                             {{0, 16_cm, 1_cm}, {1, 11_cm, 1_cm}, {2, 14_cm, 1_cm}, {3, 8_cm, 0.8_cm}});
  // 1 - 47 - 10 modulo 49: 42 off the new end, which then starts 1 before ink: the overlap reaches from there to 1 into
  // poppy, on both strands.
  const Advice advice = asked.with("poppy 1, ink 8", "ink 2, poppy 15, oat 11");
  REQUIRE(advice.verdict == JoinVerdict::cut);
  bool found = false;
  for (const Join& join : advice.joins) {
    if (*join.trim_old > Length()) continue;
    found = true;
    REQUIRE(join.dry_fit);
    CHECK(join.dry_fit->from_before == "ink");
    CHECK(join.dry_fit->from_after == "poppy");
    CHECK(join.dry_fit->to_before == "ink");
    CHECK(join.dry_fit->to_after == "poppy");
    CHECK(close(join.dry_fit->length, 0));
  }
  CHECK(found);
}

}  // namespace
}  // namespace ballchange
