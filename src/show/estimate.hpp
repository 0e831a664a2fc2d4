#pragma once
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "join/method.hpp"
#include "plan/estimate.hpp"
#include "show/paint.hpp"
#include "show/text.hpp"
#include "yarn/yarn.hpp"

// Yarn needed, waste and balls to buy, as a screen for people and as JSON for tools.
namespace ballchange {

struct EstimateShown {
  static constexpr double kMoreYarn = 0.05;  // a share that a yarn per stitch may well be off by

  const Yarn& yarn;
  const plan::Work& work;
  const std::vector<plan::WayEstimate>& ways;  // as they come, best of those on hand, ends read
  const plan::WayEstimate& other_hands;        // as they come, the yarn needed varying by `other_hands_by`
  double other_hands_by = 0.05;
  std::uint64_t seed = 1;
  Method method = Method::threaded;
  std::size_t balls_read = 0;           // of those on hand, both or one end
  std::size_t balls_half_read = 0;      // of these, one end only
  bool verbose = false;                 // the spread of each way as well
  std::optional<int> balls_with_more;   // where a gauge tells the yarn needed: with kMoreYarn more of it
  bool unit_in_doubt = false;           // the yarn needed is little, and was told without a unit
  bool begun = false;                   // a project's: some of the work is done
  std::optional<double> by_scale = {};  // rows are counted so, as a share of what the gauge says
};

[[nodiscard]] std::string estimate_screen(const EstimateShown& shown, const Screen& screen, Told told);
[[nodiscard]] std::string estimate_json(const EstimateShown& shown);

}  // namespace ballchange
