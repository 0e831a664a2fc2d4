#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

#include "base/normal.hpp"
#include "plan/blocks.hpp"
#include "plan/estimate.hpp"
#include "plan/kept.hpp"
#include "plan/knots.hpp"
#include "plan/supply.hpp"
#include "plan/trims.hpp"

namespace ballchange::plan {
namespace {

constexpr std::int64_t kJoins = 20'000'000;  // simulated in all, unless told how many works
constexpr std::int64_t kMost = 200'000;
constexpr std::int64_t kBlock = 4096;

// N(0, 1), quicker than Random's own and as good for balls: between 2,048 points of its quantile straight
// lines, off by less than 1e-4; the outer shares by the quantile itself.
class Normals {
 public:
  Normals() {
    for (std::size_t k = 1; k < kPoints; ++k) at_[k] = normal_quantile(static_cast<double>(k) / kPoints);
  }
  double draw(Random& random) const {
    const double where = random.uniform() * kPoints;
    const auto k = static_cast<std::size_t>(where);
    if (k < kOuter || k >= kPoints - kOuter) return normal_quantile(std::max(where, 1e-9) / kPoints);
    return at_[k] + (where - static_cast<double>(k)) * (at_[k + 1] - at_[k]);
  }

 private:
  static constexpr std::size_t kPoints = 2048;
  static constexpr std::size_t kOuter = 32;
  std::array<double, kPoints + 1> at_{};
};

// What is the same for every work.
struct Same {
  explicit Same(const Work& told)
      : work(told),
        supply(told),
        spread(trim_spread(told)),
        hand(joining_as(told)),
        knots(told.knots),
        usual(supply.ball(static_cast<int>(told.on_hand.size()))) {
    for (std::size_t k = 0; k < told.on_hand.size(); ++k) known.push_back(supply.ball(static_cast<int>(k)));
    // Balls that every work uses up whole: only their sums count, which are drawn at once.
    // With knots a stretch may be shorter than what would be cut off it, which sums don't tell.
    if (told.knots <= 0 && told.on_hand.empty() && !told.keep_from_start && told.needed_plus_minus <= 0 &&
        supply.long_balls()) {
      const double worth = told.needed / told.ball;
      const auto whole = [&](int balls) { return balls + 6 * told.ball_plus_minus * std::sqrt(balls) < worth; };
      while (taken_whole < most_balls && whole(taken_whole + 1)) ++taken_whole;
    }
  }

  const Work& work;
  Supply supply;
  TrimSpread spread;
  Hand hand;
  Knots knots;
  Supply::Yarn usual;
  Normals normals;
  std::vector<Supply::Yarn> known;
  int taken_whole = 0;
};

// One work, ball by ball, until nothing more is needed.
class OnePiece {
 public:
  OnePiece(const Same& same, Random& random) : same_(same), random_(random) {
    const double share = same.work.needed_plus_minus;
    left_ = same.work.needed * (share > 0 ? std::max(0.01, 1 + share * same.normals.draw(random)) : 1);
    if (same.taken_whole > 0) take_whole();
    while (left_ > Length()) {
      refuse_too_many(balls + 1);
      take_ball();
    }
  }

  int balls = 0;
  Length waste;

 private:
  void take_whole() {
    balls = same_.taken_whole;
    const double count = balls;
    const int joins = balls - 1;
    const Length yarn =
        same_.usual.mean * count + same_.usual.plus_minus * (std::sqrt(count) * same_.normals.draw(random_));
    const Length lost = same_.work.allowance * joins + same_.spread.draw(random_, joins);
    waste += lost;
    left_ -= yarn - lost;
  }

  // Of a join whose ends are known, or unknown while each join's shift counts for those after it.
  Length trim_between(std::optional<Tenths> between) {
    if (!same_.work.keep_from_start)
      return between ? length(trim(same_.hand, *between).discard) : same_.spread.draw(random_);
    const Tenths is = between.value_or(static_cast<Tenths>(random_.uniform() * static_cast<double>(same_.hand.period)));
    const Joined joined = ways(same_.hand, is, running_).way[0];
    shift_ = joined.shift;
    return length(joined.discard);
  }

  void take_ball() {
    const auto k = static_cast<std::size_t>(balls++);
    const bool is_known = k < same_.known.size();
    const Supply::Yarn& yarn = is_known ? same_.known[k] : same_.usual;
    const Length whole = std::max(Length(), yarn.mean + yarn.plus_minus * same_.normals.draw(random_));
    std::optional<Tenths> between;
    if (is_known && finish_ && same_.work.on_hand[k].start) {
      between = tenths(*finish_) - tenths(*same_.work.on_hand[k].start) - same_.hand.allowance;
    }
    // A knot lies anywhere; the stretches between are joined like balls.
    const int knots = same_.knots.draw(random_);
    if (knots == 0) {
      take(whole, between);
    } else {
      cuts_.assign(1, 0);
      for (int q = 0; q < knots; ++q) cuts_.push_back(random_.uniform());
      cuts_.push_back(1);
      std::sort(cuts_.begin(), cuts_.end());
      for (std::size_t q = 1; q < cuts_.size(); ++q) {
        take(whole * (cuts_[q] - cuts_[q - 1]), q == 1 ? between : std::nullopt);
      }
    }
    finish_ = is_known ? same_.work.on_hand[k].finish : std::nullopt;
  }

  void take(Length stretch, std::optional<Tenths> between) {
    if (left_ <= Length()) return;
    if (begun_) {
      const Length lost = trim_between(between) + same_.work.allowance;
      if (lost >= stretch) {  // all of it goes, and the old end waits for the next
        waste += stretch;
        return;
      }
      running_ += shift_;
      waste += lost;
      stretch -= lost;
    }
    begun_ = begun_ || stretch > Length();
    left_ -= stretch;
  }

  const Same& same_;
  Random& random_;
  Length left_;
  bool begun_ = same_.taken_whole > 0;
  std::optional<Length> finish_;
  Tenths running_ = 0;
  Tenths shift_ = 0;
  std::vector<double> cuts_;
};

}  // namespace

WayEstimate simulate_as_they_come(const Work& work, const Simulation& simulation) {
  const Same same(work);
  const int first = same.supply.fewest();
  const auto joins = static_cast<std::int64_t>(first * (1 + work.knots));
  const std::int64_t pieces =
      simulation.pieces > 0 ? simulation.pieces : std::clamp<std::int64_t>(kJoins / joins, 2000, kMost);
  const Simulated all =
      simulate_blocks(simulation, pieces, kBlock, [&](Random& random, std::int64_t count, Block& block) {
        block.waste.reserve(static_cast<std::size_t>(count));
        for (std::int64_t k = 0; k < count; ++k) {
          const OnePiece one(same, random);
          block.waste.push_back(one.waste);
          const auto at = static_cast<std::size_t>(std::max(0, one.balls - first));
          if (block.chances.size() <= at) block.chances.resize(at + 1, 0);
          block.chances[at] += 1;
        }
        for (std::size_t k = 1; k < block.chances.size(); ++k) block.chances[k] += block.chances[k - 1];
      });
  return {Way::as_they_come, false, pieces, all.waste, counted(first, all.chances), worth_telling(first, all.chances)};
}

}  // namespace ballchange::plan
