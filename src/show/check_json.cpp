#include <string_view>

#include "ledger/entry.hpp"
#include "show/check.hpp"
#include "show/check_project.hpp"
#include "show/place.hpp"

namespace ballchange {
namespace {

std::string_view mark_name(MarkFrom from) {
  switch (from) {
    case MarkFrom::start:
      return "start";
    case MarkFrom::end:
      return "end";
    case MarkFrom::loose_end:
      break;
  }
  return "loose-end";
}

std::string_view remark_name(Remark remark) {
  switch (remark) {
    case Remark::allowance_outside_range:
      return "allowance-outside-range";
    case Remark::ends_follow:
      return "ends-follow";
    case Remark::cut_for_edge:
      return "cut-for-edge";
    case Remark::not_enough_room:
      return "not-enough-room";
    case Remark::loose_unknown:
      return "loose-unknown";
    case Remark::cut_not_markable:
      return "cut-not-markable";
    case Remark::next_section:
      return "next-section";
    case Remark::not_seen_yet:
      return "not-seen-yet";
    case Remark::both_backward:
      break;
  }
  return "both-backward";
}

void mark_member(Json& json, std::string_view key, const Mark& mark) {
  json.key(key).object().member("changes", mark.changes);
  json.member("colour", mark.colour.empty() ? std::optional<std::string>() : std::optional(mark.colour));
  json.member("from", mark_name(mark.from)).member("distance", mark.distance).end();
}

// A colour nobody has told is null.
void change_member(Json& json, std::string_view key, const std::string& before, const std::string& after) {
  json.key(key).array();
  for (const std::string* name : {&before, &after}) {
    if (name->empty()) {
      json.null();
    } else {
      json.text(*name);
    }
  }
  json.end();
}

void dry_fit_member(Json& json, const Join& join) {
  json.key("dry_fit");
  if (!join.dry_fit) {
    json.null();
  } else {
    json.object();
    change_member(json, "from", join.dry_fit->from_before, join.dry_fit->from_after);
    change_member(json, "to", join.dry_fit->to_before, join.dry_fit->to_after);
    json.member("length", join.dry_fit->length).end();
  }
}

void join_object(Json& json, const Join& join, const CheckShown& shown) {
  json.object().member("trim_old", join.trim_old).member("trim_new", join.trim_new).member("discard", join.discard);
  json.member("allowance", join.allowance).member("shift", join.shift);
  const auto& stitch = shown.fabric.yarn_per_stitch;
  json.member("shift_stitches", stitch ? std::optional(join.shift / *stitch) : std::nullopt);
  json.member("running_shift", join.running_shift).member("colour", join.colour).member("into", join.into);
  mark_member(json, "old_mark", join.old_mark);
  mark_member(json, "new_mark", join.new_mark);
  dry_fit_member(json, join);
  json.key("afterwards");
  if (join.afterwards) {
    json.object().member("colour", join.colour).member("stitches", *join.afterwards).end();
  } else {
    json.null();
  }
  json.member("row", join.lands ? std::optional(join.lands->row) : std::nullopt);
  json.member("stitch", join.lands ? std::optional(join.lands->stitch) : std::nullopt);
  json.member("leave_knot", join.leave_knot).end();
}

void alternative_object(Json& json, const Alternative& other) {
  json.object().member("method", method_row(other.method).name).member("allowance", other.allowance);
  json.member("discard", other.discard).member("shift", other.shift).end();
}

void bridge_member(Json& json, const CheckShown& shown) {
  json.key("bridge");
  if (!shown.project->bridge) {
    json.null();
    return;
  }
  const BridgeShown& bridge = *shown.project->bridge;
  json.object().member("entry", bridge.entry);
  json.member("cut_from", bridge.cut_from ? std::optional(cut_from_name(*bridge.cut_from)) : std::nullopt);
  json.member("ball", bridge.ball.empty() ? std::nullopt : std::optional(bridge.ball));
  json.member("before", bridge.before.empty() ? std::nullopt : std::optional(bridge.before));
  json.member("length", bridge.length)
      .member("from", end_name(bridge.bridge.other_end ? BallEnd::inside : BallEnd::outside));
  json.member("discard", bridge.bridge.discard).member("allowance", bridge.bridge.allowance);
  json.member("saves", bridge.saves).key("joins").array();
  for (const Join* join : {&bridge.bridge.to_offcut, &bridge.bridge.to_ball}) join_object(json, *join, shown);
  json.end().end();
}

void end_member(Json& json, std::string_view key, const CheckShown& shown, const Strand& strand) {
  json.key(key);
  if (shown.yarn != nullptr) {
    place_json(json, {*shown.yarn, strand.reading, strand.placing});
  } else {
    json.null();
  }
}

void why_member(Json& json, const CheckShown& shown) {
  const Reckoning reckoning = shown.yarn != nullptr ? shown.yarn->reckoning : Reckoning::centimetres;
  const Told told = reckoning == Reckoning::stitches ? Told::stitches : Told::centimetres;
  json.key("why").array();
  for (const Remark remark : shown.advice.remarks) {
    json.object().member("remark", remark_name(remark)).member("text", remark_text(remark, shown, told)).end();
  }
  if (shown.project != nullptr && shown.project->too_much_left) {
    const std::string text = too_much_left_text(*shown.project->too_much_left, told);
    json.object().member("remark", "hook-unknown").member("text", text).end();
  }
  json.end();
}

}  // namespace

std::string_view verdict_name(JoinVerdict verdict) {
  switch (verdict) {
    case JoinVerdict::cut:
      return "cut";
    case JoinVerdict::measure_more:
      return "measure-more";
    case JoinVerdict::turn_ball:
      return "turn-ball";
    case JoinVerdict::no_fit:
      break;
  }
  return "no-fit";
}

std::string check_json(const CheckShown& shown) {
  const Advice& advice = shown.advice;
  Json json;
  json.object().member("format", "ballchange check 1");
  end_member(json, "old", shown, shown.old_strand);
  end_member(json, "new", shown, shown.new_strand);
  json.member("verdict", verdict_name(advice.verdict)).member("method", method_row(advice.method).name);
  json.member("allowance", advice.allowance).member("tolerance", advice.tolerance);
  json.member("out_of_step", advice.out_of_step);
  json.key("joins").array();
  for (const Join& join : advice.joins) join_object(json, join, shown);
  json.end().key("alternatives").array();
  for (const Alternative& other : advice.alternatives) alternative_object(json, other);
  json.end();
  if (advice.join_as_they_are) {
    json.key("join_as_they_are");
    alternative_object(json, *advice.join_as_they_are);
  }
  if (advice.cut_knot_out) {
    json.key("cut_knot_out");
    alternative_object(json, *advice.cut_knot_out);
  }
  others_member(json, shown);
  if (shown.project != nullptr) bridge_member(json, shown);
  waste_member(json, shown);
  why_member(json, shown);
  const bool in_stitches = shown.yarn != nullptr && shown.yarn->reckoning == Reckoning::stitches;
  const bool is_placed = shown.yarn != nullptr && advice.verdict == JoinVerdict::cut;
  json.member("sureness", is_placed ? std::optional(advice.sureness) : std::nullopt);
  unit_member(json, in_stitches).end();
  return json.take();
}

}  // namespace ballchange
