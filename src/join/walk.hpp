#pragma once
#include <optional>
#include <string>
#include <vector>

#include "join/advice.hpp"

// Along a strand in hand from its loose end: what was read, and on the new end the sections that must follow. Places
// are in the working order that both ends share (the mirrored repeat when both run backward).
namespace ballchange::joining {

// What was read under one name, or one section beyond.
struct Piece {
  std::size_t first = 0;  // section of its start, in working order
  std::size_t count = 1;
  std::string colour;
  std::string next;            // the colour after it, inward
  Length mean;                 // by the repeat; at the loose end: what was read
  std::optional<Length> read;  // whole length on the strand, when it was read
  std::size_t changes = 0;     // colour changes passed from the loose end
  bool change_seen = false;    // the change a cut here is told from lies within the reading
  bool starts_worked = false;  // its start is already in the work
  bool cut_short = false;      // an offcut's last: no change bounds it
};

class Walk {
 public:
  // `placing` is not without candidates. `repeat` is the one in the shared working order.
  Walk(const Repeat& repeat, const Strand& strand, Direction direction, Length reach);

  struct Cut {
    Mark mark;
    Length trim;          // on the strand in hand
    Length kept;          // from the marking change to the cut: a or b; below 0 where that change comes off
    std::size_t section;  // the mark's section, in working order
    std::size_t after;    // the section that follows what was read under the mark's name, in working order
    bool markable = true;
    double variance = 0;  // of the mark, cm^2
  };
  // Where to cut so that `trim` of the repeat is gone from the loose end, 0 <= trim <= reach.
  [[nodiscard]] Cut cut(Length trim, const Tape& tape) const;
  // How much of the repeat is gone when so much was cut off the strand in hand: told as the marks are, from the change
  // that bounds the yarn that is kept.
  [[nodiscard]] Length gone(Length on_strand) const;

 private:
  [[nodiscard]] const std::string& beyond(const Piece& piece) const;
  [[nodiscard]] bool from_loose_end(const Piece& piece, bool into_work) const;
  [[nodiscard]] Cut mark_in(std::size_t index, Length before, Length into, const Tape& tape) const;

  const Repeat& repeat_;
  End end_;
  std::vector<Piece> pieces_;
};

}  // namespace ballchange::joining
