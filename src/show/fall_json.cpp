#include "show/fall.hpp"
#include "show/json.hpp"

namespace ballchange {
namespace {

// Centimetres of the work, where the gauge tells them.
std::optional<double> in_work(std::optional<double> count, std::optional<double> in_10cm) {
  if (!count || !in_10cm) return std::nullopt;
  return *count / *in_10cm * 10;
}

void fall_members(Json& json, const Fall& one, const FallShown& shown) {
  json.member("stitches", one.stitches).member("width", in_work(one.stitches, shown.stitches_in_10cm));
  json.member("row", one.row).member("drift", one.drift).member("look", look_name(one.look));
  json.member("rows", one.rows).member("height", in_work(one.rows, shown.rows_in_10cm));
  json.member("rows_with_1_percent_less", rows_with(shown.colouring, one.stitches, -0.01));
  json.member("rows_with_1_percent_more", rows_with(shown.colouring, one.stitches, 0.01));
  json.member("forgives", one.forgives);
}

void fall_array(Json& json, std::string_view name, const std::vector<Fall>& falls, const FallShown& shown) {
  json.key(name).array();
  for (const Fall& one : falls) {
    fall_members(json.object(), one, shown);
    json.end();
  }
  json.end();
}

void in_mind_member(Json& json, const FallShown& shown) {
  const WidthInMind& mind = *shown.in_mind;
  fall_members(json.key("in_mind").object(), mind.fall, shown);
  if (mind.instead) json.member("instead", mind.instead->stitches);
  if (mind.size) {
    json.key("size").object().member("from_mm", mind.size->from_mm).member("to_mm", mind.size->to_mm);
    json.member("look", look_name(mind.size->fall.look)).member("rows", mind.size->fall.rows).end();
  }
  json.key("closes").array();
  for (const Closing& closing : mind.closings) {
    json.object().member("rows", closing.rows).member("miss", closing.miss).end();
  }
  json.end();
  if (mind.nearest_closing) {
    json.key("nearest_closing").object().member("rows", mind.nearest_closing->rows);
    json.member("miss", mind.nearest_closing->miss).end();
  }
  if (!mind.outside.empty()) fall_array(json, "outside", mind.outside, shown);
  json.member("panel_rows", mind.panel_rows)
      .member("ring_rows", mind.ring_rows)
      .member("between_panels", mind.between)
      .end();
}

}  // namespace

std::string fall_json(const FallShown& shown) {
  static constexpr std::string_view kWorked[] = {"rows", "rounds", "turned-rounds"};
  Json json;
  json.object().member("format", "ballchange gauge 1").member("repeat", shown.colouring.period);
  json.member("yarn_per_stitch", shown.colouring.stitch).member("yarn_per_turn", shown.colouring.turn);
  json.member("yarn_per_turn_told", shown.turn_told);
  json.member("worked", kWorked[static_cast<std::size_t>(shown.colouring.working)]);
  json.key("multiple").object().member("of", shown.pattern.of).member("plus", shown.pattern.plus).end();
  fall_array(json, "widths", shown.widths, shown);
  fall_array(json, "outside", shown.outside, shown);
  if (!shown.other_heights.empty()) fall_array(json, "other_heights", shown.other_heights, shown);
  if (shown.in_mind) in_mind_member(json, shown);
  if (const auto& begin = shown.beginning) {
    json.key("begin").object().member("first_stitch", begin->wanted).member("foundation", begin->foundation);
    json.member("place", begin->from).member("let_by", begin->let_by);
    json.member("foundation_stitches", begin->foundations).end();
  }
  json.member("washed", shown.washed);
  unit_member(json, shown.yarn.reckoning == Reckoning::stitches).end();
  return json.take();
}

}  // namespace ballchange
