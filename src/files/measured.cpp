#include "files/measured.hpp"

#include <fmt/core.h>

#include <algorithm>

#include "base/problem.hpp"
#include "base/text.hpp"
#include "files/profile_sections.hpp"
#include "files/yaml_values.hpp"

namespace ballchange {
namespace {

constexpr std::string_view kMeasuredLike = "'measured: {strands: [\"plum 15, sand 11, rust\"]}'";

std::optional<Repeat> read_before(const Node& measured, Unit bare, Reckoning reckoning) {
  const auto list = measured.find("before");
  if (!list || list->is(Node::Kind::nothing)) return std::nullopt;
  std::vector<std::string> notes;
  SectionReader sections(bare, notes);
  Repeat before = sections.read(*list);
  if (sections.reckoning() != reckoning) {
    throw list->problem("before is not in the unit of the repeat; write both in st or none");
  }
  return before;
}

// What it says is known only once its colours are: a number by itself, or nothing, is no reading of any yarn.
std::string read_strand(const Node& node) {
  std::string text(scalar(node, "a strand"));
  const bool any_name = std::any_of(text.begin(), text.end(), [](char c) {
    const auto byte = static_cast<unsigned char>(c);
    return byte >= 0x80 || (byte >= 'A' && byte <= 'Z') || (byte >= 'a' && byte <= 'z');
  });
  if (any_name) return text;
  throw node.problem(fmt::format("'{}' is no strand; write colours and lengths, like \"plum 15, sand 11, rust\"",
                                 printable(text, 40)));
}

}  // namespace

KeptStrands read_measured(Node yarn, Unit bare, Reckoning reckoning) {
  KeptStrands strands;
  strands.bare = bare;
  const auto measured = yarn.find("measured");
  if (!measured || measured->is(Node::Kind::nothing)) return strands;
  require_mapping(*measured, "measured", kMeasuredLike);
  strands.before = read_before(*measured, bare, reckoning);
  const auto list = measured->find("strands");
  if (!list || list->is(Node::Kind::nothing)) return strands;
  require_sequence(*list, "strands", "a reading in quotes for each strand");
  for (const Node item : list->children()) strands.texts.push_back(read_strand(item));
  return strands;
}

void note_odd_measured(Node yarn, Unit bare, Reckoning reckoning, std::vector<std::string>& notes) {
  try {
    static_cast<void>(read_measured(yarn, bare, reckoning));
  } catch (const Problem& problem) {
    notes.push_back(fmt::format("{} (only measure reads it)", problem.what()));
  }
}

}  // namespace ballchange
