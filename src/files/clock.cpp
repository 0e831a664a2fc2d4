#include "files/clock.hpp"

#include <chrono>
#include <thread>

namespace ballchange {

std::int64_t SystemClock::now() const {
  const auto since = std::chrono::system_clock::now().time_since_epoch();
  return std::chrono::floor<std::chrono::seconds>(since).count();
}

double SystemStopwatch::seconds() const {
  return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

void SystemStopwatch::pause(double seconds) { std::this_thread::sleep_for(std::chrono::duration<double>(seconds)); }

}  // namespace ballchange
