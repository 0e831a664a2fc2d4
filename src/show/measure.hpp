#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "measure/learn.hpp"
#include "measure/needed.hpp"
#include "show/paint.hpp"
#include "show/text.hpp"

namespace ballchange {

// What was learnt of a yarn, and what became of it.
struct MeasureShown {
  const Learnt& learnt;
  const std::vector<Colour>& palette;
  std::size_t strands = 0;
  bool in_stitches = false;
  bool sharpened = false;  // a repeat that was known before
  double sure = 0.95;
  std::optional<Length> total = {};     // of the repeat, as it was told
  bool hank = false;                    // by --hank
  std::vector<std::string> names = {};  // of each strand, by which it is told of; empty: "strand 2"
  std::vector<std::string> twice = {};  // strands that were there already, as they were told
  bool turned_about = false;            // it runs the other way round than the repeat that was known before
  // Of the best repeat; nothing where none is known.
  std::optional<Yarn> yarn = {};
  std::optional<ReadingNeeded> needed = {};
  std::optional<std::string> written = {};    // the file it went to
  std::optional<std::string> kept = {};       // what that file held before
  std::optional<std::string> unchanged = {};  // the file that holds all of it already
  bool dry = false;                           // it would have been written
};

// Whether its best repeat is worth showing.
[[nodiscard]] bool tells_repeat(LearnVerdict verdict);
[[nodiscard]] std::string measure_screen(const MeasureShown& shown, const Screen& screen, Told told);
[[nodiscard]] std::string measure_json(const MeasureShown& shown);

}  // namespace ballchange
