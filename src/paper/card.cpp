#include "paper/card.hpp"

#include <fmt/core.h>

#include <algorithm>

#include "base/text.hpp"
#include "paper/page.hpp"
#include "paper/strip.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kRowsEach = 8;          // of a table at most; several stand beside each other
constexpr std::size_t kLengthsTogether = 12;  // as many fit on one page

class Card {
 public:
  Card(const CardShown& shown, Told told) : shown_(shown), told_(told), page_(card_title(shown)) {}

  std::string take() {
    page_.heading(1, card_title(shown_));
    page_.paragraph(card_join(shown_, told_) +
                    (told_ == Told::stitches
                         ? " For the chair: it counts in stitches. With --yarn-per-stitch it tells lengths for a tape, "
                           "and has strips to lay the yarn on."
                         : " For the chair: a tape is enough, or the strips below."));
    help();
    page_.heading(2, "Tables");
    for (const LongSection& section : shown_.sections) table(section);
    if (told_ != Told::stitches) strips();
    return page_.take();
  }

 private:
  void help() {
    page_.heading(2, "How to use it").terms();
    for (const CardHelp& help : card_help(shown_, told_)) page_.term(help.label, help.text);
    page_.close();
  }

  [[nodiscard]] std::string name(const LongSection& section) const {
    return fmt::format("{}, {}", card_colour(shown_, section), card_neighbours(shown_, section));
  }

  void table(const LongSection& section) {
    page_.open("section", "class=\"whole\"").heading(3, name(section));
    page_.paragraph(card_rule(shown_, section, told_));
    tables(section);
    page_.close();
  }

  void strips() {
    page_.heading(2, "Strips, full size");
    page_.paragraph(
        "Lay the old end on the strip with the beginning of the colour on 0, and see where it ends. From there go back "
        "by the bar of the overlap. The number below tells what to leave on the new end.");
    page_.paragraph(
        fmt::format("This line must be {}. If it is not, print again at 100 %, with nothing fitted to the "
                    "page; until then use the tables only.",
                    told_ == Told::inches ? "4 in" : "10 cm"));
    page_.picture(check_line_svg(told_));
    page_.element("p", "On a screen the strips are not full size: print them.", "class=\"soft screen\"");
    for (const LongSection& section : shown_.sections) strip(section);
  }

  void strip(const LongSection& section) {
    const std::size_t count = strip_lengths(section, told_);
    page_.open("section", count > kLengthsTogether ? "" : "class=\"whole\"").heading(3, name(section));
    if (count > kMostLengths) {
      page_.paragraph("Too long for a strip: use a tape.").close();
      return;
    }
    const std::string broken = count == 1 ? ""
                                          : fmt::format(
                                                "Longer than the paper, so broken into {} lengths: where "
                                                "one ends, go on at the left of the next. ",
                                                count);
    page_.picture(strip_svg(shown_, section, told_), broken + "Thick lines: where the cuts may lie.").close();
  }

  void tables(const LongSection& section) {
    const std::vector<CardRow> rows = card_rows(section, told_);
    const std::size_t blocks = (rows.size() + kRowsEach - 1) / kRowsEach;
    const std::size_t each = (rows.size() + blocks - 1) / blocks;
    page_.open("div", "class=\"side\"");
    for (std::size_t i = 0; i < rows.size(); i += each) {
      const std::size_t stop = std::min(rows.size(), i + each);
      PageTable table;
      table.caption = fmt::format("{}{} used", card_length(rows[i].used, section, told_),
                                  stop - i == 1 ? "" : " to " + card_length(rows[stop - 1].used, section, told_));
      table.heads = {"used on the old", "leave on the new"};
      for (std::size_t k = i; k < stop; ++k)
        table.rows.push_back({cell(rows[k].used, section), cell(rows[k].leave, section)});
      page_.table(table);
    }
    page_.close();
  }

  [[nodiscard]] std::string cell(Length length, const LongSection& section) const {
    const std::string st = in_stitches(shown_, length);
    return card_length(length, section, told_) + (st.empty() ? "" : fmt::format(" ({})", st));
  }

  const CardShown& shown_;
  Told told_;
  HtmlPage page_;
};

}  // namespace

std::string card_title(const CardShown& shown) {
  const std::string& name = shown.project.empty() ? shown.yarn.name : shown.project;
  return "Join card, " + printable(name, 200);
}

std::string card_page(const CardShown& shown, Told told) { return Card(shown, told).take(); }

}  // namespace ballchange
