#pragma once
#include <cstddef>
#include <functional>
#include <iosfwd>
#include <optional>
#include <string>
#include <string_view>

#include "files/clock.hpp"
#include "files/disk.hpp"

// What the process lends a command; a test lends strings instead.
namespace ballchange {

struct Context {
  std::ostream& out;
  std::istream& in;
  Disk& disk;
  const Clock& clock;
  Stopwatch& watch;
  std::function<std::string(const std::string& name)> environment;  // empty when not set
  std::function<void(std::string_view text)> complain;              // a diagnostic; only complain() calls it
  // What somebody at the terminal answers, one line; nothing when there is no more to come. Empty where in or out is no
  // terminal. What was answered so far goes out first.
  std::function<std::optional<std::string>(std::string_view question)> ask = {};
  bool out_is_terminal = false;
  bool error_is_terminal = false;
  std::size_t terminal_columns = 0;  // 0: not known
  // A remark, for when the command has ended; only remark() calls it.
  std::function<void(std::string_view text)> hold = nullptr;
  // Writes to the terminal that diagnostics go to, as it stands; only Progress calls it. Empty where there is none.
  std::function<void(std::string_view text)> draw_over = nullptr;

  // What is on the disk by now, like "entry 12 was recorded", for where the answer can't be delivered; only
  // stands_now() calls it.
  std::function<void(std::string_view text)> stands = nullptr;

  // The same with nothing said beside the answer: what is tried again with every answer would be told every time.
  [[nodiscard]] Context muted() const {
    Context silent = *this;
    silent.complain = silent.hold = [](std::string_view) {};
    silent.draw_over = nullptr;
    return silent;
  }
};

// How a command ended; problems are thrown.
enum class Outcome {
  done,
  settles_nothing  // the input is fine but more must be said, the ball turned, or nothing fits
};

}  // namespace ballchange
