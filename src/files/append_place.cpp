#include <fmt/core.h>

#include <cerrno>
#include <string_view>
#include <system_error>

#include "base/problem.hpp"
#include "base/text.hpp"
#include "files/append_file.hpp"
#include "files/source.hpp"

namespace ballchange {
namespace {

std::string folder_of(const std::string& path) {
  const std::size_t slash = path.rfind('/');
  if (slash == std::string::npos) return ".";
  return slash == 0 ? "/" : path.substr(0, slash);
}

void refuse_writing(const Place& place, std::string_view why) {
  throw Problem(Fault::file, fmt::format("cannot write {}: {}", printable(place.shown), why));
}

FileFacts facts_of(const Disk& disk, const Place& place) {
  try {
    return disk.facts(place.real);
  } catch (const std::system_error& e) {
    throw cannot_open(place.shown, e);
  }
}

void require_replaceable(const FileFacts& facts, const Place& place) {
  if (facts.kind == FileFacts::Kind::folder) refuse_writing(place, "it is a folder; name the file in it");
  if (facts.kind == FileFacts::Kind::other) refuse_writing(place, "it is no ordinary file");
  if (facts.names > 1) {
    refuse_writing(place,
                   fmt::format("the file has {} names (hard links), and the others would not see {}; go on with a "
                               "copy",
                               facts.names, place.done == kRecorded ? "the new entry" : "what is new"));
  }
  if (facts.write_error == EACCES) refuse_writing(place, "it is read-only; make it writable, or go on with a copy");
  if (facts.write_error != 0) refuse_writing(place, std::generic_category().message(facts.write_error));
}

}  // namespace

Place place_of(const Disk& disk, const std::string& path, std::string_view done) {
  Place place{path, {}, {}, done};
  try {
    place.real = disk.real_path(path);
  } catch (const std::system_error& e) {
    throw cannot_open(path, e);
  }
  place.folder = folder_of(place.real);
  require_replaceable(facts_of(disk, place), place);
  return place;
}

Place place_of_new(const Disk& disk, const std::string& path, std::string_view done) {
  const std::string folder = folder_of(path);
  const std::size_t slash = path.rfind('/');
  const std::string name = slash == std::string::npos ? path : path.substr(slash + 1);
  Place place{path, {}, {}, done};
  if (name.empty() || name == "." || name == "..") refuse_writing(place, "it names a folder; add the file's name");
  try {
    place.folder = disk.real_path(folder);
    place.real = (place.folder == "/" ? "" : place.folder) + "/" + name;
    return place;
  } catch (const std::system_error& e) {
    throw Problem(Fault::file,
                  fmt::format("cannot write {}: its folder can't be opened: {}", printable(path), e.code().message()));
  }
}

FileFacts replaceable(const Disk& disk, const Place& place, std::size_t most) {
  FileFacts facts = facts_of(disk, place);
  require_replaceable(facts, place);
  if (facts.size > most) {
    throw Problem(Fault::content,
                  fmt::format("{}: larger than {} MB; is it the right file?", printable(place.shown), most >> 20U));
  }
  return facts;
}

}  // namespace ballchange
