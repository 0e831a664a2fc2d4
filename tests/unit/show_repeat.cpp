#include <doctest/doctest.h>

#include <algorithm>
#include <string>

#include "base/text.hpp"
#include "orchard.hpp"
#include "show/repeat_terminal.hpp"
#include "show/yarn_row.hpp"

namespace ballchange {
namespace {

RepeatScene scene_of(std::string_view text) {
  const Yarn yarn = orchard();
  const Placing placing = place_reading(yarn, read_on(yarn, End::new_end, text), {});
  return repeat_scene(yarn.repeat, {}, &placing);
}

}  // namespace

TEST_CASE("a repeat on the screen has each section to scale, and its place below") {
  // 276 cm in 69 columns: 4 cm each. 92 cm are 23 columns, 11 are 3, 80 are 20, 14 are 3 or 4, 70 are 17 or 18, 9 the
  // rest; 50 cm are 12 or 13. The last place has no room to the right of its column, so it ends there.
  const std::string text = repeat_text(repeat_scene(orchard().repeat, {}, nullptr),
                                       {.columns = 69, .depth = Depth::none, .utf8 = false}, Told::centimetres);
  CHECK(text ==
        "|plum------------------|S=|rust~~~~~~~~~~~~~~~|M:|navy+++++++++++++|G\n"
        "0 cm                   92 cm                  1.83 m          2.67 m\n"
        "                          1.03 m                 1.97 m\n"
        "|------------| 50 cm\n"
        "S sand, M moss, G grey\n");
}

TEST_CASE("a pointer stands above its column, over the stretch it may lie in") {
  // 77 cm is column 19.25 of 69, its stretch from 75.83 to 78.17 columns 18.96 to 19.54.
  const std::string text = repeat_text(scene_of("plum 15, sand 11, rust 30"),
                                       {.columns = 69, .depth = Depth::none, .utf8 = false}, Told::centimetres);
  CHECK(text.substr(0, text.find("|plum")) ==
        "                   over 99 %\n"
        "                   V~\n");
}

TEST_CASE("no line of a repeat is wider than the screen, however many sections") {
  std::vector<Section> sections;
  for (std::size_t k = 0; k < 200; ++k) sections.push_back({k % 2, Length::cm(1 + double(k % 5) * 30), 1_cm});
  const RepeatScene scene = repeat_scene(Repeat({{"ash", {}}, {"oak", {}}}, sections), {}, nullptr);
  for (const std::size_t columns : {40U, 60U, 80U, 120U}) {
    CAPTURE(columns);
    const std::string text = repeat_text(scene, {columns, Depth::none, false}, Told::centimetres);
    for (std::size_t at = 0; at < text.size();) {
      const std::size_t stop = text.find('\n', at);
      CHECK(display_width(text.substr(at, stop - at)) <= columns);
      at = stop + 1;
    }
  }
}

TEST_CASE("a scale is a round length of the user's unit, of the longest yarn too") {
  CHECK(scale_step(4_cm, Told::centimetres) == 50_cm);
  CHECK(scale_step(4_cm, Told::inches) == Length::cm(24 * 2.54));  // eight columns are 12.6 in
  CHECK(scale_step(60_cm, Told::inches) == Length::cm(360 * 2.54));
  CHECK(scale_step(1000_cm, Told::inches) == Length::cm(3600 * 2.54));
  CHECK(scale_step(2000_cm, Told::inches) == Length::cm(3600 * 2.54));  // the longest there is
}

TEST_CASE("a screen too narrow for a repeat gets none") {
  CHECK(repeat_text(repeat_scene(orchard().repeat, {}, nullptr), {39, Depth::none, false}, Told::centimetres).empty());
}

}  // namespace ballchange
