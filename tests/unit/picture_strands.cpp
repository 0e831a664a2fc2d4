#include "picture/strands.hpp"

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "orchard.hpp"
#include "picture/inward.hpp"

namespace ballchange {
namespace {

struct Change {
  std::string from, to;
  Length at;
};

Strand strand(const Yarn& yarn, End end, std::string_view text) {
  const Reading reading = read_on(yarn, end, text);
  return {reading, place_reading(yarn, reading, {})};
}

std::vector<Change> changes_of(const StrandPicture& picture, const StrandsScene& scene) {
  std::vector<Change> changes;
  for (std::size_t i = 1; i < picture.pieces.size(); ++i) {
    const StrandPart& piece = picture.pieces[i];
    if (!piece.starts_here) continue;
    changes.push_back({scene.colours[picture.pieces[i - 1].colour].name, scene.colours[piece.colour].name, piece.from});
  }
  return changes;
}

struct Drawn {
  Yarn yarn = orchard();
  Strand old_strand, new_strand;
  Join join;
  StrandsScene scene;

  Drawn(std::string_view old_text, std::string_view new_text)
      : old_strand(strand(yarn, End::old_end, old_text)), new_strand(strand(yarn, End::new_end, new_text)) {
    join = advise(yarn, old_strand, new_strand, {}, std::nullopt, {}).joins.front();
    scene = *strands_scene(yarn.repeat.colours(), &yarn.repeat, old_strand, new_strand, join);
  }
};

TEST_CASE("changes of strands in step stand above each other") {
  const Drawn drawn("rust 30, sand 11, plum", "plum 15, sand 11, rust 30");
  std::size_t pairs = 0;
  for (const Change& old_change : changes_of(drawn.scene.old_strand, drawn.scene)) {
    for (const Change& new_change : changes_of(drawn.scene.new_strand, drawn.scene)) {
      if (old_change.from != new_change.from || abs(old_change.at - new_change.at) > 100_cm) continue;
      CAPTURE(old_change.from);
      CHECK(std::abs((old_change.at - new_change.at).cm()) < 1e-9);
      ++pairs;
    }
  }
  CHECK(pairs == 2);  // plum-sand and sand-rust are on both
}

TEST_CASE("the kept strands share the overlap and nothing else") {
  const Drawn drawn("rust 30, sand 11, plum", "plum 15, sand 11, rust 30");
  const StrandsScene& scene = drawn.scene;
  CHECK(std::abs((scene.overlap_to - scene.overlap_from - drawn.join.allowance).cm()) < 1e-9);
  CHECK(scene.old_strand.cut == scene.overlap_to);
  CHECK(scene.new_strand.cut == scene.overlap_from);
  CHECK(std::abs((scene.new_strand.cut - scene.new_strand.loose_end - *drawn.join.trim_new).cm()) < 1e-9);
}

TEST_CASE("pieces follow each other without gaps and reach the scene's edges") {
  for (const char* new_text :
       {"plum 15, sand 11, rust 30", "plum 40, sand 11, rust 46", "grey 4, plum, sand 10, rust"}) {
    CAPTURE(new_text);
    const Drawn drawn("rust 30, sand 11, plum", new_text);
    for (const StrandPicture* picture : {&drawn.scene.old_strand, &drawn.scene.new_strand}) {
      for (std::size_t i = 0; i < picture->pieces.size(); ++i) {
        CHECK(picture->pieces[i].from < picture->pieces[i].to);
        if (i > 0) CHECK(std::abs((picture->pieces[i].from - picture->pieces[i - 1].to).cm()) < 1e-9);
      }
    }
    CHECK(drawn.scene.old_strand.pieces.front().from <= drawn.scene.left);
    CHECK(drawn.scene.new_strand.pieces.back().to >= drawn.scene.right);
  }
}

TEST_CASE("what lies beyond a reading is foretold, what it shows is seen") {
  const Drawn drawn("rust 30, sand 11, plum", "plum 15, sand 11, rust 30");
  Length seen;
  for (const StrandPart& piece : drawn.scene.new_strand.pieces) {
    if (piece.evidence == Evidence::seen) seen += piece.to - piece.from;
  }
  CHECK(std::abs(seen.cm() - 56) < 1e-9);
}

// MATHS's worked example: places 133 and 77, u = 133 - 77 - 8 = 48; 30 used + 58 kept - 8 = 80.
struct Worked {
  Yarn yarn = orchard();
  Strand old_strand = strand(yarn, End::old_end, "rust 30, sand 11, plum");
  Strand new_strand = strand(yarn, End::new_end, "plum 15, sand 11, rust 30");
  StrandsScene scene;

