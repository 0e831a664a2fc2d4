#include "show/estimate.hpp"
#include "show/json.hpp"

namespace ballchange {
namespace {

std::string_view way_name(plan::Way way) {
  switch (way) {
    case plan::Way::as_they_come:
      return "as-they-come";
    case plan::Way::best_of_hand:
      return "best-of-hand";
    case plan::Way::ends_read:
      break;
  }
  return "ends-read";
}

void way_member(Json& json, const plan::WayEstimate& way) {
  json.object().member("way", way_name(way.way)).member("exact", way.exact);
  json.key("simulated").integer(way.simulated);
  json.key("waste").object().member("mean", way.waste.mean).member("p50", way.waste.p50);
  json.member("p90", way.waste.p90).member("p95", way.waste.p95).end();
  json.key("balls").object().member("mean", way.balls.mean).member("p50", way.balls.p50);
  json.member("p90", way.balls.p90).member("p95", way.balls.p95).end();
  json.key("enough").array();
  for (const plan::Enough& enough : way.enough) {
    json.object().member("balls", enough.balls).member("chance", enough.chance).end();
  }
  json.end().end();
}

}  // namespace

std::string estimate_json(const EstimateShown& shown) {
  Json json;
  json.object().member("format", "ballchange estimate 1").member("needed", shown.work.needed);
  json.key("print_in_pattern").object().member("balls", shown.other_hands.balls.p95).end();
  json.key("ways").array();
  for (const plan::WayEstimate& way : shown.ways) way_member(json, way);
  json.end().member("method", method_row(shown.method).name).member("allowance", shown.work.allowance);
  json.member("tolerance", shown.work.tolerance).member("sparing", shown.work.sparing);
  json.member("knots", shown.work.knots).member("ball_plus_minus", shown.work.ball_plus_minus);
  json.member("other_hands", shown.other_hands_by).member("seed", std::to_string(shown.seed));
  if (shown.begun) json.member("whole_work", true);
  if (shown.by_scale) json.member("by_scale", *shown.by_scale);
  unit_member(json, shown.yarn.reckoning == Reckoning::stitches).end();
  return json.take();
}

}  // namespace ballchange
