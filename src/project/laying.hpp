#pragma once
#include <optional>
#include <vector>

#include "plan/order.hpp"
#include "project/two_ends.hpp"

// Balls laid on the repeat as the work runs along it: what was read of their ends becomes a hand to put in order.
namespace ballchange {

class Laying {
 public:
  // `told` must outlive this; its own balls are not looked at.
  explicit Laying(const BallsTold& told);

  // What the first ball is joined to: a loose end at this place (nothing: not known), the colours running that way, and
  // the shift already in the work.
  void goes_on_from(std::optional<Length> end, Direction runs, Length out_of_step);
  // Or the place wanted for its first yarn: where the foundation has to begin.
  void begins_at(Length place);
  // One more ball; ends that settle nothing are added to `open`, and it then counts as not read.
  void add(const TwoEnds& ends, std::vector<OpenEnd>& open);
  // Yarn the work still needs from these balls, >= 0; one whose own is not known counts for nothing.
  void needs(Length yarn);

  [[nodiscard]] const plan::Hand& hand() const { return hand_; }
  [[nodiscard]] const std::vector<OrderedBall>& balls() const { return balls_; }  // as in the hand
  [[nodiscard]] Method method() const { return method_; }

 private:
  // Where the work runs backward along the yarn, places count the other way.
  [[nodiscard]] plan::Tenths on_the_way(Length place) const;

  const BallsTold& told_;
  plan::Hand hand_;
  std::vector<OrderedBall> balls_;
  Method method_ = Method::threaded;
  Direction runs_ = Direction::forward;
};

}  // namespace ballchange
