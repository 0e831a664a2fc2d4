#include <string_view>

#include "base/normal.hpp"
#include "show/creep.hpp"

namespace ballchange {
namespace {

using creeping::Creep;
using creeping::Use;

std::string_view use_name(Use use) {
  switch (use) {
    case Use::counted:
      return "counted";
    case Use::first:
      return "first";
    case Use::several:
      return "several";
    case Use::unfitting:
      return "unfitting";
    case Use::again:
      return "again";
    case Use::no_place:
      break;
  }
  return "no-place";
}

void creep_object(Json& json, const CreepShown& shown, const Creep& creep) {
  json.object().member("known", creep.known).member("plain", creep.plain());
  json.member("yarn_per_stitch", creep.per_stitch);
  json.member("yarn_per_stitch_give_or_take", kNineInTen * creep.per_stitch_sd);
  json.member("per_repeat", creep.per_repeat).member("per_repeat_stitches", creep.fewer_stitches);
  json.member("per_repeat_give_or_take", kNineInTen * creep.per_repeat_sd);
  json.member("per_row", creep.per_row).member("shows_from", shown.shows_from);
  json.member("size", shown.size ? std::optional(shown.size->to_mm) : std::nullopt);
  json.key("seen").array();
  for (const creeping::Watched& watched : creep.sightings) {
    const Sighting& sighting = shown.state.sightings[watched.sighting];
    json.object().member("entry", sighting.entry).member("text", sighting.seen.text);
    json.member("use", use_name(watched.use)).end();
  }
  json.end().key("balls").array();
  for (const creeping::BallRepeat& ball : creep.balls) {
    json.object().member("ball", ball.ball).member("longer", ball.longer.mean);
    json.member("give_or_take", kNineInTen * ball.longer.sd).member("plain", plain(ball.longer)).end();
  }
  json.end().end();
}

}  // namespace

void creep_members(Json& json, const CreepShown& shown) {
  json.key("creep");
  if (shown.creep) {
    creep_object(json, shown, *shown.creep);
  } else {
    json.null();
  }
  json.key("counted").array();
  for (const JoinState& join : shown.state.joins) {
    if (join.held != JoinHeld::in_work || !join.seen) continue;
    json.object().member("join", join.entry).member("entry", join.seen->entry);
    json.member("colour", shown.state.yarn.repeat.colours()[join.seen->colour].name);
    json.member("stitches", join.seen->stitches).member("shift", join.shift);
    json.member("recorded_shift", join.recorded_shift).end();
  }
  json.end();
}

}  // namespace ballchange
