#pragma once
#include <concepts>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem.hpp"
#include "files/yaml_tree.hpp"

// Typed values out of a tree. Every refusal is a Problem(content) that begins with file, line and column; `what` names
// the value in it ("length"). `like` shows what would be right.
namespace ballchange {

void require_mapping(Node node, std::string_view what, std::string_view like);
void require_sequence(Node node, std::string_view what, std::string_view like);
// The value of a key that may not be left out.
[[nodiscard]] Node required(Node mapping, std::string_view key, std::string_view what, std::string_view like);
// The value under either name (fibre, fiber); both at once are refused.
[[nodiscard]] std::optional<Node> find_either(Node mapping, std::string_view key, std::string_view other);
[[nodiscard]] std::string_view scalar(Node node, std::string_view what);
// What keeps a text from being a name or a remark, and what would be right: one line, printable, 1 to `most_bytes`
// bytes.
[[nodiscard]] std::optional<std::string> line_fault(std::string_view text, std::string_view what,
                                                    std::size_t most_bytes);
[[nodiscard]] std::string one_line(Node node, std::string_view what, std::size_t most_bytes);
[[nodiscard]] bool yes_or_no(Node node, std::string_view what);

// What `parse` makes of the scalar; its Problem gets the node's place in front.
template <std::invocable<std::string_view> Parse>
[[nodiscard]] auto parsed(Node node, std::string_view what, Parse parse) {
  const std::string_view text = scalar(node, what);
  try {
    return parse(text);
  } catch (const Problem& problem) {
    throw node.problem(problem.what());
  }
}

[[nodiscard]] std::string unknown_key_note(Node child, std::span<const std::string> known);
// One located note for every key that is not known; they are kept in the file and do nothing.
void note_unknown_keys(Node mapping, std::span<const std::string> known, std::vector<std::string>& notes);

}  // namespace ballchange
