#include "files/format_line.hpp"

#include <fmt/core.h>

#include <charconv>
#include <string>
#include <system_error>

#include "base/text.hpp"
#include "files/yaml_values.hpp"

namespace ballchange {
namespace {

constexpr std::string_view kProgram = "ballchange ";

// 0 for anything that is no number of a format.
int format_number(std::string_view digits) {
  constexpr int most = 1'000'000;
  if (digits.empty() || digits.find_first_not_of("0123456789") != std::string_view::npos || digits.front() == '0') {
    return 0;
  }
  int number = 0;
  const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), number);
  return error == std::errc() && number < most ? number : most;
}

}  // namespace

void check_format(Node root, std::string_view kind, int newest) {
  const std::string wanted = fmt::format("format: {}{} {}", kProgram, kind, newest);
  if (root.is(Node::Kind::nothing)) throw root.problem(fmt::format("nothing in it; begin with '{}'", wanted));
  require_mapping(root, "the file", fmt::format("lines like '{}'", wanted));
  const Node format = required(root, "format", "the file", wanted);
  const std::string_view text = trim(scalar(format, "format"));
  const std::string start = fmt::format("{}{} ", kProgram, kind);
  const int number = text.starts_with(start) ? format_number(text.substr(start.size())) : 0;
  if (number > newest) {
    throw format.problem(
        fmt::format("format '{}' is newer than this program, which reads {} {}; use a newer ballchange",
                    printable(text, 60), kind, newest));
  }
  if (number == 0) {
    throw format.problem(
        fmt::format("format '{}' is not what is wanted here; write '{}'", printable(text, 60), wanted));
  }
}

}  // namespace ballchange
