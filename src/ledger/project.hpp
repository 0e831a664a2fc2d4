#pragma once
#include <optional>
#include <string>
#include <vector>

#include "fabric/fall.hpp"
#include "fabric/work.hpp"
#include "ledger/entry.hpp"
#include "yarn/yarn.hpp"

// A project as it is written down; what follows from it is a State (see state.hpp).
namespace ballchange {

// What is to be made. Whatever is left out is not known yet.
struct Piece {
  Working working = Working::rows;
  std::optional<int> stitches, rows;
  std::optional<Amount> yarn_per_stitch, yarn_per_turn;  // until the log's first gauge
  std::optional<Amount> foundation, edging;
  std::optional<Multiple> multiple;  // of stitches that its pattern can be worked over
};

// How this project joins, unless a join says otherwise.
struct JoinHabit {
  std::optional<Method> method;
  std::optional<Amount> allowance, tolerance;
  bool keep_from_the_start = false;  // the running shift is held within the tolerance too

  [[nodiscard]] Method usual_method() const { return method.value_or(Method::threaded); }
  // Nothing for any method but the usual one: a length told for one says nothing of another.
  [[nodiscard]] std::optional<Amount> allowance_for(Method used) const {
    return used == usual_method() ? allowance : std::nullopt;
  }
};

struct Project {
  std::string name;  // may be empty
  Unit units = Unit::cm;
  Yarn yarn;
  Piece piece;
  JoinHabit join;
  std::vector<LogEntry> entries;  // n = 1, 2, ...
};

}  // namespace ballchange
