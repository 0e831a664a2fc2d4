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

// What a join takes, from the least to the most, and what it usually does.
struct Takes {
  double low, high, usual;
};

struct MethodRow {
  Method method;
  std::string_view name;
  std::string_view made;         // how it is made, beside an option
  std::string_view told;         // the same for `help joins`; {} is what it usually takes
  std::string_view measured_as;  // what the allowance is a length of
  Takes takes;                   // in cm; for `in_stitches` in stitches of the work
  Takes counted;                 // the same for a yarn reckoned in stitches
  bool in_stitches = false;      // worked double for some stitches
  bool leaves_tails = false;     // the strands change in the middle, half of it hangs from either end
  bool only_if_felts = false;
  bool likes_edge = false;        // goes to the row's edge where an edging hides it
  bool comes_apart = false;       // when the work is ravelled past it
  std::string_view caution = {};  // one line, may be empty
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
