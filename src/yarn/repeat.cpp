#include "yarn/repeat.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <utility>

namespace ballchange {
namespace {

bool alike_to_the_hair(const Section& a, const Section& b) {
  return a.colour == b.colour && abs(a.length - b.length) <= 0.001_cm;
}

// Section k of the yarn read the other way is section mirror_of(k): a reflection of the circle.
struct Reflection {
  std::size_t s;
  std::size_t size;
  [[nodiscard]] std::size_t mirror_of(std::size_t k) const { return (s + size - k) % size; }
};

template <typename Same>
bool holds(const Repeat& repeat, Reflection reflection, Same same) {
  for (std::size_t k = 0; k < repeat.size(); ++k) {
    if (!same(repeat.sections()[k], repeat.sections()[reflection.mirror_of(k)])) return false;
  }
  return true;
}

double misfit(const Repeat& repeat, Reflection reflection) {
  double sum = 0;
  for (std::size_t k = 0; k < repeat.size(); ++k) {
    const double d = (repeat.sections()[k].length - repeat.sections()[reflection.mirror_of(k)].length).cm();
    sum += d * d;
  }
  return sum;
}

// The change that starts section k falls on the one that ends its mirror image; the mean over all changes is the
// best axis when the lengths fit only roughly.
Length axis(const Repeat& repeat, Reflection reflection) {
  const auto through = [&](std::size_t k) {
    const std::size_t mirror = reflection.mirror_of(k);
    return repeat.start(k) + repeat.start(mirror) + repeat.sections()[mirror].length;
  };
  const Length first = through(0);
  Length drift;
  for (std::size_t k = 1; k < repeat.size(); ++k) drift += nearest(through(k) - first, repeat.total());
  return wrap(first + drift / static_cast<double>(repeat.size()), repeat.total());
}

}  // namespace

bool alike(const Section& a, const Section& b) {
  const double deviation = std::hypot(a.plus_minus.cm(), b.plus_minus.cm());
  return a.colour == b.colour && abs(a.length - b.length) <= 2_cm + 4 * Length::cm(deviation);
}

Repeat::Repeat(std::vector<Colour> colours, std::vector<Section> sections)
    : colours_(std::move(colours)), sections_(std::move(sections)) {
  assert(sections_.size() >= 2);
  starts_.reserve(sections_.size());
  for (std::size_t k = 0; k < sections_.size(); ++k) {
    assert(sections_[k].colour < colours_.size());
    assert(sections_[k].colour != sections_[(k + 1) % sections_.size()].colour);
    assert(sections_[k].length > Length() && sections_[k].plus_minus >= Length());
    starts_.push_back(total_);
    total_ += sections_[k].length;
  }
}

const std::string& Repeat::name_of(std::size_t section) const { return colours_[sections_[section].colour].name; }

Spot Repeat::spot(Length place) const {
  const Length p = wrap(place, total_);
  const auto after = std::upper_bound(starts_.begin(), starts_.end(), p);
  const auto section = static_cast<std::size_t>(after - starts_.begin()) - 1;
  const Length into = p - starts_[section];
  return {section, into, sections_[section].length - into};
}

Repeat Repeat::mirrored() const { return {colours_, {sections_.rbegin(), sections_.rend()}}; }

std::optional<Length> mirror_axis(const Repeat& repeat) {
  std::optional<Reflection> best;
  double least = 0;
  for (std::size_t s = 0; s < repeat.size(); ++s) {
    const Reflection reflection{s, repeat.size()};
    if (!holds(repeat, reflection, alike)) continue;
    const double sum = misfit(repeat, reflection);
    if (best && sum >= least) continue;
    best = reflection;
    least = sum;
  }
  if (!best) return std::nullopt;
  return axis(repeat, *best);
}

bool mirrors_exactly(const Repeat& repeat) {
  for (std::size_t s = 0; s < repeat.size(); ++s) {
    if (holds(repeat, {s, repeat.size()}, alike_to_the_hair)) return true;
  }
  return false;
}

std::size_t hidden_repeats(const Repeat& repeat) {
  const std::size_t size = repeat.size();
  const auto recurs = [&](std::size_t period) {
    for (std::size_t k = 0; k < size; ++k) {
      for (std::size_t j = k + period; j < size; j += period) {
        if (!alike(repeat.sections()[k], repeat.sections()[j])) return false;
      }
    }
    return true;
  };
  for (std::size_t period = 2; period < size; ++period) {
    if (size % period == 0 && recurs(period)) return size / period;
  }
  return 1;
}

Length shortest_period(const Repeat& repeat) { return repeat.total() / static_cast<double>(hidden_repeats(repeat)); }

Repeat shortest(const Repeat& repeat, Length drift) {
  const std::size_t times = hidden_repeats(repeat);
  if (times == 1) return repeat;
  const std::size_t size = repeat.size() / times;
  std::vector<Section> sections;
  for (std::size_t k = 0; k < size; ++k) {
    Section mean{repeat.sections()[k].colour, {}, {}};
    for (std::size_t j = k; j < repeat.size(); j += size) {
      mean.length += repeat.sections()[j].length / static_cast<double>(times);
      mean.plus_minus += repeat.sections()[j].plus_minus / static_cast<double>(times);
    }
    sections.push_back(mean);
  }
  Repeat shorter(repeat.colours(), std::move(sections));
  for (std::size_t k = 0; k < repeat.size(); ++k) {
    const std::size_t before = k / size;
    const Length written = static_cast<double>(before) * shorter.total() + shorter.start(k % size);
    if (abs(repeat.start(k) - written) > drift) return repeat;
  }
  return shorter;
}

}  // namespace ballchange
