#pragma once
#include <functional>
#include <optional>
#include <vector>

#include "join/advice.hpp"

// Other lengths and other methods that leave much less behind.
namespace ballchange::joining {

struct Offers {
  Reckoning reckoning = Reckoning::centimetres;
  std::optional<Length> yarn_per_stitch;
  bool felts = false;
  Length worth_telling;          // an offer leaves at least this less behind
  std::optional<Length> now;     // trims and allowance as advised; unknown: anything that joins is worth telling
  std::vector<Length> also_try;  // allowances besides those on the grid
};

// What a join of that method and allowance costs; nothing where it can't be made.
using Price = std::function<std::optional<Alternative>(Method, Length allowance)>;

// The cheapest allowance of each method the yarn allows, `method` itself first; among equals the one nearest to what
// was asked (or is usual).
[[nodiscard]] std::vector<Alternative> alternatives(const Offers& offers, Method method, Length allowance,
                                                    const Price& price);

}  // namespace ballchange::joining
