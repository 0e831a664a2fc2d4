#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "base/length.hpp"
#include "base/shade.hpp"

// The circle of sections after which the yarn starts again.
namespace ballchange {

using ColourId = std::size_t;  // index into Repeat::colours()

struct Colour {
  std::string name;
  std::optional<Shade> shade;
};

struct Section {
  ColourId colour = 0;
  Length length;      // mean, > 0
  Length plus_minus;  // one standard deviation from one occurrence to the next, >= 0
};

enum class Direction { forward, backward };

// A point on the repeat, told as "27 cm into plum".
struct Spot {
  std::size_t section = 0;
  Length into;  // from the section's start, in working order
  Length left;  // to the section's end
};

class Repeat {
 public:
  // At least two sections, neighbours (the last and the first too) of different colour, every colour id known:
  // asserted.
  Repeat(std::vector<Colour> colours, std::vector<Section> sections);

  [[nodiscard]] const std::vector<Colour>& colours() const { return colours_; }
  [[nodiscard]] const std::vector<Section>& sections() const { return sections_; }
  [[nodiscard]] std::size_t size() const { return sections_.size(); }
  [[nodiscard]] Length total() const { return total_; }                               // R
  [[nodiscard]] Length start(std::size_t section) const { return starts_[section]; }  // b_k, k < size()
  [[nodiscard]] const std::string& name_of(std::size_t section) const;
  // Any length is taken modulo the repeat. A place on a change belongs to the section that starts there.
  [[nodiscard]] Spot spot(Length place) const;
  // The sections in the other order: what a ball worked from its other end shows. Place p is total() - p on it.
  [[nodiscard]] Repeat mirrored() const;

 private:
  std::vector<Colour> colours_;
  std::vector<Section> sections_;
  std::vector<Length> starts_;
  Length total_;
};

// Whether two sections may be the same one met twice: of one colour, their lengths within 2 cm + 4 standard deviations
// of their difference.
[[nodiscard]] bool alike(const Section& a, const Section& b);

// D of a mirror axis (a place p read the other way is place D - p) when the mirror image is one of the rotations,
// every colour its mirror's and lengths within 2 cm + 4 standard deviations of their difference; nothing when the
// repeat is directional. The closest fit when several hold.
[[nodiscard]] std::optional<Length> mirror_axis(const Repeat& repeat);
// The same with lengths equal to 0.01 mm: a ball worked from its other end then looks exactly the same.
[[nodiscard]] bool mirrors_exactly(const Repeat& repeat);

// The number of times a shorter circle of sections is written down in this one (1: it is the shortest), colours equal
// and lengths within 2 cm + 4 standard deviations of their difference.
[[nodiscard]] std::size_t hidden_repeats(const Repeat& repeat);
// How long that shorter circle is, by all of them: the yarn comes round again after it.
[[nodiscard]] Length shortest_period(const Repeat& repeat);
// That shorter circle, its sections the means of those that come to the same, when every change of the yarn then lies
// within `drift` of where it was written; otherwise the repeat as it is.
[[nodiscard]] Repeat shortest(const Repeat& repeat, Length drift);

}  // namespace ballchange
