#pragma once
#include <optional>
#include <string>

#include "console/context.hpp"
#include "console/options.hpp"
#include "show/stock.hpp"

// What is left of a project's yarn, as `weigh` and `log` tell it.
namespace ballchange {

// Whether the yarn on hand is enough; how joins are made as options say, otherwise as the project does. Nothing is
// placed. What keeps it from being told is left out.
[[nodiscard]] StockShown enough_of(const Project& project, const State& state, const stock::Stock& stock,
                                   const std::string& path, const Options& options);
// Its chance alone, joined as the project does; nothing where that can't be told.
[[nodiscard]] std::optional<double> chance_of_enough(const Project& project, const State& state,
                                                     const stock::Stock& stock);
// The first, with where the ball in work ends and what joins cost by the ends on record.
[[nodiscard]] StockShown stock_of_ball(const Project& project, const State& state, const stock::Stock& stock,
                                       const std::string& path, const Options& options, const Context& context);

}  // namespace ballchange
