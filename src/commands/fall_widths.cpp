#include "commands/fall_widths.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <iterator>

#include "base/problem.hpp"
#include "fabric/tool_size.hpp"

namespace ballchange {
namespace {

constexpr double kMostThicker = 0.2;  // another size may be, or as much thinner: the fabric is to stay what it is
constexpr double kSteady = 0.01;      // hands are seldom more even than that
constexpr int kNeighbours = 5;        // stitches away
constexpr std::size_t kOtherHeights = 2;
constexpr int kFarther = 2;  // times as wide, or as narrow: beyond it is another piece

bool steady(const Fall& one) { return one.forgives >= kSteady; }

std::vector<Fall> wanted_in(const FallShown& shown, int low, int high) {
  if (low > high) return {};
  std::vector<Fall> some = falls(shown.colouring, low, high, shown.pattern);
  some.erase(std::remove_if(some.begin(), some.end(), [&](const Fall& one) { return !is_wanted(one, shown); }),
             some.end());
  return some;
}

// The nearest of `some` to `stitches`, and where that one is easily spoilt the nearest steady one not far off.
void add_nearest(const std::vector<Fall>& some, int stitches, std::vector<Fall>& to) {
  const auto nearer = [stitches](const Fall& a, const Fall& b) {
    return std::abs(a.stitches - stitches) < std::abs(b.stitches - stitches);
  };
  const auto nearest = std::min_element(some.begin(), some.end(), nearer);
  if (nearest == some.end()) return;
  to.push_back(*nearest);
  if (steady(*nearest)) return;
  std::vector<Fall> steadier;
  std::copy_if(some.begin(), some.end(), std::back_inserter(steadier), [&](const Fall& one) {
    return steady(one) && std::abs(one.stitches - nearest->stitches) <= kNeighbours;
  });
  const auto other = std::min_element(steadier.begin(), steadier.end(), nearer);
  if (other != steadier.end()) to.push_back(*other);
}

// In the range and of the look, but not of the height wanted: those that come nearest to it.
std::vector<Fall> of_other_heights(const FallShown& shown) {
  if (!shown.look || !shown.rows) return {};
  std::vector<Fall> some = widths_for(shown.colouring, *shown.look, std::nullopt, shown.low, shown.high, shown.pattern);
  const auto off = [&](const Fall& one) { return one.rows ? std::abs(std::log(*one.rows / *shown.rows)) : 1e9; };
  std::stable_sort(some.begin(), some.end(), [&](const Fall& a, const Fall& b) { return off(a) < off(b); });
  some.resize(std::min(some.size(), kOtherHeights));
  return some;
}

}  // namespace

bool is_wanted(const Fall& one, const FallShown& shown) {
  if (!shown.look) return one.look != Look::scattered;
  if (one.look != *shown.look) return false;
  return of_height_wanted(one, shown);
}

bool any_wanted(const FallShown& shown) {
  return std::any_of(shown.widths.begin(), shown.widths.end(), [&](const Fall& one) { return is_wanted(one, shown); });
}

std::vector<Fall> nearest_outside(const FallShown& shown, int low, int high) {
  std::vector<Fall> found;
  add_nearest(wanted_in(shown, (low + kFarther - 1) / kFarther, low - 1), low, found);
  add_nearest(wanted_in(shown, high + 1, std::min(kFarther * high, kMostStitches)), high, found);
  std::sort(found.begin(), found.end(), [](const Fall& a, const Fall& b) { return a.stitches < b.stitches; });
  return found;
}

void take_falls(FallShown& shown) {
  if (shown.low == 0) return;
  const Colouring& yarn = shown.colouring;
  if (falls(yarn, shown.low, shown.high, shown.pattern).empty()) {
    const std::string multiple = multiple_words(shown.pattern);
    throw Problem(Fault::content,
                  shown.low == shown.high
                      ? fmt::format("--widths: {} is no {}; widen it", shown.low, multiple)
                      : fmt::format("no width from {} to {} is a {}; widen --widths", shown.low, shown.high, multiple));
  }
  shown.widths = shown.look ? widths_for(yarn, *shown.look, shown.rows, shown.low, shown.high, shown.pattern)
                            : falls(yarn, shown.low, shown.high, shown.pattern);
  if (any_wanted(shown)) return;
  if (shown.look) shown.widths.clear();
  shown.other_heights = of_other_heights(shown);
  shown.outside = nearest_outside(shown, shown.low, shown.high);
}

std::optional<Fall> nearest_width(const FallShown& shown, int stitches) {
  const int reach = std::max(10, stitches / 5);
  const std::vector<Fall> some = wanted_in(shown, std::max(1, stitches - reach), stitches + reach);
  if (some.empty()) return std::nullopt;
  return *std::min_element(some.begin(), some.end(), [&](const Fall& a, const Fall& b) {
    if (steady(a) != steady(b)) return steady(a);
    return std::abs(a.stitches - stitches) < std::abs(b.stitches - stitches);
  });
}

std::optional<WidthInMind::Size> other_size(const FallShown& shown, const std::string& text, int stitches) {
  const auto size = tool_size(text, Tool::hook);
  if (!size) return std::nullopt;
  std::optional<WidthInMind::Size> best;
  for (const ToolSize& other : sizes(size->tool)) {
    const double thicker = other.mm / size->mm - 1;
    if (thicker == 0 || std::abs(thicker) > kMostThicker) continue;
    Colouring changed = shown.colouring;
    changed.stitch = changed.stitch * stitch_by_size(size->mm, other.mm);
    const Fall one = fall(changed, stitches);
    if (!is_wanted(one, shown)) continue;
    if (!best || std::abs(other.mm - size->mm) < std::abs(best->to_mm - size->mm)) {
      best = {size->mm, other.mm, one, changed, size->note};
    }
  }
  return best;
}

}  // namespace ballchange
