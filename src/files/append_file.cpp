#include "files/append_file.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cstdint>
#include <iterator>
#include <limits>
#include <string_view>
#include <system_error>
#include <utility>

#include "base/problem.hpp"
#include "base/text.hpp"

namespace ballchange {
namespace {

constexpr std::string_view kPrefix = ".ballchange-";
constexpr std::size_t kDigits = 16;
constexpr std::size_t kWhole = std::numeric_limits<std::size_t>::max();

// The name says what the file may hold before and after it changes places: the new bytes, the old ones. Anything else
// found under it was written by somebody else and is kept.
std::string temporary_name(std::string_view old, std::string_view now) {
  return fmt::format("{}{}{}", kPrefix, digest(old), digest(now));
}

bool is_temporary(std::string_view name) {
  if (!name.starts_with(kPrefix) || name.size() < kPrefix.size() + 2 * kDigits) return false;
  return name.substr(kPrefix.size(), 2 * kDigits).find_first_not_of("0123456789abcdef") == std::string_view::npos;
}

// A file bears this until all of it is written, so that it never held what a project or an editor put there: what dies
// half-written holds nothing that anybody needs.
constexpr std::string_view kUnfinished = "-part";

std::string unfinished(const std::string& path) { return fmt::format("{}{}", path, kUnfinished); }

bool is_unfinished(std::string_view name) { return is_temporary(name) && name.ends_with(kUnfinished); }

bool names_digest(std::string_view name, std::string_view sum) {
  return name.substr(kPrefix.size(), kDigits) == sum || name.substr(kPrefix.size() + kDigits, kDigits) == sum;
}

std::string beside(const std::string& folder, std::string_view name) {
  return fmt::format("{}/{}", folder == "/" ? "" : folder, name);
}

Problem cannot_write(const Place& place, const std::system_error& e) {
  return {Fault::file,
          fmt::format("cannot write {}: {}; nothing was {}", printable(place.shown), e.code().message(), place.done)};
}

Problem saved_by_another(const Place& place) {
  return {Fault::file, fmt::format("{}: another program saved it in the same moment; its version stays and nothing was "
                                   "{}, so give the command once more",
                                   printable(place.shown), place.done)};
}

void remove_if_possible(Disk& disk, const std::string& path) {
  try {
    disk.remove(path);
  } catch (const std::system_error&) {
    // It stays behind and is cleared away by the next writer.
    return;
  }
}

// A failed exchange may yet have been done, for all a network disk tells; then what lies here is not ours.
void remove_if_ours(Disk& disk, const std::string& path, const std::string& bytes) {
  try {
    if (disk.read(path, kWhole) == bytes) disk.remove(path);
  } catch (const std::system_error&) {
    return;
  }
}

// Whether a file may take this name without another losing it.
bool is_free(const Disk& disk, const std::string& path) {
  try {
    static_cast<void>(disk.facts(path));
    return false;
  } catch (const std::system_error& e) {
    if (e.code() == std::errc::no_such_file_or_directory) return true;
    throw;
  }
}

// A left-over may bear the name already.
std::string free_name(const Disk& disk, const std::string& wanted) {
  for (int again = 0; again <= 9; ++again) {
    std::string path = again == 0 ? wanted : fmt::format("{}-{}", wanted, again);
    if (is_free(disk, path) && is_free(disk, unfinished(path))) return path;
  }
  throw std::system_error(EEXIST, std::generic_category());
}

std::string write_beside(Disk& disk, const Place& place, const std::string& name, const std::string& bytes,
                         const std::optional<FileFacts>& like) {
  try {
    std::string path = free_name(disk, beside(place.folder, name));
    disk.create(unfinished(path), bytes, like);
    try {
      disk.rename(unfinished(path), path);
    } catch (const std::system_error&) {
      remove_if_possible(disk, unfinished(path));
      throw;
    }
    return path;
  } catch (const std::system_error& e) {
    throw cannot_write(place, e);
  }
}

// Another program saved the file after it was read, and that version now lies under the temporary name. It goes back;
// should there have been yet another save, that one does, until what comes out is what was put there last.
[[noreturn]] void put_back(Disk& disk, const Place& place, const std::string& temporary, std::string saved,
                           std::string expected) {
  try {
    for (;;) {
      if (!disk.exchange(temporary, place.real)) throw std::system_error(ENOSYS, std::generic_category());
      std::string came = disk.read(temporary, kWhole);
      if (came == expected) break;
      expected = std::exchange(saved, std::move(came));
    }
    disk.sync_folder(place.folder);
  } catch (const std::system_error& e) {
    throw Problem(Fault::file,
                  fmt::format("{}: another program saved it in the same moment, and there was trouble ({}); "
                              "one version is there, the other was kept as {}: compare them",
                              printable(place.shown), e.code().message(), printable(temporary)));
  }
  remove_if_possible(disk, temporary);
  throw saved_by_another(place);
}

// Where names can't be exchanged: a last look, then the new file takes the place.
void rename_over(Disk& disk, const Place& place, const std::string& temporary, const std::string& old) {
  if (disk.read(place.real, kWhole) != old) {
    remove_if_possible(disk, temporary);
    throw saved_by_another(place);
  }
  disk.rename(temporary, place.real);
}

void confirm(Disk& disk, const Place& place, Remarks& remarks) {
  try {
    disk.sync_folder(place.folder);
  } catch (const std::system_error& e) {
    remarks.push_back(fmt::format("{}, but the disk did not confirm it ({})", place.done, e.code().message()));
  }
}

// What the file held is only let go of when it is what was read.
void let_go(Disk& disk, const Place& place, const std::string& temporary, const std::string& old,
            const std::string& now, Remarks& remarks) {
  std::string came;
  try {
    came = disk.read(temporary, kWhole);
  } catch (const std::system_error& e) {
    remarks.push_back(fmt::format("{}; what {} held before can't be read again ({}) and was kept as {}", place.done,
                                  printable(place.shown), e.code().message(), printable(temporary)));
    return;
  }
  if (came != old) put_back(disk, place, temporary, std::move(came), now);
}

// Who changed the permissions after they were looked at meant the file by that name.
void carry_mode(Disk& disk, const Place& place, const std::string& temporary, const FileFacts& like, Remarks& remarks) {
  try {
    const FileFacts now = disk.facts(temporary);
    // Group bits that come of an access list are not what the group may.
    if (now.has_access_list() != like.has_access_list()) throw std::system_error(ENOTSUP, std::generic_category());
    if (now.mode != like.mode) disk.set_mode(place.real, now.mode);
  } catch (const std::system_error& e) {
    remarks.push_back(fmt::format("{}, but the permissions given to {} in the same moment could not be kept ({})",
                                  place.done, printable(place.shown), e.code().message()));
  }
}

// A program that had opened the file before may have written into it since; that stays, under its own name. What it
// writes later still is lost with the file.
void discard(Disk& disk, const Place& place, const std::string& temporary, const std::string& old, Remarks& remarks) {
  try {
    if (disk.read(temporary, kWhole) == old) return remove_if_possible(disk, temporary);
  } catch (const std::system_error&) {
    return;
  }
  remarks.push_back(
      fmt::format("{}, but another program wrote into {} in the same moment; what it wrote was kept "
                  "as {}: compare them",
                  place.done, printable(place.shown), printable(temporary)));
}

// What everybody or the group, which goes over, may do.
bool owner_keeps_rights(const FileFacts& was, const FileFacts& is) {
  if (is.owner == was.owner) return true;
  if (was.has_access_list()) return false;  // its owner's line is the new owner's then
  const unsigned owner = was.mode >> 6U & 06U;
  const unsigned others = is.mode & 06U;
  const unsigned group = is.group == was.group ? is.mode >> 3U & 06U : 0U;
  return (others & owner) == owner || (group & owner) == owner;
}

// A new version belongs to whoever writes it, unless that may give files away.
void keep_owner(Disk& disk, const Place& place, const std::string& temporary, const FileFacts& like) {
  bool keeps = false;
  try {
    keeps = owner_keeps_rights(like, disk.facts(temporary));
  } catch (const std::system_error& e) {
    remove_if_possible(disk, temporary);
    throw cannot_write(place, e);
  }
  if (keeps) return;
  remove_if_possible(disk, temporary);
  throw Problem(Fault::file,
                fmt::format("{} belongs to someone else, who could not open it any more: a new version would be yours. "
                            "It was left as it is; let its owner do this, or give it to a group of you both that may "
                            "read and write it",
                            printable(place.shown)));
}

}  // namespace

std::string digest(std::string_view bytes) {
  std::uint64_t hash = 0xcbf29ce484222325U;
  for (const char c : bytes) {
    hash ^= static_cast<unsigned char>(c);
    hash *= 0x100000001b3U;
  }
  return fmt::format("{:016x}", hash);
}

Remarks replace_file(Disk& disk, const Place& place, const FileFacts& like, const std::string& old,
                     const std::string& now) {
  Remarks remarks;
  const std::string temporary = write_beside(disk, place, temporary_name(old, now), now, like);
  keep_owner(disk, place, temporary, like);
  bool exchanged = false;
  try {
    exchanged = disk.exchange(temporary, place.real);
    if (!exchanged) rename_over(disk, place, temporary, old);
  } catch (const std::system_error& e) {
    remove_if_ours(disk, temporary, now);
    throw cannot_write(place, e);
  }
  Remarks of_mode;
  if (exchanged) {
    let_go(disk, place, temporary, old, now, remarks);
    carry_mode(disk, place, temporary, like, of_mode);
  }
  confirm(disk, place, remarks);
  if (exchanged && remarks.empty()) discard(disk, place, temporary, old, remarks);
  std::move(of_mode.begin(), of_mode.end(), std::back_inserter(remarks));
  return remarks;
}

Remarks create_file(Disk& disk, const Place& place, const std::string& bytes) {
  Remarks remarks;
  const std::string temporary = write_beside(disk, place, temporary_name("", bytes), bytes, std::nullopt);
  try {
    disk.rename_to_new(temporary, place.real);
  } catch (const std::system_error& e) {
    remove_if_possible(disk, temporary);
    if (e.code() != std::errc::file_exists) throw cannot_write(place, e);
    throw Problem(Fault::file, fmt::format("{} is there already and was left as it is; choose another name",
                                           printable(place.shown)));
  }
  confirm(disk, place, remarks);
  return remarks;
}

namespace {

// A folder that can't be listed may hold a file that can be written all the same.
std::vector<std::string> names_in_or_none(const Disk& disk, const std::string& folder) {
  try {
    return disk.names_in(folder);
  } catch (const std::system_error&) {
    return {};
  }
}

}  // namespace

Remarks clear_left_overs(Disk& disk, const std::string& folder, const std::string& current) {
  Remarks remarks;
  for (const std::string& name : names_in_or_none(disk, folder)) {
    if (!is_temporary(name)) continue;
    const std::string path = beside(folder, name);
    try {
      if (disk.facts(path).kind != FileFacts::Kind::file) continue;
      if (is_unfinished(name)) {
        disk.remove(path);
        continue;
      }
      const std::string bytes = disk.read(path, kWhole);
      if (names_digest(name, digest(bytes)) || current.starts_with(bytes)) {
        disk.remove(path);
      } else {
        remarks.push_back(
            fmt::format("{} was left by a command that was cut off, and holds what may be nowhere else; "
                        "look at it, then remove it",
                        printable(path)));
      }
    } catch (const std::system_error&) {
      continue;
    }
  }
  return remarks;
}

}  // namespace ballchange
