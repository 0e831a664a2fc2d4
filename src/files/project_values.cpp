#include "files/project_values.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "base/limits.hpp"
#include "base/measure.hpp"
#include "base/number.hpp"
#include "base/quantity.hpp"

namespace ballchange {

Amount read_amount(Node node, std::string_view what, Unit bare, Sign sign) {
  return parsed(node, what, [&](std::string_view text) {
    std::string_view size = trim(text);
    const bool negative = size.starts_with('-');
    if (sign == Sign::either && (negative || size.starts_with('+'))) size.remove_prefix(1);
    const Written written = parse_written(size, bare, what);
    const bool below = negative && written.number != 0;
    return Amount{below ? -written.number : written.number, written.unit};
  });
}

int read_count(Node node, std::string_view what, int least) {
  const std::string_view text = trim(scalar(node, what));
  const auto value = whole_number(text, least, kMostCounted);
  if (!value) {
    throw node.problem(fmt::format("{}: '{}' is not a count; write a whole number from {} to {}", what,
                                   printable(text, 40), least, kMostCounted));
  }
  return *value;
}

double read_number(Node node, std::string_view what) {
  const auto numbers =
      parsed(node, what, [&](std::string_view text) { return parse_quantities(text, "a number, like 21.5", what); });
  if (numbers.size() > 1 || !numbers[0].unit.empty() || numbers[0].number <= 0) {
    throw node.problem(
        fmt::format("{}: '{}' is not a number above 0; write one, like 21.5", what, printable(node.text(), 40)));
  }
  return numbers[0].number;
}

Method read_method(Node node, std::string_view what) {
  const std::string_view word = trim(scalar(node, what));
  if (const auto method = method_named(word)) return *method;
  std::vector<std::string> words;
  for (const MethodRow& row : methods()) words.emplace_back(row.name);
  throw node.problem(unknown_word(what, word, words));
}

std::string unknown_word(std::string_view what, std::string_view word, const std::vector<std::string>& words) {
  std::string message =
      fmt::format("{}: '{}' is not known; write {}", what, printable(word, 40), fmt::join(words, ", "));
  if (const auto near = closest(word, words)) message += fmt::format("; did you mean {}?", *near);
  return message;
}

}  // namespace ballchange
