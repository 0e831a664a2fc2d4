#include "picture/repeat.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "orchard.hpp"

namespace ballchange {
namespace {

bool is(Length a, double cm) { return std::abs(a.cm() - cm) < 1e-4; }

RepeatScene scene_of(std::string_view text) {
  const Yarn yarn = orchard();
  const Placing placing = place_reading(yarn, read_on(yarn, End::new_end, text), {});
  return repeat_scene(yarn.repeat, {}, &placing);
}

}  // namespace

TEST_CASE("the sections of a repeat follow each other from its start") {
  const RepeatScene scene = repeat_scene(orchard().repeat, {}, nullptr);
  REQUIRE(scene.parts.size() == 6);
  const double starts[] = {0, 92, 103, 183, 197, 267};
  for (std::size_t k = 0; k < 6; ++k) CHECK(is(scene.parts[k].from, starts[k]));
  CHECK(is(scene.total, 276));
  CHECK(scene.pointers.empty());
}

TEST_CASE("a pointer stands at its place, over the interval that place tells") {
  // 77 give or take 1.6449 times the tape's 0.65 and a centimetre's rounding, 1.1723; how long a plum may be at all
  // takes a hair off that.
  const RepeatScene scene = scene_of("plum 15, sand 11, rust 30");
  REQUIRE(scene.pointers.size() == 1);
  CHECK(is(scene.pointers[0].place, 77));
  CHECK(scene.pointers[0].within.from.cm() == doctest::Approx(75.8277).epsilon(1e-4));
  CHECK(scene.pointers[0].within.to.cm() == doctest::Approx(78.1723).epsilon(1e-4));
  CHECK_FALSE(scene.pointers[0].evenly);
}

TEST_CASE("an end whose section alone is known may lie anywhere in it") {
  const RepeatScene scene = scene_of("rust, moss 14, navy");
  REQUIRE_FALSE(scene.pointers.empty());
  CHECK(is(scene.pointers[0].within.from, 103));
  CHECK(is(scene.pointers[0].within.to, 183));
  CHECK(scene.pointers[0].evenly);
}

TEST_CASE("an interval before the start is told from the end of the repeat") {
  const RepeatScene scene = scene_of("plum 91.5, sand 11, rust");
  REQUIRE_FALSE(scene.pointers.empty());
  const RepeatSpan within = scene.pointers[0].within;
  CHECK(within.from > 270_cm);
  const auto parts = parts_within(within, scene.total, 0_cm, scene.total);
  REQUIRE(parts.size() == 2);
  CHECK(is(parts[0].to, 276));
  CHECK(is(parts[1].from, 0));
  CHECK(is(parts[0].to - parts[0].from + parts[1].to, (within.to - within.from).cm()));
}

TEST_CASE("three stretches alike in pairs are told as one kind") {
  const RepeatScene scene = repeat_scene(orchard().repeat, {{1, 3, 1}, {1, 5, 1}, {3, 5, 1}, {0, 2, 2}}, nullptr);
  REQUIRE(scene.alike.size() == 2);
  CHECK(scene.alike[0].first == std::vector<std::size_t>{1, 3, 5});
  CHECK(is(scene.alike[0].spans[2].from, 267));
  CHECK(is(scene.alike[0].spans[2].to, 276));
  CHECK(scene.alike[1].first == std::vector<std::size_t>{0, 2});
  CHECK(is(scene.alike[1].spans[1].to, 197));
}

TEST_CASE("a stretch that runs over the end of the repeat goes on at its start") {
  const RepeatScene scene = repeat_scene(orchard().repeat, {{3, 5, 2}}, nullptr);
  const RepeatSpan span = scene.alike[0].spans[1];  // grey 9 and plum 92
  CHECK(is(span.from, 267));
  CHECK(is(span.to, 368));
  const auto first = parts_within(span, scene.total, 0_cm, 138_cm);
  REQUIRE(first.size() == 1);
  CHECK(is(first[0].from, 0));
  CHECK(is(first[0].to, 92));
  const auto second = parts_within(span, scene.total, 138_cm, 276_cm);
  REQUIRE(second.size() == 1);
  CHECK(is(second[0].from, 267));
}

}  // namespace ballchange
