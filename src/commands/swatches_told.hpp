#pragma once
#include <optional>
#include <string>
#include <vector>

#include "commands/swatch_told.hpp"
#include "console/options.hpp"
#include "project/project.hpp"
#include "show/swatch.hpp"

// All swatches of a command line, with what is known beside them.
namespace ballchange {

// What is known beside the swatches.
struct SwatchKnown {
  std::optional<OpenProject> project;
  std::optional<Yarn> yarn;
  SwatchTerms terms;
  Told told = Told::centimetres;
  Working working = Working::rows;
  std::optional<int> stitches;
  std::optional<Length> turn;  // yarn of one, where it was told
  std::string usual_size;      // of a swatch that tells none; may be empty
  TurningChain chain = TurningChain::not_told;
};

struct TurnMeasured {
  Length yarn;
  Length doubt;  // nine times in ten
};

// What several swatches say of the turn, and the yarn they used.
struct SwatchesTold {
  std::vector<Swatch> swatches;
  std::vector<SwatchTold> told;
  std::optional<Tool> tool;
  std::vector<std::string> notes;
  std::vector<TurnMeasured> turns;
  bool turn_guessed = false;
};

// Throws Problem(content), naming the swatch.
[[nodiscard]] SwatchesTold swatches_told(const Options& options, const SwatchKnown& known);

}  // namespace ballchange
