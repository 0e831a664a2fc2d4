#include "picture/repeat.hpp"

#include <algorithm>

#include "picture/inward.hpp"

namespace ballchange {
namespace {

constexpr Length kHair = Length::cm(1e-7);

RepeatSpan span_of(const Repeat& repeat, std::size_t first, std::size_t sections) {
  RepeatSpan span{repeat.start(first), repeat.start(first)};
  for (std::size_t i = 0; i < sections; ++i) span.to += repeat.sections()[(first + i) % repeat.size()].length;
  return span;
}

// Two pairs of one stretch make three stretches alike.
std::vector<AlikeStretches> gathered(const Repeat& repeat, const std::vector<AlikePair>& pairs) {
  std::vector<AlikeStretches> all;
  for (const AlikePair& pair : pairs) {
    const auto holds = [&](const AlikeStretches& one, std::size_t first) {
      return one.sections == pair.sections && std::find(one.first.begin(), one.first.end(), first) != one.first.end();
    };
    auto group = std::find_if(all.begin(), all.end(), [&](const AlikeStretches& one) {
      return holds(one, pair.first) || holds(one, pair.second);
    });
    if (group == all.end()) group = all.insert(all.end(), AlikeStretches{{}, pair.sections, {}});
    for (const std::size_t first : {pair.first, pair.second}) {
      if (holds(*group, first)) continue;
      group->first.push_back(first);
      group->spans.push_back(span_of(repeat, first, pair.sections));
    }
  }
  return all;
}

RepeatSpan within(const Repeat& repeat, const Placing& placing, Length place) {
  const Length half = (placing.high - placing.low) / 2;
  const Spot spot = repeat.spot(place);
  RepeatSpan span{place - half, place + half};
  if (knows_section_only(placing)) span = {place - spot.into, place + spot.left};
  if (span.to - span.from >= repeat.total()) return {Length(), repeat.total()};
  if (span.from < Length()) return {span.from + repeat.total(), span.to + repeat.total()};
  return span;
}

}  // namespace

RepeatScene repeat_scene(const Repeat& repeat, const std::vector<AlikePair>& pairs, const Placing* placing) {
  RepeatScene scene;
  scene.colours = repeat.colours();
  scene.total = repeat.total();
  for (std::size_t k = 0; k < repeat.size(); ++k) {
    const Section& section = repeat.sections()[k];
    scene.parts.push_back({k, section.colour, repeat.start(k), section.length});
  }
  scene.alike = gathered(repeat, pairs);
  if (placing == nullptr) return scene;
  for (const Candidate& one : placing->candidates) {
    scene.pointers.push_back(
        {one.place, within(repeat, *placing, one.place), knows_section_only(*placing), one.probability, one.direction});
  }
  return scene;
}

std::vector<RepeatSpan> parts_within(const RepeatSpan& span, Length total, Length low, Length high) {
  std::vector<RepeatSpan> parts;
  for (const Length back : {Length(), total}) {
    const RepeatSpan part{std::max(span.from - back, low), std::min(span.to - back, high)};
    if (part.to - part.from > kHair) parts.push_back(part);
  }
  return parts;
}

}  // namespace ballchange