  Worked() {
    JoinWish wish;
    wish.method = Method::felted;
    const Join join = advise(yarn, old_strand, new_strand, {}, std::nullopt, wish).joins.front();
    scene = *strands_scene(yarn.repeat.colours(), &yarn.repeat, old_strand, new_strand, join,
                           {wish.tape, yarn.ball_plus_minus});
  }
};

const StrandPart& starting(const StrandPicture& picture, ColourId colour) {
  for (const StrandPart& piece : picture.pieces) {
    if (piece.starts_here && piece.colour == colour) return piece;
  }
  FAIL("no change to that colour");
  return picture.pieces.front();
}

TEST_CASE("the worked example lies where it was worked out by hand") {
  const StrandsScene scene = Worked().scene;
  const auto is = [](Length a, double cm) { return std::abs(a.cm() - cm) < 1e-9; };
  CHECK(is(scene.old_strand.loose_end, 0));
  CHECK(is(scene.old_strand.cut, 0));
  CHECK(is(scene.new_strand.loose_end, -56));  // 8 + 48 before it
  CHECK(is(scene.new_strand.cut, -8));
  CHECK(is(starting(scene.old_strand, 2).from, -30));
  CHECK(is(starting(scene.new_strand, 2).from, -30));
  CHECK(is(starting(scene.new_strand, 3).from, 50));
  REQUIRE(scene.fit);
  CHECK(is(scene.fit->from, -30));
  CHECK(is(scene.fit->to, 50));
}

TEST_CASE("a change is as doubtful as all that was measured up to it, and what was not") {
  // z = 1.6449 of: 0.5 + 1 % of each length, whole centimetres 1/12, rust give or take 5, the ball 2 % of the 50 of
  // rust that were not read. Worked out by hand.
  const StrandsScene scene = Worked().scene;
  const auto doubt = [&](const StrandPicture& picture, ColourId colour) {
    return starting(picture, colour).doubt.cm();
  };
  CHECK(doubt(scene.old_strand, 2) == doctest::Approx(1.6449 * std::sqrt(0.64 + 1.0 / 12)).epsilon(1e-4));
  CHECK(doubt(scene.old_strand, 1) == doctest::Approx(1.6449 * std::sqrt(0.64 + 0.3721 + 2.0 / 12)).epsilon(1e-4));
  CHECK(doubt(scene.new_strand, 1) == doctest::Approx(1.6449 * std::sqrt(0.4225 + 1.0 / 12)).epsilon(1e-4));
  CHECK(doubt(scene.new_strand, 3) ==
        doctest::Approx(1.6449 * std::sqrt(0.4225 + 0.3721 + 0.64 + 3.0 / 12 + 25 + 1)).epsilon(1e-4));
}

TEST_CASE("a cut is as doubtful as the tape over its distance, and where nothing is cut nothing is") {
  const StrandsScene scene = Worked().scene;
  CHECK(scene.new_strand.cut_doubt.cm() == doctest::Approx(1.6449 * (0.5 + 0.58)).epsilon(1e-4));
  CHECK(scene.old_strand.cut_doubt == Length());
}

TEST_CASE("without knowing how much comes off there is no picture") {
  const Drawn drawn("rust 30, sand 11, plum", "plum 15, sand 11, rust 30");
  Join join = drawn.join;
  join.trim_new.reset();
  CHECK_FALSE(
      strands_scene(drawn.yarn.repeat.colours(), nullptr, drawn.old_strand, drawn.new_strand, join).has_value());
}

TEST_CASE("sections that nobody measured are left out where the cut lies beyond them") {
  const Drawn drawn("rust 30, sand 11, plum", "rust 52, moss 14, navy");
  REQUIRE(drawn.join.new_mark.changes == 6U);
  const StrandsScene& scene = drawn.scene;
  REQUIRE(scene.left_out);
  CHECK(std::abs((scene.left_out->from - scene.new_strand.loose_end).cm() - 66) < 1e-9);
  CHECK(scene.left_out->to < scene.new_strand.cut);
  for (const StrandPicture* picture : {&scene.old_strand, &scene.new_strand}) {
    for (const StrandPart& piece : picture->pieces) {
      CHECK(piece.from < piece.to);
      CHECK((piece.to <= scene.left_out->from || piece.from >= scene.left_out->to));
      if (picture->end == End::old_end) CHECK(piece.from >= scene.left_out->to);
    }
  }
  // What is left to see goes on from the break to the edges.
  CHECK(scene.new_strand.pieces.front().from == scene.new_strand.loose_end);
  CHECK(scene.new_strand.pieces.back().to >= scene.right);
  CHECK(drawn.scene.old_strand.pieces.back().to == drawn.scene.old_strand.loose_end);
}

TEST_CASE("beside what is left out no section is drawn that has no width") {
  std::size_t breaks = 0;
  for (int tenths = 100; tenths < 400; tenths += 7) {
    CAPTURE(tenths);
    // What was read of the old strand ends where a section does.
    const Drawn drawn(fmt::format("rust {}, sand 11", tenths / 10.0),
                      fmt::format("rust {}, moss 14, navy 22.7", (tenths + 133) / 10.0));
    if (!drawn.scene.left_out) continue;
    ++breaks;
    for (const StrandPicture* picture : {&drawn.scene.old_strand, &drawn.scene.new_strand}) {
      for (const StrandPart& piece : picture->pieces) CHECK(piece.to - piece.from > 0.001_cm);
    }
  }
  CHECK(breaks > 20);
}

TEST_CASE("what was measured of the old strand is never left out") {
  for (const char* old_end : {"rust 30, sand 11, plum 60, hook", "rust 30, sand 11, plum 92, grey 9, hook"}) {
    CAPTURE(old_end);
    const Drawn drawn(old_end, "navy 50, grey 9, plum 30");
    const StrandPicture& old_strand = drawn.scene.old_strand;
    REQUIRE(old_strand.hook);
    Length shown;
    for (const StrandPart& piece : old_strand.pieces) {
      if (piece.to > *old_strand.hook) shown += piece.to - std::max(piece.from, *old_strand.hook);
    }
    CHECK(std::abs((shown - *drawn.old_strand.reading.loose).cm()) < 1e-9);
    if (drawn.scene.left_out) CHECK(drawn.scene.left_out->to <= *old_strand.hook);
  }
}

TEST_CASE("what was measured of the old strand stays where the length of a section between was not told") {
  const Drawn drawn("rust 30, sand, plum, grey 9", "navy 50, grey 9, plum 30");
  Length seen;
  for (const StrandPart& piece : drawn.scene.old_strand.pieces) {
    if (piece.evidence == Evidence::seen) seen += piece.to - piece.from;
  }
  CHECK(std::abs((seen - 39_cm).cm()) < 1e-9);
}

TEST_CASE("a few centimetres that were not measured are not left out") {
  CHECK_FALSE(Drawn("rust 30, sand 11, plum", "plum 15, sand 11").scene.left_out);
}

TEST_CASE("more sections than a picture can hold are not drawn") {
  // 0.5 cm is the shortest section a profile may have, 100 m the longest allowance anybody could type.
  const Yarn yarn{.name = "Splinter",
                  .fibre = "",
                  .felts = false,
                  .ball_mass = {},
                  .ball_length = {},
                  .repeat = Repeat({{"ash", {}}, {"oak", {}}, {"elm", {}}},
                                   {{0, 0.5_cm, 0.1_cm}, {1, 0.5_cm, 0.1_cm}, {2, 60_cm, 3_cm}})};
  const Strand old_strand = strand(yarn, End::old_end, "elm 30, oak");
  const Strand new_strand = strand(yarn, End::new_end, "elm 30, ash");
  JoinWish wish;
  wish.allowance = 10000_cm;
  const Join join = advise(yarn, old_strand, new_strand, {}, std::nullopt, wish).joins.front();
  CHECK_FALSE(strands_scene(yarn.repeat.colours(), &yarn.repeat, old_strand, new_strand, join).has_value());
}

TEST_CASE("the colours passed on the way to a mark go on as the repeat does") {
  const Yarn yarn = orchard();
  const auto passed = [&](const Strand& end, std::size_t changes) {
    std::string names;
    for (const ColourId id : colours_inward(&yarn.repeat, end, changes)) names += yarn.repeat.colours()[id].name + " ";
    return names;
  };
  CHECK(passed(strand(yarn, End::new_end, "rust 52, moss 14, navy"), 6) == "rust moss navy grey plum sand ");
  CHECK(passed(strand(yarn, End::old_end, "rust 30, sand 11, plum"), 5) == "rust sand plum grey navy ");
}

}  // namespace
}  // namespace ballchange
