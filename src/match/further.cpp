#include <algorithm>
#include <cmath>

#include "match/settle.hpp"

namespace ballchange::matching {
namespace {

constexpr std::size_t strands = 240;
// Four in five, and a little more for the error of so few strands.
constexpr double wanted_share = 0.82;
constexpr double fine_enough = 1.08;  // ratio between what does and what does not
constexpr std::uint64_t seed = 20260302;

class Trial {
 public:
  Trial(Matcher& matcher, const Reading& reading, const Observed& observed, const MatchOptions& options,
        const std::vector<OpenState>& states, std::uint64_t most)
      : matcher_(matcher),
        base_(reading),
        options_(options),
        longest_(2 * matcher.model().total),
        ends_at_(matcher.work() + most) {
    Drawing drawing(matcher.model(), observed, options, states, seed);
    for (std::size_t n = 0; n < strands; ++n) drawn_.push_back(drawing.draw(longest_));
    for (const Entry& entry : reading.entries) rounding_ = std::max(rounding_, entry.rounding_variance);
    if (observed.entries.back().known) read_ = observed.entries.back().length;
  }

  [[nodiscard]] double longest() const { return longest_; }

  [[nodiscard]] bool took_too_long() const { return matcher_.work() > ends_at_; }

  // Whether enough of the strands settle when `more` is measured.
  [[nodiscard]] bool enough(double more) {
    std::size_t settled = 0;
    for (std::size_t n = 0; n < strands && !took_too_long(); ++n) {
      if (matcher_.match(reading_with(drawn_[n], more), options_).verdict == Verdict::settled) ++settled;
      const std::size_t left = strands - n - 1;
      if (static_cast<double>(settled) >= wanted_share * strands) return true;
      if (static_cast<double>(settled + left) < wanted_share * strands) return false;
    }
    return false;
  }

 private:
  const Reading& reading_with(const Further& further, double more) {
    reading_ = base_;
    const auto set = [&](Entry& entry, double length) {
      entry.length = Length::cm(length);
      entry.rounding_variance = rounding_;
    };
    double left = more;
    if (!base_.bar_at_open_end) {
      const double rest = further.last_whole - read_;
      if (left < rest) {
        set(reading_.entries.back(), read_ + left);
        return reading_;
      }
      left -= rest;
      set(reading_.entries.back(), further.last_whole);
    }
    reading_.bar_at_open_end = true;
    for (const Measured& next : further.entries) {
      if (left <= 0) return reading_;
      Entry entry;
      entry.colour = next.colour;
      reading_.bar_at_open_end = left >= next.length;
      set(entry, std::min(left, next.length));
      reading_.entries.push_back(entry);
      left -= next.length;
    }
    return reading_;
  }

  Matcher& matcher_;
  const Reading& base_;
  const MatchOptions& options_;
  double longest_;
  std::uint64_t ends_at_;
  double rounding_ = 0;
  double read_ = 0;
  std::vector<Further> drawn_;
  Reading reading_;
};

}  // namespace

std::optional<Length> how_much_further(Matcher& matcher, const Reading& reading, const Observed& observed,
                                       const MatchOptions& options, const std::vector<OpenState>& states,
                                       std::uint64_t most) {
  Trial trial(matcher, reading, observed, options, states, most);
  double does_not = 0.25;
  double does = 0.5;
  // Coarsely upward first: the share need not rise all the way, and the least that does is wanted.
  while (!trial.enough(does)) {
    does_not = does;
    does *= 1.5;
    if (does > trial.longest() || trial.took_too_long()) return std::nullopt;
  }
  while (does / does_not > fine_enough && !trial.took_too_long()) {
    const double middle = std::sqrt(does * does_not);
    (trial.enough(middle) ? does : does_not) = middle;
  }
  return Length::cm(does);
}

}  // namespace ballchange::matching
