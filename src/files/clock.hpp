#pragma once
#include <cstdint>

// Time as the program is told it, so that a test can tell it otherwise.
namespace ballchange {

// The time of day, for entries.
class Clock {
 public:
  virtual ~Clock() = default;
  // Whole seconds since 1970-01-01T00:00:00Z.
  [[nodiscard]] virtual std::int64_t now() const = 0;
};

class SystemClock : public Clock {
 public:
  [[nodiscard]] std::int64_t now() const override;
};

// Time that only passes: nobody sets it, and a --at doesn't stop it.
class Stopwatch {
 public:
  virtual ~Stopwatch() = default;
  // Seconds from some moment on.
  [[nodiscard]] virtual double seconds() const = 0;
  virtual void pause(double seconds) = 0;
};

class SystemStopwatch : public Stopwatch {
 public:
  [[nodiscard]] double seconds() const override;
  void pause(double seconds) override;
};

}  // namespace ballchange
