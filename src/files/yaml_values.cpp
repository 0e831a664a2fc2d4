#include "files/yaml_values.hpp"

#include <fmt/core.h>

#include <algorithm>

#include "base/text.hpp"

namespace ballchange {

void require_mapping(Node node, std::string_view what, std::string_view like) {
  if (!node.is(Node::Kind::mapping)) throw node.problem(fmt::format("{} is not a set of keys; write {}", what, like));
}

void require_sequence(Node node, std::string_view what, std::string_view like) {
  if (!node.is(Node::Kind::sequence)) throw node.problem(fmt::format("{} is not a list; write {}", what, like));
}

Node required(Node mapping, std::string_view key, std::string_view what, std::string_view like) {
  const auto found = mapping.find(key);
  if (!found) {
    for (const Node child : mapping.children()) {
      const std::vector<std::string> wanted{std::string(key)};
      if (!closest(child.key(), wanted)) continue;
      throw child.key_problem(
          fmt::format("{} has no {}; write '{}' for '{}'", what, key, key, printable(child.key(), 60)));
    }
    throw mapping.problem(fmt::format("{} has no {}; add one, like '{}'", what, key, like));
  }
  return *found;
}

std::optional<Node> find_either(Node mapping, std::string_view key, std::string_view other) {
  const auto first = mapping.find(key);
  const auto second = mapping.find(other);
  if (first && second) throw second->key_problem(fmt::format("{} and {} are the same; keep one", key, other));
  return first ? first : second;
}

std::string_view scalar(Node node, std::string_view what) {
  switch (node.kind()) {
    case Node::Kind::scalar:
      return node.text();
    case Node::Kind::nothing:
      throw node.problem(fmt::format("{} has no value; write one after the colon", what));
    case Node::Kind::sequence:
    case Node::Kind::mapping:
      break;
  }
  throw node.problem(fmt::format("{} is a single value; write it without brackets or further lines", what));
}

std::optional<std::string> line_fault(std::string_view text, std::string_view what, std::size_t most_bytes) {
  if (text.empty()) return fmt::format("{} is empty; write one", what);
  if (text.size() > most_bytes) return fmt::format("{} is longer than {} bytes; shorten it", what, most_bytes);
  if (!valid_utf8(text)) return fmt::format("{} is not UTF-8 text; write it again", what);
  for (std::size_t at = 0; at < text.size();) {
    const char32_t c = next_code_point(text, at);
    if (c == U'\n') return fmt::format("{} has several lines; write it on one", what);
    if (is_unprintable(c)) {
      return fmt::format("{} holds a character that can't be seen (U+{:04X}); remove it", what, unsigned{c});
    }
  }
  return std::nullopt;
}

std::string one_line(Node node, std::string_view what, std::size_t most_bytes) {
  std::string text = without_tabs(trim(scalar(node, what)));
  if (const auto fault = line_fault(text, what, most_bytes)) throw node.problem(*fault);
  return text;
}

bool yes_or_no(Node node, std::string_view what) {
  const std::string_view text = scalar(node, what);
  const std::string word = fold_case(text);
  if (word == "true" || word == "yes") return true;
  if (word == "false" || word == "no") return false;
  throw node.problem(fmt::format("{}: '{}' is neither true nor false; write one of them", what, printable(text, 60)));
}

std::string unknown_key_note(Node child, std::span<const std::string> known) {
  std::string note =
      fmt::format("{}: '{}' is not known here and does nothing", child.key_where(), printable(child.key(), 60));
  if (const auto near = closest(child.key(), known)) note += fmt::format("; did you mean {}?", *near);
  return note;
}

void note_unknown_keys(Node mapping, std::span<const std::string> known, std::vector<std::string>& notes) {
  for (const Node child : mapping.children()) {
    if (std::find(known.begin(), known.end(), child.key()) != known.end()) continue;
    notes.push_back(unknown_key_note(child, known));
  }
}

}  // namespace ballchange
