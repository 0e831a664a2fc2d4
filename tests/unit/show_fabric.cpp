#include <doctest/doctest.h>

#include <string>

#include "base/text.hpp"
#include "paper/fabric.hpp"
#include "show/fabric_terminal.hpp"
#include "unit/orchard.hpp"

namespace ballchange {
namespace {

FabricScene piece(int stitches, int rows) {
  auto scene =
      *fabric_scene(orchard().repeat, {Working::rows, stitches, rows, 0_cm, {{{1, 0}, 2_cm, 0_cm}}, {{0_cm, 0.5_cm}}});
  scene.stitch_width = scene.row_height = 1_cm;
  return scene;
}

std::size_t count(const std::string& text, std::string_view word) {
  std::size_t found = 0;
  for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) ++found;
  return found;
}

}  // namespace

TEST_CASE("a piece on the screen stands on its first row, worked from the right") {
  // 46 stitches of 2 cm are 92 cm: from half a centimetre into plum on row 1 is plum; row 2, to the right, has 5
  // stitches of sand, 40 of rust, moss; row 3, to the left, 6 of moss, 35 of navy, 5 of grey, and so has row 6 to the
  // right.
  FabricScene scene = piece(46, 6);
  scene.balls = {{{1, 0}, "A"}};
  scene.joins = {{{2, 10}, "B", "+3 cm"}};
  const std::string drawn = fabric_text(scene, {.columns = 73, .depth = Depth::none, .utf8 = false});
  CHECK(drawn ==
        "             MMMMMMNNNNNNNNNNNNNNNNNNNNNNNNNNNNNNNNNNNGGGGG\n"
        "             GGGGGNNNNNNNNNNNNNNNNNNNNNNNNNNNNNNNNNNNMMMMMM\n"
        "A          2 SSSSSRRRRRRRRRRRRRRRRRRRRRRRRRRRRRRRRRRRRRRRRM < B +3 cm\n"
        " P  plum   S  sand   R  rust   M  moss   N  navy   G  grey\n"
        "Not every row is shown: about one in 2.\n"
        "+: skipped, -: repeated, so far a join is out of step.\n");
}

TEST_CASE("what isn't worked yet is in small letters") {
  FabricScene scene = piece(46, 2);  // one line, for row 2
  scene.done = OnRow{2, 20};
  const std::string drawn = fabric_text(scene, {.columns = 65, .depth = Depth::none, .utf8 = false});
  CHECK(count(drawn, "not worked yet") == 1);
  CHECK(count(drawn, "SSSSS" + std::string(15, 'R') + std::string(25, 'r') + 'm') == 1);
}

TEST_CASE("a screen too narrow for a picture gets none") {
  CHECK(fabric_text(piece(10, 10), {.columns = 39, .depth = Depth::none, .utf8 = false}).empty());
}

TEST_CASE("on a narrow screen the piece keeps its columns, and what is done is told beside a join of that row") {
  FabricScene scene = piece(46, 60);
  scene.balls = {{{1, 0}, "Harbour wall"}};
  scene.joins = {{{30, 10}, "Second basket", "+3.5 cm"}};
  scene.done = OnRow{30, 40};
  const std::string drawn = fabric_text(scene, {.columns = 40, .depth = Depth::none, .utf8 = false});
  CAPTURE(drawn);
  CHECK(count(drawn, " +3.5 cm, done\n") == 1);
  std::size_t widest = 0;
  for (std::size_t at = 0; at < drawn.size();) {
    const std::size_t stop = drawn.find('\n', at);
    const std::string line = drawn.substr(at, stop - at);
    CHECK(display_width(line) <= 40);
    if (const std::size_t sign = line.find(" < "); sign != std::string::npos) widest = sign;
    at = stop + 1;
  }
  CHECK(widest - 13 >= 10);
}

