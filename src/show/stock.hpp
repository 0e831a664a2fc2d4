#pragma once
#include <optional>
#include <string>
#include <vector>

#include "creep/stretch.hpp"
#include "join/method.hpp"
#include "ledger/project.hpp"
#include "ledger/state.hpp"
#include "show/json.hpp"
#include "show/page.hpp"
#include "stock/by_weight.hpp"
#include "stock/enough.hpp"
#include "stock/on_balls.hpp"
#include "stock/stops.hpp"

// What is left, where it ends, what joining costs and whether it is enough, for people and for tools.
namespace ballchange {

// Which fresh ball's end isn't known well enough, and why.
struct UnknownEnd {
  std::string ball;
  BallEnd end = BallEnd::outside;
  std::string why;  // a sentence; empty: never read
};

// Joins before the ball in work ends.
struct StopsShown {
  Method method = Method::threaded;
  Length allowance;
  std::optional<stock::Stops> known;  // where the end of the ball in work is on record
  std::optional<UnknownEnd> old_end;  // otherwise that
  std::vector<UnknownEnd> fresh;      // ends still to read
  std::size_t fresh_balls = 0;
  struct LongerBall {
    std::string ball;
    creeping::Longer longer;
  };
  std::vector<LongerBall> longer;  // of those, where a reading says that its repeat is
};

struct StockShown {
  const Project& project;
  const State& state;
  const stock::Stock& stock;
  std::string path;  // as people name it
  std::optional<stock::Ending> ending = {};
  Length lay_out_length = {};
  std::optional<stock::LayOut> lay_out = {};
  Length room = {};                       // from the hook to a join
  std::optional<WorkPlace> stop_by = {};  // with so much and the join's own left even if the ball ends early
  std::optional<StopsShown> stops = {};
  std::optional<stock::Outlook> outlook = {};
  std::optional<stock::Diamonds> diamonds = {};  // to leave out
  std::optional<stock::Rings> rings = {};        // where the work is to close and the planned height does not
  bool ring_open = false;                        // it is to close, but gauge and scale don't agree on what a row takes
};

// Rows are counted by the scale, though by no more off the gauge than the label may be: how colours fall is still
// reckoned by the gauge.
[[nodiscard]] bool counts_by_scale(const StockShown& shown);
// " at 2.26 m a row by the scale"; empty where rows are counted by the gauge.
[[nodiscard]] std::string rate_words(const StockShown& shown, Told told);

// The rows planned are done before the ball in work ends, come what may.
[[nodiscard]] bool outlasts_work(const StockShown& shown);

// What to do before the ball in work ends, how much is on it, where it ends and what joins before that cost.
[[nodiscard]] std::string stock_lines(const StockShown& shown, Told told, std::size_t columns);
// Of a ball that is not being worked from.
[[nodiscard]] std::string other_ball_lines(const StockShown& shown, std::size_t ball, Told told, std::size_t columns);
// Whether it is enough, and what to do where it is not; empty where that can't be told.
[[nodiscard]] std::string enough_lines(const StockShown& shown, Told told, std::size_t columns);

// "whole diamonds", "whole turn of the swirl": what so many rows make.
[[nodiscard]] std::string figure_words(const stock::Diamonds& diamonds);
// "96 rounds do not close; 92 or 97 would."; only heights near the planned one are told.
[[nodiscard]] std::string rings_text(const stock::Rings& rings, int planned, Working working);

// A stitch's yarn to a tenth of a millimetre, as a count over a swatch gives it and --yarn-per-stitch takes it.
[[nodiscard]] std::string stitch_typed(Length stitch, Told told);

// A ball counted by weights alone and, a plain one, whether it is enough for what it is to do.
enum class PlainUse {
  told,          // a length
  rows_to_come,  // at its rate so far
  edging         // of the project, if it is worked with this ball
};
struct ByWeightShown {
  const State& state;
  const stock::ByWeight& yarn;
  std::string ball;
  std::string path;  // of the project, as people name it
  struct Enough {
    PlainUse use = PlainUse::told;
    Length needed;  // but for rows
    int rows = 0;
    double chance = 0;
  };
  std::optional<Enough> enough = {};
};
[[nodiscard]] std::string by_weight_lines(const ByWeightShown& shown, Told told, std::size_t columns);

// Members of an object: "ball", "left", ... `ball`: what was weighed.
void stock_members(Json& json, const StockShown& shown, std::size_t ball);
void by_weight_members(Json& json, const ByWeightShown& shown);

}  // namespace ballchange
