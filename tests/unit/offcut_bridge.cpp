#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "base/random.hpp"
#include "join_ends.hpp"
#include "offcut/bridge.hpp"

using namespace ballchange;
using namespace ballchange::offcuts;

namespace {

struct Between {
  Yarn yarn = orchard();
  Fabric fabric = {};
  JoinWish wish = {};

  Between() {
    wish.method = Method::felted;
    wish.allowance = 8_cm;
  }

  [[nodiscard]] std::optional<Bridge> with(const Strand& old_strand, const Offcut& offcut, const Strand& fresh) const {
    const Advice direct = advise(yarn, old_strand, fresh, fabric, std::nullopt, wish);
    REQUIRE(direct.verdict == JoinVerdict::cut);
    return bridge(yarn, old_strand, offcut, fresh, fabric, std::nullopt, wish, direct.joins.front());
  }
  [[nodiscard]] Strand end(End which, const char* reading) const { return end_read(yarn, which, reading); }
};

// The piece from 77 to 163: what the fresh end of the manual's example shows, 86 cm of it.
Offcut from_77_to_163(const Yarn& yarn) {
  return off_end(yarn.repeat, end_read(yarn, End::new_end, "plum 15, sand 11, rust 70"), 86_cm);
}

}  // namespace

// By hand, R = 276, m = 8: old end at 133, new at 143, so u = (133 - 143 - 8) mod 276 = 258. With the offcut from 77 to
// 163 between: u_1 = 133 - 77 - 8 = 48, u_2 = 163 - 143 - 8 = 12. 258 + 8 - (48 + 12 + 16) = 190 = R - 86.
TEST_CASE("an offcut between two ends saves a repeat less its own length") {
  const Between between;
  const auto found = between.with(between.end(End::old_end, "rust 30, sand 11, plum 60"), from_77_to_163(between.yarn),
                                  between.end(End::new_end, "rust 40, moss 14, navy"));
  REQUIRE(found);
  CHECK(close(*found->to_offcut.discard, 48));
  CHECK(close(*found->to_ball.discard, 12));
  CHECK(close(found->discard, 60));
  CHECK(close(found->allowance, 16));
  CHECK(close(found->saves, 190));
  CHECK(!found->other_end);
}

// The same with a whole repeat more between: from 77 to 163 + 276.
TEST_CASE("an offcut longer than a repeat saves as much as one that is a repeat shorter") {
  const Between between;
  const Strand whole =
      between.end(End::new_end, "plum 15, sand 11, rust 80, moss 14, navy 70, grey 9, plum 92, sand 11, rust 70");
  const auto found =
      between.with(between.end(End::old_end, "rust 30, sand 11, plum 60"), off_end(between.yarn.repeat, whole, 362_cm),
                   between.end(End::new_end, "rust 40, moss 14, navy"));
  REQUIRE(found);
  CHECK(close(*found->to_offcut.discard, 48));
  CHECK(close(*found->to_ball.discard, 12));
  CHECK(close(found->saves, 190));
}

// All 48 off the offcut: 22 cm past where its rust begins, which is where the 30 cm of rust on the old end, overlapped
// by 8, have to lie.
TEST_CASE("an offcut cut in its last colour is marked from where that begins") {
  const Between between;
  const Strand old_strand = between.end(End::old_end, "rust 30, sand 11, plum 60");
  const Strand fresh = end_of(between.yarn.repeat, from_77_to_163(between.yarn), End::new_end);
  const Advice advice = advise(between.yarn, old_strand, fresh, {}, std::nullopt, between.wish);
  REQUIRE(advice.verdict == JoinVerdict::cut);
  const Join& best = advice.joins.front();
  CHECK(close(*best.trim_old, 0));
  CHECK(close(*best.trim_new, 48));
  CHECK(best.new_mark.from == MarkFrom::start);
  CHECK(best.new_mark.colour == "rust");
  CHECK(best.new_mark.next_colour == "sand");
  CHECK(*best.new_mark.changes == 2);
  CHECK(close(best.new_mark.distance, 22));
  REQUIRE(best.dry_fit);
  CHECK(best.dry_fit->from_before + "-" + best.dry_fit->from_after == "sand-rust");
  CHECK(best.dry_fit->to_before + "-" + best.dry_fit->to_after == "sand-rust");
  CHECK(close(best.dry_fit->length, 0));
  CHECK(!best.afterwards);
}

TEST_CASE("an offcut of one colour is marked from its loose end") {
  const Between between;
  const Yarn& yarn = between.yarn;
  // From 110 to 180, all rust; u_1 = 133 - 110 - 8 = 15.
  const Offcut whole = off_end(yarn.repeat, end_read(yarn, End::new_end, "plum 15, sand 11, rust 80, moss"), 103_cm);
  const Offcut rust = part_of(yarn.repeat, whole, 33_cm, 103_cm);
  REQUIRE(rust.stretches.size() == 1);
  const Advice advice = advise(yarn, between.end(End::old_end, "rust 30, sand 11, plum 60"),
                               end_of(yarn.repeat, rust, End::new_end), {}, std::nullopt, between.wish);
  REQUIRE(advice.verdict == JoinVerdict::cut);
  const Join& best = advice.joins.front();
  CHECK(close(*best.trim_old, 0));
  CHECK(close(*best.trim_new, 15));
  CHECK(best.new_mark.from == MarkFrom::loose_end);
  CHECK(!best.dry_fit);
}

