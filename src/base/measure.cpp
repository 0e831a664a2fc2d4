#include "base/measure.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>

#include "base/problem.hpp"
#include "base/quantity.hpp"
#include "base/text.hpp"

namespace ballchange {
namespace {

enum class Kin { metric, imperial, stitch };

struct Named {
  std::string_view name;
  Unit unit;
  int tenths_of_mm;  // exact; 0 for a stitch, which has no length of its own
  Kin kin;           // only lengths of one kin add up
};
constexpr auto kUnits = std::to_array<Named>({{"mm", Unit::mm, 10, Kin::metric},
                                              {"cm", Unit::cm, 100, Kin::metric},
                                              {"m", Unit::m, 10'000, Kin::metric},
                                              {"in", Unit::in, 254, Kin::imperial},
                                              {"ft", Unit::ft, 3048, Kin::imperial},
                                              {"yd", Unit::yd, 9144, Kin::imperial},
                                              {"st", Unit::st, 0, Kin::stitch}});
constexpr double kMostCentimetres = 1e7;
constexpr double kMostGrams = 1e6;

constexpr bool rows_stand_as_enumerated() {
  for (std::size_t i = 0; i < kUnits.size(); ++i) {
    if (static_cast<std::size_t>(kUnits[i].unit) != i) return false;
  }
  return true;
}
static_assert(rows_stand_as_enumerated(), "row() finds a unit by its place in Unit");
static_assert(kUnits.size() == static_cast<std::size_t>(Unit::st) + 1, "st is the last unit, and each has its row");

const Named& row(Unit unit) { return kUnits[static_cast<std::size_t>(unit)]; }

// "mm, cm, m, in, ft, yd or st"
std::string unit_list() {
  std::string list;
  for (const Named& named : kUnits) {
    if (!list.empty()) list += &named == &kUnits.back() ? " or " : ", ";
    list += named.name;
  }
  return list;
}

[[noreturn]] void refuse_measure(std::string_view what, std::string_view why) {
  throw Problem(Fault::content, fmt::format("{}: {}", what, why));
}

Unit unit_or_refuse(std::string_view word, std::string_view what) {
  const std::optional<Unit> unit = unit_named(word);
  if (!unit) refuse_measure(what, fmt::format("no unit '{}': write {}", printable(word, 20), unit_list()));
  return *unit;
}

// Adds a finer part to what stands before it: 1 yd, then 6 in.
Written add_finer(Written coarse, const Quantity& part, std::string_view what) {
  const Unit unit = unit_or_refuse(part.unit, what);
  if (unit == Unit::st || row(unit).kin != row(coarse.unit).kin) {
    refuse_measure(what, fmt::format("{} and {} don't add up: write the whole length in one of them",
                                     unit_name(coarse.unit), unit_name(unit)));
  }
  const int ratio = row(coarse.unit).tenths_of_mm / row(unit).tenths_of_mm;
  if (row(unit).tenths_of_mm >= row(coarse.unit).tenths_of_mm) {
    refuse_measure(what, fmt::format("{} after {}: write the longer unit first, like 1yd 6in", unit_name(unit),
                                     unit_name(coarse.unit)));
  }
  return {coarse.number * ratio + part.number, unit};
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }

void refuse_comma_in_share(std::string_view number, std::string_view what) {
  const std::size_t comma = number.find(',');
  if (comma == std::string_view::npos || comma == 0 || comma + 1 == number.size()) return;
  const std::string_view decimals = number.substr(comma + 1);
  const std::string_view whole = number.substr(0, comma);
  if (!std::all_of(whole.begin(), whole.end(), is_digit)) return;
  if (!std::all_of(decimals.begin(), decimals.end(), is_digit)) return;
  refuse_measure(what,
                 fmt::format("decimals take a point: write {}.{} %", printable(whole, 20), printable(decimals, 20)));
}

// "0.5 cm 1 %": a length before the share.
void refuse_missing_plus(std::string_view part, std::string_view what) {
  const std::string_view number = trim(part.substr(0, part.size() - 1));
  const std::size_t blank = number.rfind(' ');
  if (blank == std::string_view::npos) return;
  const std::string_view before = trim(number.substr(0, blank));
  const bool has_unit = std::any_of(before.begin(), before.end(), [](char c) { return c >= 'a' && c <= 'z'; });
  if (!has_unit || !is_digit(before.front())) return;
  refuse_measure(what, fmt::format("'{}' needs a + between length and share: write {} + {} %", printable(part, 40),
                                   printable(before, 40), printable(number.substr(blank + 1), 40)));
}

bool divides(double step, double number) {
  const double steps = number / step;
  return std::abs(steps - std::round(steps)) <= 1e-9 * std::max(1.0, std::abs(steps));
}

}  // namespace

std::string_view unit_name(Unit unit) { return row(unit).name; }
std::size_t count_of_units() { return kUnits.size(); }
bool imperial(Unit unit) { return row(unit).kin == Kin::imperial; }

std::optional<Unit> unit_named(std::string_view word) {
  const std::string folded = fold_case(word);
  if (folded == "stitch" || folded == "stitches") return Unit::st;
  for (const Named& named : kUnits) {
    if (named.name == folded) return named.unit;
  }
  return std::nullopt;
}

Written parse_written(std::string_view text, Unit bare, std::string_view what) {
  const std::vector<Quantity> parts = parse_quantities(text, "a length, like 15 or 3 1/2in", what);
  Written written{parts[0].number, parts[0].unit.empty() ? bare : unit_or_refuse(parts[0].unit, what)};
  for (std::size_t i = 1; i < parts.size(); ++i) {
    if (parts[i - 1].unit.empty() || parts[i].unit.empty()) {
      refuse_measure(what,
                     fmt::format("'{}' has a number without a unit: write each, like 1yd 6in", printable(text, 40)));
    }
    written = add_finer(written, parts[i], what);
  }
  const double most =
      written.unit == Unit::st ? kMostCentimetres : kMostCentimetres / (row(written.unit).tenths_of_mm / 100.0);
  if (written.number > most) {
    refuse_measure(what, fmt::format("'{}' is too long: at most 100 000 m, or 10 million st", printable(text, 40)));
  }
  return written;
}

Mass parse_mass(std::string_view text, std::string_view what) {
  struct MassUnit {
    std::string_view name;
    double grams;
  };
  constexpr double pound = 453.59237;
  constexpr std::array<MassUnit, 4> units{{{"g", 1}, {"kg", 1000}, {"oz", pound / 16}, {"lb", pound}}};
  double grams = 0;
  double coarser = 2000;
  const std::vector<Quantity> parts = parse_quantities(text, "a mass, like 50 g", what);
  for (const Quantity& part : parts) {
    const std::string unit = part.unit.empty() && parts.size() == 1 ? "g" : fold_case(part.unit);
    double factor = 0;
    for (const MassUnit& named : units) {
      if (named.name == unit) factor = named.grams;
    }
    if (factor == 0) refuse_measure(what, fmt::format("no unit '{}': write g, kg, oz or lb", printable(unit, 20)));
    if (factor >= coarser) refuse_measure(what, "write the larger unit first, like 1lb 4oz");
    coarser = factor;
    grams += part.number * factor;
  }
  if (grams > kMostGrams) refuse_measure(what, fmt::format("'{}' is too heavy: at most 1000 kg", printable(text, 40)));
  return Mass::g(grams);
}

double parse_share(std::string_view text, std::string_view what, std::string_view range) {
  std::string_view number = trim(text);
  const bool per_cent = number.ends_with('%');
  if (per_cent) number = trim(number.substr(0, number.size() - 1));
  if (number.find('%') != std::string_view::npos) {
    refuse_measure(what, fmt::format("'{}' is not a share: write it like 95 % or 0.95", printable(text, 40)));
  }
  if (per_cent) refuse_comma_in_share(number, what);
  const std::vector<Quantity> parts = parse_quantities(number, "a share, like 95 % or 0.95", what);
  if (parts.size() > 1 || !parts[0].unit.empty()) {
    refuse_measure(what, fmt::format("'{}' is not a share: write it like 95 % or 0.95", printable(text, 40)));
  }
  const double share = per_cent ? parts[0].number / 100 : parts[0].number;
  if (share > 1) {
    refuse_measure(what, fmt::format("'{}' is more than the whole: write {}", printable(text, 40), range));
  }
  return share;
}

Tape parse_tape(std::string_view text, const Ruler& ruler, std::string_view what) {
  Tape tape{Length(), 0};
  bool told_fixed = false;
  bool told_share = false;
  for (std::size_t at = 0; at <= text.size();) {
    const std::size_t plus = std::min(text.find('+', at), text.size());
    const std::string_view part = trim(text.substr(at, plus - at));
    const bool is_share = part.ends_with('%');
    if (is_share ? told_share : told_fixed) {
      refuse_measure(what, fmt::format("'{}': write one length and one share, like 0.5 cm + 1 %", printable(text, 40)));
    }
    if (is_share) {
      refuse_missing_plus(part, what);
      tape.share = parse_share(part, what);
      told_share = true;
    } else {
      tape.fixed = parse_length(part, ruler, what);
      told_fixed = true;
    }
    at = plus + 1;
  }
  return tape;
}

Length to_length(const Written& written, const Ruler& ruler, std::string_view what) {
  if (ruler.in_stitches && written.unit != Unit::st) {
    refuse_measure(what, fmt::format("{} for a yarn that is reckoned in stitches: write st, or {}",
                                     unit_name(written.unit), ruler.ask_for_stitch));
  }
  if (written.unit == Unit::st && !ruler.in_stitches && !ruler.yarn_per_stitch) {
    refuse_measure(what, fmt::format("stitches, but the yarn per stitch is not known: write cm or in, or {}",
                                     ruler.ask_for_stitch));
  }
  return written.number * unit_length(written.unit, ruler);
}

Length parse_length(std::string_view text, const Ruler& ruler, std::string_view what) {
  return to_length(parse_written(text, ruler.bare, what), ruler, what);
}

double written_step(std::span<const double> numbers, Unit unit) {
  if (unit == Unit::st) return 1;
  for (const double step : {1.0, 0.5, 0.25, 0.125, 0.1}) {
    if (std::all_of(numbers.begin(), numbers.end(), [step](double n) { return divides(step, n); })) return step;
  }
  return 0;
}

Length unit_length(Unit unit, const Ruler& ruler) {
  if (unit != Unit::st) return Length::cm(row(unit).tenths_of_mm / 100.0);
  assert(ruler.in_stitches || ruler.yarn_per_stitch);
  return ruler.in_stitches ? Length::cm(1) : *ruler.yarn_per_stitch;
}

}  // namespace ballchange
