#pragma once
#include <algorithm>

#include "picture/strands.hpp"

namespace ballchange {

// From centimetres of yarn to millimetres of paper.
class StrandsAxis {
 public:
  static constexpr double kEdge = 5;    // beside both strands, for the sign that the yarn goes on
  static constexpr double kBreak = 30;  // where a stretch is left out

  StrandsAxis(const StrandsScene& scene, double width) : scene_(scene) {
    const Length out = scene.left_out ? scene.left_out->to - scene.left_out->from : Length();
    per_cm_ = (width - 2 * kEdge - (scene.left_out ? kBreak : 0)) / (scene.right - scene.left - out).cm();
  }
  [[nodiscard]] double at(Length x) const {
    x = std::clamp(x, scene_.left, scene_.right);
    const auto& out = scene_.left_out;
    if (out && x >= out->to) return break_at() + kBreak + (x - out->to).cm() * per_cm_;
    return kEdge + ((out ? std::min(x, out->from) : x) - scene_.left).cm() * per_cm_;
  }
  [[nodiscard]] double break_at() const { return kEdge + (scene_.left_out->from - scene_.left).cm() * per_cm_; }
  [[nodiscard]] double per_cm() const { return per_cm_; }

 private:
  const StrandsScene& scene_;
  double per_cm_ = 1;
};

}  // namespace ballchange
