#pragma once
#include <cstdint>

#include "files/clock.hpp"

namespace ballchange {

// Stands at one moment.
class FixedClock : public Clock {
 public:
  explicit FixedClock(std::int64_t seconds) : seconds_(seconds) {}
  [[nodiscard]] std::int64_t now() const override { return seconds_; }

 private:
  std::int64_t seconds_;
};

}  // namespace ballchange
