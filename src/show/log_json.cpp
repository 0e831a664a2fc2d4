#include <algorithm>

#include "show/entry_text.hpp"
#include "show/entry_values.hpp"
#include "show/log.hpp"

namespace ballchange {
namespace {

std::string_view use_name(BallUse use) {
  switch (use) {
    case BallUse::fresh:
      return "fresh";
    case BallUse::working:
      return "working";
    case BallUse::joined_ahead:
      return "joined-ahead";
    case BallUse::used_up:
      break;
  }
  return "used-up";
}

}  // namespace

std::string_view held_name(JoinHeld held) {
  switch (held) {
    case JoinHeld::in_work:
      return "in-work";
    case JoinHeld::ahead:
      return "ahead";
    case JoinHeld::apart:
      return "apart";
    case JoinHeld::cut_out:
      break;
  }
  return "cut-out";
}

std::vector<std::optional<std::string_view>> joins_held(const LogShown& shown) {
  std::vector<std::optional<std::string_view>> held(shown.project.entries.size());
  for (const JoinState& join : shown.state.joins) {
    held[static_cast<std::size_t>(join.entry) - 1] = held_name(join.held);
  }
  return held;
}

namespace {

void entries_member(Json& json, const LogShown& shown) {
  const auto held = joins_held(shown);
  json.key("entries").array();
  for (const std::size_t index : shown.entries) {
    const LogEntry& entry = shown.project.entries[index];
    json.object();
    entry_members(json, entry, shown.state.ruler);
    const bool cancelled = shown.state.cancelled[index];
    json.member("cancelled", cancelled).member("skipped", !cancelled && !shown.state.counts(entry.n));
    if (std::holds_alternative<did::Join>(entry.what)) json.member("held", held[index]);
    json.end();
  }
  json.end();
}

void ball_object(Json& json, const State& state, const BallState& ball, const stock::Stock& stock) {
  const auto index = static_cast<std::size_t>(&ball - state.balls.data());
  json.object().member("ball", ball.id).member("use", use_name(ball.use)).member("plain", ball.plain);
  json.member("mass", ball.mass ? std::optional(ball.mass->g()) : std::nullopt);
  json.member("dye_lot", ball.dye_lot).member("from", end_name(ball.from));
  json.member("outside", ball.outside).member("inside", ball.inside);
  json.member("length", ball.length).member("left", stock::left_is_unknown(stock, index) ? std::nullopt : ball.left);
  json.member("offcut", ball.offcut ? std::optional(state.offcuts[*ball.offcut].entry) : std::nullopt).end();
}

void balls_member(Json& json, const LogShown& shown, const stock::Stock& stock) {
  json.key("balls").array();
  for (const BallState& ball : shown.state.balls) {
    if (shown.ball == nullptr || shown.ball == &ball) ball_object(json, shown.state, ball, stock);
  }
  json.end();
}

}  // namespace

std::string log_json(const LogShown& shown) {
  const State& state = shown.state;
  Json json;
  json.object().member("format", "ballchange log 1").member("name", shown.project.name);
  entries_member(json, shown);
  json.key("totals");
  totals_json(json, state.totals);
  const stock::Stock weighed =
      shown.stock != nullptr ? shown.stock->stock : stock::stock_of(state, stock::doubts_of(state));
  balls_member(json, shown, weighed);
  if (shown.offcuts != nullptr) offcuts_member(json, *shown.offcuts);
  json.key("at").object().member("row", state.at ? std::optional(state.at->row) : std::nullopt);
  json.member("stitch", state.at ? state.at->stitch : std::nullopt);
  if (stands_at_least(state)) json.member("at_least", true);
  json.end();
  const Left left = stock::left_by_scale(state, weighed);
  json.key("left").object().member("length", left.length).member("rows", left.rows);
  json.member("enough", left.enough);
  json.member("chance", shown.stock != nullptr && shown.stock->outlook ? std::optional(shown.stock->outlook->chance)
                                                                       : std::nullopt);
  json.end();
  if (shown.creep != nullptr) creep_members(json, *shown.creep);
  unit_member(json, state.ruler.in_stitches).end();
  return json.take();
}

}  // namespace ballchange
