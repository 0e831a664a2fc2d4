#include "files/own_file.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <string_view>
#include <system_error>

#include "base/problem.hpp"
#include "base/text.hpp"
#include "files/source.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kMostBytes = 256U << 20U;

std::string held(const Disk& disk, const Place& place) {
  try {
    return disk.read(place.real, kMostBytes + 1);
  } catch (const std::system_error& e) {
    throw cannot_open(place.shown, e);
  }
}

std::string mark_of(std::string_view bytes) { return fmt::format("<!-- made by ballchange {} -->\n", digest(bytes)); }

std::size_t second_line(std::string_view bytes) { return std::min(bytes.find('\n'), bytes.size() - 1) + 1; }

std::string marked(const std::string& bytes) {
  const std::size_t second = second_line(bytes);
  return bytes.substr(0, second) + mark_of(bytes) + bytes.substr(second);
}

// Made by this program, and nobody's since.
bool is_own(const std::string& bytes) {
  if (bytes.empty()) return false;
  const std::size_t second = second_line(bytes);
  const std::size_t size = mark_of({}).size();
  if (bytes.size() < second + size) return false;
  return bytes.substr(second, size) == mark_of(bytes.substr(0, second) + bytes.substr(second + size));
}

Problem not_ours(const std::string& path) {
  return {Fault::file, fmt::format("{} is there already, is not as ballchange made it, and was left as it is; choose "
                                   "another name",
                                   printable(path))};
}

}  // namespace

Remarks write_own(Disk& disk, const std::string& path, const Patience& patience, const std::string& bytes) {
  // A link's own folder may be another than that of the file it leads to, and whether there is one shows only once
  // nobody else can make it.
  if (!disk.is_file(path)) {
    const Place place = place_of_new(disk, path, kWritten);
    const auto lock = lock_folder(disk, place.folder, path, patience, place.done);
    if (!disk.is_file(path)) return create_file(disk, place, marked(bytes));
  }
  const Place place = place_of(disk, path, kWritten);
  const auto lock = lock_folder(disk, place.folder, path, patience, place.done);
  const FileFacts facts = replaceable(disk, place, kMostBytes);
  const std::string old = held(disk, place);
  if (!is_own(old)) throw not_ours(path);
  return replace_file(disk, place, facts, old, marked(bytes));
}

}  // namespace ballchange