TEST_CASE("an offcut too short for both overlaps and the room is no bridge") {
  const Between between;
  const Yarn& yarn = between.yarn;
  CHECK(close(least_between(8_cm, habits(yarn.reckoning).room), 31));
  const Strand old_strand = between.end(End::old_end, "rust 30, sand 11, plum 60");
  const Strand fresh = between.end(End::new_end, "rust 40, moss 14, navy");
  // From 125 on: nothing to cut off at the old end; 18 + 8 + 12 end where the new ball begins.
  const Offcut whole = off_end(yarn.repeat, end_read(yarn, End::new_end, "plum 15, sand 11, rust 80, moss"), 100_cm);
  const auto part = [&](double length) { return part_of(yarn.repeat, whole, 48_cm, Length::cm(48 + length)); };
  CHECK(between.with(old_strand, part(31), fresh).has_value());
  CHECK(!between.with(old_strand, part(30), fresh).has_value());
  const Advice advice =
      advise(yarn, old_strand, end_of(yarn.repeat, part(30), End::new_end), {}, std::nullopt, between.wish);
  CHECK(advice.verdict == JoinVerdict::no_fit);
  REQUIRE(advice.too_short);
  CHECK(close(*advice.too_short, 1));
}

TEST_CASE("an offcut of a ball that ran the other way is turned round") {
  const Between between;
  const Yarn& yarn = between.yarn;
  const Offcut backward = turned(yarn.repeat, from_77_to_163(yarn));
  REQUIRE(backward.direction == Direction::backward);
  const auto found = between.with(between.end(End::old_end, "rust 30, sand 11, plum 60"), backward,
                                  between.end(End::new_end, "rust 40, moss 14, navy"));
  REQUIRE(found);
  CHECK(found->other_end);
  CHECK(close(found->saves, 190));
}

TEST_CASE("no bridge where the ends follow, or where the offcut lies elsewhere") {
  const Between between;
  const Yarn& yarn = between.yarn;
  const Strand old_strand = between.end(End::old_end, "rust 30, sand 11, plum 60");
  CHECK(!between.with(old_strand, from_77_to_163(yarn), between.end(End::new_end, "rust 58, moss 14, navy")));
  // From 250 on: (133 - 250 - 8) mod 276 = 151 to come off first.
  const Offcut elsewhere = off_end(yarn.repeat, end_read(yarn, End::new_end, "navy 17, grey 9, plum 70"), 90_cm);
  CHECK(!between.with(old_strand, elsewhere, between.end(End::new_end, "rust 40, moss 14, navy")));
}

// Every offcut by the formula alone: with no tolerance u = (p_e - p_s - m) mod R, and the same for both its joins.
TEST_CASE("what a bridge saves is what the formula says, and nothing else is offered") {
  Between between;
  between.wish.tolerance = Length();
  const Yarn& yarn = between.yarn;
  const double period = yarn.repeat.total().cm();
  const auto modulo = [&](double x) { return x - period * std::floor(x / period); };
  Random random(5);
  int offered = 0;
  int refused = 0;
  for (int n = 0; n < 3000; ++n) {
    const double old_place = std::floor(random.uniform() * 276) + 0.5;
    const double new_place = std::floor(random.uniform() * 276) + 0.25;
    const double start = std::floor(random.uniform() * 276) + 0.125;
    const double length = 10 + std::floor(random.uniform() * 350);
    const double allowance = 3 + std::floor(random.uniform() * 8);
    between.wish.allowance = Length::cm(allowance);
    CAPTURE(n);
    CAPTURE(old_place);
    CAPTURE(new_place);
    CAPTURE(start);
    CAPTURE(length);
    CAPTURE(allowance);
    const double direct = modulo(old_place - new_place - allowance) + allowance;
    const double first = modulo(old_place - start - allowance);
    const double second = modulo(start + length - new_place - allowance);
    const double saves = direct - first - second - 2 * allowance;
    const bool expected = length >= 2 * allowance + 15 && saves > 0.5;
    const Offcut offcut = off_end(yarn.repeat, exact_end(yarn, End::new_end, Length::cm(start), 3), Length::cm(length));
    const auto found = between.with(exact_end(yarn, End::old_end, Length::cm(old_place), 14), offcut,
                                    exact_end(yarn, End::new_end, Length::cm(new_place), 3));
    CHECK(found.has_value() == expected);
    if (!found) {
      ++refused;
      continue;
    }
    ++offered;
    CHECK(close(found->saves, saves, 1e-4));
    CHECK(close(found->discard, first + second, 1e-4));
    // R less its length, as both joins leave the colours in step.
    CHECK(std::abs(modulo(saves + length + 1) - 1) < 1e-4);
    // Enough of it is left for both overlaps and the room.
    const Length left = Length::cm(length) - *found->to_offcut.trim_new - *found->to_ball.trim_old;
    CHECK(left.cm() >= 2 * allowance + 15 - 1e-6);
  }
  CHECK(offered > 200);
  CHECK(refused > 200);
}
