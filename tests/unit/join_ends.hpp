#pragma once
#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "join/advice.hpp"
#include "orchard.hpp"

// Two ends read on a yarn, and what is advised for them.
namespace ballchange {

inline Strand end_read(const Yarn& yarn, End end, std::string_view text, const Ruler& ruler = {},
                       const MatchOptions& options = {}) {
  Palette palette{yarn.repeat.colours(), false};
  const Reading reading = parse_reading(text, end, palette, ruler, end == End::old_end ? "--old" : "--new");
  return {reading, place_reading(yarn, reading, options)};
}

struct Asked {
  Yarn yarn = orchard();
  Fabric fabric = {};
  std::optional<RowStitch> hook = {};
  JoinWish wish = {};
  MatchOptions old_options = {}, new_options = {};

  [[nodiscard]] Advice with(std::string_view old_text, std::string_view new_text) const {
    Ruler ruler;
    ruler.yarn_per_stitch = fabric.yarn_per_stitch;
    if (yarn.reckoning == Reckoning::stitches) {
      ruler.in_stitches = true;
      ruler.bare = Unit::st;
    }
    return advise(yarn, end_read(yarn, End::old_end, old_text, ruler, old_options),
                  end_read(yarn, End::new_end, new_text, ruler, new_options), fabric, hook, wish);
  }
};

// The same with nothing but whole lengths of sections.
struct WholeAsked {
  std::vector<std::string> wholes;
  Fabric fabric = {};
  std::optional<RowStitch> hook = {};
  JoinWish wish = {};

  [[nodiscard]] Advice with(const std::string& old_text, const std::string& new_text) const {
    Ruler ruler;
    ruler.yarn_per_stitch = fabric.yarn_per_stitch;
    Palette palette{{}, true};
    std::vector<WholeSection> sections;
    for (const std::string& text : wholes) {
      const Entry entry = parse_reading(text, End::new_end, palette, ruler, "--whole").entries.front();
      sections.push_back({entry.colour, *entry.length});
    }
    const Reading old_reading = parse_reading(old_text, End::old_end, palette, ruler, "--old");
    const Reading new_reading = parse_reading(new_text, End::new_end, palette, ruler, "--new");
    return advise_whole(palette, sections, old_reading, new_reading, Reckoning::centimetres, fabric, hook, wish);
  }
};

// An end read to the hair at `place`, every section as long as usual, the last entry open; settled there for certain.
inline Strand exact_end(const Yarn& yarn, End end, Length place, std::size_t entries) {
  const Repeat& repeat = yarn.repeat;
  const Spot spot = repeat.spot(place);
  Strand strand;
  strand.reading.end = end;
  std::size_t section = spot.section;
  for (std::size_t i = 0; i < entries; ++i) {
    const Section& here = repeat.sections()[section];
    const Length first = end == End::old_end ? spot.into : spot.left;
    strand.reading.entries.push_back({here.colour, i == 0 ? first : here.length, 0, i + 1});
    strand.placing.why.push_back({i, {section}, {}, false});
    section = (section + (end == End::old_end ? repeat.size() - 1 : 1)) % repeat.size();
  }
  strand.placing.verdict = Verdict::settled;
  strand.placing.place = place;
  const std::size_t boundary = end == End::old_end ? spot.section : (spot.section + 1) % repeat.size();
  strand.placing.candidates.push_back({Direction::forward, boundary, place, 1});
  return strand;
}

inline bool has(const Advice& advice, Remark remark) {
  return std::find(advice.remarks.begin(), advice.remarks.end(), remark) != advice.remarks.end();
}

inline bool close(Length a, double cm, double within = 1e-6) { return std::abs(a.cm() - cm) < within; }

}  // namespace ballchange
