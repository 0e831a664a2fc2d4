#pragma once
#include <cstddef>
#include <optional>
#include <string>

#include "reading/reading.hpp"

// What a log tells of yarn that was cut off.
namespace ballchange {

enum class OffcutUse { kept, as_ball, used_up };

// A piece that was trimmed off an end.
struct OffcutState {
  int entry = 0;  // of the join, or of the beginning, at which it was cut off
  End cut_from = End::new_end;
  std::optional<std::size_t> ball;     // index of the ball it is of; nothing: one that was never added
  Length length;                       // in hand
  std::optional<std::string> reading;  // what its loose end showed, as written
  std::optional<std::size_t> of;       // index of the offcut whose end it was, where that was as it had been cut off
  bool knot = false;                   // cut off at a knot
  bool holds_join = false;             // itself of two pieces
  OffcutUse use = OffcutUse::kept;
  int used_at = 0;  // entry that used it
  Length used;      // so much of it is no waste any more
};

}  // namespace ballchange
