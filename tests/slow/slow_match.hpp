#pragma once
#include <array>
#include <cstddef>
#include <functional>
#include <vector>

#include "match/place.hpp"
#include "reading/reading.hpp"
#include "yarn/yarn.hpp"

// A second matcher, slow and obvious, to hold the real one against: every way in which the sections of the yarn can
// have become the written entries is walked through, one after the other. It shares data types with the real one, no
// code.
namespace ballchange::slow {

inline constexpr std::size_t stretches = 41;  // values of the ball's own factor f
using Stretched = std::array<double, stretches>;

// f = 1 + ball_plus_minus z for z = -5, -4.75, ..., 5, and the weight of each.
[[nodiscard]] Stretched stretch_factors(double ball_plus_minus);
[[nodiscard]] Stretched stretch_weights();

// The chance of reading `written` where the yarn has `real`.
[[nodiscard]] std::vector<std::vector<double>> naming_chances(const Repeat& repeat);
// The chance that a section is passed over.
[[nodiscard]] double overlooked_chance(Length mean, Reckoning reckoning);
[[nodiscard]] double backward_chance(const Yarn& yarn, const MatchOptions& options);

// One way to explain a reading. Sections count on past the end of the repeat, in working order, on the mirrored repeat
// when it runs backward.
struct Path {
  Direction direction = Direction::forward;
  std::vector<std::size_t> starts;  // first section of every written entry, entries in working order
  std::size_t last = 0;             // last section of the last one
  Stretched weight{};               // for each factor f, its weight included
};

// Calls `visit` with every path that weighs anything. No change seen at all: none.
void each_path(const Yarn& yarn, const Reading& reading, const MatchOptions& options,
               const std::function<void(const Path&)>& visit);
// The change nearest to the loose end, numbered as Candidate numbers it.
[[nodiscard]] std::size_t boundary_of(const Path& path, const Reading& reading, std::size_t sections);

struct Posterior {
  std::vector<Candidate> candidates;  // all of them, best first
  double total = 0;                   // the weight of all paths together
};

// Without a first length (and no bar there) the places are those of the changes themselves.
[[nodiscard]] Posterior slow_match(const Yarn& yarn, const Reading& reading, const MatchOptions& options);

}  // namespace ballchange::slow
