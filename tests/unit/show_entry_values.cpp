#include "show/entry_values.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <string>

namespace ballchange {
namespace {

std::string json_of(const LogEntry& entry, const Ruler& ruler) {
  Json json;
  json.object();
  entry_members(json, entry, ruler);
  json.end();
  return json.take();
}

TEST_CASE("an entry for tools has the log's keys, lengths in cm and masses in g") {
  did::Join join;
  join.ball = "B";
  join.method = Method::felted;
  join.trim_old = Amount{10, Unit::in};  // 25.4 cm
  join.trim_new = Amount{2, Unit::st};   // 2 x 1.85 cm
  join.row = 118;
  join.stitch = 41;
  join.shift = Amount{-0.5, Unit::cm};
  const LogEntry entry{7, {0}, join};
  CHECK(
      json_of(entry, {Unit::cm, 1.85_cm, false}) ==
      R"({"n":7,"at":"1970-01-01T00:00:00Z","did":"join","ball":"B","method":"felted","trim_old":25.4,"trim_new":3.7,)"
      R"("row":118,"stitch":41,"shift":-0.5})"
      "\n");
  // With no yarn per stitch told, stitches are no length.
  CHECK(json_of(entry, {}).find(R"("trim_new":null)") != std::string::npos);
  did::Ball ball;
  ball.ball = "A";
  ball.mass = Mass::g(50.2);
  ball.plain = true;
  CHECK(json_of({1, {0}, ball}, {}) ==
        R"({"n":1,"at":"1970-01-01T00:00:00Z","did":"ball","ball":"A","mass":50.2,"plain":true})"
        "\n");
  CHECK(json_of({1, {0}, did::Row{3, {}, {"row 2 stitch 1 navy begins"}}}, {}) ==
        R"({"n":1,"at":"1970-01-01T00:00:00Z","did":"row","row":3,"seen":["row 2 stitch 1 navy begins"]})"
        "\n");
}

TEST_CASE("every key of every kind stands once among the keys") {
  const auto& keys = entry_keys();
  for (const std::string_view key :
       {"ball", "mass", "trim_new", "row", "seen", "knot", "old", "entry", "size", "text"}) {
    CAPTURE(key);
    CHECK(std::count(keys.begin(), keys.end(), key) == 1);
  }
}

TEST_CASE("totals that aren't known are null") {
  Totals totals;
  totals.joins = 2;
  totals.knots_left = 1;
  totals.discard = 60_cm;
  totals.allowance = 16_cm;
  totals.waste = 126_cm;
  totals.waste_share = 0.0042;
  totals.by_cause = {3_cm, 45_cm, 8_cm, 20_cm, 50_cm};
  Json json;
  totals_json(json, totals);
  CHECK(json.take() ==
        R"({"joins":2,"knots_left":1,"discard":60.0,"allowance":16.0,"waste":126.0,"waste_mass":null,)"
        R"("waste_share":0.0042,)"
        R"("running_shift":null,"by_cause":{"begin":3.0,"step":45.0,"allowance":8.0,"knots":20.0,"swatches":50.0}})"
        "\n");
}

}  // namespace
}  // namespace ballchange
