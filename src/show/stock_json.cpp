#include "show/entry_text.hpp"
#include "show/stock.hpp"

namespace ballchange {
namespace {

void place_members(Json& json, const WorkPlace& at) { json.member("row", at.row).member("stitch", at.stitch); }

void ending_members(Json& json, const StockShown& shown) {
  const stock::Ending& ending = *shown.ending;
  json.key("ends").object();
  place_members(json, ending.at);
  json.key("low").object();
  place_members(json, ending.low);
  json.end().key("high").object();
  place_members(json, ending.high);
  json.end().end();
  if (!shown.lay_out) return;
  json.key("lay_out").object().member("length", shown.lay_out_length).member("before_row", shown.lay_out->before_row);
  json.member("now", shown.lay_out->now).end();
}

void stops_member(Json& json, const StopsShown& stops) {
  json.key("joins").array();
  if (stops.known) {
    for (const stock::Stop& stop : stops.known->joins) {
      json.object().member("ball", stop.ball).member("other_end", stop.other_end);
      json.member("discard", stop.trims).member("shift", stop.shift);
      json.member("method", method_row(stops.method).name).member("allowance", stops.allowance).end();
    }
  }
  json.end().key("unread").array();
  if (stops.old_end && stops.fresh_balls > 0) json.text(stops.old_end->ball);
  for (const UnknownEnd& end : stops.fresh) json.text(end.ball);
  json.end();
}

void enough_member(Json& json, const stock::Outlook& outlook) {
  json.key("enough").object().member("chance", outlook.chance).member("needed", outlook.needed);
  json.member("joins", outlook.joins).member("may_cut", outlook.may_cut).member("full_cuts", outlook.full_cuts);
  json.member("if_sparing", outlook.if_sparing).member("with_one_more", outlook.with_one_more);
  json.member("leave_out", outlook.leave_out).end();
}

}  // namespace

void stock_members(Json& json, const StockShown& shown, std::size_t ball) {
  json.member("ball", shown.state.balls[ball].id);
  const auto& on = shown.stock.balls[ball];
  json.member("left", on && on->left >= Length() ? std::optional(on->left) : std::nullopt);
  json.member("plus_minus", on ? std::optional(stock::give_or_take(*on, shown.stock.doubts)) : std::nullopt);
  const auto row = shown.state.gauge.row();
  json.key("rows");
  if (on && row) {
    const stock::Rows rows = stock::rows_left(*on, shown.stock.takes, *row);
    json.object().member("about", rows.rows).member("low", rows.low).member("high", rows.high).end();
  } else {
    json.null();
  }
  if (shown.stock.odd) json.member("odd", shown.state.balls[*shown.stock.odd].id);
  const auto& measured = shown.stock.measured;
  json.member("row_takes", row && measured ? std::optional(*row * measured->share) : std::nullopt);
  if (shown.ending && shown.state.working == ball) ending_members(json, shown);
  if (shown.stops) stops_member(json, *shown.stops);
  if (shown.outlook) enough_member(json, *shown.outlook);
}

void by_weight_members(Json& json, const ByWeightShown& shown) {
  json.member("ball", shown.ball).member("left", shown.yarn.left);
  json.member("plus_minus", shown.yarn.left ? std::optional(shown.yarn.plus_minus) : std::nullopt);
  json.key("rows");
  if (const auto& rate = shown.yarn.per_row) {
    json.object().member("about", rate->left).member("low", rate->low).member("high", rate->high).end();
    json.member("mass_a_row", rate->mass.g());
  } else {
    json.null();
  }
  json.member("chance", shown.enough ? std::optional(shown.enough->chance) : std::nullopt);
}

}  // namespace ballchange
