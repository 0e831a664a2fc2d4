#pragma once
#include <optional>
#include <span>
#include <string_view>

#include "base/length.hpp"
#include "yarn/yarn.hpp"

// The ways of joining two ends, one row each: this table is the one place to add a method.
// Ranges: craft teaching, common practice, no single source.
namespace ballchange {

enum class Method { felted, threaded, doubled, woven, knotted };

struct MethodRow {
  Method method;
  std::string_view name;
  std::string_view made;             // how it is made, for help
  double low, high, usual;           // allowance in cm; for `in_stitches` in stitches of the work
  double st_low, st_high, st_usual;  // the same for a yarn reckoned in stitches
  bool in_stitches;                  // worked double for some stitches
  bool only_if_felts;
  bool likes_edge;           // goes to the row's edge where an edging hides it
  bool comes_apart;          // when the work is ravelled past it
  std::string_view caution;  // one line, may be empty
};

[[nodiscard]] std::span<const MethodRow> methods();
[[nodiscard]] const MethodRow& method_row(Method method);
[[nodiscard]] std::optional<Method> method_named(std::string_view name);

struct AllowanceRange {
  Length low, high, usual;
};
// Nothing for a method counted in stitches while the yarn per stitch is not known.
[[nodiscard]] std::optional<AllowanceRange> allowance_range(Method method, Reckoning reckoning,
                                                            std::optional<Length> yarn_per_stitch);

}  // namespace ballchange
