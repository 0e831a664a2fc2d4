#pragma once
#include <optional>
#include <string>
#include <vector>

#include "base/problem.hpp"
#include "console/common.hpp"
#include "console/context.hpp"
#include "console/options.hpp"
#include "paper/fabric.hpp"
#include "project/project.hpp"

// The piece of a project as a picture: as far as it is done and as it will go on, or as it would be otherwise.
namespace ballchange {

[[nodiscard]] const OptionGroup& piece_options();          // what is imagined otherwise than the project has it
[[nodiscard]] const OptionGroup& piece_drawing_options();  // proportions, and the hand it is worked with

struct TakenForGranted {
  std::string what;
  std::string remedy;  // "tell it with --first"; may be empty
};

struct DrawnFabric {
  FabricOnPaper paper;
  FabricPlan plan;
  Repeat worked;  // the repeat as the work runs along it
  std::vector<TakenForGranted> notes;
};

// Throws this where a piece has more stitches or rows, or shorter sections, than a picture can show.
class TooFineToDraw : public Problem {
 public:
  explicit TooFineToDraw(const std::string& message) : Problem(Fault::content, message) {}
};

// "stitches are drawn as tall as wide; tell --stitches-in-10cm and --rows-in-10cm".
[[nodiscard]] std::vector<std::string> notes_of(const DrawnFabric& drawn);

// A join that is thought of, not made yet: what is joined further on is forgotten.
struct ThoughtOf {
  RowStitch lands;
  Length shift;
  std::string ball;  // behind it
  RowStitch hook;    // so far the work is done
};

// What options imagine otherwise than the piece on record has it: "--stitches"; empty where nothing is.
[[nodiscard]] std::string imagined(const Options& options);

// Of a project, or, with `open` null, of a yarn and options alone. Throws Problem(content) where the width or the yarn
// in a stitch isn't known, and TooFineToDraw.
[[nodiscard]] DrawnFabric drawn_fabric(const OpenProject* open, const Options& options, const Context& context,
                                       const Common& common, const std::optional<ThoughtOf>& join = {});

// Its title and its description in words; the project's name may be empty.
void name_fabric(FabricOnPaper& paper, const std::string& project);

}  // namespace ballchange
