#include "files/learnt.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <system_error>
#include <utility>

#include "base/number.hpp"
#include "base/text.hpp"
#include "files/profile.hpp"
#include "files/profile_sections.hpp"
#include "files/yaml_text.hpp"
#include "files/yaml_values.hpp"

namespace ballchange {
namespace {

constexpr std::string_view kMark = "\xEF\xBB\xBF";
constexpr int kMostKept = 999;
constexpr double kSame = 0.001;  // cm

// One stretch of the text and what comes there instead.
struct Edit {
  std::size_t from = 0, to = 0;
  std::string text;
};

std::string length_text(Length length, bool stitches) {
  return fmt::format("{} {}", plain_number(length.cm(), 4), stitches ? "st" : "cm");
}

std::size_t mark_of(const std::string& text) { return text.starts_with(kMark) ? kMark.size() : 0; }

// A key of the root with its value: whole lines, without the remarks and blank lines that follow.
Edit lines_of(const std::string& text, const Tree& tree, const Node& node) {
  const std::size_t mark = mark_of(text);
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

// Lengths alone, where sections and colours are as they were; nothing where some length stands in no plain text.
bool edit_lengths(const std::string& text, const Node& list, const Repeat& before, const Repeat& repeat, bool stitches,
                  std::vector<Edit>& edits) {
  if (before.size() != repeat.size()) return false;
  std::vector<Edit> found;
  std::size_t k = 0;
  for (const Node item : list.children()) {
    const Section& section = repeat.sections()[k];
    if (before.name_of(k) != repeat.name_of(k)) return false;
    const auto add = [&](std::string_view key, Length length) {
      const auto node = item.find(key);
      if (!node || node->quoted()) return false;
      const std::size_t from = node->offset() + mark_of(text);
      const std::string_view old = node->text();
      if (text.compare(from, old.size(), old) != 0) return false;
      found.push_back({from, from + old.size(), length_text(length, stitches)});
      return true;
    };
    if (!add("length", section.length) || !add("plus_minus", section.plus_minus)) return false;
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

std::string edited(const std::string& text, std::vector<Edit> edits) {
  std::sort(edits.begin(), edits.end(), [](const Edit& a, const Edit& b) { return a.from > b.from; });
  const bool crlf = text.find("\r\n") != std::string::npos;
  std::string out = text;
  for (const Edit& edit : edits) {
    std::string piece;
    for (const char c : edit.text) {
      if (c == '\n' && crlf) piece += '\r';
      piece += c;
    }
    out.replace(edit.from, edit.to - edit.from, piece);
  }
  return out;
}

bool same_repeat(const Repeat& a, const Repeat& b) {
  if (a.size() != b.size()) return false;
  for (std::size_t k = 0; k < a.size(); ++k) {
    const Section& x = a.sections()[k];
    const Section& y = b.sections()[k];
    const bool same = a.name_of(k) == b.name_of(k) && abs(x.length - y.length).cm() <= kSame &&
                      abs(x.plus_minus - y.plus_minus).cm() <= kSame;
    if (!same) return false;
  }
  return true;
}

bool same_before(const std::optional<Repeat>& a, const std::optional<Repeat>& b) {
  return a.has_value() == b.has_value() && (!a || same_repeat(*a, *b));
}

std::optional<Repeat> read_before(const Node& measured, const Tree& tree, Unit bare) {
  const auto list = measured.find("before");
  if (!list || list->is(Node::Kind::nothing)) return std::nullopt;
  std::vector<std::string> notes;
  SectionReader sections(bare, notes);
  Repeat before = sections.read(*list);
  if (sections.reckoning() != read_yarn(tree.root(), Unit::cm).yarn.reckoning) {
    throw list->problem("before is not in the unit of the repeat; write both in st or none");
  }
  return before;
}

}  // namespace

KeptStrands measured_strands(const std::string& profile, const std::string& file) {
  const Tree tree(profile, file);
  KeptStrands strands;
  if (const auto units = tree.root().find("units")) {
    strands.bare = unit_named(trim(scalar(*units, "units"))).value_or(Unit::cm);
  }
  const auto measured = tree.root().find("measured");
  if (!measured || measured->is(Node::Kind::nothing)) return strands;
  require_mapping(*measured, "measured", "'measured: {strands: [\"plum 15, sand 11, rust\"]}'");
  strands.before = read_before(*measured, tree, strands.bare);
  const auto list = measured->find("strands");
  if (!list || list->is(Node::Kind::nothing)) return strands;
  require_sequence(*list, "strands", "a reading in quotes for each strand");
  for (const Node item : list->children()) strands.texts.emplace_back(scalar(item, "a strand"));
  return strands;
}

std::string measured_text(const std::vector<std::string>& strands, const std::optional<Repeat>& before,
                          Reckoning reckoning) {
  std::string text = "measured:\n";
  if (before) text += before_text(*before, reckoning);
  text += "  strands:\n";
  for (const std::string& strand : strands) text += fmt::format("    - {}\n", yaml_text(strand));
  return text;
}

std::string with_learnt(const std::string& profile, const std::string& file, const Repeat& repeat,
                        const std::vector<std::string>& strands, const std::optional<Repeat>& before) {
  const Tree tree(profile, file);
  const Profile old = read_profile(profile, file);
  const Node list = required(tree.root(), "repeat", "the yarn", "repeat: [...]");
  const auto measured = tree.root().find("measured");
  const Reckoning reckoning = old.yarn.reckoning;
  std::vector<Edit> edits;
  if (!edit_lengths(profile, list, old.yarn.repeat, repeat, reckoning == Reckoning::stitches, edits)) {
    Edit whole = lines_of(profile, tree, list);
    whole.text = repeat_text(repeat, reckoning);
    edits.push_back(std::move(whole));
  }
  Edit strand_lines{profile.size(), profile.size(), {}};
  if (measured) strand_lines = lines_of(profile, tree, *measured);
  strand_lines.text = new_measured(measured, measured_text(strands, before, reckoning));
  const bool needs_line_end = !measured && !profile.empty() && profile.back() != '\n';
  if (needs_line_end) strand_lines.text.insert(0, "\n");
  edits.push_back(std::move(strand_lines));
  std::string out = edited(profile, std::move(edits));
  const auto spoilt = [&] {
    return Problem(Fault::content,
                   fmt::format("{}: its repeat can't be replaced without touching the rest; begin each of its keys "
                               "on a line of its own",
                               printable(file)));
  };
  try {
    const Profile after = read_profile(out, file);
    const KeptStrands kept = measured_strands(out, file);
    const bool kept_all = kept.texts == strands && same_before(kept.before, before);
    if (!same_repeat(after.yarn.repeat, repeat) || !kept_all) throw spoilt();
  } catch (const Problem&) {
    throw spoilt();
  }
  return out;
}

Kept replace_and_keep(Disk& disk, const std::string& path, const Patience& patience, const std::string& old,
                      const std::string& now) {
  const Place place = place_of(disk, path);
  const auto held = lock_folder(disk, place.folder, path, patience);
  const FileFacts facts = replaceable(disk, place, Tree::kMostBytes);
  try {
    if (disk.read(place.real, Tree::kMostBytes + 1) != old) {
      throw Problem(Fault::file, fmt::format("{} was saved by another program in the meantime and was left as it is; "
                                             "try again",
                                             printable(path)));
    }
  } catch (const std::system_error& e) {
    throw Problem(Fault::file, fmt::format("cannot open {}: {}", printable(path), e.code().message()));
  }
  for (int n = 1; n <= kMostKept; ++n) {
    const std::string suffix = fmt::format("~{}", n);
    try {
      disk.create(place.real + suffix, old, facts);
    } catch (const std::system_error& e) {
      if (e.code() == std::errc::file_exists) continue;
      throw Problem(Fault::file, fmt::format("cannot keep what {} holds as {}: {}", printable(path),
                                             printable(path + suffix), e.code().message()));
    }
    return {path + suffix, replace_file(disk, place, facts, old, now)};
  }
  throw Problem(Fault::file,
                fmt::format("{} has {} older versions beside it; move some away", printable(path), kMostKept));
}

}  // namespace ballchange
