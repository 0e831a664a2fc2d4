#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "files/yaml_tree.hpp"

// Changing stretches of a YAML file that somebody wrote, all else byte for byte as it is. Places are bytes of the text,
// a byte-order mark counted.
namespace ballchange {

// One stretch of the text and what comes there instead.
struct Edit {
  std::size_t from = 0, to = 0;
  std::string text;
};

// Of the byte-order mark at its beginning, which offsets of a tree don't count.
[[nodiscard]] std::size_t mark_bytes(const std::string& text);
// Where a value stands, its quotes with it; nothing where it is written in another way than it reads.
[[nodiscard]] std::optional<Edit> place_in(const std::string& text, const Node& node);
[[nodiscard]] std::size_t line_start(const std::string& text, std::size_t at);
// A line of its own behind the one that holds `at`, beginning in the column of `column_of`.
[[nodiscard]] Edit line_behind(const std::string& text, std::size_t at, std::size_t column_of, std::string line);
// A remark in that stretch: a # that begins a word, outside of quotes.
[[nodiscard]] bool has_remark(const std::string& text, const Edit& stretch);
// With all of them, line ends as the text has them. They don't overlap; of those at one place the last comes last.
[[nodiscard]] std::string edited(const std::string& text, std::vector<Edit> edits);

}  // namespace ballchange
