#include "base/text.hpp"
#include "show/json.hpp"
#include "show/measure.hpp"

namespace ballchange {
namespace {

const char* verdict_word(LearnVerdict verdict) {
  switch (verdict) {
    case LearnVerdict::found:
      return "found";
    case LearnVerdict::unsure:
      return "unsure";
    case LearnVerdict::too_little:
      return "too-little";
    case LearnVerdict::unmeasured:
      return "unmeasured";
    case LearnVerdict::other_total:
      return "other-total";
    case LearnVerdict::not_mirrored:
      return "not-mirrored";
    case LearnVerdict::turned:
      return "turned";
    case LearnVerdict::exchanged:
      return "exchanged";
    case LearnVerdict::misnamed:
      return "misnamed";
    case LearnVerdict::unknown_colour:
      return "unknown-colour";
    case LearnVerdict::new_colour:
      return "new-colour";
    case LearnVerdict::hank_too_short:
      return "hank-too-short";
    case LearnVerdict::no_fit:
      break;
  }
  return "no-fit";
}

const char* exchanged_word(Exchanged exchanged) {
  switch (exchanged) {
    case Exchanged::names:
      return "names";
    case Exchanged::lengths:
      return "lengths";
    case Exchanged::both:
      break;
  }
  return "both";
}

void sections_json(Json& json, const LearntRepeat& learnt) {
  json.key("repeat").array();
  for (std::size_t k = 0; k < learnt.repeat.size(); ++k) {
    const Section& section = learnt.repeat.sections()[k];
    json.object()
        .member("colour", learnt.repeat.name_of(k))
        .member("length", section.length)
        .member("plus_minus", section.plus_minus)
        .member("times", learnt.times[k])
        .end();
  }
  json.end();
}

void repeat_json(Json& json, const LearntRepeat& learnt) {
  json.object().member("probability", learnt.chance).member("total", learnt.repeat.total());
  sections_json(json, learnt);
  json.end();
}

void doubts_json(Json& json, const MeasureShown& shown) {
  json.key("other_way").array();
  for (const std::size_t strand : shown.learnt.other_way) json.integer(static_cast<long long>(strand) + 1);
  json.end();
  json.key("taken_for").array();
  for (const TakenAs& one : shown.learnt.taken) {
    json.object();
    json.key("strand").integer(static_cast<long long>(one.strand) + 1);
    json.key("entry").integer(static_cast<long long>(one.entry) + 1);
    json.member("written", shown.palette[one.written].name);
    const bool taken = one.taken != one.written;
    json.member("taken", taken ? std::optional<std::string_view>(shown.palette[one.taken].name) : std::nullopt).end();
  }
  json.end();
  json.key("exchanged");
  if (shown.learnt.verdict == LearnVerdict::exchanged) {
    json.text(exchanged_word(shown.learnt.exchanged));
  } else {
    json.null();
  }
  json.key("readings").array();
  for (std::size_t n = 0; n < shown.strands; ++n) {
    const bool named = n < shown.names.size() && !shown.names[n].empty();
    if (named) {
      json.text(shown.names[n]);
    } else {
      json.null();
    }
  }
  json.end();
}

void alike_json(Json& json, const Repeat& repeat) {
  json.key("look_alikes").array();
  for (const LookAlike& one : look_alikes(repeat)) {
    json.object().member("first", one.first).member("second", one.second).member("sections", one.sections).end();
  }
  json.end();
}

}  // namespace

std::string measure_json(const MeasureShown& shown) {
  const Learnt& learnt = shown.learnt;
  Json json;
  json.object().member("format", "ballchange measure 1").member("verdict", verdict_word(learnt.verdict));
  unit_member(json, shown.in_stitches).member("strands", shown.strands).member("measure_more", learnt.measure_more);
  json.key("unmeasured");
  if (learnt.unmeasured) {
    json.text(shown.palette[*learnt.unmeasured].name);
  } else {
    json.null();
  }
  json.key("strand_in_the_way");
  if (learnt.verdict == LearnVerdict::no_fit) {
    json.integer(static_cast<long long>(learnt.strand) + 1);
  } else {
    json.null();
  }
  if (learnt.by_itself) json.member("by_itself", learnt.by_itself);
  json.member("misread", learnt.misread)
      .member("turned_about", shown.turned_about)
      .member("told_twice", shown.twice.size());
  doubts_json(json, shown);
  json.key("candidates").array();
  for (const LearntRepeat& one : learnt.repeats) repeat_json(json, one);
  json.end();
  if (shown.yarn) {
    const Repeat& repeat = shown.yarn->repeat;
    json.member("directional", !mirror_axis(repeat).has_value());
    json.member("hidden_repeats", hidden_repeats(repeat));
    alike_json(json, repeat);
  }
  if (shown.needed) {
    json.key("reading_needed").object();
    json.member("nine_in_ten", shown.needed->nine_in_ten).member("at_worst", shown.needed->at_worst).end();
  }
  json.member("written", shown.dry ? std::nullopt : shown.written).member("kept", shown.kept).end();
  return json.take();
}

}  // namespace ballchange
