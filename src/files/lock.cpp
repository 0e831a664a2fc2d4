#include "files/lock.hpp"

#include <fmt/core.h>

#include <system_error>

#include "base/problem.hpp"
#include "base/text.hpp"

namespace ballchange {
namespace {

// Others hold the lock for a few milliseconds.
constexpr double kBetweenTries = 0.005;
constexpr double kSayAfter = 1;

}  // namespace

std::unique_ptr<HeldLock> lock_folder(const Disk& disk, const std::string& folder, const std::string& shown,
                                      const Patience& patience, std::string_view done) {
  const double begun = patience.watch.seconds();
  bool said = false;
  for (;;) {
    try {
      if (auto held = disk.try_lock(folder)) return held;
    } catch (const std::system_error& e) {
      throw Problem(Fault::file, fmt::format("cannot lock the folder of {}: {}; nothing was {}", printable(shown),
                                             e.code().message(), done));
    }
    const double waited = patience.watch.seconds() - begun;
    if (waited >= patience.seconds) {
      throw Problem(Fault::file, fmt::format("{}: another program has kept its folder locked for {:.0f} s; nothing was "
                                             "{}, try again when it is done",
                                             printable(shown), patience.seconds, done));
    }
    if (!said && waited >= kSayAfter) {
      said = true;
      if (patience.waiting) patience.waiting();
    }
    patience.watch.pause(kBetweenTries);
  }
}

}  // namespace ballchange