TEST_CASE("labels that come to share a line once the picture is narrowed find room") {
  FabricScene scene = piece(46, 60);
  // Apart where joins take 14 columns, together where they take 24.
  for (int row = 10; row < 60; row += 3) scene.joins.push_back({{row, 0}, "Wall", "-4 cm"});
  scene.joins.push_back({{50, 5}, "a long name of a ball", "+12.5 cm"});
  scene.done = OnRow{50, 5};
  for (std::size_t columns = 40; columns <= 120; ++columns) {
    const std::string drawn = fabric_text(scene, {.columns = columns, .depth = Depth::none, .utf8 = false});
    CAPTURE(columns);
    CAPTURE(drawn);
    CHECK(count(drawn, ", done\n") == 1);
    CHECK(count(drawn, " cm\n") + count(drawn, " joins") + count(drawn, " cm, ") >= 10);
  }
}

TEST_CASE("on paper a section is one shape, and 200 stitches by 1,000 rows stay below 5 MB") {
  const FabricOnPaper paper{piece(200, 1000), "t", "d", "", 1_cm, Told::centimetres};
  Drawing drawing("k", "t", "d");
  const Sheet sheet = draw_fabric(drawing, paper, 0, 0, {180, 250});
  const std::string svg = drawing.file(sheet);
  CHECK(svg.size() < 5'000'000);
  CHECK(count(svg, "<path d=\"M") >= paper.scene.patches.size());
  CHECK(count(svg, "<path d=\"M") <= paper.scene.patches.size() + 10);
  CHECK(sheet.width <= 180);
  CHECK(sheet.height <= 250);
}

TEST_CASE("joins near each other each have their label on paper") {
  FabricScene scene = piece(46, 100);
  scene.joins = {{{50, 10}, "knot", "", true}, {{51, 30}, "B", "+3 cm"}, {{53, 3}, "C", ""}};
  const FabricOnPaper paper{std::move(scene), "t", "d", "", 1_cm, Told::centimetres};
  Drawing drawing("k", "t", "d");
  const Sheet sheet = draw_fabric(drawing, paper, 0, 0, {180, 250});
  const std::string svg = drawing.file(sheet);
  std::vector<double> heights;
  for (const char* label : {">knot<", ">B +3 cm<", ">C<"}) {
    CAPTURE(label);
    const std::size_t at = svg.rfind(label);
    REQUIRE(at != std::string::npos);
    const std::size_t y = svg.rfind("y=\"", at) + 3;
    heights.push_back(std::stod(svg.substr(y)));
  }
  CHECK(heights[0] - heights[1] >= 3.2);
  CHECK(heights[1] - heights[2] >= 3.2);
}

TEST_CASE("letters keep off the rows' numbers, however narrow the piece") {
  for (const int stitches : {1, 2, 5, 40}) {
    CAPTURE(stitches);
    const FabricOnPaper paper{piece(stitches, 300), "t", "d", "", 1_cm, Told::centimetres};
    Drawing drawing("k", "t", "d");
    const Sheet sheet = draw_fabric(drawing, paper, 0, 0, {180, 250});
    const std::string svg = drawing.file(sheet);
    CHECK(count(svg, "<rect x=\"") > 20);
    CHECK(count(svg, "<rect x=\"-") == 0);
  }
}

TEST_CASE("names are escaped in a picture, and what could turn text around is shown as what it is") {
  CHECK(xml_text("a<b> & \"c\" 'd'") == "a&lt;b&gt; &amp; &quot;c&quot; &#39;d&#39;");
  CHECK(xml_text("x\xE2\x80\xAEy\x1B[2J") == "x\\u{202E}y\\x1B[2J");
}

TEST_CASE("every colour has a letter of its own, of its name where one is free") {
  const auto all = inks({{"plum", {}}, {"pink", {}}, {"pin", {}}, {"p", {}}, {"чёрный", {}}});
  CHECK(all[0].letter == "P");
  CHECK(all[1].letter == "I");
  CHECK(all[2].letter == "N");
  CHECK(all[3].letter == "Z");
  CHECK(all[4].letter == "Y");
  CHECK(all[0].guessed);
  CHECK(all[0].shade == Shade{0xdd, 0xa0, 0xdd});  // CSS has a plum
}

TEST_CASE("a number of millimetres has no exponent and no empty decimals") {
  CHECK(mm(1.5) == "1.5");
  CHECK(mm(-0.0001) == "0");
  CHECK(mm(100) == "100");
  CHECK(mm(1.0 / 3) == "0.333");
}

}  // namespace ballchange
