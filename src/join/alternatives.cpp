#include "join/alternatives.hpp"

#include <algorithm>

#include "join/target.hpp"

namespace ballchange::joining {
namespace {

constexpr Length grid = Length::cm(0.25);  // steps in which allowances are tried

bool less_left_behind(const Alternative& a, const Alternative& b, Length usual) {
  const Length difference = (a.discard + a.allowance) - (b.discard + b.allowance);
  if (abs(difference) > 0.1_cm) return difference < Length();
  return abs(a.allowance - usual) < abs(b.allowance - usual);
}

std::optional<Alternative> cheapest(const Offers& offers, Method method, Length usual, const AllowanceRange& range,
                                    const Price& price) {
  std::vector<Length> lengths = offers.also_try;
  lengths.insert(lengths.end(), {range.low, range.high, usual});
  for (Length m = range.low; m < range.high; m += grid) lengths.push_back(m);
  std::optional<Alternative> best;
  for (const Length m : lengths) {
    if (m < range.low - hardly || m > range.high + hardly) continue;
    const std::optional<Alternative> offer = price(method, std::clamp(m, range.low, range.high));
    if (offer && (!best || less_left_behind(*offer, *best, usual))) best = offer;
  }
  return best;
}

}  // namespace

std::vector<Alternative> alternatives(const Offers& offers, Method method, Length allowance, const Price& price) {
  std::vector<Alternative> found;
  const auto consider = [&](const MethodRow& row) {
    if (row.only_if_felts && !offers.felts) return;
    const auto range = allowance_range(row.method, offers.reckoning, offers.yarn_per_stitch);
    if (!range) return;
    const Length usual = row.method == method ? allowance : range->usual;
    const auto best = cheapest(offers, row.method, usual, *range, price);
    if (!best) return;
    const Length left_behind = best->discard + best->allowance;
    if (!offers.now || *offers.now - left_behind >= offers.worth_telling - hardly) found.push_back(*best);
  };
  consider(method_row(method));
  for (const MethodRow& row : methods()) {
    if (row.method != method) consider(row);
  }
  return found;
}

}  // namespace ballchange::joining
