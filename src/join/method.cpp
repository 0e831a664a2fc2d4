#include "join/method.hpp"

#include <algorithm>
#include <array>

namespace ballchange {
namespace {

constexpr std::string_view kOverlap = "overlap";
constexpr std::string_view kBothEnds = "both ends together";

constexpr auto rows = std::to_array<MethodRow>({
    {.method = Method::felted,
     .name = "felted",
     .made = "rubbed together wet; wool that felts",
     .told = "ends frayed, damped and rubbed together over {}; only in wool that felts. Try it on scraps first.",
     .measured_as = kOverlap,
     .takes = {2.5, 10, 8},
     .counted = {1, 5, 4},
     .only_if_felts = true,
     .caution = "Warm water, never scalding; colours may run: follow the yarn's label."},
    {.method = Method::threaded,
     .name = "threaded",
     .made = "the ends run inside each other; usual",
     .told = "one end run inside the other with a needle, {}; the usual one",
     .measured_as = kOverlap,
     .takes = {5, 15, 10},
     .counted = {3, 8, 5}},
    {.method = Method::doubled,
     .name = "doubled",
     .made = "some stitches worked with both strands",
     .told = "both strands worked together for {}; a little thick",
     .measured_as = kOverlap,
     .takes = {5, 8, 6},
     .counted = {5, 8, 6},
     .in_stitches = true,
     .comes_apart = true,
     .caution = "For a baby's things trim the ends close."},
    {.method = Method::woven,
     .name = "woven",
     .made = "both ends woven in",
     .told = "both ends left hanging and woven in, {}; comes apart if ravelled",
     .measured_as = kBothEnds,
     .takes = {20, 30, 25},
     .counted = {10, 15, 12},
     .leaves_tails = true,
     .likes_edge = true,
     .comes_apart = true,
     .caution = "For a baby's things weave the ends in well."},
    {.method = Method::knotted,
     .name = "knotted",
     .made = "tied",
     .told = "tied in the middle, {} for both ends before trimming; may show",
     .measured_as = kBothEnds,
     .takes = {15, 30, 20},
     .counted = {8, 15, 10},
     .leaves_tails = true,
     .caution = "Never singe the ends near skin. For a baby's things use another join."},
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
  const auto lengths = [](const Takes& takes, Length one) {
    return AllowanceRange{takes.low * one, takes.high * one, takes.usual * one};
  };
  if (reckoning == Reckoning::stitches) return lengths(row.counted, 1_cm);
  if (!row.in_stitches) return lengths(row.takes, 1_cm);
  if (!yarn_per_stitch) return std::nullopt;
  return lengths(row.takes, *yarn_per_stitch);
}

}  // namespace ballchange
