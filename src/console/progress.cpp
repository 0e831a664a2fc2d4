#include "console/progress.hpp"

#include <fmt/core.h>

#include <cmath>
#include <cstddef>

namespace ballchange {
namespace {

constexpr double kPatience = 0.5;  // seconds
constexpr std::size_t kWide = 30;

}  // namespace

Progress::Progress(const Context& context, int parts)
    : context_(context), parts_(parts), start_(context.watch.seconds()) {}

std::function<void(double)> Progress::part() {
  const int before = begun_++;
  if (!context_.error_is_terminal || !context_.draw_over) return {};
  return [this, before](double done) { show((before + done) / parts_); };
}

void Progress::show(double done) {
  const int per_cent = static_cast<int>(std::floor(100 * done));
  if (per_cent == last_ || context_.watch.seconds() - start_ < kPatience) return;
  last_ = per_cent;
  const auto full = static_cast<std::size_t>(std::floor(done * kWide));
  const std::string line = fmt::format("{}{} {} %", std::string(full, '='), std::string(kWide - full, '-'), per_cent);
  context_.draw_over("\r" + line);
  drawn_ = line.size();
}

void Progress::end() {
  if (drawn_ > 0) context_.draw_over("\r" + std::string(drawn_, ' ') + "\r");
  drawn_ = 0;
}

}  // namespace ballchange
