#pragma once
#include <optional>
#include <string>

#include "base/length.hpp"
#include "yarn/repeat.hpp"

// A yarn: what its profile says.
namespace ballchange {

// What one internal Length counts: a yarn written wholly in stitches, with no yarn per stitch known, is reckoned in
// them.
enum class Reckoning { centimetres, stitches };

// What one ball may weigh and hold. What is smaller would be written down as nothing.
inline constexpr Mass kLightestBall = Mass::g(0.001), kHeaviestBall = Mass::g(5000);
inline constexpr Length kShortestBall = 0.1_cm, kLongestBall = 500'000_cm;  // or so many stitches

struct Yarn {
  std::string name;
  std::string fibre;  // may be empty
  bool felts = false;
  std::optional<Mass> ball_mass;  // from the ball band
  std::optional<Length> ball_length;
  double ball_plus_minus = 0.02;  // one ball's repeat against another's, a share, 0 .. 0.15
  Reckoning reckoning = Reckoning::centimetres;
  Repeat repeat;
};

// What a section's plus_minus is taken for when nobody told or measured it: 0.5 cm (0.5 st) + 6 %, a third at most.
[[nodiscard]] Length usual_plus_minus(Length length);

// A yarn that was reckoned in stitches, in centimetres: all its lengths, the ball's too. `stitch` is the yarn one
// stitch takes, > 0: asserted, as is the yarn's reckoning.
[[nodiscard]] Yarn in_centimetres(Yarn yarn, Length stitch);

// Where "a few centimetres" is meant; in a yarn reckoned in stitches the count of stitches that stands for it.
struct Habits {
  Length short_section;    // sections up to this are easily overlooked: 5 cm, 3 st
  Length tape_fixed;       // 0.5 cm, 0.5 st
  Length join_doubt;       // what a join is uncertain by: 1.5 cm, 1.5 st
  Length room;             // between hook and join: 15 cm, 8 st
  Length margin;           // an overlap keeps this far from a change: 3 cm, 2 st
  Length worth_telling;    // an alternative saves at least this: 20 cm, 10 st
  Length least_trim;       // less than this is not cut off an end where the other can give it: 2 cm, 1 st
  Length usual_tolerance;  // when no yarn per stitch is known: 3 cm; 2 st
};
[[nodiscard]] Habits habits(Reckoning reckoning);

}  // namespace ballchange
