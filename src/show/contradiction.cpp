#include "show/contradiction.hpp"

#include <fmt/core.h>

#include <cmath>
#include <vector>

#include "base/text.hpp"
#include "fabric/work.hpp"
#include "show/stock.hpp"
#include "show/text.hpp"

namespace ballchange {
namespace {

bool nothing_worked_between(const Weighing& a, const Weighing& b) { return a.in_work == b.in_work && a.used == b.used; }

}  // namespace

std::optional<ScaleContradiction> scale_contradiction(const State& state, const stock::Stock& stock) {
  if (!stock.odd) return std::nullopt;
  std::vector<const Weighing*> weighings;
  const Weighing* suspect = nullptr;
  for (const Weighing& one : state.weighings) {
    if (one.ball != *stock.odd || one.past_end) continue;
    weighings.push_back(&one);
    if (one.entry == stock.suspect) suspect = &one;
  }
  ScaleContradiction contradiction;
  contradiction.twice = stock.again;
  // An earlier one is held to be misread: whether what came after it was weighed again the stock doesn't say.
  const bool earlier = suspect != nullptr && suspect != weighings.back();
  if (earlier) {
    const Weighing& before = **(weighings.end() - 2);
    contradiction.twice = &before != suspect && nothing_worked_between(before, *weighings.back());
  }
  if (contradiction.twice && !earlier && suspect != nullptr) {
    // The scale bore that one out: what is left to doubt is what was weighed before, with rows between.
    const Weighing& last = *suspect;
    suspect = nullptr;
    for (const Weighing* one : weighings) {
      if (one->in_work && !nothing_worked_between(*one, last)) suspect = one;
    }
  }
  contradiction.suspect = suspect;
  const std::string_view row = row_word(state.fabric.working);
  contradiction.told = fmt::format("the {}s and the scale don't go together on ball {}{}", row,
                                   printable(state.balls[*stock.odd].id, 60),
                                   contradiction.twice ? ", weighed twice" : ": weigh it again");
  contradiction.asked = fmt::format(
      "Was a {}, a join or a swatch not recorded, another ball weighed, or another hook or needle taken up?", row);
  if (contradiction.twice && suspect != nullptr) {
    contradiction.asked += fmt::format(" Or was {:.4g} g (entry {}) misread?", suspect->mass.g(), suspect->entry);
  }
  return contradiction;
}

std::string contradiction_lines(const State& state, const stock::Stock& stock, const std::string& path,
                                std::size_t columns) {
  const auto odd = scale_contradiction(state, stock);
  if (!odd) return {};
  std::string text = fmt::format("{}. Until that is plain, {}s are counted so that they don't come out too many. {}",
                                 odd->told, row_word(state.fabric.working), odd->asked);
  std::string command;
  if (odd->twice) {
    text += " See what is on record:";
    command = fmt::format("ballchange log {}", typed_path(path));
  } else if (odd->suspect != nullptr) {
    text += fmt::format(" If {:.4g} g (entry {}) was misread:", odd->suspect->mass.g(), odd->suspect->entry);
    command = fmt::format("ballchange cancel {} {}", typed_path(path), odd->suspect->entry);
  }
  std::string lines = labelled("Mind", text, columns);
  if (!command.empty()) lines += fmt::format("{:{}}{}\n", "", kLabelWidth, command);
  return lines;
}

bool counts_by_scale(const StockShown& shown) {
  return stock::weighed(shown.state) && std::abs(shown.stock.takes.share - 1) >= stock::kScaleCounts;
}

std::string rate_words(const StockShown& shown, Told told) {
  const auto row = shown.state.gauge.row();
  if (!row || !counts_by_scale(shown)) return {};
  const double share = shown.stock.takes.share;
  const auto& measured = shown.stock.measured;
  // One weighing moves what is reckoned with only part of the way to what it says by itself.
  const bool apart = !measured || std::abs(measured->share - share) > 0.03;
  const bool beyond = measured && (share - measured->share) * (share - 1) > 0;
  const Length takes = *row * share;
  return fmt::format(" at {} a {} {}", amount(takes, told, takes / 100), row_word(shown.state.fabric.working),
                     !apart   ? "by the scale"
                     : beyond ? "(to be on the safe side)"
                              : "(between scale and gauge)");
}

}  // namespace ballchange
