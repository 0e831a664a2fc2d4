#include <fmt/core.h>

#include <algorithm>

#include "show/check_project.hpp"
#include "show/cut.hpp"
#include "show/trim_doubt.hpp"

namespace ballchange {
namespace {

Reckoning reckoning_of(const CheckShown& shown) {
  return shown.yarn != nullptr ? shown.yarn->reckoning : Reckoning::centimetres;
}

struct Typed {
  Length allowance, discard, shift;
};

// Where every join stands by itself, or the work is in step.
bool aims_at_nothing(const CheckShown& shown) {
  return !shown.wish.from_the_start || shown.advice.out_of_step == Length();
}

// What comes of that allowance; less than nothing to cut off where it would take a whole repeat more.
Typed with_allowance(const Alternative& other, Length allowance, const CheckShown& shown) {
  const Length more = allowance - other.allowance;
  if (aims_at_nothing(shown) && other.shift > Length() && other.shift + more >= Length()) {
    return {allowance, other.discard, other.shift + more};
  }
  const Length uncut = other.shift - other.discard + more;  // the shift with nothing cut
  if (uncut >= Length()) return {allowance, Length(), uncut};
  return {allowance, other.shift - uncut, other.shift};
}

// As it can be typed: more yarn in the join rather than less, so that nothing new has to be cut, but within what is
// usual for the method.
Typed as_typed(const Alternative& other, const CheckShown& shown, Told told) {
  const Length up = rounded_up(other.allowance, told);
  if (abs(up - other.allowance) < Length::cm(1e-6)) return {other.allowance, other.discard, other.shift};
  const auto range = allowance_range(other.method, reckoning_of(shown), shown.fabric.yarn_per_stitch);
  const Typed typed = with_allowance(other, up, shown);
  const bool fits = !range || up <= range->high || other.allowance > range->high;
  if (fits && typed.discard >= Length()) return typed;
  return with_allowance(other, rounded_down(other.allowance, told), shown);
}

// The tolerance that allows such a shift; nothing where the one in force does.
std::optional<Length> needed_tolerance(const Typed& typed, const CheckShown& shown) {
  const Length out_before = shown.wish.from_the_start ? shown.advice.out_of_step : Length();
  Length shift = abs(typed.shift);
  if (typed.discard <= Length()) shift = std::max(shift, abs(out_before + typed.shift));
  const Length doubt = habits(reckoning_of(shown)).join_doubt;
  const Length aimed_at = std::max(Length(), shown.advice.tolerance - doubt);
  if (shift <= aimed_at + Length::cm(1e-6)) return std::nullopt;
  return shift + doubt;
}

// Nothing where it isn't known what the best join cuts off.
std::optional<Length> saved_by(const Typed& typed, const CheckShown& shown) {
  const Join& best = shown.advice.joins.front();
  if (!best.discard) return std::nullopt;
  return *best.discard + best.allowance - typed.discard - typed.allowance;
}

}  // namespace

std::string held_back(Length doubt, Told told) {
  return fmt::format("the tolerance holds {} back for the join itself", tape(doubt, told));
}

Remedy cheaper_way(const Alternative& other, const CheckShown& shown, Told told) {
  const Advice& advice = shown.advice;
  const Join& best = advice.joins.front();
  const Typed typed = as_typed(other, shown, told);
  Remedy remedy;
  if (other.method != advice.method) {
    remedy.text = fmt::format("{}, ", method_row(other.method).name);
    remedy.options = fmt::format("--method {} ", method_row(other.method).name);
  }
  remedy.text += fmt::format("{} in the join: ", tape(typed.allowance, told));
  remedy.options += fmt::format("--allowance {}", typed_length(typed.allowance, told));
  remedy.text += is_nothing(typed.discard, told)
                     ? "nothing to cut off"
                     : fmt::format("{} to cut off", amount(typed.discard, told, unseen_doubt(shown, typed.discard)));
  if (const auto saved = saved_by(typed, shown)) {
    remedy.text += fmt::format(", {} saved", amount(*saved, told, discard_doubt(shown, best)));
  }
  const std::optional<Length> tolerance = needed_tolerance(typed, shown);
  if (tolerance) {
    remedy.options += fmt::format(" --tolerance {}", typed_length(rounded_up(*tolerance, told), told));
  }
  if (!is_nothing(typed.shift, told)) {
    remedy.text +=
        fmt::format(", but the colours {} {}", typed.shift > Length() ? "skip" : "repeat", tape(typed.shift, told));
  }
  remedy.text += ". Check again with";
  if (tolerance) remedy.text += fmt::format(" ({})", held_back(habits(reckoning_of(shown)).join_doubt, told));
  remedy.text += ":";
  return remedy;
}

std::string saved_below(const CheckShown& shown, Told told) {
  const Advice& advice = shown.advice;
  const Join& best = advice.joins.front();
  if (!best.discard) return {};
  Length most;
  for (std::size_t i = 0; i < std::min(advice.alternatives.size(), kAlternativesTold); ++i) {
    most = std::max(most, *saved_by(as_typed(advice.alternatives[i], shown, told), shown));
  }
  most = std::max(most, saved_by_another(shown));
  // Less is not worth a second thought while ends are in hand.
  const bool much =
      most >= 2 * habits(reckoning_of(shown)).worth_telling && most >= (*best.discard + best.allowance) / 2;
  return much ? amount(most, told, discard_doubt(shown, best)) : std::string();
}

}  // namespace ballchange
