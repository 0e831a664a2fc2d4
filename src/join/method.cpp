#include "join/method.hpp"

#include <algorithm>
#include <array>

namespace ballchange {
namespace {

constexpr auto rows = std::to_array<MethodRow>({
    {Method::felted, "felted", "rubbed together wet; wool that felts", 2.5, 10, 8, 1, 5, 4, false, true, false, false,
     "Warm water, never scalding; colours may run: follow the yarn's label."},
    {Method::threaded, "threaded", "the ends run inside each other; usual", 5, 15, 10, 3, 8, 5, false, false, false,
     false, ""},
    {Method::doubled, "doubled", "some stitches worked with both strands", 5, 8, 6, 5, 8, 6, true, false, false, true,
     "For a baby's things trim the ends close."},
    {Method::woven, "woven", "both ends woven in", 20, 30, 25, 10, 15, 12, false, false, true, true,
     "For a baby's things weave the ends in well."},
    {Method::knotted, "knotted", "tied", 15, 30, 20, 8, 15, 10, false, false, false, false,
     "Never singe the ends near skin. For a baby's things use another join."},
});

}  // namespace

std::span<const MethodRow> methods() { return rows; }

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
