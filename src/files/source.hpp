#pragma once
#include <cstddef>
#include <iosfwd>
#include <string>
#include <string_view>
#include <system_error>

#include "base/problem.hpp"
#include "files/disk.hpp"

// Texts from files and from standard input.
namespace ballchange {

// "cannot open orchard.yaml: No such file or directory", under the name people know.
[[nodiscard]] Problem cannot_open(const std::string& path, const std::system_error& e);
// The whole file. Throws `cannot_open`, and Problem(content) when it holds more than `most` bytes.
[[nodiscard]] std::string read_file(const Disk& disk, const std::string& path, std::size_t most);
// The same of a project or a profile: what is no ordinary file, which might never end, is refused with Problem(file).
[[nodiscard]] std::string read_document(const Disk& disk, const std::string& path, std::size_t most);

// A reading as an option gives it: the text itself, "@FILE" or "-" for standard input. A text from a file may run over
// several lines; they are joined by spaces. `what` names the option. Throws as read_file.
[[nodiscard]] std::string reading_text(std::string_view argument, const Disk& disk, std::istream& standard_input,
                                       std::string_view what);

}  // namespace ballchange
