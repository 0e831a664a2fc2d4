#pragma once
#include <optional>
#include <vector>

#include "match/model.hpp"
#include "measure/gap.hpp"
#include "measure/lengths.hpp"

// How well a circle explains the strands, by the matcher's own sum over all ways, with what its sections cost.
namespace ballchange::measuring {

// An entry that bears another name than its section.
struct Slip {
  std::size_t strand = 0, entry = 0;
  std::size_t section = 0;
  ColourId written = 0;
  double length = 0;  // cm; 0 when it was left out
  bool off = false;   // its length, too, is far from what that section otherwise has
};

// An entry that is rarely written so: a slip, or of a section that is no splash and yet was passed over elsewhere.
struct Oddity {
  std::size_t strand = 0, entry = 0;
};

struct Weighed {
  Circle circle;
  std::vector<Slip> slips;
  std::vector<Oddity> odd;
  std::vector<std::size_t> passed_over;  // sections that are no splash, by some entry
  std::vector<Seen> seen;
  std::vector<Gap> gaps;                 // sections that no strand shows whole
  std::vector<std::size_t> backward;     // strands that run so, of a circle that shows it
  std::size_t begin = 0;                 // the section the first strand begins in
  double evidence = 0;                   // logarithm; of two circles the one with more explains the strands better
  std::optional<std::size_t> unfitting;  // the first strand that does not fit, as the matcher judges it
};

// Circles that some strand does not fit tell something only where none fits.
void keep_fitting(std::vector<Weighed>& weighed);
// Of the same sections only the likeliest; best first.
void keep_distinct(std::vector<Weighed>& weighed);

class Scales {
 public:
  // `options` are those of each strand; `believed`: the repeat was known before. The strands must outlive this.
  Scales(const Lore& lore, const std::vector<matching::Observed>& strands, const std::vector<MatchOptions>& options,
         double ball_plus_minus, bool believed);

  // Fits the lengths of the circle to the strands and weighs it; nothing where no way leads along some strand, or a
  // length was measured nowhere.
  [[nodiscard]] std::optional<Weighed> weigh(Circle circle, const Bound& bound);
  // Strands that have nothing to do with any circle: each section met once.
  [[nodiscard]] double nothing_recurs() const;

  // The strand that was laid last: the one in the way where a circle could not be weighed.
  [[nodiscard]] std::size_t stuck() const { return stuck_; }
  // Steps taken so far, of some microseconds each.
  [[nodiscard]] std::uint64_t work() const { return work_; }

 private:
  [[nodiscard]] double cost(const Circle& circle, const Bound& bound) const;
  [[nodiscard]] bool lay(const matching::Model& model);
  [[nodiscard]] bool lay_with_stretch(const matching::Model& model, std::size_t s);
  [[nodiscard]] std::size_t section_of(std::size_t strand, std::size_t entry, std::size_t size,
                                       std::size_t later = 0) const;
  [[nodiscard]] bool rename(Circle& circle, const Bound& bound) const;
  [[nodiscard]] std::vector<Slip> slips(const Circle& circle, const std::vector<Seen>& seen) const;
  [[nodiscard]] bool is_off(std::size_t strand, std::size_t entry, const Patch& patch, std::size_t times) const;
  [[nodiscard]] std::vector<std::size_t> passed_over(const Circle& circle) const;
  [[nodiscard]] std::vector<Oddity> oddities(const Circle& circle, const std::vector<std::size_t>& passed_over) const;
  [[nodiscard]] std::vector<Gap> gaps(const Circle& circle) const;
  [[nodiscard]] std::optional<double> log_chance(const matching::Model& model);
  [[nodiscard]] matching::Model model_of(const Circle& circle) const;

  const Lore& lore_;
  const std::vector<matching::Observed>& strands_;
  const std::vector<MatchOptions>& options_;
  double ball_plus_minus_;
  bool one_ball_;  // one strand and nothing besides: its stretch can't be told from the sections' lengths
  std::vector<Laid> laid_;
  std::size_t stuck_ = 0;
  std::uint64_t work_ = 0;
};

}  // namespace ballchange::measuring
