#include "stock/on_balls.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "base/normal.hpp"
#include "stock/scale.hpp"
#include "stock/weighings.hpp"

namespace ballchange::stock {
namespace {

constexpr double kOpen = 10;  // a share of which nothing is known
// Of a gauge that is plainly not the work's, and how many are. Common practice, no source.
constexpr double kWrong = 0.15, kWrongGauges = 0.03;
// An account so much less likely than the best (log) is no longer reckoned with.
constexpr double kPlausible = 5;

struct Told {
  Account account;
  Followed followed;
  double rows = 0;  // of the ball in work, in rows of a centimetre by the gauge
};

// Where rows and scale contradict each other, all that may be behind it: something not recorded, a weighing misread,
// that one or the one before it, or a gauge that is not the work's.
std::vector<Told> accounts(const State& state, const Doubts& doubts, double usual, const Followed& first) {
  std::vector<Account> all;
  for (const double open : {usual, kWrong}) {
    all.push_back({open, false, 0, {}});
    all.push_back({open, true, 0, {}});
    if (first.before_slip > 0) all.push_back({open, false, first.before_slip, {}});
  }
  std::vector<Told> told;
  for (const Account& account : all) {
    Told one{account, follow_weighings(state, doubts, account)};
    if (account.open == kWrong) one.followed.score += std::log(kWrongGauges);
    if (account.left_out > 0) one.followed.score += slip_score(state);
    const Stock& stock = one.followed.stock;
    const auto ball = state.working.value_or(0);
    const bool known = ball < stock.balls.size() && stock.balls[ball];
    one.rows = (known ? stock.balls[ball]->left.cm() : 1) / stock.takes.share;
    told.push_back(std::move(one));
  }
  const auto best = std::max_element(told.begin(), told.end(), [](const Told& a, const Told& b) {
                      return a.followed.score < b.followed.score;
                    })->followed.score;
  std::erase_if(told, [&](const Told& one) { return one.followed.score < best - kPlausible; });
  std::stable_sort(told.begin(), told.end(),
                   [](const Told& a, const Told& b) { return a.followed.score > b.followed.score; });
  return told;
}

// Wide enough for what is less likely, too.
double widened(double plus_minus, double low, double high) {
  return std::hypot(plus_minus, (high - low) / (2 * kNineInTen));
}

// By the account that makes the fewest rows: more must not be promised.
Stock of_accounts(const std::vector<Told>& told, std::size_t slip_ball) {
  const Told& fewest =
      *std::min_element(told.begin(), told.end(), [](const Told& a, const Told& b) { return a.rows < b.rows; });
  Stock stock = fewest.followed.stock;
  const auto span = [&](auto of) {
    const auto [low, high] = std::minmax_element(told.begin(), told.end(), [&](const Told& a, const Told& b) {
      return of(a.followed.stock) < of(b.followed.stock);
    });
    return std::pair(of(low->followed.stock), of(high->followed.stock));
  };
  const auto [least, most] = span([](const Stock& one) { return one.takes.share; });
  stock.takes.plus_minus = widened(stock.takes.plus_minus, least, most);
  for (std::size_t k = 0; k < stock.balls.size(); ++k) {
    if (!stock.balls[k]) continue;
    const auto [low, high] = span([k](const Stock& one) { return one.balls[k]->left.cm(); });
    stock.balls[k]->plus_minus = Length::cm(widened(stock.balls[k]->plus_minus.cm(), low, high));
  }
  for (const Told& one : told) {
    if (one.account.left_out > 0) {
      stock.odd = slip_ball;
      stock.suspect = one.account.left_out;
    } else {
      stock.odd = one.followed.odd;
      stock.suspect = one.followed.odd_entry;
    }
    // What is left out says nothing of either.
    stock.beyond = one.account.left_out == 0 && one.followed.beyond;
    stock.again = one.account.left_out == 0 && one.followed.again;
    if (stock.odd) break;
  }
  return stock;
}

}  // namespace

Doubts doubts_of(const State& state) {
  Doubts doubts;
  doubts.scale = scale_step(state);
  doubts.label = doubts.spread = state.yarn.ball_plus_minus;
  return doubts;
}

Stock stock_of(const State& state, const Doubts& doubts) {
  const double usual = std::hypot(doubts.label, doubts.gauge);
  Followed first = follow_weighings(state, doubts, {usual, false, 0, {}});
  Account alone{kOpen, false, 0, {}};
  Stock stock = std::move(first.stock);
  if (!first.slips.empty()) {
    const std::vector<Told> told = accounts(state, doubts, usual, first);
    stock = of_accounts(told, first.slip_ball);
    alone = told.front().account;
    alone.open = kOpen;
    alone.slips = told.front().followed.slips;  // so open, it would believe whatever comes first
  }
  const Takes measured = follow_weighings(state, doubts, alone).stock.takes;
  if (measured.plus_minus <= kWorthTelling && !stock.odd) stock.measured = measured;
  return stock;
}

bool weighed(const State& state) {
  return std::any_of(state.weighings.begin(), state.weighings.end(),
                     [&](const Weighing& weighing) { return !state.balls[weighing.ball].plain; });
}

bool left_is_unknown(const Stock& stock, std::size_t ball) {
  return stock.odd == ball && stock.balls[ball] && (stock.beyond || stock.balls[ball]->left < Length());
}

Left left_by_scale(const State& state, const Stock& stock) {
  Left left = state.left;
  if (stock.odd && left_is_unknown(stock, *stock.odd) && state.balls[*stock.odd].use != BallUse::used_up) {
    Left unknown;
    unknown.foundation = left.foundation;
    unknown.needed = left.needed;
    return unknown;
  }
  const auto row = state.gauge.row();
  if (!weighed(state) || !left.length || !row) return left;
  Length all;
  for (std::size_t k = 0; k < state.balls.size(); ++k) {
    const BallState& ball = state.balls[k];
    if (ball.plain || ball.use == BallUse::used_up) continue;
    all += std::max(Length(), stock.balls[k] ? stock.balls[k]->left : ball.left.value_or(Length()));
  }
  left.length = all;
  constexpr double hair = 1e-9;
  const double most = 1e9;
  const Length for_rows = std::max(all - left.foundation, Length());
  left.rows = static_cast<int>(std::min(std::floor(for_rows / (*row * stock.takes.share) + hair), most));
  if (left.needed) left.needed = *left.needed * stock.takes.share;
  if (!left.enough) return left;
  left.enough = all + Length::cm(hair) >= *left.needed;
  left.missing = *left.enough ? std::nullopt : std::optional(*left.needed - all);
  return left;
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
