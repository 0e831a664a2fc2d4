#include "commands/report.hpp"

#include <fmt/core.h>

#include <array>
#include <numeric>
#include <utility>

#include "base/problem.hpp"
#include "commands/drawn.hpp"
#include "paper/report.hpp"
#include "project/creep.hpp"
#include "project/drawn_fabric.hpp"
#include "project/offcuts.hpp"
#include "project/report_joins.hpp"
#include "project/stock.hpp"
#include "show/profile_notes.hpp"

namespace ballchange {
namespace {

constexpr std::array<OptionRow, 1> kRows{{
    {"out", "FILE.html", "the page"},
}};
constexpr OptionGroup kGroup{"The page (records nothing)", kRows};

void add_fabric(ReportShown& shown, const OpenProject& open, const Options& options, const Context& context,
                const Common& common) {
  if (!open.state.fabric.yarn_per_stitch || !open.state.fabric.stitches) {
    shown.notes.emplace_back("the piece can't be drawn: its stitches, or the yarn they take, are not on record");
    return;
  }
  try {
    DrawnFabric made = drawn_fabric(&open, options, context, common);
    name_fabric(made.paper, open.project.name);
    shown.fabric = std::move(made.paper);
    for (TakenForGranted& note : made.notes) shown.notes.push_back(std::move(note.what));
  } catch (const TooFineToDraw&) {  // in words that need none of draw's options
    shown.notes.push_back("the piece is too large to be drawn here, or its sections are too short");
  }
}

void add_shades(ReportShown& shown, const std::vector<Colour>& colours) {
  if (!shown.fabric && shown.joins.empty()) return;
  if (auto note = unshaded_note(colours)) shown.notes.push_back(std::move(*note));
}

}  // namespace

std::vector<OptionGroup> report_options() { return {kGroup, piece_drawing_options(), common_options()}; }

Outcome run_report(const Options& options, Context& context) {
  const Common common = common_of(options, context);
  const OpenProject open = open_project(options, context);
  if (!options.has("out")) {
    throw Problem(Fault::content, "report writes a page to print or to read: name its file, --out report.html");
  }
  const Told told = measures_of(options, open.project, open.state).told;
  LogShown log{open.project, open.state, {}, nullptr, nullptr, nullptr, nullptr};
  log.entries.resize(open.project.entries.size());
  std::iota(log.entries.begin(), log.entries.end(), std::size_t{0});
  const stock::Stock stock = stock::stock_of(open.state, stock::doubts_of(open.state));
  const StockShown left = stock_of_ball(open.project, open.state, stock, open.path, options, context);
  const CreepShown creep = creep_of(open.project, open.state, open.path);
  log.stock = &left;
  log.creep = &creep;
  const OffcutsShown offcuts = offcuts_in(open, options, nullptr);
  log.offcuts = &offcuts;
  ReportShown shown{log, report_joins(open, told), {}, {}};
  add_fabric(shown, open, options, context, common);
  add_shades(shown, open.state.yarn.repeat.colours());
  Drawn drawn;
  drawn.ending = ".html";
  drawn.title = report_title(open.project);
  drawn.format = "ballchange report 1";
  const Totals& totals = open.state.totals;
  const std::string knots = totals.knots_left == 0
                                ? ""
                                : fmt::format(", {} knot{} left", totals.knots_left, totals.knots_left == 1 ? "" : "s");
  drawn.description = fmt::format("{} join{}{}, {} ball{}.", totals.joins, totals.joins == 1 ? "" : "s", knots,
                                  open.state.balls.size(), open.state.balls.size() == 1 ? "" : "s");
  drawn.notes = shown.notes;
  drawn.file = [&] { return report_page(shown, told); };
  deliver(drawn, options, context, common);
  return Outcome::done;
}

}  // namespace ballchange
