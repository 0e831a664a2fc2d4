#include "files/own_file.hpp"

#include <fmt/format.h>

#include <system_error>

#include "base/problem.hpp"
#include "base/text.hpp"

namespace ballchange {
namespace {

constexpr std::size_t kMarkWithin = 4096;
constexpr std::size_t kMostBytes = 256U << 20U;

std::string held(const Disk& disk, const Place& place) {
  try {
    return disk.read(place.real, kMostBytes + 1);
  } catch (const std::system_error& e) {
    throw Problem(Fault::file, fmt::format("cannot open {}: {}", printable(place.shown), e.code().message()));
  }
}

}  // namespace

Remarks write_own(Disk& disk, const std::string& path, const Patience& patience, std::string_view mark,
                  const std::string& bytes) {
  if (!disk.is_file(path)) {
    const Place place = place_of_new(disk, path);
    const auto lock = lock_folder(disk, place.folder, path, patience);
    return create_file(disk, place, bytes);
  }
  const Place place = place_of(disk, path);
  const auto lock = lock_folder(disk, place.folder, path, patience);
  const FileFacts facts = replaceable(disk, place, kMostBytes);
  const std::string old = held(disk, place);
  if (std::string_view(old).substr(0, kMarkWithin).find(mark) == std::string_view::npos) {
    throw Problem(Fault::file, fmt::format("{} is there already, was not made by ballchange, and was left as it is; "
                                           "choose another name",
                                           printable(path)));
  }
  return replace_file(disk, place, facts, old, bytes);
}

}  // namespace ballchange
