#include <algorithm>

#include "plan/trims.hpp"
#include "show/json.hpp"
#include "show/order.hpp"

namespace ballchange {
namespace {

using plan::Order;

bool worked_from_other_end(const OrderShown& shown, const plan::Placed& placed) {
  return shown.balls[placed.ball].other_end != placed.turned;
}

Length allowances(const OrderShown& shown, const Order& order) {
  const double joins = static_cast<double>(order.joins.size());
  Length sum = plan::length(shown.hand.allowance) * joins;
  if (shown.hand.begin) sum += plan::length(shown.hand.begin->allowance);
  return sum;
}

void joined_members(Json& json, const plan::Joined& joined) {
  json.member("discard", plan::length(joined.discard));
  json.member("shift", joined.mean ? std::nullopt : std::optional(plan::length(joined.shift)));
  json.member("mean", joined.mean).end();
}

void joins_member(Json& json, const OrderShown& shown) {
  const Order& order = shown.best.order;
  const auto id = [&](std::size_t k) { return std::string_view(shown.balls[order.balls[k].ball].id); };
  json.key("joins").array();
  if (order.first && shown.on_hook) {
    json.object().member("from", *shown.on_hook).member("to", id(0));
    joined_members(json, *order.first);
  }
  for (std::size_t k = 0; k < order.joins.size(); ++k) {
    json.object().member("from", id(k)).member("to", id(k + 1));
    joined_members(json, order.joins[k]);
  }
  json.end();
}

void other_order(Json& json, std::string_view key, const OrderShown& shown, const Order& order) {
  json.key(key).object().member("discard", plan::length(order.discard)).member("allowance", allowances(shown, order));
  json.key("order").array();
  for (const plan::Placed& placed : order.balls) json.text(shown.balls[placed.ball].id);
  json.end().end();
}

// Only where there are any.
void names_member(Json& json, std::string_view key, const std::vector<std::string>& names) {
  if (names.empty()) return;
  json.key(key).array();
  for (const std::string& name : names) json.text(name);
  json.end();
}

std::string_view why_name(OpenEnd::Why why) {
  switch (why) {
    case OpenEnd::Why::not_read:
      return "not-read";
    case OpenEnd::Why::unsettled:
      return "unsettled";
    case OpenEnd::Why::no_fit:
      return "no-fit";
    case OpenEnd::Why::two_ways:
      return "two-ways";
    case OpenEnd::Why::other_way:
      break;
  }
  return "other-way";
}

}  // namespace

std::string order_json(const OrderShown& shown) {
  const Order& order = shown.best.order;
  Json json;
  json.object().member("format", "ballchange order 1").key("order").array();
  for (const plan::Placed& placed : order.balls) json.text(shown.balls[placed.ball].id);
  json.end().key("turned").array();
  for (const plan::Placed& placed : order.balls) {
    if (worked_from_other_end(shown, placed)) json.text(shown.balls[placed.ball].id);
  }
  json.end().member("discard", plan::length(order.discard)).member("allowance", allowances(shown, order));
  json.member("proven", shown.best.proven).member("bound", plan::length(shown.best.bound));
  other_order(json, "as_listed", shown, shown.as_listed);
  other_order(json, "nearest_next", shown, shown.nearest_next);
  joins_member(json, shown);
  if (order.first && !shown.on_hook) {
    json.key("first").object().member("ball", shown.balls[order.balls.front().ball].id);
    joined_members(json, *order.first);
  }
  json.member("on_the_hook", shown.on_hook).member("method", method_row(shown.method).name);
  json.member("tolerance", plan::length(shown.hand.tolerance));
  if (shown.hand.need) {
    json.member("need", plan::length(*shown.hand.need)).member("enough", shown.best.enough);
    json.member("left", plan::length(plan::yarn_for_work(shown.hand, order.balls, order.discard) - *shown.hand.need));
  }
  names_member(json, "left_out", shown.left_out);
  names_member(json, "unread", may_matter_unread(shown));
  if (shown.fewer) json.member("rows_need", shown.fewer->need);
  if (shown.too_little) json.member("enough", false);
  unit_member(json, shown.yarn.reckoning == Reckoning::stitches).end();
  return json.take();
}

std::string open_ends_json(const OpenEndsShown& shown) {
  Json json;
  json.object().member("format", "ballchange order 1").key("order").array().end().key("turned").array().end();
  for (const char* key : {"discard", "allowance", "bound", "as_listed", "nearest_next"}) json.key(key).null();
  json.member("proven", false).key("joins").array().end().key("open").array();
  for (const OpenEnd& end : shown.ends) {
    json.object().member("ball", end.ball);
    json.member("end", end.end.empty() ? std::nullopt : std::optional<std::string_view>(end.end));
    json.member("why", why_name(end.why)).member("ask", end.ask).member("measure_more", end.measure_more).end();
  }
  json.end();
  if (shown.too_little) {
    json.member("need", shown.need).member("enough", false).member("left", Length() - *shown.too_little);
  }
  if (shown.instead) json.member("rows_need", shown.instead->need);
  unit_member(json, shown.in_stitches).end();
  return json.take();
}

}  // namespace ballchange
