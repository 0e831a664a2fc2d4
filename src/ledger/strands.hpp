#pragma once
#include <cstddef>
#include <optional>
#include <vector>

#include "ledger/rope.hpp"
#include "ledger/state.hpp"

// Which yarn hangs on which: the strand in the work, and those that wait for it.
namespace ballchange {

// Pieces in the order of the work.
struct Chain {
  Ropes::Root pieces = Ropes::kNone;
  std::optional<Length> start;      // where its loose end lies, counted as the ends of its pieces
  std::size_t first = 0, last = 0;  // the balls of its first piece and its last
};

// Balls are indices into the ledger's, in the order added. What a function needs before is checked by who calls: the
// work begun where it speaks of the work, join() after the join was recorded, and so on; asserted where it says so.
class Strands {
 public:
  explicit Strands(std::vector<JoinState>& joins) : joins_(joins), ropes_(joins) {}

  void add(std::size_t ball, std::optional<Length> length);  // the next index: asserted
  [[nodiscard]] bool begun() const { return work_ != Ropes::kNone; }
  // Begins the work, which nothing has, with a loose ball (asserted), or with one that was never added.
  void begin(std::size_t ball, Length trim);
  void begin_unknown() { work_ = ropes_.piece({}); }

  [[nodiscard]] bool loose(std::size_t ball) const { return !loose_[ball].empty(); }
  [[nodiscard]] StrandPiece current() { return ropes_.at(work_, current_); }  // once begun
  // Of the joins in the work, the last.
  [[nodiscard]] const JoinState* last_landed();

  // The work stands elsewhere: which joins are in it changes.
  void stand(const std::optional<WorkPlace>& at, std::optional<Length> used);
  // Joins ahead whose method comes apart do so. Returns which, as indexes into the ledger's joins.
  std::vector<std::size_t> come_apart();
  // Of the balls that hang behind joins ahead, the next.
  [[nodiscard]] std::optional<std::size_t> next_ahead();
  // The same, past knots of the ball in use.
  [[nodiscard]] std::optional<std::size_t> next_ball_ahead() const { return ropes_.next_ball(work_, current_ + 1); }
  // What hangs behind the next join ahead is cut off there, and lies loose. Returns that join.
  std::optional<std::size_t> cut_out();
  // The last join recorded: the loose strand of a ball, or at a knot the rest of the current one, to the current piece,
  // behind which nothing hangs (asserted). Joins within the trim are cut off with it; returns how many. Where the
  // current ball can't have reached it, how much it holds up to there is not known.
  std::size_t join(std::size_t ball, bool reached = true);

  // The piece at the far end of whatever strand the ball ends: the ball itself can be weighed or cut from.
  [[nodiscard]] bool has_far_end(std::size_t ball) { return far_end(ball).has_value(); }
  void shorten(std::size_t ball, Length by);
  void set_left(std::size_t ball, Length left);
  // Of its yarn that hangs together with that end, what is not in the work: across knots ahead, and with what those
  // take, as all of it lies on a scale. Below nothing where more was worked than it held.
  [[nodiscard]] std::optional<Length> left(std::size_t ball);
  [[nodiscard]] std::optional<Length> left_in_work();  // the same of the last piece of the work, once begun

  // Use and yarn left of each ball, what became of each join; the joins in the work, first to last.
  void tell(std::vector<BallState>& balls);
  [[nodiscard]] std::vector<std::size_t> landed();
  [[nodiscard]] std::size_t how_many_landed() const { return current_; }
  [[nodiscard]] std::size_t landed(std::size_t k) { return ropes_.join(work_, k); }  // of those, the k-th

 private:
  struct Far {
    StrandPiece* piece;
    std::optional<Length> from;  // `end` less what hangs there
  };
  [[nodiscard]] std::optional<Length> hangs_from(Ropes::Root rope, std::size_t first, std::optional<Length> start);
  [[nodiscard]] bool is_ahead(std::size_t join) const;
  [[nodiscard]] std::size_t joins_in_work() const { return begun() ? ropes_.size(work_) - 1 : 0; }
  [[nodiscard]] StrandPiece& last_piece() { return ropes_.at(work_, ropes_.size(work_) - 1); }
  [[nodiscard]] std::optional<Length> last_join();
  Chain split(std::size_t at);
  void lay_loose(const Chain& chain);
  void attach(const Chain& chain, bool reached);
  [[nodiscard]] std::optional<Far> far_end(std::size_t ball);

  std::vector<JoinState>& joins_;
  Ropes ropes_;
  Ropes::Root work_ = Ropes::kNone;
  std::size_t current_ = 0;  // piece of work_ in use
  std::optional<WorkPlace> at_;
  std::optional<Length> used_;
  std::vector<std::vector<Chain>> loose_;           // by the ball each begins with; the next to be used last
  std::vector<std::optional<std::size_t>> far_in_;  // a ball's far end: the ball its loose strand begins with, or work_
};

}  // namespace ballchange
