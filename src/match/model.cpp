#include "match/model.hpp"

#include <cmath>

namespace ballchange::matching {
namespace {

constexpr double overlooked_short = 0.20;
constexpr double overlooked_long = 0.01;
constexpr double backward_from_usual_end = 0.02;

Side make_side(const Repeat& repeat, Direction direction, Length short_section, const std::vector<double>& names) {
  Side side;
  side.direction = direction;
  side.colours = repeat.colours().size();
  const std::size_t size = repeat.size();
  for (std::size_t k = 0; k < size; ++k) {
    const Section& section = repeat.sections()[k];
    side.mean.push_back(section.length.cm());
    side.variance.push_back(section.plus_minus.cm() * section.plus_minus.cm());
    side.starts.push_back(repeat.start(k).cm());
    side.colour.push_back(section.colour);
    const double q = overlook_chance(section.length, short_section);
    side.overlooked.push_back(q);
    for (ColourId written = 0; written < side.colours; ++written) {
      const double w = names[section.colour * side.colours + written];
      side.name.push_back(w);
      side.first.push_back((1 - q) * w);
      side.rest.push_back(q + (1 - q) * w);
    }
  }
  for (std::size_t k = 0; k < size; ++k) {
    for (ColourId written = 0; written < side.colours; ++written) {
      double chance = 0, passed = 1;
      std::size_t at = k;
      for (std::size_t n = 0; n < 3 * size && passed > 1e-18; ++n) {
        at = side.previous(at);
        chance += passed * (1 - side.overlooked[at]) * (1 - side.name[side.at(at, written)]);
        passed *= side.overlooked[at];
      }
      side.before.push_back(chance);
    }
  }
  return side;
}

}  // namespace

double overlook_chance(Length mean, Length short_section) {
  return mean <= short_section ? overlooked_short : overlooked_long;
}

std::vector<double> naming_chances(const std::vector<Colour>& colours) {
  const std::size_t count = colours.size();
  std::vector<double> chances(count * count);
  for (std::size_t c = 0; c < count; ++c) {
    double sum = 0;
    for (std::size_t other = 0; other < count; ++other) {
      double weight = 1;
      if (other != c) {
        weight = 0.01 / static_cast<double>(count - 1);
        if (colours[c].shade && colours[other].shade) {
          const double seen = colour_difference(to_lab(*colours[c].shade), to_lab(*colours[other].shade)) / 5;
          weight += 0.3 * std::exp(-seen * seen);
        }
      }
      chances[c * count + other] = weight;
      sum += weight;
    }
    for (std::size_t other = 0; other < count; ++other) chances[c * count + other] /= sum;
  }
  return chances;
}

Model::Model(const Yarn& yarn)
    : total(yarn.repeat.total().cm()),
      ball_plus_minus(yarn.ball_plus_minus),
      directionless(mirrors_exactly(yarn.repeat)),
      repeat_total(yarn.repeat.total()),
      period(shortest_period(yarn.repeat)),
      axis(mirror_axis(yarn.repeat)),
      margin(habits(yarn.reckoning).margin) {
  const std::vector<double> names = naming_chances(yarn.repeat.colours());
  const Length short_section = habits(yarn.reckoning).short_section;
  sides[0] = make_side(yarn.repeat, Direction::forward, short_section, names);
  sides[1] = make_side(yarn.repeat.mirrored(), Direction::backward, short_section, names);
  double sum = 0;
  for (std::size_t i = 0; i < stretches; ++i) {
    factor[i] = 1 + ball_plus_minus * stretch_z(i);
    weight[i] = std::exp(-stretch_z(i) * stretch_z(i) / 2);
    sum += weight[i];
  }
  for (double& w : weight) w /= sum;
}

double Model::chance(Direction direction, const MatchOptions& options) const {
  if (directionless) return direction == Direction::forward ? 1 : 0;
  double backward = options.wound == Wound::hand ? 0.5 : backward_from_usual_end;
  if (options.wound == Wound::mill && options.worked == Worked::other_end) backward = 1 - backward_from_usual_end;
  return direction == Direction::backward ? backward : 1 - backward;
}

}  // namespace ballchange::matching
