#include "stock/on_balls.hpp"

#include <algorithm>
#include <climits>
#include <cmath>
#include <string_view>
#include <unordered_map>

#include "base/normal.hpp"
#include "stock/scale.hpp"

namespace ballchange::stock {
namespace {

constexpr double kOdd = 6;    // standard deviations that nobody meets
constexpr double kOpen = 10;  // a share of which nothing is known
// What weighings must tell the share to before it is told at all.
constexpr double kWorthTelling = 0.03;

using Maybe = std::optional<Length>;

// Where in the work each ball's yarn begins; the foundation is no row.
std::vector<Maybe> places_begun(const State& state) {
  std::vector<Maybe> begun(state.balls.size(), state.gauge.used({1, 0}));
  std::unordered_map<std::string_view, std::size_t> index;
  for (std::size_t k = 0; k < state.balls.size(); ++k) index.emplace(state.balls[k].id, k);
  for (const JoinState& join : state.joins) {
    const auto ball = index.find(join.new_ball);
    if (join.knot || ball == index.end()) continue;
    if (join.held == JoinHeld::in_work || join.held == JoinHeld::ahead) begun[ball->second] = join.used;
  }
  return begun;
}

// A ball's yarn and the share, in cm.
struct Knowledge {
  double left = 0, left_variance = 0;
  double share = 1, share_variance = 0;
  double together = 0;

  void work(double by_gauge) {
    left -= share * by_gauge;
    left_variance += by_gauge * (by_gauge * share_variance - 2 * together);
    together -= by_gauge * share_variance;
  }
  // What was expected of a weighing, in its standard deviations.
  [[nodiscard]] double off(double seen, double variance) const {
    return std::abs(seen - left) / std::sqrt(left_variance + variance);
  }
  void see(double seen, double variance) {
    const double all = left_variance + variance;
    if (all <= 0) return;
    const double gain = left_variance / all;
    const double share_gain = together / all;
    const double surprise = seen - left;
    left += gain * surprise;
    share += share_gain * surprise;
    share_variance = std::max(0.0, share_variance - share_gain * together);
    together -= gain * together;
    left_variance -= gain * left_variance;
  }
};

// One pass over all that was weighed, ball after ball: given the share, balls say nothing of each other.
class Filter {
 public:
  Filter(const State& state, const Doubts& doubts, double open)
      : state_(state),
        doubts_(doubts),
        open_variance_(open * open),
        told_(std::min(open * 0.75, kWorthTelling)),
        begun_(places_begun(state)),
        weighed_(state.balls.size()) {
    known_.share_variance = open_variance_;
    for (const Weighing& weighing : state.weighings) weighed_[weighing.ball].push_back(&weighing);
  }

  Stock run() {
    Stock stock;
    stock.doubts = doubts_;
    stock.balls.resize(state_.balls.size());
    for (const std::size_t ball : in_order()) stock.balls[ball] = follow(ball);
    // Gauges after the last weighing.
    change_gauges(state_.gauge_changes.empty() ? 0 : state_.gauge_changes.back().entry + 1);
    settle();  // rows to come are another stretch
    stock.takes = {known_.share, std::sqrt(known_.share_variance)};
    stock.odd = odd_;
    return stock;
  }

 private:
  // By when each was last weighed, the one in work after all others.
  [[nodiscard]] std::vector<std::size_t> in_order() const {
    std::vector<std::size_t> balls;
    for (std::size_t k = 0; k < state_.balls.size(); ++k) {
      if (!state_.balls[k].plain) balls.push_back(k);
    }
    const auto when = [&](std::size_t k) {
      if (state_.working == k) return INT_MAX;
      return weighed_[k].empty() ? 0 : weighed_[k].back()->entry;
    };
    std::stable_sort(balls.begin(), balls.end(), [&](std::size_t a, std::size_t b) { return when(a) < when(b); });
    return balls;
  }

  // In cm^2, of a mass weighed with that step.
  [[nodiscard]] double rounding(const BallState& ball, const std::optional<Mass>& step) const {
    const double one = rounding_of(step.value_or(doubts_.scale)).g() * yarn_per_gram(ball);
    return one * one;
  }
  [[nodiscard]] double yarn_per_gram(const BallState& ball) const {
    if (ball.mass && ball.length && *ball.mass > Mass()) return ball.length->cm() / ball.mass->g();
    if (state_.yarn.ball_mass && state_.yarn.ball_length)
      return *state_.yarn.ball_length / 1_cm / state_.yarn.ball_mass->g();
    return 0;
  }

  void start(const BallState& ball) {
    known_.left = ball.length->cm();
    const double spread = doubts_.spread * known_.left;
    known_.left_variance = ball.mass ? rounding(ball, ball.scale) : spread * spread;
    known_.together = 0;
  }

  // The gauges told before that entry; nothing of a ball's yarn changes with them.
  void change_gauges(int before) {
    while (next_change_ < state_.gauge_changes.size() && state_.gauge_changes[next_change_].entry < before) {
      change(state_.gauge_changes[next_change_++]);
    }
  }
  void change(const GaugeChange& gauge) {
    if (!gauge.row_before || !gauge.row_after) return open_anew();
    const double by = *gauge.row_before / *gauge.row_after;
    const double share = known_.share * by;
    const double doubt = std::sqrt(known_.share_variance) * by;
    // Told nearer to what weighings said than before; any other figure was measured on other rows.
    const bool nearer = std::abs(share - 1) < std::abs(known_.share - 1) && std::abs(share - 1) <= 2 * doubt + 0.01;
    if (gauge.other_size || doubt > told_ || !nearer) return open_anew();
    known_.share = share;
    known_.share_variance *= by * by;
    known_.together *= by;
  }
  void open_anew() {
    known_.share = 1;
    known_.share_variance = open_variance_;
    known_.together = 0;
  }

