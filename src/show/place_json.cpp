#include "base/text.hpp"
#include "show/place.hpp"

namespace ballchange {
namespace {

std::string_view direction_name(Direction direction) {
  return direction == Direction::backward ? "backward" : "forward";
}

void spot_members(Json& json, const Repeat& repeat, const std::optional<Length>& place, bool with_left) {
  if (!place) {
    json.key("place").null().key("colour").null().key("into").null();
    if (with_left) json.key("left").null();
    return;
  }
  const Spot spot = repeat.spot(*place);
  json.member("place", *place).member("colour", repeat.name_of(spot.section)).member("into", spot.into);
  if (with_left) json.member("left", spot.left);
}

void section_list(Json& json, std::string_view key, const std::vector<std::size_t>& sections) {
  json.key(key).array();
  for (const std::size_t k : sections) json.integer(static_cast<long long>(k));
  json.end();
}

void candidates_member(Json& json, const PlaceShown& shown) {
  json.key("candidates").array();
  for (const Candidate& candidate : shown.placing.candidates) {
    json.object();
    spot_members(json, shown.yarn.repeat, candidate.place, false);
    json.member("probability", candidate.probability).member("direction", direction_name(candidate.direction));
    json.end();
  }
  json.end();
}

void why_member(Json& json, const PlaceShown& shown) {
  json.key("why").array();
  for (const Explained& why : shown.placing.why) {
    json.object().member("entry", shown.reading.entries[why.entry].written_as);
    section_list(json, "sections", why.sections);
    section_list(json, "overlooked", why.overlooked);
    json.member("misnamed", why.misnamed).end();
  }
  json.end();
}

}  // namespace

void place_json(Json& json, const PlaceShown& shown) {
  const Placing& placing = shown.placing;
  const bool fits = placing.verdict != Verdict::no_fit;
  json.object().member("format", "ballchange place 1");
  json.member("end", shown.reading.end == End::old_end ? "old" : "new");
  spot_members(json, shown.yarn.repeat, fits ? std::optional(placing.place) : std::nullopt, true);
  json.member("probability", placing.probability());
  json.member("low", fits ? std::optional(placing.low) : std::nullopt);
  json.member("high", fits ? std::optional(placing.high) : std::nullopt);
  if (fits) {
    json.member("direction", direction_name(placing.best().direction));
  } else {
    json.key("direction").null();
  }
  json.member("settled", placing.verdict == Verdict::settled).member("measure_more", placing.measure_more);
  json.key("ask");
  if (placing.ask) {
    json.text(question_text(*placing.ask, shown));
  } else {
    json.null();
  }
  candidates_member(json, shown);
  why_member(json, shown);
  unit_member(json, shown.yarn.reckoning == Reckoning::stitches).end();
}

}  // namespace ballchange
