#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "slow/strand.hpp"

namespace ballchange::slow {
namespace {

constexpr std::array names{"plum", "sand", "rust", "moss", "navy", "grey",
                           "teal", "rose", "oat",  "fern", "ink",  "blush"};

std::uint8_t channel(double value) { return static_cast<std::uint8_t>(std::clamp(std::lround(value), 0L, 255L)); }

// Anywhere, or in small steps from one shade to the next as in a gradient.
void shade(std::vector<Colour>& colours, Random& random) {
  const double kind = random.uniform();
  if (kind < 0.25) return;
  const bool gradient = kind > 0.75;
  std::array<double, 3> rgb{};
  std::array<double, 3> step{};
  for (std::size_t i = 0; i < 3; ++i) {
    rgb[i] = 40 + 180 * random.uniform();
    step[i] = 16 * random.uniform() - 8;
  }
  for (Colour& colour : colours) {
    colour.shade = Shade{channel(rgb[0]), channel(rgb[1]), channel(rgb[2])};
    for (std::size_t i = 0; i < 3; ++i) rgb[i] = gradient ? rgb[i] + step[i] : 255 * random.uniform();
  }
}

// Neighbours differ, round the circle; every colour below `colours` is used.
std::vector<ColourId> arrange(std::size_t sections, std::size_t colours, Random& random) {
  for (;;) {
    std::vector<ColourId> order(sections);
    std::vector<char> used(colours, 0);
    bool good = true;
    for (std::size_t i = 0; i < sections; ++i) {
      order[i] = sections == colours ? i : random.below(colours);
      used[order[i]] = 1;
      good = good && (i == 0 || order[i] != order[i - 1]);
    }
    if (good && order.front() != order.back() && std::find(used.begin(), used.end(), 0) == used.end()) return order;
  }
}

Section random_section(ColourId colour, Reckoning reckoning, Random& random) {
  const bool splash = random.uniform() < 0.3;
  const double length = splash ? 3 + 7 * random.uniform() : 12 + 75 * random.uniform();
  const double per = reckoning == Reckoning::stitches ? 0.5 : 1;
  const double share = 0.03 + 0.05 * random.uniform();
  return {colour, Length::cm(per * length), Length::cm(per * (share * length + 0.3 * random.uniform()))};
}

// Folded at the middle of the first section and of the one opposite; an even number of sections.
std::vector<Section> folded(std::size_t sections, Reckoning reckoning, Random& random) {
  std::vector<Section> circle;
  for (std::size_t i = 0; i <= sections / 2; ++i) circle.push_back(random_section(i, reckoning, random));
  for (std::size_t i = sections / 2 - 1; i > 0; --i) circle.push_back(circle[i]);
  return circle;
}

}  // namespace

Yarn random_yarn(Random& random, const YarnWish& wish) {
  const bool in_stitches = wish.may_be_in_stitches && random.uniform() < 0.15;
  const Reckoning reckoning = in_stitches ? Reckoning::stitches : Reckoning::centimetres;
  const std::size_t sections = wish.fewest_sections + random.below(wish.most_sections - wish.fewest_sections + 1);
  std::size_t colours = sections;
  std::vector<Section> circle;
  if (sections % 2 == 0 && random.uniform() < 0.1) {
    circle = folded(sections, reckoning, random);
    colours = sections / 2 + 1;
  } else {
    if (sections > 3 && random.uniform() < 0.4) colours = 3 + random.below(sections - 2);
    for (const ColourId colour : arrange(sections, colours, random))
      circle.push_back(random_section(colour, reckoning, random));
  }
  std::vector<Colour> palette;
  for (std::size_t i = 0; i < colours; ++i) palette.push_back({names[i], {}});
  shade(palette, random);
  return Yarn{.name = "Invented",
              .fibre = "wool",
              .ball_mass = {},
              .ball_length = {},
              .ball_plus_minus = random.uniform() < 0.1 ? 0 : 0.04 * random.uniform(),
              .reckoning = reckoning,
              .repeat = Repeat(palette, circle)};
}

}  // namespace ballchange::slow
