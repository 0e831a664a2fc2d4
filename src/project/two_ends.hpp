#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "console/common.hpp"
#include "console/context.hpp"
#include "console/join_options.hpp"
#include "project/project.hpp"
#include "show/order.hpp"

// Balls by what was read at both their ends.
namespace ballchange {

// As written down: of one ball, the end it is worked from and the other.
struct TwoEnds {
  std::string id;
  std::optional<std::string> start, finish;  // nothing: not read
  BallEnd from = BallEnd::outside;
  std::optional<Winding> wound;
  std::optional<Length> yarn;  // on it
};

// "A: READING / READING", after the slash nothing or "?" where that end was not read; or @ and the file that holds one
// such ball a line. Throws Problem(content).
[[nodiscard]] std::vector<TwoEnds> parse_all_ends(const std::vector<std::string>& texts, const Yarn& yarn,
                                                  const Context& context);

// As a project has them; what options say of how balls were wound goes before it. A file edited by hand may hold what
// is no reading: that end counts as not read, and a remark tells why.
[[nodiscard]] TwoEnds recorded_ends(const BallState& ball, const Options& options, const Yarn& yarn,
                                    const Measures& written, const Context& context);

// What both planning commands go by, before anything is placed.
struct BallsTold {
  Yarn yarn;
  Measures measures;
  Measures written;  // how readings were written down: --units doesn't reach those of a log
  MatchOptions match;
  JoinWish wish;
  Fabric fabric;
  std::vector<TwoEnds> balls;
};
// By --yarn and the options, no balls yet; and by a project, none yet either. Throws Problem.
[[nodiscard]] BallsTold told_without_project(const Options& options, const Context& context, const Common& common);
[[nodiscard]] BallsTold told_by(const OpenProject& open, const Options& options);

// Both ends placed, so that the colours of both run one way.
struct PlacedBall {
  std::optional<Length> start, finish;          // on the repeat, nothing: not read
  std::optional<Direction> direction;           // nothing: no end read
  std::optional<creeping::Longer> longer = {};  // its repeat, where a reading says so
};

// `measures`: how the readings were written, and what answers are told in. What still must be asked is added to `open`;
// the ball is then of no use.
[[nodiscard]] PlacedBall placed_ball(const TwoEnds& ends, const Yarn& yarn, const Measures& measures,
                                     const MatchOptions& match, std::vector<OpenEnd>& open);
// Where a ball that is an offcut stops, which is known without a reading as long as that end is as it was cut; only its
// finish. `written`: as a project's readings are written.
[[nodiscard]] std::optional<PlacedBall> finish_as_cut(const State& state, const Ruler& written, const BallState& ball);

}  // namespace ballchange
