#include "fabric/yarn_class.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "base/text.hpp"

namespace ballchange {
namespace {

// "and fewer" begins at nothing, "and larger" goes on to the thickest there are. Steel hooks are left out.
constexpr std::array<YarnClass, 8> kClasses{{
    {0, "lace", {33, 40}, {1.5, 2.25}, {32, 42}, {2.25, 2.25}},
    {1, "super fine", {27, 32}, {2.25, 3.25}, {21, 32}, {2.25, 3.5}},
    {2, "fine", {23, 26}, {3.25, 3.75}, {16, 20}, {3.5, 4.5}},
    {3, "light", {21, 24}, {3.75, 4.5}, {12, 17}, {4.5, 5.5}},
    {4, "medium", {16, 20}, {4.5, 5.5}, {11, 14}, {5.5, 6.5}},
    {5, "bulky", {12, 15}, {5.5, 8}, {8, 11}, {6.5, 9}},
    {6, "super bulky", {7, 11}, {8, 12.75}, {7, 9}, {9, 15}},
    {7, "jumbo", {0, 6}, {12.75, 50}, {0, 6}, {15, 50}},
}};

Against against(const UsualRange& usual, double value) {
  if (value < usual.low) return Against::below;
  return value > usual.high ? Against::above : Against::within;
}

}  // namespace

std::span<const YarnClass> yarn_classes() { return kClasses; }

const YarnClass* yarn_class_named(std::string_view word) {
  std::string name = fold_case(trim(word));
  std::replace(name.begin(), name.end(), '-', ' ');
  const auto* const found = std::find_if(kClasses.begin(), kClasses.end(), [&](const YarnClass& one) {
    return name == one.name || name == std::to_string(one.number);
  });
  return found == kClasses.end() ? nullptr : found;
}

Against against_stitches(const UsualRange& usual, double stitches_in_4in) {
  return against(usual, std::round(stitches_in_4in));
}

Against against_size(const UsualRange& usual, double mm) { return against(usual, mm); }

}  // namespace ballchange
