#include "commands/log.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>

#include "base/text.hpp"
#include "console/common.hpp"
#include "project/balls.hpp"
#include "project/contested.hpp"
#include "project/creep.hpp"
#include "project/off_record.hpp"
#include "project/offcuts.hpp"
#include "project/project.hpp"
#include "project/stock.hpp"
#include "show/log.hpp"

namespace ballchange {
namespace {

constexpr std::array<OptionRow, 4> kRows{{
    {"ball", "ID", "only what became of this ball"},
    {"since", "TIME", "only entries from then on, like 2026-03-02 or 2026-03-02T19:20Z"},
    {"csv", "", "the entries as a table for a spreadsheet"},
    {"offcuts", "", "what was cut off and is long enough for a join or for sewing, colour by colour"},
}};
constexpr OptionGroup kGroup{"What to show", kRows};

std::optional<Moment> since(const Options& options) {
  const auto text = options.text("since");
  if (!text) return std::nullopt;
  if (const auto day = parse_day(*text)) return day;
  if (trim(*text).find_first_of("Tt ") != std::string_view::npos && text->find(':') != std::string::npos) {
    return parse_moment(*text, "--since");
  }
  throw Problem(Fault::content, fmt::format("--since: '{}' is no date; write one, like 2026-03-02 or 2026-03-02T19:20Z",
                                            printable(*text, 40)));
}

// Which entries tell of a ball; cancelling one of them does as well.
std::vector<bool> entries_about(const Project& project, const State& state, const std::string& ball) {
  std::vector<bool> about(project.entries.size());
  for (const JoinState& join : state.joins) {
    if (join.old_ball == ball) about[static_cast<std::size_t>(join.entry) - 1] = true;
  }
  for (std::size_t i = 0; i < about.size(); ++i) {
    std::visit(
        [&](const auto& entry) {
          if constexpr (requires { entry.ball; }) {
            if (entry.ball == ball) about[i] = true;
          } else if constexpr (requires { entry.entry; }) {
            if (entry.entry >= 1 && static_cast<std::size_t>(entry.entry) <= i) {
              about[i] = about[static_cast<std::size_t>(entry.entry) - 1];
            }
          }
        },
        project.entries[i].what);
  }
  return about;
}

LogShown shown_of(const OpenProject& open, const Options& options) {
  LogShown shown{open.project, open.state, {}, nullptr, nullptr, nullptr, nullptr};
  const auto id = options.text("ball");
  if (id) shown.ball = &ball_named(open.state, *id);
  const std::vector<bool> about =
      id ? entries_about(open.project, open.state, *id) : std::vector<bool>(open.project.entries.size(), true);
  const auto from = since(options);
  for (std::size_t i = 0; i < about.size(); ++i) {
    if (about[i] && (!from || open.project.entries[i].at >= *from)) shown.entries.push_back(i);
  }
  return shown;
}

}  // namespace

std::vector<OptionGroup> log_options() { return {kGroup, common_options()}; }

Outcome run_log(const Options& options, Context& context) {
  const Common common = common_of(options, context);
  for (const char* name : {"csv", "since"}) {
    if (!options.has("offcuts") || !options.has(name)) continue;
    throw Problem(Fault::content,
                  fmt::format("--offcuts shows what is kept now, and no entries: leave out --{}", name));
  }
  if (options.has("csv") && common.format == Format::json) {
    throw Problem(Fault::content, "--csv and --format json exclude each other: give one");
  }
  const OpenProject open = open_project(options, context);
  LogShown shown = shown_of(open, options);
  shown.contested = contested_shift(open.state);
  const stock::Stock stock = stock::stock_of(open.state, stock::doubts_of(open.state));
  const StockShown enough = enough_of(open.project, open.state, stock, open.path, options);
  shown.stock = &enough;
  const CreepShown creep = creep_of(open.project, open.state, open.path);
  shown.creep = &creep;
  const OffcutsShown offcuts = offcuts_in(open, options, shown.ball);
  shown.offcuts = &offcuts;
  shown.only_offcuts = options.has("offcuts");
  if (options.has("csv")) {
    answer(context, common, log_csv(shown));
  } else if (common.format == Format::json) {
    answer(context, common, log_json(shown));
  } else {
    const Measures measures = measures_of(options, open.project, open.state);
    if (!shown.only_offcuts) {
      shown.unsettled = unsettled_balls(open.project, open.state, placing_options(options, measures), shown.ball);
    }
    answer(context, common, log_screen(shown, common.screen, measures.told));
  }
  return Outcome::done;
}

}  // namespace ballchange
