#pragma once
#include <string>

#include "files/append_file.hpp"
#include "files/lock.hpp"

namespace ballchange {

// Writes a picture or a page, which is made anew as often as wanted: where no file is, or over one that was made so and
// is still as it was made. Its second line tells, a comment with the digest of all the rest. Whatever else bears that
// name stays as it is. `bytes` have a first line, of XML or HTML. Throws Problem(file).
[[nodiscard]] Remarks write_own(Disk& disk, const std::string& path, const Patience& patience,
                                const std::string& bytes);

}  // namespace ballchange
