#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "files/disk.hpp"
#include "files/lock.hpp"

// Files are written beside their place and then change names with what was there: whatever happens in between, there is
// the old file or the new one, whole. The caller holds the lock on the folder.
namespace ballchange {

// A file as people named it, where it really lies, and what is done with it, as messages call that.
struct Place {
  std::string shown, real, folder;
  std::string_view done = kRecorded;
};

// Follows links. Throws Problem(file) for what can't be replaced: what isn't there, folders, pipes, files with several
// names, read-only ones.
[[nodiscard]] Place place_of(const Disk& disk, const std::string& path, std::string_view done = kRecorded);
// Where a new file is to be, in a folder that is there.
[[nodiscard]] Place place_of_new(const Disk& disk, const std::string& path, std::string_view done = kRecorded);
// The same refusals once more, now that the folder is locked, and one for more than `most` bytes.
[[nodiscard]] FileFacts replaceable(const Disk& disk, const Place& place, std::size_t most);

// What went well, but is worth a word: "recorded, but the disk did not confirm it (Input/output error)".
using Remarks = std::vector<std::string>;

// Replaces a file that held the bytes `old`. Throws Problem(file) when it still stands as it was, and when another
// program saved it in the meantime: then that version stays.
[[nodiscard]] Remarks replace_file(Disk& disk, const Place& place, const FileFacts& like, const std::string& old,
                                   const std::string& now);
// A file where none may be. Throws Problem(file).
[[nodiscard]] Remarks create_file(Disk& disk, const Place& place, const std::string& bytes);

// Tells a text from any other, in 16 hexadecimal digits: FNV-1a, 64 bits (Fowler, Noll, Vo; RFC 9923).
[[nodiscard]] std::string digest(std::string_view bytes);

// Removes what writers that died left in the folder, as far as every byte of it is known to be elsewhere or was never
// recorded; tells of the rest. `current` is what the project now holds. Never throws.
[[nodiscard]] Remarks clear_left_overs(Disk& disk, const std::string& folder, const std::string& current);

}  // namespace ballchange
