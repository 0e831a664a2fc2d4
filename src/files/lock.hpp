#pragma once
#include <functional>
#include <memory>
#include <string>
#include <string_view>

#include "files/clock.hpp"
#include "files/disk.hpp"

// One writer at a time in a folder.
namespace ballchange {

// What happens to a file that is written, as messages call it.
inline constexpr std::string_view kRecorded = "recorded", kWritten = "written";

// How long to wait for others.
struct Patience {
  Stopwatch& watch;
  std::function<void()> waiting;  // called once, after a second; may be empty
  double seconds = 30;
};

// Locks a folder against every other writer, for as long as the result lives. The lock is the kernel's: it goes with
// the process that held it, so none is ever left over. Nothing may be asked of a person meanwhile. Throws
// Problem(file) when the wait was in vain, or where no lock can be had; `shown` names the file to be written.
[[nodiscard]] std::unique_ptr<HeldLock> lock_folder(const Disk& disk, const std::string& folder,
                                                    const std::string& shown, const Patience& patience,
                                                    std::string_view done = kRecorded);

}  // namespace ballchange
