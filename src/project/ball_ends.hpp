#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "console/dialogue.hpp"
#include "project/project.hpp"
#include "show/place.hpp"

// What the ends of a ball show.
namespace ballchange {

class BallEnds {
 public:
  BallEnds(const OpenProject& open, const Measures& measures, const MatchOptions& match, std::size_t columns)
      : open_(open), measures_(measures), match_(match), columns_(columns) {}

  // A reading as the log holds it: as it was typed, or in the project's unit where --units has bare numbers mean
  // another. Throws Problem(content) for what is no reading of this yarn.
  [[nodiscard]] std::optional<std::string> read(const Options& options, BallEnd end, const Context& context) const;

  // What was answered with no is not asked again.
  void leave_unasked(const std::vector<SaidNo>& outside, const std::vector<SaidNo>& inside) {
    said_no_outside_ = outside;
    said_no_inside_ = inside;
  }

  struct Which {
    bool outside = false, inside = false;
  };
  // Places those ends of the ball; false where one fits nowhere.
  [[nodiscard]] bool place(const BallState& ball, Which which);
  // Where they lie, or why they can't be placed, as lines of a screen.
  [[nodiscard]] const std::string& lines() const { return lines_; }

 private:
  bool place_end(const BallState& ball, BallEnd end);
  [[nodiscard]] std::string longer_said(const PlaceShown& shown) const;

  const OpenProject& open_;
  const Measures& measures_;
  const MatchOptions& match_;
  std::size_t columns_;
  std::vector<SaidNo> said_no_outside_, said_no_inside_;
  std::string lines_;
};

// A recorded reading, as the project's ruler has it.
[[nodiscard]] Reading recorded_reading(const OpenProject& open, const std::string& text, BallEnd end);

}  // namespace ballchange
