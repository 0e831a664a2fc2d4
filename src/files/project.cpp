#include "files/project.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <iterator>
#include <utility>

#include "base/limits.hpp"
#include "base/text.hpp"
#include "files/entry.hpp"
#include "files/format_line.hpp"
#include "files/profile.hpp"
#include "files/project_values.hpp"

namespace ballchange {
namespace {

constexpr int kNewestFormat = 1;
constexpr std::string_view kYarnLike = "yarn: {name: Orchard, repeat: [{colour: plum, length: 92 cm}, ...]}";

Amount read_per_stitch(Node node, Unit bare) {
  const Amount amount = read_amount(node, "yarn_per_stitch", bare);
  if (amount.unit == Unit::st) {
    throw node.problem("yarn_per_stitch is in stitches; write the yarn in one, like 1.85 cm");
  }
  const Length length = to_length({amount.number, amount.unit}, {}, "yarn_per_stitch");
  if (!can_be_stitch(length)) {
    throw node.problem(fmt::format("yarn_per_stitch '{}' is out of reach; a stitch takes {}",
                                   printable(node.text(), 40), kStitchTakes));
  }
  return amount;
}

Multiple read_multiple(Node node) {
  if (const auto multiple = multiple_of(scalar(node, "multiple"))) return *multiple;
  throw node.problem(fmt::format("multiple: '{}' is not a multiple and what is added to it; write it like 4+1, or 4",
                                 printable(node.text(), 40)));
}

Piece read_piece(Node node, Unit bare, bool& from_the_start, std::vector<std::string>& notes) {
  static const std::array<std::string, 9> known{"worked",        "stitches",   "multiple", "rows", "yarn_per_stitch",
                                                "yarn_per_turn", "foundation", "edging",   "keep"};
  require_mapping(node, "piece", "it like 'piece: {stitches: 60, rows: 180}'");
  Piece piece;
  if (const auto worked = node.find("worked")) {
    piece.working = read_choice<Working>(
        *worked, "worked",
        {{"rows", Working::rows}, {"rounds", Working::rounds}, {"turned-rounds", Working::turned_rounds}});
  }
  if (const auto stitches = node.find("stitches")) piece.stitches = read_count(*stitches, "stitches", 1);
  if (const auto multiple = node.find("multiple")) piece.multiple = read_multiple(*multiple);
  if (const auto rows = node.find("rows")) piece.rows = read_count(*rows, "rows", 1);
  if (const auto stitch = node.find("yarn_per_stitch")) piece.yarn_per_stitch = read_per_stitch(*stitch, bare);
  if (const auto turn = node.find("yarn_per_turn")) piece.yarn_per_turn = read_amount(*turn, "yarn_per_turn", bare);
  if (const auto foundation = node.find("foundation")) piece.foundation = read_amount(*foundation, "foundation", bare);
  if (const auto edging = node.find("edging")) piece.edging = read_amount(*edging, "edging", bare);
  if (const auto keep = node.find("keep")) {
    from_the_start = read_choice<bool>(*keep, "keep", {{"each-join", false}, {"from-the-start", true}});
  }
  note_unknown_keys(node, known, notes);
  return piece;
}

void read_join(Node node, Unit bare, JoinHabit& join, std::vector<std::string>& notes) {
  static const std::array<std::string, 3> known{"method", "allowance", "tolerance"};
  require_mapping(node, "join", "it like 'join: {method: felted, allowance: 8 cm}'");
  if (const auto method = node.find("method")) join.method = read_method(*method, "method");
  if (const auto allowance = node.find("allowance")) join.allowance = read_amount(*allowance, "allowance", bare);
  if (const auto tolerance = node.find("tolerance")) join.tolerance = read_amount(*tolerance, "tolerance", bare);
  note_unknown_keys(node, known, notes);
}

Unit read_project_units(Node root) {
  const auto units = root.find("units");
  if (!units) return Unit::cm;
  return read_choice<Unit>(*units, "units", {{"cm", Unit::cm}, {"in", Unit::in}, {"st", Unit::st}});
}

// A new entry goes to the file's end, so nothing may stand behind the log.
Node log_of(Node root) {
  std::optional<Node> log;
  for (const Node child : root.children()) {
    if (log) {
      throw child.key_problem(
          fmt::format("'{}' stands after the log; move it above, the log comes last", printable(child.key(), 60)));
    }
    if (child.key() == "log") log = child;
  }
  if (!log) return required(root, "log", "the file", "log: []");
  if (!log->is(Node::Kind::nothing)) require_sequence(*log, "log", "'log: []', or an entry a line");
  return *log;
}

}  // namespace

ProjectRead read_project(const Tree& tree) {
  static const std::array<std::string, 7> known{"format", "name", "units", "yarn", "piece", "join", "log"};
  const Node root = tree.root();
  check_format(root, "project", kNewestFormat);
  const Node log = log_of(root);
  const Unit units = read_project_units(root);
  Profile profile = read_yarn(required(root, "yarn", "the file", kYarnLike), units);
  ProjectRead read{
      {.name = {}, .units = units, .yarn = std::move(profile.yarn), .piece = {}, .join = {}, .entries = {}},
      std::move(profile.notes)};
  Project& project = read.project;
  if (const auto name = root.find("name")) project.name = one_line(*name, "the project's name", kMostNameBytes);
  if (const auto piece = root.find("piece")) {
    project.piece = read_piece(*piece, units, project.join.keep_from_the_start, read.notes);
  }
  if (const auto join = root.find("join")) read_join(*join, units, project.join, read.notes);
  note_unknown_keys(root, known, read.notes);
  UnknownKeys unknown;
  for (const Node entry : log.children()) {
    const int n = static_cast<int>(project.entries.size()) + 1;
    project.entries.push_back(read_entry(entry, n, units, unknown));
  }
  read.notes.insert(read.notes.end(), std::make_move_iterator(unknown.notes.begin()),
                    std::make_move_iterator(unknown.notes.end()));
  return read;
}

ProjectRead read_project(std::string text, const std::string& file) {
  return read_project(Tree(std::move(text), file));
}

std::vector<std::string> trouble_notes(const Tree& tree, const std::vector<Trouble>& troubles) {
  constexpr std::size_t most = 10;
  std::vector<std::string> notes;
  const auto log = tree.root().find("log");
  int n = 0;
  std::size_t next = 0;
  const auto tell = [&](const std::string& where) {
    const Trouble& trouble = troubles[next++];
    const std::string_view does = trouble.skipped ? ", which does nothing" : "";
    notes.push_back(trouble.entry == 0 ? fmt::format("{}: {}", where, trouble.message)
                                       : fmt::format("{}: entry {}{}: {}", where, n, does, trouble.message));
  };
  const std::size_t count = std::min(most, troubles.size());
  while (next < count && troubles[next].entry == 0) tell(tree.root().find("piece").value_or(tree.root()).where());
  if (log) {
    for (const Node entry : log->children()) {
      if (next >= count) break;
      ++n;
      while (next < count && troubles[next].entry == n) tell(entry.where());
    }
  }
  if (troubles.size() > count) notes.push_back(fmt::format("{} more entries don't fit", troubles.size() - count));
  return notes;
}

}  // namespace ballchange
