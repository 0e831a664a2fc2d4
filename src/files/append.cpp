#include "files/append.hpp"

#include <algorithm>
#include <iterator>
#include <system_error>
#include <utility>

#include "files/append_text.hpp"
#include "files/source.hpp"

namespace ballchange {
namespace {

// Under the name people know, from where it really lies.
std::string read_whole(const Disk& disk, const Place& place) {
  try {
    return disk.read(place.real, Tree::kMostBytes + 1);
  } catch (const std::system_error& e) {
    throw cannot_open(place.shown, e);
  }
}

}  // namespace

Appended append(Disk& disk, const std::string& path, const Patience& patience, const MakeEntries& make) {
  const Place place = place_of(disk, path);
  const auto held = lock_folder(disk, place.folder, path, patience);
  const FileFacts facts = replaceable(disk, place, Tree::kMostBytes);
  Appended done;
  const std::string old = read_whole(disk, place);
  {
    const Tree before(old, path);
    const std::vector<std::string> entries = make(old, before);
    if (entries.empty()) return {old, {}};
    done.text = add_entries(old, before, entries);
  }
  done.remarks = clear_left_overs(disk, place.folder, old);
  Remarks written = replace_file(disk, place, facts, old, done.text);
  std::move(written.begin(), written.end(), std::back_inserter(done.remarks));
  return done;
}

Remarks start_file(Disk& disk, const std::string& path, const Patience& patience, const std::string& text) {
  const Place place = place_of_new(disk, path);
  const auto held = lock_folder(disk, place.folder, path, patience);
  return create_file(disk, place, text);
}

}  // namespace ballchange
