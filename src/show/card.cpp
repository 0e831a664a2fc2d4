#include "show/card.hpp"

#include <fmt/core.h>

#include <array>
#include <cmath>

#include "base/number.hpp"
#include "base/text.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kMostRows = 24;
constexpr double kInch = 2.54;
constexpr double kYard = 91.44;
constexpr double kHair = 1e-6;

// Told in yards.
bool in_yards(const LongSection& section, Told told) { return told == Told::inches && section.whole.cm() >= 3 * kYard; }

double step_for(const LongSection& section, Told told) {
  const Length range = section.most - section.least;
  static constexpr std::array<double, 9> kMetric{5, 10, 20, 50, 100, 200, 500, 1000, 2000};
  static constexpr std::array<double, 7> kInches{2, 4, 6, 12, 24, 36, 72};
  static constexpr std::array<double, 7> kYards{18, 36, 72, 180, 360, 720, 1800};
  static constexpr std::array<double, 9> kStitches{2, 5, 10, 20, 50, 100, 200, 500, 1000};
  const double unit = told == Told::inches ? kInch : 1;
  const auto first_of = [&](const auto& steps) {
    for (const double step : steps) {
      if (range.cm() <= step * unit * static_cast<double>(kMostRows - 1)) return step * unit;
    }
    return steps.back() * unit;
  };
  if (in_yards(section, told)) return first_of(kYards);
  if (told == Told::inches) return first_of(kInches);
  return first_of(told == Told::stitches ? kStitches : kMetric);
}

std::optional<int> stitch_count(const CardShown& shown, Length yarn) {
  if (!shown.yarn_per_stitch || shown.yarn.reckoning == Reckoning::stitches) return std::nullopt;
  return static_cast<int>(std::lround(yarn / *shown.yarn_per_stitch));
}

const std::string& name_at(const CardShown& shown, std::size_t section) {
  return shown.repeat.name_of(section % shown.repeat.size());
}

std::string table_lines(const CardShown& shown, const LongSection& section, Told told) {
  std::string lines = fmt::format("{}{:<22}{}\n", std::string(kLabelWidth, ' '), "used on the old", "leave on the new");
  const auto cell = [&](Length length) {
    const std::string st = in_stitches(shown, length);
    return card_length(length, section, told) + (st.empty() ? "" : fmt::format(" ({})", st));
  };
  for (const CardRow& row : card_rows(section, told)) {
    lines += fmt::format("{}{:<22}{}\n", std::string(kLabelWidth, ' '), cell(row.used), cell(row.leave));
  }
  return lines;
}

}  // namespace

std::vector<CardRow> card_rows(const LongSection& section, Told told) {
  std::vector<CardRow> rows;
  const double step = step_for(section, told);
  for (double k = std::ceil(section.least.cm() / step - kHair); k * step <= section.most.cm() + kHair; ++k) {
    const Length used = Length::cm(k * step);
    rows.push_back({used, section.leave(used)});
  }
  if (rows.empty()) {
    const Length used = (section.least + section.most) / 2;
    rows.push_back({used, section.leave(used)});
  }
  return rows;
}

std::string card_length(Length length, const LongSection& section, Told told) {
  if (in_yards(section, told)) {
    if (section.whole.cm() >= 10 * kYard) return plain_number(length.cm() / kYard, 2) + " yd";
    const auto whole = std::lround(length.cm() / kInch);
    return whole % 36 == 0 ? fmt::format("{} yd", whole / 36) : fmt::format("{} yd {} in", whole / 36, whole % 36);
  }
  if (told == Told::inches) return inches(length);
  if (told == Told::stitches) return tape(length, told);
  if (section.whole.cm() >= 1000) return plain_number(length.cm() / 100, 2) + " m";
  return typed_length(rounded(length, told), told) + " cm";
}

std::string in_stitches(const CardShown& shown, Length yarn) {
  const auto count = stitch_count(shown, yarn);
  return count ? fmt::format("{} st", *count) : std::string();
}

