#include "files/source.hpp"

#include <fmt/core.h>

#include <istream>
#include <system_error>

#include "base/problem.hpp"
#include "base/text.hpp"
#include "reading/reading.hpp"

namespace ballchange {
namespace {

void refuse_too_large(const std::string& text, std::size_t most, std::string_view name) {
  if (text.size() <= most) return;
  const bool large = most >= std::size_t{1} << 20U;
  throw Problem(Fault::content, fmt::format("{}: larger than {} {}; is it the right file?", name,
                                            most >> (large ? 20U : 10U), large ? "MB" : "kB"));
}

std::string read_stream(std::istream& in, std::size_t most) {
  std::string text(most + 1, '\0');
  in.read(text.data(), static_cast<std::streamsize>(text.size()));
  text.resize(static_cast<std::size_t>(in.gcount()));
  if (in.bad()) throw Problem(Fault::file, "cannot read standard input");
  refuse_too_large(text, most, "standard input");
  return text;
}

std::string on_one_line(std::string_view text) {
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
  text = trim(text);
  std::string line;
  line.reserve(text.size());
  for (std::size_t at = 0; at < text.size(); ++at) {
    if (text.substr(at).starts_with("\r\n")) continue;  // one line end, one blank
    line += text[at] == '\n' || text[at] == '\r' ? ' ' : text[at];
  }
  return line;
}

}  // namespace

Problem cannot_open(const std::string& path, const std::system_error& e) {
  return {Fault::file, fmt::format("cannot open {}: {}", printable(path), e.code().message())};
}

std::string read_file(const Disk& disk, const std::string& path, std::size_t most) {
  std::string text;
  try {
    text = disk.read(path, most + 1);
  } catch (const std::system_error& e) {
    throw cannot_open(path, e);
  }
  refuse_too_large(text, most, printable(path));
  return text;
}

std::string read_document(const Disk& disk, const std::string& path, std::size_t most) {
  try {
    if (disk.facts(path).kind == FileFacts::Kind::other) {
      throw Problem(Fault::file, fmt::format("{}: it is no ordinary file; name a file", printable(path)));
    }
  } catch (const std::system_error& e) {
    throw cannot_open(path, e);
  }
  return read_file(disk, path, most);
}

std::string reading_text(std::string_view argument, const Disk& disk, std::istream& standard_input,
                         std::string_view what) {
  if (argument == "-") return on_one_line(read_stream(standard_input, kMostReadingBytes));
  if (argument.empty() || argument.front() != '@') return std::string(argument);
  if (argument.size() == 1) {
    throw Problem(Fault::content, fmt::format("{}: '@' without a file name; write @FILE", what));
  }
  const std::string file(argument.substr(1));
  std::string text = on_one_line(read_file(disk, file, kMostReadingBytes));
  if (text.empty()) {
    throw Problem(Fault::content, fmt::format("{}: {} is empty; write the reading into it, like plum 15, sand 11, rust",
                                              what, printable(file)));
  }
  return text;
}

}  // namespace ballchange
