#include "console/yarn_per_stitch.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "base/number.hpp"
#include "base/text.hpp"
#include "console/common.hpp"

namespace ballchange {
namespace {

constexpr double kAgree = 1.05;
constexpr double kRepeatLikely = 10;  // stitches: a repeat has at least as many
constexpr double kMostTurn = 10;      // stitches; a turning chain of the tallest stitch takes about four

// One way to know the yarn in a stitch.
struct Measured {
  std::string_view option;
  Length stitch;
};

std::optional<Length> length_told(const Options& options, std::string_view name, Unit bare) {
  const auto told = amount_option(options, name, bare);
  if (!told) return std::nullopt;
  if (told->unit == Unit::st) refuse(fmt::format("--{}: write it as a length of yarn, like 120cm", name));
  return to_length({told->number, told->unit}, {}, "--" + std::string(name));
}

std::string in_words(Length length) { return plain_number(length.cm(), length < 10_cm ? 2 : 1) + " cm"; }

// What is left of a row after its stitches is the turn.
void measure_turn(Length row, Length stitches, Length stitch, Unit bare, Piece& piece) {
  const Length turn = row - stitches;
  if (turn < -0.05 * row || turn > kMostTurn * stitch) {
    refuse(fmt::format(
        "--yarn-per-row and --yarn-per-stitch don't agree: {} take{} {}, and the row takes {}; "
        "measure once more and give the one you trust",
        ballchange::stitches(*piece.stitches), *piece.stitches == 1 ? "s" : "", in_words(stitches), in_words(row)));
  }
  piece.yarn_per_turn = amount_in(std::max(turn, Length()), bare, {});
}

std::optional<Length> stitch_by_row(const Options& options, Unit bare, Piece& piece, Length usual_turn) {
  const auto row = length_told(options, "yarn-per-row", bare);
  if (!row) return std::nullopt;
  if (!piece.stitches) refuse("--yarn-per-row needs the stitches in a row too: --stitches 60");
  const double count = *piece.stitches;
  if (piece.yarn_per_stitch && !piece.yarn_per_turn) {
    const Length stitch = to_length({piece.yarn_per_stitch->number, piece.yarn_per_stitch->unit}, {}, "");
    measure_turn(*row, count * stitch, stitch, bare, piece);
    return std::nullopt;
  }
  const Length turn = length_told(options, "yarn-per-turn", bare).value_or(usual_turn);
  const Length stitch = (*row - turn) / count;
  if (!can_be_stitch(stitch)) {
    refuse(fmt::format("--yarn-per-row: {} for {} can't be; a stitch takes {}", in_words(*row),
                       stitches(*piece.stitches), kStitchTakes));
  }
  return stitch;
}

std::optional<Length> stitch_by_repeat(const Options& options, const Yarn& yarn) {
  const auto count = count_option(options, "repeat-stitches", 1);
  if (!count) return std::nullopt;
  if (yarn.reckoning == Reckoning::stitches) {
    refuse("--repeat-stitches: this yarn is written in stitches already; leave it out, or tell --yarn-per-stitch");
  }
  return std::clamp(yarn.repeat.total() / *count, kLeastStitch, kMostStitch);
}

}  // namespace

std::optional<Amount> yarn_per_stitch_option(const Options& options, Unit bare) {
  const auto told = amount_option(options, "yarn-per-stitch", bare);
  if (!told) return std::nullopt;
  const std::string text = printable(*options.text("yarn-per-stitch"), 40);
  if (told->unit == Unit::st) {
    const bool of_repeat = told->number >= kRepeatLikely && told->number == std::floor(told->number);
    const std::string repeat =
        of_repeat ? fmt::format("; that one repeat makes so many, start and gauge take as --repeat-stitches {:.0f}",
                                told->number)
                  : std::string();
    refuse(fmt::format("--yarn-per-stitch: '{}' is in stitches; write the yarn in one, like 1.85cm{}", text, repeat));
  }
  const Length length = to_length({told->number, told->unit}, {}, "--yarn-per-stitch");
  if (!can_be_stitch(length)) {
    refuse(fmt::format("--yarn-per-stitch: '{}' is out of reach: a stitch takes {}", text, kStitchTakes));
  }
  return told;
}

void measure_stitch(const Options& options, Unit bare, const Yarn& yarn, Piece& piece, Length turn) {
  piece.yarn_per_stitch = yarn_per_stitch_option(options, bare);
  piece.yarn_per_turn = amount_option(options, "yarn-per-turn", bare);
  std::vector<Measured> measured;
  if (piece.yarn_per_stitch) {
    measured.push_back({"yarn-per-stitch", *length_told(options, "yarn-per-stitch", bare)});
  }
  if (const auto stitch = stitch_by_row(options, bare, piece, turn)) measured.push_back({"yarn-per-row", *stitch});
  if (const auto stitch = stitch_by_repeat(options, yarn)) measured.push_back({"repeat-stitches", *stitch});
  if (measured.empty()) return;
  const Measured& first = measured.front();
  for (const Measured& other : measured) {
    const double ratio = std::max(first.stitch / other.stitch, other.stitch / first.stitch);
    if (ratio <= kAgree) continue;
    refuse(
        fmt::format("--{} makes a stitch {}, --{} makes it {}: they don't agree; measure once more and give the one "
                    "you trust",
                    first.option, in_words(first.stitch), other.option, in_words(other.stitch)));
  }
  if (!piece.yarn_per_stitch) piece.yarn_per_stitch = amount_in(first.stitch, bare == Unit::st ? Unit::cm : bare, {});
}

}  // namespace ballchange
