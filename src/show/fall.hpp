#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "fabric/fall.hpp"
#include "fabric/sizes.hpp"
#include "show/paint.hpp"
#include "show/text.hpp"
#include "yarn/yarn.hpp"

// How the colours fall at each width, as a screen for people and as JSON for tools.
namespace ballchange {

// A width somebody has in mind, and what would do better.
struct WidthInMind {
  Fall fall;
  std::optional<Fall> instead;  // the nearest width with the look wanted, when this one hasn't it
  std::vector<Fall> outside;    // and where none is near, those farther off
  struct Size {
    double from_mm = 0, to_mm = 0;
    Fall fall;  // the same stitches, the yarn in each as the size
    Colouring colouring;
    std::string note;  // what a letter was taken for
  };
  std::optional<Size> size;
  std::vector<Closing> closings;
  std::optional<Closing> nearest_closing;  // where there are none
  std::optional<int> panel_rows;
  std::optional<int> ring_rows;   // of these so many were looked at for a ring
  std::optional<Length> between;  // cut off after so many rows, before the next panel; needs the foundation
};

struct Beginning {
  Length wanted;                      // the place of the first stitch
  Length foundation;                  // yarn in it
  Length from;                        // the place where the foundation has to begin
  std::optional<Length> let_by;       // yarn from the loose end to there
  std::optional<double> foundations;  // that yarn, in stitches of the foundation
};

struct FallShown {
  const Yarn& yarn;
  Colouring colouring;
  std::optional<double> stitches_in_10cm, rows_in_10cm;
  std::optional<Look> look;    // wanted
  std::optional<double> rows;  // its height
  int low = 0, high = 0;       // 0: no widths were asked for
  Multiple pattern;
  std::vector<Fall> widths;         // best first
  std::vector<Fall> other_heights;  // in the range, where none has the height wanted
  std::vector<Fall> outside;        // below and above the range, where all in it scatter or none has the wanted look
  std::optional<WidthInMind> in_mind;
  std::optional<Beginning> beginning;
  bool verbose = false;    // all widths
  bool washed = false;     // what 10 cm hold, once the work is washed and dried
  bool turn_told = false;  // how much yarn a turn takes; otherwise it is taken to take none
};

// As tall as was wanted, or so little higher or lower that nobody would see; true where no height was.
[[nodiscard]] bool of_height_wanted(const Fall& one, const FallShown& shown);

[[nodiscard]] std::string_view look_name(Look look);
[[nodiscard]] std::string fall_screen(const FallShown& shown, const Screen& screen, Told told);
[[nodiscard]] std::string fall_json(const FallShown& shown);

}  // namespace ballchange
