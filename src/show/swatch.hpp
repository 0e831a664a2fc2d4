#pragma once
#include <optional>
#include <string>
#include <vector>

#include "fabric/fall.hpp"
#include "fabric/next_size.hpp"
#include "fabric/swatch.hpp"
#include "fabric/yarn_class.hpp"
#include "show/paint.hpp"
#include "show/text.hpp"

// What swatches say, as a screen for people and as JSON for tools.
namespace ballchange {

enum class TurningChain { not_told, counts, apart };

struct TurnShown {
  TurningChain chain = TurningChain::not_told;
  std::optional<int> stitches;  // in a row
  std::optional<Length> yarn;   // of a turn, beside the stitches; not known
  std::optional<Length> doubt;  // nine times in ten; of one that was measured by the row
  bool guessed = false;         // as much as a stitch
};

struct SwatchShown {
  Tool tool = Tool::hook;
  std::vector<SizeGauge> gauges;  // at least one
  std::size_t in_hand = 0;        // the one that is recorded, and that the colours are to be looked up for
  std::vector<std::string> size_notes;
  std::optional<Sharper> sharper;  // of the one in hand
  std::optional<WantedGauge> wanted;
  std::optional<NextSize> next;
  Multiple pattern;
  Working working = Working::rows;
  TurnShown turn;
  const YarnClass* yarn_class = nullptr;
  bool has_yarn = false;  // its colours can fall
  std::string yarn_word;  // as typed: a project, or --yarn and a profile; may be empty
};

[[nodiscard]] std::string_view tool_name(Tool tool);
// "3.75 mm (US F-5)"
[[nodiscard]] std::string size_words(const ToolSize& size);
[[nodiscard]] std::string swatch_screen(const SwatchShown& shown, const Screen& screen, Told told);
[[nodiscard]] std::string swatch_json(const SwatchShown& shown);

}  // namespace ballchange
