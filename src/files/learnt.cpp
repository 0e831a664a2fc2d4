#include "files/learnt.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <iterator>
#include <utility>

#include "base/number.hpp"
#include "base/text.hpp"
#include "files/profile.hpp"
#include "files/profile_sections.hpp"
#include "files/text_edits.hpp"
#include "files/yaml_text.hpp"
#include "files/yaml_values.hpp"

namespace ballchange {
namespace {

constexpr double kSame = 0.001;  // cm

std::string length_text(Length length, bool stitches) {
  return fmt::format("{} {}", plain_number(length.cm(), 4), stitches ? "st" : "cm");
}

// A key of the root with its value: whole lines, without the remarks and blank lines that follow.
Edit lines_of(const std::string& text, const Tree& tree, const Node& node) {
  const std::size_t mark = mark_bytes(text);
  const std::size_t from = node.key_offset() + mark;
  std::size_t to = text.size();
  for (const Node other : tree.root().children()) {
    const std::size_t begin = other.key_offset() + mark;
    if (begin > from) to = std::min(to, begin);
  }
  for (;;) {
    const std::size_t before = to == 0 ? std::string::npos : text.rfind('\n', to - 1 - (text[to - 1] == '\n' ? 1 : 0));
    if (before == std::string::npos || before <= from) break;
    const std::string_view line = trim(std::string_view(text).substr(before + 1, to - before - 1));
    if (!line.empty() && line.front() != '#') break;
    to = before + 1;
  }
  return {from, to, {}};
}

Edit plus_minus_behind(const std::string& text, const Node& item, const Node& length, const Edit& where,
                       std::string told) {
  told.insert(0, "plus_minus: ");
  if (text[item.offset() + mark_bytes(text)] == '{') return {where.to, where.to, ", " + told};
  return line_behind(text, where.to, length.key_offset() + mark_bytes(text), std::move(told));
}

bool same(Length a, Length b) { return abs(a - b).cm() <= kSame; }

// Both lengths of one section, as far as they have to change.
bool edit_section(const std::string& text, const Node& item, const Section& before, const Section& now, bool stitches,
                  std::vector<Edit>& edits) {
  const auto length = item.find("length");
  auto where = length ? place_in(text, *length) : std::nullopt;
  if (!where) return false;
  const bool same_length = same(before.length, now.length);
  const auto plus_minus = item.find("plus_minus");
  if (!plus_minus) {
    if (!same_length || !same(before.plus_minus, now.plus_minus)) {
      edits.push_back(plus_minus_behind(text, item, *length, *where, length_text(now.plus_minus, stitches)));
    }
  } else if (!same(before.plus_minus, now.plus_minus)) {
    auto its = place_in(text, *plus_minus);
    if (!its) return false;
    its->text = length_text(now.plus_minus, stitches);
    edits.push_back(std::move(*its));
  }
  if (same_length) return true;
  where->text = length_text(now.length, stitches);
  edits.push_back(std::move(*where));
  return true;
}

// Lengths alone, where sections and colours are as they were; nothing where some length stands in no plain text.
bool edit_lengths(const std::string& text, const Node& list, const Repeat& before, const Repeat& repeat, bool stitches,
                  std::vector<Edit>& edits) {
  if (before.size() != repeat.size()) return false;
  std::vector<Edit> found;
  std::size_t k = 0;
  for (const Node item : list.children()) {
    if (before.name_of(k) != repeat.name_of(k)) return false;
    if (!edit_section(text, item, before.sections()[k], repeat.sections()[k], stitches, found)) return false;
    ++k;
  }
  edits.insert(edits.end(), found.begin(), found.end());
  return true;
}

// The part of write_profile that begins with `repeat`.
std::string repeat_text(const Repeat& repeat, Reckoning reckoning) {
  const std::string whole = write_profile(
      Yarn{.name = "x", .fibre = {}, .ball_mass = {}, .ball_length = {}, .reckoning = reckoning, .repeat = repeat});
  return whole.substr(whole.find("repeat:"));
}

// Two columns farther in; without shades, which the profile's own repeat holds.
std::string before_text(const Repeat& before, Reckoning reckoning) {
  std::vector<Colour> colours = before.colours();
  for (Colour& colour : colours) colour.shade.reset();
  std::string text = "  before:\n";
  const std::string lines = repeat_text(Repeat(std::move(colours), before.sections()), reckoning);
  for (std::size_t at = lines.find('\n') + 1; at < lines.size();) {
    const std::size_t stop = lines.find('\n', at);
    text += fmt::format("  {}\n", std::string_view(lines).substr(at, stop - at));
    at = stop + 1;
  }
  return text;
}

bool same_repeat(const Repeat& a, const Repeat& b) {
  if (a.size() != b.size()) return false;
  for (std::size_t k = 0; k < a.size(); ++k) {
    const Section& x = a.sections()[k];
    const Section& y = b.sections()[k];
    if (a.name_of(k) != b.name_of(k) || !same(x.length, y.length) || !same(x.plus_minus, y.plus_minus)) return false;
  }
  return true;
}

bool same_before(const std::optional<Repeat>& a, const std::optional<Repeat>& b) {
  return a.has_value() == b.has_value() && (!a || same_repeat(*a, *b));
}

bool has_unknown_keys(const Node& list) {
  constexpr std::array<std::string_view, 5> known{"colour", "color", "shade", "length", "plus_minus"};
  for (const Node item : list.children()) {
    for (const Node child : item.children()) {
      if (std::find(known.begin(), known.end(), child.key()) == known.end()) return true;
    }
  }
  return false;
}

// Lines for those strands alone that are new, below the others; nothing where that isn't all that changes, or where
// they don't stand each on a line of its own.
std::optional<std::vector<Edit>> more_strands(const std::string& text, const std::string& file, const Tree& tree,
                                              const std::vector<std::string>& strands,
                                              const std::optional<Repeat>& before) {
  const auto measured = tree.root().find("measured");
  const auto list = measured && measured->is(Node::Kind::mapping) ? measured->find("strands") : std::nullopt;
  if (!list || !list->is(Node::Kind::sequence)) return std::nullopt;
  const KeptStrands kept = measured_strands(text, file);
  const std::size_t count = kept.texts.size();
  if (count == 0 || count > strands.size() || !same_before(kept.before, before)) return std::nullopt;
  if (!std::equal(kept.texts.begin(), kept.texts.end(), strands.begin())) return std::nullopt;
  std::optional<Edit> last;
  for (const Node item : list->children()) last = place_in(text, item);
  if (!last) return std::nullopt;
  const std::size_t start = line_start(text, last->from);
  const std::size_t dash = text.find_first_not_of(' ', start);
  if (text[dash] != '-' || text.find_first_not_of(' ', dash + 1) != last->from) return std::nullopt;
  std::vector<Edit> edits;
  for (std::size_t n = count; n < strands.size(); ++n) {
    edits.push_back(line_behind(text, last->to, dash, "- " + yaml_text(strands[n])));
  }
  return edits;
}

// What it was learnt from, and whatever else stood under `measured`.
std::string new_measured(const std::optional<Node>& old, std::string text) {
  if (!old || !old->is(Node::Kind::mapping)) return text;
  for (const Node child : old->children()) {
    if (child.key() == "strands" || child.key() == "before") continue;
    if (!child.is(Node::Kind::scalar)) {
      throw child.key_problem(fmt::format("'{}' is more than a line, and would be lost; move it out of `measured`",
                                          printable(child.key(), 40)));
    }
    text += fmt::format("  {}: {}\n", yaml_text(child.key()), yaml_text(child.text()));
  }
  return text;
}

}  // namespace

KeptStrands measured_strands(const std::string& profile, const std::string& file) {
  const Tree tree(profile, file);
  const auto units = tree.root().find("units");
  const Unit bare = units ? unit_named(trim(scalar(*units, "units"))).value_or(Unit::cm) : Unit::cm;
  return read_measured(tree.root(), bare, read_yarn(tree.root(), bare).yarn.reckoning);
}

std::string measured_text(const std::vector<std::string>& strands, const std::optional<Repeat>& before,
                          Reckoning reckoning) {
  std::string text = "measured:\n";
  if (before) text += before_text(*before, reckoning);
  text += "  strands:\n";
  for (const std::string& strand : strands) text += fmt::format("    - {}\n", yaml_text(strand));
  return text;
}

namespace {

// Whether the profile, edited, reads as it was meant to.
bool holds_learnt(const std::string& profile, const std::string& file, const Repeat& repeat,
                  const std::vector<std::string>& strands, const std::optional<Repeat>& before) {
  try {
    const KeptStrands kept = measured_strands(profile, file);
    return kept.texts == strands && same_before(kept.before, before) &&
           same_repeat(read_profile(profile, file).yarn.repeat, repeat);
  } catch (const Problem&) {
    return false;
  }
}

}  // namespace

Relearnt with_learnt(const std::string& profile, const std::string& file, const Repeat& repeat,
                     const std::vector<std::string>& strands, const std::optional<Repeat>& before) {
  const Tree tree(profile, file);
  const Profile old = read_profile(profile, file);
  const Node list = required(tree.root(), "repeat", "the yarn", "repeat: [...]");
  const auto measured = tree.root().find("measured");
  const Reckoning reckoning = old.yarn.reckoning;
  Relearnt relearnt;
  std::vector<Edit> edits;
  if (!edit_lengths(profile, list, old.yarn.repeat, repeat, reckoning == Reckoning::stitches, edits)) {
    Edit whole = lines_of(profile, tree, list);
    relearnt.left_out = has_remark(profile, whole) || has_unknown_keys(list);
    whole.text = repeat_text(repeat, reckoning);
    edits.push_back(std::move(whole));
  }
  if (auto more = more_strands(profile, file, tree, strands, before)) {
    std::move(more->begin(), more->end(), std::back_inserter(edits));
  } else {
    Edit strand_lines{profile.size(), profile.size(), {}};
    if (measured) strand_lines = lines_of(profile, tree, *measured);
    relearnt.left_out = relearnt.left_out || has_remark(profile, strand_lines);
    strand_lines.text = new_measured(measured, measured_text(strands, before, reckoning));
    const bool needs_line_end = !measured && !profile.empty() && profile.back() != '\n';
    if (needs_line_end) strand_lines.text.insert(0, "\n");
    edits.push_back(std::move(strand_lines));
  }
  std::string& out = relearnt.text;
  out = edited(profile, std::move(edits));
  if (!holds_learnt(out, file, repeat, strands, before)) {
    throw Problem(Fault::content,
                  fmt::format("{}: its repeat can't be replaced without touching the rest; begin each of its keys "
                              "on a line of its own",
                              printable(file)));
  }
  return relearnt;
}

}  // namespace ballchange