std::string card_colour(const CardShown& shown, const LongSection& section) {
  return printable(name_at(shown, section.section), 60);
}

std::string card_neighbours(const CardShown& shown, const LongSection& section) {
  return fmt::format("after {}, before {}", printable(name_at(shown, section.section + shown.repeat.size() - 1), 60),
                     printable(name_at(shown, section.section + 1), 60));
}

std::string card_rule(const CardShown& shown, const LongSection& section, Told told) {
  std::string text = fmt::format("{} from change to change", card_length(section.whole, section, told));
  if (const std::string st = in_stitches(shown, section.whole); !st.empty()) text += fmt::format(", about {}", st);
  return text + fmt::format(". Used and left make {} together.", card_length(section.leave(Length()), section, told));
}

std::string card_join(const CardShown& shown, Told told) {
  const MethodRow& method = method_row(shown.method);
  return fmt::format("{} {} in each join ({}).", tape(shown.allowance, told), method.measured_as, method.name);
}

std::vector<CardHelp> card_help(const CardShown& shown, Told told) {
  std::vector<CardHelp> help{
      {"Used",
       told == Told::stitches
           ? "work up the old end's last colour, from where it begins to its end, count its stitches and take them "
             "back."
           : "lay the old end straight and not stretched; measure from where its last colour begins to its end."},
      {"Leave",
       "mark the new end where so much of that colour is left on it, measured back from where the colour ends. Don't "
       "cut yet."},
      {"Dry fit", fmt::format("overlap the old end and the mark by {}: the colour must be a whole section, from change "
                              "to change.",
                              tape(shown.allowance, told))},
      {"Cut", fmt::format("at the mark, and join ({}).", method_row(shown.method).name)},
      {"Too short",
       "the new end shows less of the colour than it should leave: go on to the next such section of the "
       "new ball, and leave the same there."},
      {"Less used",
       "than the table has: cut the old end back into the long section before it, where enough of it "
       "hangs loose."},
      {"More used", "than the table has: cut the old end back to the table's last line."},
      {"Mind", "both balls must run the same way: the colours must follow in one order on both."},
  };
  if (const std::string_view caution = method_row(shown.method).caution; !caution.empty()) {
    help.push_back({"Care", std::string(caution)});
  }
  return help;
}

std::string card_screen(const CardShown& shown, Told told, std::size_t columns) {
  std::string text = wrapped(card_join(shown, told), columns);
  for (const LongSection& section : shown.sections) {
    text += "\n" + wrapped(fmt::format("{}, {}: {}", card_colour(shown, section), card_neighbours(shown, section),
                                       card_rule(shown, section, told)),
                           columns);
    text += table_lines(shown, section, told);
  }
  text += "\n";
  for (const CardHelp& help : card_help(shown, told)) text += labelled(help.label, help.text, columns);
  return text;
}

void card_members(Json& json, const CardShown& shown, Told told) {
  json.member("method", method_row(shown.method).name).member("allowance", shown.allowance);
  json.key("sections").array();
  for (const LongSection& section : shown.sections) {
    const std::size_t k = section.section;
    // As the profile counts them.
    json.object()
        .member("section", shown.backward ? shown.repeat.size() - 1 - k : k)
        .member("colour", name_at(shown, k));
    json.member("before", name_at(shown, k + shown.repeat.size() - 1)).member("after", name_at(shown, k + 1));
    json.member("length", section.whole).member("used_from", section.least).member("used_to", section.most);
    json.key("rows").array();
    for (const CardRow& row : card_rows(section, told)) {
      json.object().member("used", row.used).member("leave", row.leave);
      json.member("used_stitches", stitch_count(shown, row.used));
      json.member("leave_stitches", stitch_count(shown, row.leave)).end();
    }
    json.end().end();
  }
  unit_member(json.end(), shown.yarn.reckoning == Reckoning::stitches);
}

}  // namespace ballchange
