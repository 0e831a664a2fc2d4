#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/length.hpp"
#include "fabric/work.hpp"

// How the colours of a repeat fall in rows or rounds of S stitches.
//
// Row r begins at place p_0 + (r - 1) W of the repeat, W = S w + v. In rounds each lies on the one below it, moved by
// g = W mod R. In rows, and rounds that are turned, only every second one runs the same way, moved by 2 g with
// g = (2 W mod R) / 2, and those between move as far the other way. So g is what W misses the nearest multiple of R (of
// R/2 where it is turned) by. The model takes every stitch and row for alike; yarn that differs by 1 % from row to row
// moves the colours by W/100, which is what `forgives` is to be held against.
namespace ballchange {

struct Colouring {
  Length period;   // R, the shortest circle of sections
  Length section;  // of them, the mean; up to R/2
  Length stitch;   // w > 0
  Length turn;     // v >= 0
  Working working = Working::rows;
};

enum class Look {
  columns,   // |g| < w/2: the colours stack, where it is turned every second row, those between mirroring it
  argyle,    // turned, and two rows that run one way overlap by half a section or more: diagonals cross
  swirl,     // the same in rounds, where all diagonals run one way
  stripes,   // a section fills at least a row
  scattered  // none of these: the colours break up
};

struct Fall {
  int stitches = 0;  // S
  Length row;        // W
  Length drift;      // g, a row or round
  Look look = Look::scattered;
  std::optional<double> rows;  // R/|g|: a diamond's height, or until a swirl or stripes come round again
  double forgives = 0;         // share of W, more or less, that keeps the look
};

[[nodiscard]] Length row_of(const Colouring& yarn, int stitches);
[[nodiscard]] Fall fall(const Colouring& yarn, int stitches);
// The rows with so great a share more yarn in each; nothing where that is no diamond, swirl or stripe any more.
[[nodiscard]] std::optional<double> rows_with(const Colouring& yarn, int stitches, double more);

// Stitches a pattern can be worked over: `of` times any whole number, `plus` more.
struct Multiple {
  int of = 1, plus = 0;
  friend bool operator==(const Multiple&, const Multiple&) = default;
};
// "4+1", "4 + 1", "4": from 1 to 1000, and from 0 to 1000 more. Nothing for what is none.
[[nodiscard]] std::optional<Multiple> multiple_of(std::string_view text);
// "4+1"
[[nodiscard]] std::string multiple_text(const Multiple& multiple);
// "multiple of 4 and 1 more"
[[nodiscard]] std::string multiple_words(const Multiple& multiple);
// Whether a pattern can be worked over so many stitches.
[[nodiscard]] bool is_multiple(int stitches, const Multiple& pattern);

// Every width the pattern allows from `low` to `high`, what forgives most first.
[[nodiscard]] std::vector<Fall> falls(const Colouring& yarn, int low, int high, Multiple pattern);
// The widths nearest to n R/2 +- R/rows (n R in rounds; for columns n R/2 itself) that the pattern allows from `low` to
// `high` and that have the look; the ones whose height is nearest come first. `rows` > 0 where it is given.
[[nodiscard]] std::vector<Fall> widths_for(const Colouring& yarn, Look look, std::optional<double> rows, int low,
                                           int high, Multiple pattern);

// After so many rows the next would be the first again, but for `miss` (past it +, short of it -).
struct Closing {
  int rows = 0;
  Length miss;
};
// Rows that are worked already, and the yarn in them, whatever a row takes now.
struct RowsWorked {
  int rows = 0;
  Length yarn;
};
// Up to `most` rows, those that miss by no more than the tolerance; where the work is turned, even numbers only.
[[nodiscard]] std::vector<Closing> closings(const Colouring& yarn, int stitches, int most, Length tolerance,
                                            const RowsWorked& worked = {});
// Of all counts up to `most`, the one that misses by least, the fewest rows of equals; nothing where there is none.
[[nodiscard]] std::optional<Closing> nearest_closing(const Colouring& yarn, int stitches, int most);

// What to let go by before the foundation, so that after it place `wanted` comes to the first stitch: the loose end is
// at place `end`. In [0, R).
[[nodiscard]] Length before_foundation(Length period, Length end, Length foundation, Length wanted);
// What to cut off after a panel of so many rows, so that another, foundation and all, begins just as it did. In [0, R).
[[nodiscard]] Length between_panels(const Colouring& yarn, int stitches, int rows, Length foundation);

}  // namespace ballchange
