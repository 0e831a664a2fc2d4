#include <doctest/doctest.h>

#include <algorithm>
#include <string>

#include "base/text.hpp"
#include "orchard.hpp"
#include "show/strands_terminal.hpp"

namespace ballchange {
namespace {

// Two strands of the same two colours, the new one cut.
StrandsScene small_scene(std::string name) {
  StrandsScene scene;
  scene.colours = {{std::move(name), Shade{0x5b, 0x2a, 0x59}}, {"sand", std::nullopt}};
  scene.old_strand = {End::old_end,
                      {{0_cm, 40_cm, 0, Evidence::seen, false}, {40_cm, 60_cm, 1, Evidence::seen, true}},
                      60_cm,
                      60_cm,
                      std::nullopt};
  scene.new_strand = {End::new_end,
                      {{20_cm, 40_cm, 0, Evidence::seen, false}, {40_cm, 100_cm, 1, Evidence::foretold, true}},
                      20_cm,
                      50_cm,
                      std::nullopt};
  scene.overlap_from = 50_cm;
  scene.overlap_to = 60_cm;
  scene.right = 100_cm;
  return scene;
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t stop = text.find('\n', at);
    lines.push_back(text.substr(at, stop - at));
    at = stop + 1;
  }
  return lines;
}

TEST_CASE("letters name the colours where blocks cannot be shown") {
  const std::string text = strands_text(small_scene("plum"), {45, Depth::none, true}, Told::centimetres);
  CHECK(text ==
        "old  plum------------|S==####\n"
        "new          plum////|///####sand············\n"
        "                         ^ cut\n"
        "     |-------| 20 cm   /// cut off\n"
        "     ### overlap   ··· not measured   S sand\n");
}

TEST_CASE("without UTF-8 the picture is ASCII") {
  const std::string text = strands_text(small_scene("plum"), {45, Depth::none, false}, Told::centimetres);
  CHECK(std::all_of(text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) < 0x80; }));
}

TEST_CASE("no line is wider than the screen, whatever the name") {
  for (const char* name : {"p", "plum", "a very long name that never fits anywhere at all", "\xe7\xb4\xab\xe7\xb4\xab",
                           "e\xcc\x81toile", "\x1b[31mred"}) {
    for (const std::size_t columns : {40U, 60U, 80U, 120U, 200U}) {
      CAPTURE(name);
      CAPTURE(columns);
      const std::string text = strands_text(small_scene(name), {columns, Depth::none, true}, Told::centimetres);
      CHECK(text.find('\x1b') == std::string::npos);
      for (const std::string& line : lines_of(text)) CHECK(display_width(line) <= columns);
    }
  }
}

TEST_CASE("a screen too narrow for a picture gets none") {
  CHECK(strands_text(small_scene("plum"), {39, Depth::none, true}, Told::centimetres).empty());
}

TEST_CASE("only colours with a shade become blocks") {
  const std::string text = strands_text(small_scene("plum"), {60, Depth::truecolour, true}, Told::centimetres);
  CHECK(text.find("48;2;91;42;89m plum ") != std::string::npos);
  CHECK(text.find("|sand") != std::string::npos);
}

TEST_CASE("where nothing is cut no cut is shown") {
  StrandsScene scene = small_scene("plum");
  scene.new_strand.cut = scene.new_strand.loose_end + 0.1_cm;  // less than a tape can hold
  CHECK(strands_text(scene, {60, Depth::none, true}, Told::centimetres).find("cut") == std::string::npos);
}