  // From one place in the work to another, and what the log had it lose in all.
  void lose(double from, double to, int until, double all) {
    known_.left -= all - (to - from);
    if (to == from) return;
    settle();
    while (next_change_ < state_.gauge_changes.size() && state_.gauge_changes[next_change_].entry < until) {
      const GaugeChange& gauge = state_.gauge_changes[next_change_++];
      const double at = gauge.used ? std::max(gauge.used->cm(), from) : from;
      known_.work(at - from);
      from = at;
      change(gauge);
    }
    known_.work(to - from);
  }

  // The first work after a weighing.
  void settle() {
    if (weighed_since_) known_.share_variance += doubts_.drift * doubts_.drift;
    weighed_since_ = false;
  }

  std::optional<OnBall> follow(std::size_t index) {
    const BallState& ball = state_.balls[index];
    if (!ball.length) return std::nullopt;
    const Maybe begins = begun_[index];
    start(ball);
    double from = begins ? begins->cm() : 0;
    double by_log = ball.length->cm();
    const Weighing* before = nullptr;
    for (const Weighing* each : weighed_[index]) {
      const Weighing& weighing = *each;
      if (!weighing.expected || !weighing.left) continue;
      const double to =
          weighing.in_work && begins && weighing.used ? std::max(weighing.used->cm(), begins->cm()) : from;
      if (begins) lose(from, to, weighing.entry, by_log - weighing.expected->cm());
      // The same yarn on the same scale is rounded the same way again.
      const bool again = before != nullptr && to == from && before->mass == weighing.mass &&
                         before->scale == weighing.scale && weighing.expected->cm() == by_log;
      if (!again) weigh(index, weighing.left->cm(), rounding(ball, weighing.scale));
      before = each;
      if (&weighing != &state_.weighings.back()) odd_.reset();  // was told then
      from = to;
      by_log = weighing.left->cm();
    }
    if (!ball.left) return std::nullopt;
    const Length now = *ball.left - ball.overdrawn;
    const bool working = state_.working == index && begins && state_.used;
    const double to = working ? std::max(state_.used->cm(), begins->cm()) : from;
    const int all = state_.gauge_changes.empty() ? 0 : state_.gauge_changes.back().entry + 1;
    if (working) {
      lose(from, to, all, by_log - now.cm());
      change_gauges(all);
    } else {
      known_.left = now.cm();
    }
    return OnBall{Length::cm(known_.left), Length::cm(std::sqrt(known_.left_variance)), Length::cm(known_.together)};
  }

  void weigh(std::size_t index, double seen, double variance) {
    weighed_since_ = weighed_since_ || known_.together != 0;
    if (known_.off(seen, variance) <= kOdd) return known_.see(seen, variance);
    odd_ = index;
    known_.left = seen;
    known_.left_variance = variance;
    known_.together = 0;
  }

  const State& state_;
  const Doubts& doubts_;
  double open_variance_;
  double told_;  // what the share is known to within once weighings told it
  std::vector<Maybe> begun_;
  std::vector<std::vector<const Weighing*>> weighed_;
  Knowledge known_;
  std::size_t next_change_ = 0;
  bool weighed_since_ = false;  // with work before that
  std::optional<std::size_t> odd_;
};

}  // namespace

Doubts doubts_of(const State& state) {
  Doubts doubts;
  doubts.scale = scale_step(state);
  doubts.label = doubts.spread = state.yarn.ball_plus_minus;
  return doubts;
}

Stock stock_of(const State& state, const Doubts& doubts) {
  Stock stock = Filter(state, doubts, std::hypot(doubts.label, doubts.gauge)).run();
  const Takes alone = Filter(state, doubts, kOpen).run().takes;
  if (alone.plus_minus <= kWorthTelling && !stock.odd) stock.measured = alone;
  return stock;
}

Length give_or_take(const OnBall& ball, const Doubts& doubts) {
  return Length::cm(std::hypot(ball.plus_minus.cm(), doubts.label * ball.left.cm()));
}

Rows rows_left(const OnBall& ball, const Takes& takes, Length row) {
  const double rows = std::max(0.0, ball.left / row / takes.share);
  // Of y / k W, to first order.
  const double by_left = ball.plus_minus / row / takes.share;
  const double by_share = rows * takes.plus_minus / takes.share;
  const double both = 2 * rows * (ball.with_takes / row) / (takes.share * takes.share);
  const double doubt = kNineInTen * std::sqrt(std::max(0.0, by_left * by_left + by_share * by_share - both));
  return {rows, std::max(0.0, rows - doubt), rows + doubt};
}

bool differs(const Takes& measured, const Doubts& doubts) {
  return std::abs(measured.share - 1) > 2 * std::hypot(measured.plus_minus, doubts.label);
}

}  // namespace ballchange::stock
