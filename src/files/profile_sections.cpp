#include "files/profile_sections.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <utility>

#include "base/text.hpp"
#include "files/yaml_values.hpp"
#include "reading/name.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kFewestSections = 2;
constexpr std::size_t kMostSections = 200;
constexpr Length kShortest = 0.5_cm;
constexpr Length kLongest = 10'000_cm;
constexpr double kMostPlusMinusShare = 1.0 / 3;
// A third that was written down with a few decimals is still a third.
constexpr Length kThirdRounding = 0.001_cm;
constexpr std::string_view kSectionLike = "'- {colour: plum, length: 92 cm}'";

}  // namespace

Reckoning SectionReader::reckoning() const {
  return in_stitches_.value_or(false) ? Reckoning::stitches : Reckoning::centimetres;
}

Length SectionReader::length(Node node, std::string_view what) {
  const Written written = parsed(node, what, [&](std::string_view text) { return parse_written(text, bare_, what); });
  const bool stitches = written.unit == Unit::st;
  if (!in_stitches_) in_stitches_ = stitches;
  if (stitches != *in_stitches_) {
    throw node.problem(fmt::format("{} is in {}, but the lengths before it are {}in stitches; write all in st or none",
                                   what, unit_name(written.unit), stitches ? "not " : ""));
  }
  return to_length(written, {bare_, std::nullopt, stitches}, what);
}

Repeat SectionReader::read(Node list) {
  require_sequence(list, "repeat", fmt::format("a line like {} for each section", kSectionLike));
  const std::size_t count = list.size();
  if (count < kFewestSections || count > kMostSections) {
    throw list.problem(fmt::format("repeat has {} section{}; write {} to {}", count, count == 1 ? "" : "s",
                                   kFewestSections, kMostSections));
  }
  std::vector<Section> sections;
  sections.reserve(count);
  for (const Node item : list.children()) sections.push_back(read_section(item));
  refuse_equal_neighbours(list, sections);
  return {std::move(colours_), std::move(sections)};
}

Section SectionReader::read_section(Node item) {
  static const std::array<std::string, 5> known{"colour", "color", "shade", "length", "plus_minus"};
  require_mapping(item, "a section", kSectionLike);
  const auto colour = find_either(item, "colour", "color");
  if (!colour) throw item.problem("a section has no colour; add one, like 'colour: plum'");
  Section section;
  section.colour = read_colour(*colour);
  if (const auto shade = item.find("shade")) read_shade(*shade, section.colour);
  const Node length_node = required(item, "length", "a section", "length: 92 cm");
  section.length = length(length_node, "length");
  if (section.length < kShortest || section.length > kLongest) {
    throw length_node.problem(fmt::format("length '{}' is out of range; write {}", printable(length_node.text(), 40),
                                          in_stitches() ? "0.5 st to 10000 st" : "0.5 cm to 100 m"));
  }
  const auto plus_minus = item.find("plus_minus");
  section.plus_minus = plus_minus ? read_plus_minus(*plus_minus, section.length) : usual_plus_minus(section.length);
  note_unknown_keys(item, known, notes_);
  return section;
}

ColourId SectionReader::read_colour(Node node) {
  const std::string_view written = trim(scalar(node, "colour"));
  if (const auto fault = name_fault(written)) throw node.problem(fmt::format("colour: {}", fault->why));
  const std::string name = single_spaced(written);
  const std::string folded = fold_case(name);
  const auto same = std::find(folded_.begin(), folded_.end(), folded);
  if (same == folded_.end()) {
    colours_.push_back({name, std::nullopt});
    folded_.push_back(folded);
    return colours_.size() - 1;
  }
  const auto id = static_cast<ColourId>(same - folded_.begin());
  if (colours_[id].name != name) {
    throw node.problem(
        fmt::format("colours '{}' and '{}' differ only in capitals or in how an accent is typed; write both the same, "
                    "or rename one",
                    printable(colours_[id].name, 40), printable(name, 40)));
  }
  return id;
}

void SectionReader::read_shade(Node node, ColourId colour) {
  if (node.is(Node::Kind::nothing)) {
    throw node.problem("shade has no value; a # begins a remark, so put the shade in quotes, like \"#5b2a59\"");
  }
  const std::string_view text = trim(scalar(node, "shade"));
  const auto shade = parse_shade(text);
  if (!shade) {
    throw node.problem(fmt::format("shade '{}' is not known; write it like \"#5b2a59\", or as a CSS colour name",
                                   printable(text, 40)));
  }
  std::optional<Shade>& known = colours_[colour].shade;
  if (known && *known != *shade) {
    throw node.problem(
        fmt::format("'{}' has another shade further up; keep one of them", printable(colours_[colour].name, 40)));
  }
  known = shade;
}

Length SectionReader::read_plus_minus(Node node, Length length_of_section) {
  const Length plus_minus = length(node, "plus_minus");
  if (plus_minus > length_of_section * kMostPlusMinusShare + kThirdRounding) {
    throw node.problem(fmt::format("plus_minus '{}' is more than a third of the length; measure more strands",
                                   printable(node.text(), 40)));
  }
  return plus_minus;
}

void SectionReader::refuse_equal_neighbours(Node list, const std::vector<Section>& sections) const {
  ColourId before = sections.back().colour;
  std::size_t k = 0;
  for (const Node item : list.children()) {
    const ColourId colour = sections[k].colour;
    const std::string name = printable(colours_[colour].name, 40);
    if (k > 0 && colour == before) {
      throw item.problem(fmt::format("{} follows {}; write the two as one section, their lengths added", name, name));
    }
    if (k + 1 == sections.size() && colour == sections.front().colour) {
      throw item.problem(fmt::format(
          "the last section and the first are both {}, and the repeat is a circle; write the two as one section",
          name));
    }
    before = colour;
    ++k;
  }
}

}  // namespace ballchange
