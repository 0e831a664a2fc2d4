#pragma once
#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/text.hpp"
#include "files/yaml_tree.hpp"
#include "files/yaml_values.hpp"
#include "ledger/entry.hpp"

// Values of a project, out of its tree. Every refusal is a Problem(content) with file, line and column.
namespace ballchange {

[[nodiscard]] Amount read_amount(Node node, std::string_view what, Unit bare, Sign sign = Sign::none);
// A whole number from `least` to a million.
[[nodiscard]] int read_count(Node node, std::string_view what, int least);
// More than nothing.
[[nodiscard]] double read_number(Node node, std::string_view what);
[[nodiscard]] Method read_method(Node node, std::string_view what);

// "worked: 'row' is none of rows, rounds; did you mean rows?"
[[nodiscard]] std::string unknown_word(std::string_view what, std::string_view word,
                                       const std::vector<std::string>& words);

template <typename Value>
[[nodiscard]] Value read_choice(Node node, std::string_view what,
                                std::initializer_list<std::pair<std::string_view, Value>> choices) {
  const std::string_view word = trim(scalar(node, what));
  std::vector<std::string> words;
  for (const auto& [name, value] : choices) {
    if (name == word) return value;
    words.emplace_back(name);
  }
  throw node.problem(unknown_word(what, word, words));
}

}  // namespace ballchange
