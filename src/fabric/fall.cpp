#include "fabric/fall.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>

#include "base/number.hpp"
#include "base/text.hpp"

namespace ballchange {
namespace {

bool turned(const Colouring& yarn) { return yarn.working != Working::rounds; }
// W a whole number of these: the colours stack.
Length stacking(const Colouring& yarn) { return turned(yarn) ? yarn.period / 2 : yarn.period; }
// Rows that run one way overlap by half a section up to here; where it is turned they are two apart.
Length readable(const Colouring& yarn) { return turned(yarn) ? yarn.section / 4 : yarn.section / 2; }

Length drift_of(const Colouring& yarn, Length row) { return nearest(row, stacking(yarn)); }

Look look_of(const Colouring& yarn, Length row) {
  const Length drift = drift_of(yarn, row);
  const bool below_the_first = row < stacking(yarn) / 2;
  if (!below_the_first && abs(drift) < yarn.stitch / 2) return Look::columns;
  if (!below_the_first && abs(drift) <= readable(yarn)) return turned(yarn) ? Look::argyle : Look::swirl;
  return row <= yarn.section ? Look::stripes : Look::scattered;
}

// The nearest W at which the look changes lies on one of the bounds of look_of.
double forgiven(const Colouring& yarn, Length row) {
  const Look here = look_of(yarn, row);
  const Length unit = stacking(yarn);
  const double n = std::round(row / unit);
  double least = 1;
  const auto bound = [&](Length at) {
    const Length hair = row * 1e-9;
    const bool changes = look_of(yarn, at - hair) != here || look_of(yarn, at + hair) != here;
    if (changes && at > Length()) least = std::min(least, abs(at - row) / row);
  };
  for (const double k : {n - 1, n, n + 1}) {
    for (const Length reach : {yarn.stitch / 2, readable(yarn)}) {
      bound(k * unit - reach);
      bound(k * unit + reach);
    }
  }
  bound(unit / 2);
  bound(yarn.section);
  return least;
}

std::optional<double> rows_at(const Colouring& yarn, Length row) {
  const Look look = look_of(yarn, row);
  if (look == Look::columns || look == Look::scattered) return std::nullopt;
  // Stripes come round with the yarn itself, however near to half a repeat a row is.
  return yarn.period / (look == Look::stripes ? row : abs(drift_of(yarn, row)));
}

Length with(const Colouring& yarn, int stitches, double more) { return row_of(yarn, stitches) * (1 + more); }

void add_nearest(const Colouring& yarn, Length row, int low, int high, Multiple pattern, std::vector<int>& widths) {
  const double exact = (row - yarn.turn) / yarn.stitch;
  const double times = std::round((exact - pattern.plus) / pattern.of);
  const double stitches = times * pattern.of + pattern.plus;
  if (stitches >= low && stitches <= high && times >= 0) widths.push_back(static_cast<int>(stitches));
}

double off(const Fall& one, double rows) { return std::abs(std::log(*one.rows / rows)); }

}  // namespace

std::optional<Multiple> multiple_of(std::string_view text) {
  constexpr int most = 1000;
  const std::size_t plus = text.find('+');
  const auto of = whole_number(trim(text.substr(0, plus)), 1, most);
  const auto more =
      plus == std::string_view::npos ? std::optional(0) : whole_number(trim(text.substr(plus + 1)), 0, most);
  if (!of || !more) return std::nullopt;
  return Multiple{*of, *more};
}

std::string multiple_text(const Multiple& multiple) {
  const std::string of = std::to_string(multiple.of);
  return multiple.plus == 0 ? of : of + "+" + std::to_string(multiple.plus);
}

std::string multiple_words(const Multiple& multiple) {
  const std::string of = "multiple of " + std::to_string(multiple.of);
  return multiple.plus == 0 ? of : of + " and " + std::to_string(multiple.plus) + " more";
}

bool is_multiple(int stitches, const Multiple& pattern) {
  return stitches >= pattern.plus && (stitches - pattern.plus) % pattern.of == 0;
}

Length row_of(const Colouring& yarn, int stitches) { return stitches * yarn.stitch + yarn.turn; }

Fall fall(const Colouring& yarn, int stitches) {
  assert(stitches > 0 && yarn.period > Length() && yarn.stitch > Length());
  const Length row = row_of(yarn, stitches);
  return {stitches, row, drift_of(yarn, row), look_of(yarn, row), rows_at(yarn, row), forgiven(yarn, row)};
}

std::optional<double> rows_with(const Colouring& yarn, int stitches, double more) {
  if (look_of(yarn, with(yarn, stitches, more)) != look_of(yarn, row_of(yarn, stitches))) return std::nullopt;
  return rows_at(yarn, with(yarn, stitches, more));
}

std::vector<Fall> falls(const Colouring& yarn, int low, int high, Multiple pattern) {
  assert(low > 0 && pattern.of > 0 && pattern.plus >= 0);
  std::vector<Fall> all;
  for (int stitches = low; stitches <= high; ++stitches) {
    if (is_multiple(stitches, pattern)) all.push_back(fall(yarn, stitches));
  }
  std::stable_sort(all.begin(), all.end(), [](const Fall& a, const Fall& b) { return a.forgives > b.forgives; });
  return all;
}

std::vector<Fall> widths_for(const Colouring& yarn, Look look, std::optional<double> rows, int low, int high,
                             Multiple pattern) {
  assert(low > 0 && pattern.of > 0 && pattern.plus >= 0 && (!rows || *rows > 0));
  if (!rows && look != Look::columns) {
    std::vector<Fall> all = falls(yarn, low, high, pattern);
    all.erase(std::remove_if(all.begin(), all.end(), [look](const Fall& one) { return one.look != look; }), all.end());
    return all;
  }
  const Length unit = stacking(yarn);
  const Length aside = look == Look::columns ? Length() : yarn.period / *rows;
  std::vector<int> widths;
  for (int n = 0; n * unit - aside <= row_of(yarn, high) + unit; ++n) {
    add_nearest(yarn, n * unit - aside, low, high, pattern, widths);
    add_nearest(yarn, n * unit + aside, low, high, pattern, widths);
  }
  std::sort(widths.begin(), widths.end());
  widths.erase(std::unique(widths.begin(), widths.end()), widths.end());
  std::vector<Fall> found;
  for (const int stitches : widths) {
    if (Fall one = fall(yarn, stitches); one.look == look) found.push_back(one);
  }
  std::stable_sort(found.begin(), found.end(), [&](const Fall& a, const Fall& b) {
    return look == Look::columns ? a.forgives > b.forgives : off(a, *rows) < off(b, *rows);
  });
  return found;
}

std::vector<Closing> closings(const Colouring& yarn, int stitches, int most, Length tolerance,
                              const RowsWorked& worked) {
  std::vector<Closing> found;
  const int step = turned(yarn) ? 2 : 1;
  const int first = std::max(step, (worked.rows + step - 1) / step * step);
  for (int rows = first; rows <= most; rows += step) {
    const Length miss = nearest(worked.yarn + (rows - worked.rows) * row_of(yarn, stitches), yarn.period);
    if (abs(miss) <= tolerance) found.push_back({rows, miss});
  }
  return found;
}

std::optional<Closing> nearest_closing(const Colouring& yarn, int stitches, int most) {
  const std::vector<Closing> all = closings(yarn, stitches, most, yarn.period);
  const auto best = std::min_element(all.begin(), all.end(),
                                     [](const Closing& a, const Closing& b) { return abs(a.miss) < abs(b.miss); });
  return best == all.end() ? std::nullopt : std::optional(*best);
}

Length before_foundation(Length period, Length end, Length foundation, Length wanted) {
  return wrap(wanted - foundation - end, period);
}

Length between_panels(const Colouring& yarn, int stitches, int rows, Length foundation) {
  return wrap(-(foundation + rows * row_of(yarn, stitches)), yarn.period);
}

}  // namespace ballchange
