#pragma once
#include <functional>

#include "console/context.hpp"

namespace ballchange {

// How far a long computation has come, as a bar at the bottom of a terminal: only once it has taken half a second, and
// gone again at the end. Nothing where diagnostics go to no terminal.
class Progress {
 public:
  Progress(const Context& context, int parts);
  ~Progress() { end(); }
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;

  // The next of the parts: told how much of it is done, 0 .. 1.
  [[nodiscard]] std::function<void(double)> part();
  void end();

 private:
  void show(double done);

  const Context& context_;
  int parts_;
  int begun_ = 0;
  double start_ = 0;
  std::size_t drawn_ = 0;  // columns
  int last_ = -1;          // per cent
};

}  // namespace ballchange
