#include <doctest/doctest.h>

#include <string>

#include "base/random.hpp"
#include "orchard.hpp"
#include "paper/lettering.hpp"
#include "paper/notes.hpp"
#include "paper/repeat.hpp"
#include "paper/strands.hpp"

namespace ballchange {
namespace {

std::string notes_svg(const StrandsScene& scene, const StrandsOnPaper& words, Sheet& sheet) {
  Drawing drawing("k", "t", "d");
  sheet = draw_strands(drawing, scene, words, 0, 0, {180, 250});
  return drawing.file(sheet);
}

StrandsScene two_colours(std::string name) {
  StrandsScene scene;
  scene.colours = {{std::move(name), Shade{0x5b, 0x2a, 0x59}}, {"sand", std::nullopt}};
  scene.old_strand = {End::old_end,
                      {{0_cm, 40_cm, 0, Evidence::seen, false}, {40_cm, 60_cm, 1, Evidence::seen, true, 1_cm}},
                      60_cm,
                      60_cm,
                      std::nullopt};
  scene.new_strand = {
      End::new_end, {{20_cm, 40_cm, 0, Evidence::seen, false}, {40_cm, 100_cm, 1, Evidence::foretold, true}},
      20_cm,        50_cm,
      std::nullopt, 2_cm};
  scene.overlap_from = 50_cm;
  scene.overlap_to = 60_cm;
  scene.right = 100_cm;
  return scene;
}

const StrandsOnPaper kWords{
    "t", "d", "Old strand",     "New strand", "", "cut 5 cm before <sand>", "", "30 cm cut off", "10 cm, felted",
    "",  "",  Told::centimetres};

bool apart(const PlacedNote& a, const PlacedNote& b) {
  return a.row != b.row || a.left + a.width <= b.left || b.left + b.width <= a.left;
}

bool keeps_off(const PlacedNote& words, double line) { return line <= words.left || line >= words.left + words.width; }

}  // namespace

TEST_CASE("wide letters are given the room they take") {
  CHECK(written_width("MMMM") > 1.4 * written_width("nnnn"));
  CHECK(written_width("Plum") > written_width("plum"));
  for (const std::string& words : {std::string(30, 'M'), std::string("Harbour Wall In Winter"), std::string(40, 'i')}) {
    CAPTURE(words);
    CHECK(written_width(cut_short(words, 20)) <= 20);
  }
}

TEST_CASE("notes beside points never lie over each other, nor under a line, nor leave the paper") {
  const std::uint64_t seed = 4711;
  for (std::uint64_t round = 0; round < 400; ++round) {
    CAPTURE(seed);
    CAPTURE(round);
    Random random(seed + round);
    std::vector<PointNote> notes;
    const std::size_t count = 3 + random.below(12);
    const std::size_t most = 4 + random.below(26);  // up to about 60 mm wide
    for (std::size_t i = 0; i < count; ++i) {
      notes.push_back({180 * random.uniform(), std::string(1 + random.below(most), 'x')});
    }
    const auto placed = placed_notes(notes, 180);
    REQUIRE(placed.size() == notes.size());
    for (std::size_t i = 0; i < placed.size(); ++i) {
      CHECK(placed[i].left >= 0);
      CHECK(placed[i].left + placed[i].width <= 180);
      for (std::size_t k = 0; k < placed.size(); ++k) {
        if (k < i) CHECK(apart(placed[i], placed[k]));
        if (placed[i].row < placed[k].row) CHECK(keeps_off(placed[i], placed[k].note.at));
      }
    }
  }
}

TEST_CASE("a note further out keeps its line off the words that are nearer") {
  const auto placed = placed_notes({{50, "first"}, {51, "second"}, {52, "third"}}, 180);
  for (const PlacedNote& far : placed) {
    for (const PlacedNote& near : placed) {
      if (near.row < far.row) CHECK(keeps_off(near, far.note.at));
    }
  }
}

TEST_CASE("a note that finds no room loses of its name, then all but its place, never part of a number") {
  const PointNote note{10, "1.43 m: caramel 15 cm", false, "1.43 m", "caramel"};
  const double all = written_width(note.words);
  CHECK(fitted_words(note, all) == note.words);
  bool cut = false;
  for (double room = all; room > 1; room -= 0.5) {
    const std::string words = fitted_words(note, room);
    CAPTURE(words);
    cut = cut || words == "1.43 m: car… 15 cm";
    CHECK((words == "1.43 m" || (words.rfind("1.43 m: ca", 0) == 0 && words.substr(words.size() - 6) == " 15 cm")));
  }
  CHECK(cut);
  CHECK(fitted_words({10, "93 cm: 52 cm", false, "93 cm"}, 12) == "93 cm");
}

TEST_CASE("lines are broken at blanks, and no wider than they may be") {
  const auto lines = broken("overlap the ends by eight", 25);
  REQUIRE(lines.size() > 1);
  std::string again;
  for (const std::string& line : lines) {
    CHECK(written_width(line) <= 25);
    again += (again.empty() ? "" : " ") + line;
  }
  CHECK(again == "overlap the ends by eight");
}

TEST_CASE("a shade under half of another lies halfway to it") {
  CHECK(blended({0, 100, 200}, {255, 255, 255}, 0.5) == Shade{128, 178, 228});
  CHECK(blended({1, 2, 3}, {9, 9, 9}, 0) == Shade{1, 2, 3});
}

TEST_CASE("both strands fit the paper, with every name escaped") {
  Sheet sheet;
  const std::string svg = notes_svg(two_colours("a<b>&c"), kWords, sheet);
  CHECK(sheet.width <= 180);
  CHECK(sheet.height <= 250);
  CHECK(svg.find("a&lt;b&gt;&amp;c") != std::string::npos);
  CHECK(svg.find("before &lt;sand&gt;") != std::string::npos);
  CHECK(svg.find("<b>") == std::string::npos);
}

TEST_CASE("a strand goes on at its far end, but for an offcut, which is cut there too") {
  const auto arrows = [](const StrandsScene& scene) {
    Sheet sheet;
    const std::string svg = notes_svg(scene, kWords, sheet);
    int count = 0;
    for (std::size_t at = 0; (at = svg.find("stroke-width=\".4\"", at)) != std::string::npos; ++at) ++count;
    return count;
  };
  StrandsScene scene = two_colours("plum");
  const int both = arrows(scene);
  scene.new_strand.ends = true;
  CHECK(arrows(scene) == both - 1);
  scene.old_strand.ends = true;
  CHECK(arrows(scene) == both - 2);
  // Its end lies beyond what is shown.
  scene.new_strand.pieces.back().to = 300_cm;
  CHECK(arrows(scene) == both - 1);
}

TEST_CASE("a soft edge is as wide as its change is doubtful, or the picture says that it has no room") {
  const auto drawn = [](Length doubt) {
    StrandsScene scene = two_colours("plum");
    scene.old_strand.pieces[1].doubt = doubt;
    Sheet sheet;
    return notes_svg(scene, kWords, sheet);
  };
  // A centimetre is 1.7 mm; 20 cm of sand are left to the loose end.
  const std::string wide = drawn(15_cm);
  CHECK(wide.find("width=\"51\" height=\"9\" fill=\"url(#k-soft-old-1)\"") != std::string::npos);
  CHECK(wide.find("soft edge: so far off it may be<") != std::string::npos);
  const std::string wider = drawn(25_cm);
  CHECK(wider.find("width=\"68\" height=\"9\" fill=\"url(#k-soft-old-1)\"") != std::string::npos);
  CHECK(wider.find("soft edge: so far off it may be, or more where it has no room<") != std::string::npos);
}

TEST_CASE("a cut is drawn hatched where yarn comes off, and nothing is where none does") {
  Sheet sheet;
  CHECK(notes_svg(two_colours("plum"), kWords, sheet).find("30 cm cut off") != std::string::npos);
  StrandsScene whole = two_colours("plum");
  whole.new_strand.cut = whole.new_strand.loose_end;
  StrandsOnPaper words = kWords;
  words.new_mark.clear();
  words.new_trim.clear();
  const std::string svg = notes_svg(whole, words, sheet);
  CHECK(svg.find("url(#k-cut-off)") == std::string::npos);
  CHECK(svg.find("cut off") == std::string::npos);
}

namespace {

// Sections of 3 to 9 cm in four colours by turns.
Yarn long_yarn(std::size_t sections) {
  std::vector<Section> all;
  for (std::size_t k = 0; k < sections; ++k) all.push_back({k % 4, Length::cm(3 + double(k % 7)), 1_cm});
  return {.name = "Long",
          .fibre = "",
          .felts = false,
          .ball_mass = {},
          .ball_length = {},
          .repeat = Repeat({{"ash", {}}, {"oak", {}}, {"elm", {}}, {"fir", {}}}, all)};
}

std::size_t count_of(std::string_view text, std::string_view part) {
  std::size_t count = 0;
  for (std::size_t at = text.find(part); at != std::string_view::npos; at = text.find(part, at + 1)) ++count;
  return count;
}

using DrawRepeat = Sheet (*)(Drawing&, const RepeatScene&, const RepeatOnPaper&, double, double, Sheet);

std::string repeat_svg(const Yarn& yarn, DrawRepeat draw, const PlaceShown* shown = nullptr) {
  const RepeatScene scene = repeat_scene(yarn.repeat, {}, shown == nullptr ? nullptr : &shown->placing);
  const RepeatOnPaper words = repeat_words(yarn, scene, shown, Told::centimetres);
  Drawing drawing("k", "t", "d");
  const Sheet sheet = draw(drawing, scene, words, 0, 0, {180, 250});
  CHECK(sheet.width <= 180);
  CHECK(sheet.height <= 250);
  return drawing.inline_svg(sheet);
}

}  // namespace

TEST_CASE("a repeat of two hundred sections still fits the paper, as a ring and as a bar") {
  for (const auto draw : {draw_repeat_ring, draw_repeat_bar}) static_cast<void>(repeat_svg(long_yarn(200), draw));
}

TEST_CASE("many sections are told of in a table, each with its letter, its place, its colour and its length") {
  for (const std::size_t sections : {24U, 44U, 48U, 100U}) {
    for (const auto draw : {draw_repeat_ring, draw_repeat_bar}) {
      CAPTURE(sections);
      const std::string svg = repeat_svg(long_yarn(sections), draw);
      CHECK(count_of(svg, "\u2026") == 0);
      CHECK(count_of(svg, ">0 cm: ash, 3 cm</text>") == 1);
      CHECK(count_of(svg, ">75 cm: oak, 9 cm</text>") == 1);  // the fourteenth: 42 and 3 + 4 + 5 + 6 + 7 + 8
      CHECK(count_of(svg, ": fir, ") == sections / 4);
    }
  }
  CHECK(count_of(repeat_svg(long_yarn(20), draw_repeat_ring), "Each section") == 0);
}

TEST_CASE("in a ring of a hundred sections each has its letter, and no words stand beside it") {
  const std::string svg = repeat_svg(long_yarn(100), draw_repeat_ring);
  // In the ring where it has room, and in the table.
  CHECK(count_of(svg, ">A</text>") > 25);
  CHECK(count_of(svg, ">ash 3 cm") == 0);
}

TEST_CASE("a pointer strikes through no name and no letter") {
  const Yarn yarn = orchard();
  // 113 cm: 10 cm into rust. In the middle of rust's 80 cm lies its name.
  Reading reading = read_on(yarn, End::new_end, "rust 40, moss 14, navy");
  const Placing placing = place_reading(yarn, reading, {});
  const PlaceShown shown{yarn, reading, placing};
  for (const auto draw : {draw_repeat_ring, draw_repeat_bar}) {
    const std::string svg = repeat_svg(yarn, draw, &shown);
    const std::string word = draw == draw_repeat_bar ? ">rust 80 cm</text>" : ">R</text>";
    const std::size_t pointer = svg.rfind("stroke=\"#000\"");
    REQUIRE(pointer != std::string::npos);
    CHECK(svg.find(word) > pointer);
  }
}

TEST_CASE("words before their pole end at it") {
  Drawing drawing("k", "t", "d");
  draw_notes(drawing, placed_notes({{170, "a long note here"}, {10, "first"}}, 180), 0, 1, 1);
  const std::string svg = drawing.inline_svg({180, 20});
  CHECK(svg.find("<text x=\"169\" y=\"4.352\"  text-anchor=\"end\">a long note here</text>") != std::string::npos);
  CHECK(svg.find("<text x=\"11\" y=\"4.352\" >first</text>") != std::string::npos);
}

TEST_CASE("a yarn that comes round several times within its repeat is said to, in the picture too") {
  Yarn yarn = orchard();
  yarn.repeat =
      Repeat({{"ash", {}}, {"oak", {}}}, {{0, 40_cm, 2_cm}, {1, 10_cm, 1_cm}, {0, 41_cm, 2_cm}, {1, 11_cm, 1_cm}});
  for (const auto draw : {draw_repeat_ring, draw_repeat_bar}) {
    CHECK(count_of(repeat_svg(yarn, draw), ">It comes round 2 times within that: all of it reads alike.</text>") == 1);
  }
}

}  // namespace ballchange
