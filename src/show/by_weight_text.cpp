#include <fmt/core.h>

#include <cmath>

#include "base/normal.hpp"
#include "base/text.hpp"
#include "fabric/work.hpp"
#include "show/entry_text.hpp"
#include "show/stock.hpp"

namespace ballchange {
namespace {

// After a per cent that isn't enough.
std::string_view only(double chance) { return chance < 0.01 || chance >= stock::kSurely ? "" : " only"; }

std::string ball_name(const std::string& id) { return fmt::format("ball {}", printable(id, 60)); }

// Whole rows; of a wide range no more than two figures.
long two_figures(double rows, bool wide) {
  const auto whole = std::lround(std::floor(rows + 1e-9));
  if (!wide || whole < 100) return whole;
  const double step = std::pow(10.0, std::floor(std::log10(static_cast<double>(whole))) - 1);
  return std::lround(std::round(static_cast<double>(whole) / step) * step);
}

// What a stitch takes by the scale, for the person to take or leave; nothing while too little is known for it.
std::optional<Length> stitch_by_weight(const State& state, const stock::ByWeight& yarn) {
  const auto row = stock::row_by_weight(yarn);
  if (!row || !state.fabric.stitches) return std::nullopt;
  const Length stitch = (*row - state.fabric.yarn_per_turn) / *state.fabric.stitches;
  return can_be_stitch(stitch) ? std::optional(stitch) : std::nullopt;
}

std::string gauge_lines(const ByWeightShown& shown, Told told, std::size_t columns) {
  // Known already, or of no use beside a yarn counted in stitches: something else is missing.
  if (shown.state.ruler.in_stitches || shown.state.ruler.yarn_per_stitch) return {};
  const auto stitch = stitch_by_weight(shown.state, shown.yarn);
  const std::string_view row = row_word(shown.state.fabric.working);
  const std::string what =
      stitch ? fmt::format(
                   "a stitch takes about {} by the scale and the ball band. Record that, or what a swatch "
                   "tells; then {}s and joins are counted by it:",
                   stitch_amount(*stitch, told), row)
             : fmt::format(
                   "record the yarn a stitch takes, as a swatch tells it; then {}s and joins are counted by it:", row);
  const Length typed = stitch.value_or(1.85_cm);
  return labelled("Next", what, columns) + std::string(kLabelWidth, ' ') +
         fmt::format("ballchange gauge {} --yarn-per-stitch {}\n", typed_path(shown.path), stitch_typed(typed, told));
}

}  // namespace

std::string stitch_typed(Length stitch, Told told) {
  if (told == Told::inches) return fmt::format("{:.3f}in", stitch.cm() / 2.54);
  return fmt::format("{:.2f}cm", stitch.cm());
}

std::string by_weight_lines(const ByWeightShown& shown, Told told, std::size_t columns) {
  const Working working = shown.state.fabric.working;
  const stock::ByWeight& yarn = shown.yarn;
  std::string text;
  if (yarn.left) {
    const Length doubt = kNineInTen * yarn.plus_minus;
    text += labelled("Left",
                     fmt::format("{} on {}, give or take {}.", amount(*yarn.left, told, doubt), ball_name(shown.ball),
                                 give_or_take(doubt, told)),
                     columns);
  }
  if (yarn.per_row) {
    const auto& rate = *yarn.per_row;
    const bool wide = rate.high > 1.5 * rate.low;
    text += labelled(row_word(working) == "row" ? "Row" : "Round",
                     fmt::format("a {} takes {:.2g} g of it, over the last {}; what is left makes about {} ({} to {}).",
                                 row_word(working), rate.mass.g(), rows_words(std::lround(rate.rows), working),
                                 rows_words(two_figures(rate.left, wide), working), two_figures(rate.low, wide),
                                 two_figures(rate.high, wide)),
                     columns);
  }
  if (shown.enough) {
    const ByWeightShown::Enough& enough = *shown.enough;
    std::string what = fmt::format("{} needed", amount(enough.needed, told));
    if (enough.use == PlainUse::rows_to_come) what = rows_words(enough.rows, working) + " to come at that rate";
    if (enough.use == PlainUse::edging)
      what = fmt::format("the edging takes {}, if it is worked with this", amount(enough.needed, told));
    text += labelled("Enough", fmt::format("{}{}: {}.", percent(enough.chance), only(enough.chance), what), columns);
  }
  if (!shown.state.find_ball(shown.ball)->plain) return text + gauge_lines(shown, told, columns);
  if (!yarn.left && !yarn.per_row) {
    text += labelled("Next",
                     "to count its yarn, tell what a whole ball of it weighs and holds, as its band says:", columns);
    text += std::string(kLabelWidth, ' ') + fmt::format("ballchange ball {} --ball {} --mass 50g --length 120m\n",
                                                        typed_path(shown.path), typed_path(shown.ball));
  }
  return text;
}

}  // namespace ballchange