TEST_CASE("a stretch that is left out is a break in the new strand, and said to be one") {
  StrandsScene scene = small_scene("plum");
  scene.left = -1000_cm;
  scene.new_strand.loose_end = -990_cm;
  scene.new_strand.pieces = {{-990_cm, -970_cm, 1, Evidence::seen, false},
                             {10_cm, 110_cm, 0, Evidence::foretold, false}};
  scene.left_out = LeftOut{-970_cm, 10_cm};
  scene.old_strand.pieces = {{10_cm, 40_cm, 0, Evidence::seen, false}, {40_cm, 60_cm, 1, Evidence::seen, true}};
  for (const std::size_t columns : {60U, 80U, 120U}) {
    CAPTURE(columns);
    const std::string text = strands_text(scene, {columns, Depth::none, true}, Told::centimetres);
    CHECK(text.find("<\xc2\xb7\xc2\xb7\xc2\xb7>") != std::string::npos);
    CHECK(text.find("> left out, not measured") != std::string::npos);
    for (const std::string& line : lines_of(text)) CHECK(display_width(line) <= columns);
  }
  CHECK(strands_text(scene, {60, Depth::none, false}, Told::centimetres).find("/  <...>  /") != std::string::npos);
}

TEST_CASE("at a knot that is left nothing overlaps") {
  StrandsScene scene = small_scene("plum");
  scene.new_strand.cut = scene.new_strand.loose_end = 60_cm;
  scene.new_strand.pieces = {{60_cm, 110_cm, 1, Evidence::seen, false}};
  scene.overlap_from = scene.overlap_to = 60_cm;
  scene.knot = 60_cm;
  const std::string text = strands_text(scene, {60, Depth::none, true}, Told::centimetres);
  CHECK(text.find('#') == std::string::npos);
  CHECK(text.find("v knot") != std::string::npos);
}

TEST_CASE("a name inside hatching leaves the hatching's both ends to be seen") {
  StrandsScene scene = small_scene("plum");
  scene.overlap_from = scene.new_strand.cut = 22_cm;
  scene.overlap_to = scene.old_strand.cut = 40_cm;
  for (const std::size_t columns : {60U, 80U, 120U}) {
    CAPTURE(columns);
    const std::string text = strands_text(scene, {columns, Depth::none, true}, Told::centimetres);
    CHECK(lines_of(text)[2].find("#plum#") != std::string::npos);
  }
}

TEST_CASE("a short block that is cut off has its letter on a coloured screen, and hatching beside it") {
  StrandsScene scene = small_scene("plum");
  scene.colours[1].shade = Shade{0xd8, 0xbf, 0x8f};
  const auto new_row = [&](Length begins, Length ends) {
    scene.new_strand.pieces = {{20_cm, begins, 0, Evidence::seen, false},
                               {begins, ends, 1, Evidence::seen, true},
                               {ends, 100_cm, 0, Evidence::foretold, true}};
    return lines_of(strands_text(scene, {105, Depth::truecolour, true}, Told::centimetres))[1];
  };
  // A column is a centimetre.
  const std::string sand = "48;2;216;191;143m";
  CHECK(new_row(40_cm, 41_cm).find(sand + "S\x1b") != std::string::npos);
  CHECK(new_row(40_cm, 42_cm).find(sand + "S/\x1b") != std::string::npos);
  CHECK(new_row(40_cm, 43_cm).find(sand + "/S/\x1b") != std::string::npos);
  CHECK(new_row(48_cm, 52_cm).find(sand + "/S##\x1b") != std::string::npos);
  // Nothing else is cut off: the letter comes first, and a sign that isn't seen is not told either.
  scene.new_strand.loose_end = 49_cm;
  scene.new_strand.pieces = {{49_cm, 50_cm, 1, Evidence::seen, false}, {50_cm, 100_cm, 0, Evidence::seen, true}};
  const std::string text = strands_text(scene, {105, Depth::truecolour, true}, Told::centimetres);
  CHECK(lines_of(text)[1].find(sand + "S\x1b") != std::string::npos);
  CHECK(text.find("cut off") == std::string::npos);
  CHECK(text.find("### overlap") != std::string::npos);
  // Half cut off, half in the overlap.
  CHECK(new_row(49_cm, 51_cm).find(sand + "S#\x1b") != std::string::npos);
}

}  // namespace
}  // namespace ballchange
