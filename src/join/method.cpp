#include "join/method.hpp"

#include <algorithm>

namespace ballchange {
namespace {

constexpr std::array<MethodRow, 5> rows{{
    {Method::felted, "felted", 2.5, 10, 8, 1, 5, 4, false, true, false,
     "Warm water, never scalding; colours may run: follow the yarn's label."},
    {Method::threaded, "threaded", 5, 15, 10, 3, 8, 5, false, false, false, ""},
    {Method::doubled, "doubled", 5, 8, 6, 5, 8, 6, true, false, false, "For a baby's things trim the ends close."},
    {Method::woven, "woven", 20, 30, 25, 10, 15, 12, false, false, true, "For a baby's things weave the ends in well."},
    {Method::knotted, "knotted", 15, 30, 20, 8, 15, 10, false, false, false,
     "Never singe the ends near skin. For a baby's things use another join."},
}};

}  // namespace

const std::array<MethodRow, 5>& methods() { return rows; }

const MethodRow& method_row(Method method) {
  return *std::find_if(rows.begin(), rows.end(), [&](const MethodRow& row) { return row.method == method; });
}

std::optional<Method> method_named(std::string_view name) {
  const auto* found = std::find_if(rows.begin(), rows.end(), [&](const MethodRow& row) { return row.name == name; });
  if (found == rows.end()) return std::nullopt;
  return found->method;
}

std::optional<AllowanceRange> allowance_range(Method method, Reckoning reckoning,
                                              std::optional<Length> yarn_per_stitch) {
  const MethodRow& row = method_row(method);
  if (reckoning == Reckoning::stitches) {
    return AllowanceRange{Length::cm(row.st_low), Length::cm(row.st_high), Length::cm(row.st_usual)};
  }
  if (!row.in_stitches) return AllowanceRange{Length::cm(row.low), Length::cm(row.high), Length::cm(row.usual)};
  if (!yarn_per_stitch) return std::nullopt;
  return AllowanceRange{row.low * *yarn_per_stitch, row.high * *yarn_per_stitch, row.usual * *yarn_per_stitch};
}

}  // namespace ballchange
