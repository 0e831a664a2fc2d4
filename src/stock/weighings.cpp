#include "stock/weighings.hpp"

#include <algorithm>
#include <climits>
#include <cmath>
#include <numbers>
#include <string_view>
#include <unordered_map>
#include <utility>

#include "base/normal.hpp"
#include "ledger/maybe.hpp"
#include "stock/scale.hpp"

namespace ballchange::stock {
namespace {

constexpr double kOdd = 6;  // standard deviations that nobody meets
constexpr double kSlip = 0.01;
constexpr double kHair = 1e-6;  // cm; what the log adds up to comes out no nearer

bool same(double a, double b) { return std::abs(a - b) < kHair; }

// Where in the work a ball's yarn begins: anywhere from there on to so much yarn later.
struct Begins {
  Maybe from;
  double later = 0;   // cm
  double untold = 0;  // cm, one standard deviation of what it lost besides to a foundation of which nothing was told
};

// A join without its hook lies where the old ball ends at the latest, which may be longer than it should be.
double later_by(const JoinState& join, const State& state, const Doubts& doubts) {
  if (!join.at_least) return 0;
  const double ball = state.yarn.ball_length ? state.yarn.ball_length->cm() : 0;
  if (!join.old_left) return ball;
  return std::max(0.0, join.old_left->cm()) + kNineInTen * doubts.spread * ball;
}

// The foundation is no row.
std::vector<Begins> beginnings(const State& state, const Doubts& doubts) {
  std::vector<Begins> each(state.balls.size(), {state.gauge.used({1, 0}), 0, 0});
  std::unordered_map<std::string_view, std::size_t> index;
  for (std::size_t k = 0; k < state.balls.size(); ++k) index.emplace(state.balls[k].id, k);
  for (const JoinState& join : state.joins) {
    const auto ball = index.find(join.new_ball);
    if (join.knot || ball == index.end()) continue;
    if (join.lands()) each[ball->second] = {join.used, later_by(join, state, doubts), 0};
  }
  // About as much as a row takes; common practice, no source.
  const auto row = state.gauge.row();
  if (state.begun && row && !state.gauge.foundation_told()) each[state.begun->ball].untold = row->cm();
  return each;
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
    constexpr double hair = 1e-6;  // nothing is as exact as that
    return std::abs(seen - left) / std::max(hair, std::sqrt(left_variance + variance));
  }
  // Log density of it.
  [[nodiscard]] double score(double seen, double variance) const {
    const double all = left_variance + variance;
    return all <= 0 ? 0 : -(seen - left) * (seen - left) / all / 2 - std::log(2 * std::numbers::pi * all) / 2;
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
class Pass {
 public:
  Pass(const State& state, const Doubts& doubts, const Account& account)
      : state_(state),
        doubts_(doubts),
        account_(account),
        open_variance_(account.open * account.open),
        told_(std::min(account.open * 0.75, kWorthTelling)),
        begins_(beginnings(state, doubts)),
        weighed_(state.balls.size()) {
    known_.share_variance = open_variance_;
    for (const Weighing& weighing : state.weighings) {
      weighed_[weighing.ball].push_back(&weighing);
      if (!state.balls[weighing.ball].plain) last_ = weighing.entry;  // another yarn's bears nothing out
    }
  }

  Followed run() {
    Stock& stock = told_of_.stock;
    stock.doubts = doubts_;
    stock.balls.resize(state_.balls.size());
    for (const std::size_t ball : in_order()) stock.balls[ball] = follow(ball);
    // Gauges after the last weighing.
    change_gauges(state_.gauge_changes.empty() ? 0 : state_.gauge_changes.back().entry + 1);
    settle();  // rows to come are another stretch
    stock.takes = {known_.share, std::sqrt(known_.share_variance)};
    told_of_.score = score_;
    std::sort(told_of_.slips.begin(), told_of_.slips.end());
    return std::move(told_of_);
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

  // In cm^2, of a mass of that ball.
  [[nodiscard]] double rounding(const BallState& ball, Mass mass, const std::optional<Mass>& step) const {
    const double gram = yarn_in_a_gram(state_, ball).value_or(Length()).cm();
    const double one = rounding_of(step.value_or(std::min(doubts_.scale, step_of(mass)))).g() * gram;
    return one * one;
  }

  void start(const BallState& ball) {
    known_.left = ball.length->cm();
    const double spread = doubts_.spread * known_.left;
    known_.left_variance = ball.mass ? rounding(ball, *ball.mass, ball.scale) : spread * spread;
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
    if (same(to, from)) return;
    settle();
    begin_later(to - from);
    known_.left_variance += untold_ * untold_;
    untold_ = 0;
    while (next_change_ < state_.gauge_changes.size() && state_.gauge_changes[next_change_].entry < until) {
      const GaugeChange& gauge = state_.gauge_changes[next_change_++];
      const double at = gauge.used ? std::max(gauge.used->cm(), from) : from;
      known_.work(at - from);
      from = at;
      change(gauge);
    }
    known_.work(to - from);
  }

  // The first work with a ball that may have come in later, by anything between nothing and all that was worked.
  void begin_later(double worked) {
    const double later = std::min(later_, worked);
    if (later <= 0) return;
    later_ = 0;
    known_.left += later / 2;
    known_.left_variance += later * later / 12;
  }

  // The first work after a weighing.
  void settle() {
    if (weighed_since_) known_.share_variance += doubts_.drift * doubts_.drift;
    weighed_since_ = false;
  }

  std::optional<OnBall> follow(std::size_t index) {
    const BallState& ball = state_.balls[index];
    if (!ball.length) return std::nullopt;
    const Maybe begins = begins_[index].from;
    later_ = begins_[index].later;
    untold_ = begins_[index].untold;
    start(ball);
    double from = begins ? begins->cm() : 0;
    double by_log = ball.length->cm();
    const Weighing* before = nullptr;
    for (const Weighing* each : weighed_[index]) {
      const Weighing& weighing = *each;
      if (!weighing.expected || !weighing.left || weighing.past_end) continue;
      const double to =
          weighing.in_work && begins && weighing.used ? std::max(weighing.used->cm(), begins->cm()) : from;
      if (begins) lose(from, to, weighing.entry, by_log - weighing.expected->cm());
      // The same yarn on the same scale is rounded the same way again; it bears out what was left out as misread.
      const bool again = before != nullptr && before->entry != account_.left_out && same(to, from) &&
                         same(weighing.expected->cm(), by_log);
      const bool alike = again && before->mass == weighing.mass && before->scale == weighing.scale;
      if (weighing.entry != account_.left_out && !alike) weigh(index, weighing, before);
      if (again && slipped_at_ == before->entry) slip_at(index, weighing, true);
      before = each;
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

  void weigh(std::size_t index, const Weighing& weighing, const Weighing* before) {
    weighed_since_ = weighed_since_ || known_.together != 0;
    const double seen = weighing.left->cm();
    const double variance = rounding(state_.balls[index], weighing.mass, weighing.scale);
    const bool slip = std::binary_search(account_.slips.begin(), account_.slips.end(), weighing.entry);
    if (!slip && known_.off(seen, variance) <= kOdd) {
      score_ += known_.score(seen, variance);
      return known_.see(seen, variance);
    }
    score_ += slip_score(state_);
    if (told_of_.slips.empty()) {
      told_of_.slip_ball = index;
      told_of_.before_slip = before != nullptr ? before->entry : 0;
    }
    told_of_.slips.push_back(weighing.entry);
    beyond_ = *weighing.expected < Length();
    slip_at(index, weighing, false);
    if (account_.misread) return;
    known_.left = seen;
    known_.left_variance = variance;
    known_.together = 0;
  }

  // It contradicts the rows, or is the same mass again as one that does.
  void slip_at(std::size_t index, const Weighing& weighing, bool again) {
    slipped_at_ = weighing.entry;
    if (weighing.entry != last_) return;  // any other was told then
    told_of_.odd = index;
    told_of_.odd_entry = weighing.entry;
    told_of_.beyond = beyond_;
    told_of_.again = again;
  }

  const State& state_;
  const Doubts& doubts_;
  Account account_;
  double open_variance_;
  double told_;  // what the share is known to within once weighings told it
  std::vector<Begins> begins_;
  std::vector<std::vector<const Weighing*>> weighed_;
  int slipped_at_ = 0;   // the entry of the last weighing that contradicts the rows
  bool beyond_ = false;  // the rows had taken more than the ball held then
  int last_ = 0;         // the entry of the last weighing of this yarn
  Knowledge known_;
  double later_ = 0;   // cm; the ball that is followed may begin so much later
  double untold_ = 0;  // cm; and may have lost about so much more before its first row
  std::size_t next_change_ = 0;
  bool weighed_since_ = false;  // with work before that
  double score_ = 0;
  Followed told_of_;
};

}  // namespace

double slip_score(const State& state) {
  constexpr double some_ball = 10'000;  // cm, where the band isn't known
  return std::log(kSlip / (state.yarn.ball_length ? state.yarn.ball_length->cm() : some_ball));
}

Followed follow_weighings(const State& state, const Doubts& doubts, const Account& account) {
  return Pass(state, doubts, account).run();
}

}  // namespace ballchange::stock
