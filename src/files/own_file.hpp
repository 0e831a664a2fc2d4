#pragma once
#include <string>
#include <string_view>

#include "files/append_file.hpp"
#include "files/lock.hpp"

namespace ballchange {

// Writes a file that this program makes and may make anew, a picture or a page: where none is, or over one that holds
// `mark` within its first 4,096 bytes. Whatever else bears that name stays as it is. Throws Problem(file).
[[nodiscard]] Remarks write_own(Disk& disk, const std::string& path, const Patience& patience, std::string_view mark,
                                const std::string& bytes);

}  // namespace ballchange
