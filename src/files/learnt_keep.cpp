#include <fmt/core.h>

#include <string_view>
#include <system_error>

#include "base/text.hpp"
#include "files/learnt.hpp"
#include "files/source.hpp"

namespace ballchange {
namespace {

constexpr int kMostKept = 999;

// As whoever typed `path` finds it: beside the file itself, which a link may lead to elsewhere.
std::string kept_path(const Disk& disk, const Place& place, const std::string& path, std::string_view suffix) {
  const bool is_link = place_of_new(disk, path).real != place.real;
  return fmt::format("{}{}", is_link ? place.real : path, suffix);
}

// A copy of what the file still holds is nothing to keep.
void remove_copy(Disk& disk, const Place& place, const std::string& copy, const std::string& old) {
  try {
    if (disk.read(place.real, Tree::kMostBytes + 1) == old) disk.remove(copy);
  } catch (const std::system_error&) {
    return;
  }
}

}  // namespace

Kept replace_and_keep(Disk& disk, const std::string& path, const Patience& patience, const std::string& old,
                      const std::string& now) {
  const Place place = place_of(disk, path, kWritten);
  const auto held = lock_folder(disk, place.folder, path, patience, place.done);
  const FileFacts facts = replaceable(disk, place, Tree::kMostBytes);
  try {
    if (disk.read(place.real, Tree::kMostBytes + 1) != old) {
      throw Problem(Fault::file, fmt::format("{} was saved by another program in the meantime and was left as it is; "
                                             "try again",
                                             printable(path)));
    }
  } catch (const std::system_error& e) {
    throw cannot_open(path, e);
  }
  for (int n = 1; n <= kMostKept; ++n) {
    const std::string suffix = fmt::format("~{}", n);
    const std::string shown = kept_path(disk, place, path, suffix);
    try {
      disk.create(place.real + suffix, old, facts);
    } catch (const std::system_error& e) {
      if (e.code() == std::errc::file_exists) continue;
      throw Problem(Fault::file, fmt::format("cannot keep what {} holds as {}: {}", printable(path), printable(shown),
                                             e.code().message()));
    }
    try {
      return {shown, replace_file(disk, place, facts, old, now)};
    } catch (const Problem&) {
      remove_copy(disk, place, place.real + suffix, old);
      throw;
    }
  }
  throw Problem(Fault::file,
                fmt::format("{} has {} older versions beside it; move some away", printable(path), kMostKept));
}

}  // namespace ballchange
