#pragma once
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "console/common.hpp"
#include "console/context.hpp"
#include "console/options.hpp"
#include "show/check.hpp"
#include "show/json.hpp"

// A picture or a page that is done, and how it reaches whoever asked for it: in a file (--out), or on the screen.
namespace ballchange {

struct Drawn {
  std::string_view what;                    // "fabric", as the JSON names it; empty: `format` does
  std::string_view ending;                  // of its file, ".svg"
  std::string title, description;           // what it shows, for who can't see it
  std::function<std::string()> file;        // its bytes; null where there is nothing to draw
  std::string text;                         // for the screen; lines
  std::vector<std::string> notes;           // what was taken for granted
  std::function<void(Json&)> members = {};  // of the JSON
  std::string_view format = "ballchange draw 1";
  std::optional<std::string> unshaded = {};  // which colours are made up; a note too where any are shown
};

// Throws Problem: where the file can't be written, where there is no name for it or one that ends otherwise.
void deliver(const Drawn& drawn, const Options& options, Context& context, const Common& common);

// Instead of the picture of a ball change: its ends don't tell enough for a cut, or so much lies between them that a
// picture can't show it. `text` says so, in lines.
[[nodiscard]] Outcome no_picture(std::string_view what, const CheckShown& shown, std::string text,
                                 const Options& options, Context& context, const Common& common);

}  // namespace ballchange
