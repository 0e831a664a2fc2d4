#include "paper/report.hpp"

#include <fmt/core.h>

#include <array>

#include "base/text.hpp"
#include "paper/page.hpp"
#include "paper/report_tables.hpp"
#include "show/entry_text.hpp"

namespace ballchange {
namespace {

constexpr Sheet kPiece{140, 150};  // small enough to be read on a telephone, too

constexpr std::string_view kFelting = "Felting: warm water, never scalding; colours may run. Follow the yarn's label.";
constexpr std::array<std::string_view, 3> kCautions{
    "On a baby's things leave no loose ends or knots that can come off; keep to the safety rules where you live.",
    "Never singe ends near skin; synthetic yarn melts. Follow the label and the rules where you live.",
    "Dry fit before every cut: yarn that is cut off does not grow back.",
};

class Report {
 public:
  Report(const ReportShown& shown, Told told)
      : shown_(shown),
        project_(shown.log.project),
        state_(shown.log.state),
        told_(told),
        page_(report_title(shown.log.project)) {}

  std::string take() {
    page_.heading(1, report_title(project_));
    page_.element("p", as_of(), "class=\"soft\"");
    next();
    piece();
    repeat();
    balls();
    joins();
    waste();
    left();
    notes();
    cautions();
    return page_.take();
  }

 private:
  [[nodiscard]] std::string as_of() const {
    constexpr std::size_t kDay = 10;  // 2026-03-02
    if (project_.entries.empty()) return "Nothing is recorded yet.";
    const LogEntry& last = project_.entries.back();
    return fmt::format("As recorded up to entry {}, {}.", last.n, format_moment(last.at).substr(0, kDay));
  }

  void next() {
    page_.heading(2, "What to do next");
    if (const std::string done = all_worked(project_, state_); !done.empty()) {
      page_.paragraph(done);
      return;
    }
    const std::string lines = next_lines(*shown_.log.stock, told_);
    if (outlasts_work(*shown_.log.stock)) {
      page_.paragraph("Work on: the ball in work reaches past the last row planned.");
      return;
    }
    if (lines.empty()) {
      page_.paragraph(state_.working ? "Work on; at the end of the ball lay out both ends and ask check."
                                     : "Record the ball that the work begins with: ballchange ball, with --begin.");
    }
    page_.told(lines);
    if (shown_.log.creep != nullptr) page_.told(creep_lines(*shown_.log.creep, told_, HtmlPage::kUnwrapped));
  }

  void piece() {
    page_.heading(2, "The piece").terms();
    for (const ReportFact& fact : piece_facts(project_, state_, told_)) page_.term(fact.label, fact.words);
    page_.close();
    if (shown_.fabric) {
      Drawing drawing("piece", shown_.fabric->title, shown_.fabric->description);
      const Sheet sheet = draw_fabric(drawing, *shown_.fabric, 1, 1, kPiece);
      page_.picture(drawing.inline_svg({sheet.width + 2, sheet.height + 2}), shown_.fabric->description);
    }
    for (const std::string& note : shown_.notes) page_.element("p", capital(note) + ".", "class=\"soft\"");
  }

  void repeat() {
    page_.heading(2, "The repeat");
    page_.picture(repeat_bar(state_.yarn, told_));
    page_.table(repeat_table(state_.yarn, told_));
  }

  void balls() {
    page_.heading(2, "The balls");
    if (state_.balls.empty()) {
      page_.paragraph("No ball is on record.");
    } else {
      page_.table(ball_table({state_, shown_.log.stock->stock}, told_));
    }
    if (shown_.log.creep != nullptr) page_.told(longer_balls_lines(*shown_.log.creep, told_, HtmlPage::kUnwrapped));
  }

  void joins() {
    page_.heading(2, "The joins");
    if (state_.joins.empty()) {
      page_.paragraph("None yet.");
      return;
    }
    page_.terms().term("Joins", joins_words(state_)).term("Shift", running_shift_words(state_, told_)).close();
    for (const ReportJoin& join : shown_.joins) {
      page_.open("section", "class=\"whole\"").heading(3, join_title(join, state_.fabric.working));
      page_.terms();
      for (const ReportFact& fact : join_facts(join, state_, project_.units, told_)) page_.term(fact.label, fact.words);
      page_.close();
      if (!join.picture.empty()) page_.picture(join.picture);
      page_.close();
    }
  }

  void waste() {
    page_.heading(2, "Cut away");
    page_.paragraph(waste_in_full(state_.totals, told_));
    if (!is_nothing(state_.totals.waste, told_)) page_.table(waste_table(state_.totals, told_));
    const OffcutsShown* offcuts = shown_.log.offcuts;
    if (offcuts == nullptr || offcuts->kept.empty()) return;
    page_.heading(3, "Kept offcuts").told(offcut_lines(*offcuts, told_, HtmlPage::kUnwrapped));
  }

  void left() {
    page_.heading(2, "What is left");
    const StockShown& stock = *shown_.log.stock;
    const std::size_t columns = HtmlPage::kUnwrapped;
    const LeftShown left{state_, stock.stock};
    const std::string lines = stock.outlook
                                  ? stands_line(state_, told_, columns) + yarn_line(left, told_, columns, false) +
                                        enough_lines(stock, told_, columns)
                                  : work_lines(left, told_, columns);
    if (lines.empty()) page_.paragraph("Not known yet: tell rows, gauge and balls.");
    page_.told(lines);
  }

  void notes() {
    std::vector<std::string> said;
    for (const LogEntry& entry : project_.entries) {
      if (!std::holds_alternative<did::Note>(entry.what) || !state_.counts(entry.n)) continue;
      said.push_back(
          fmt::format("{}: {}", format_moment(entry.at).substr(0, 10), entry_words(entry.what, state_.fabric.working)));
    }
    for (const Trouble& trouble : state_.troubles) {
      said.push_back(
          fmt::format("Entry {}{}: {}", trouble.entry, trouble.skipped ? " counts for nothing" : "", trouble.message));
    }
    if (said.empty()) return;
    page_.heading(2, "Notes").open("ul");
    for (const std::string& note : said) page_.element("li", note);
    page_.close();
  }

  void cautions() {
    page_.open("section", "class=\"whole\"").heading(2, "Cautions").open("ul");
    if (state_.yarn.felts) page_.element("li", kFelting);
    for (const std::string_view caution : kCautions) page_.element("li", caution);
    page_.close().close();
  }

  const ReportShown& shown_;
  const Project& project_;
  const State& state_;
  Told told_;
  HtmlPage page_;
};

}  // namespace

std::string report_title(const Project& project) {
  return "Report, " + (project.name.empty() ? "a piece in " + printable(project.yarn.name) : printable(project.name));
}

std::string report_page(const ReportShown& shown, Told told) { return Report(shown, told).take(); }

}  // namespace ballchange
