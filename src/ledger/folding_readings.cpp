#include <fmt/core.h>

#include <string>

#include "ledger/folding.hpp"
#include "reading/fault.hpp"

namespace ballchange {

std::optional<std::string> Folding::fault_of(const std::string& text, End end, std::string_view what) const {
  Ruler ruler = state_.ruler;
  if (!ruler.in_stitches) ruler.bare = project_.units;
  return reading_fault(text, end, state_.yarn.repeat.colours(), ruler, what);
}

// Of what a ball's entry tells of its ends. A reading told again later settles the one before it.
void Folding::check_readings(std::size_t ball, const did::Ball& entry) {
  const auto check = [&](const std::optional<std::string>& text, BallEnd end) {
    if (!text) return;
    const auto before = unreadable_.find({ball, end});
    if (before != unreadable_.end()) {
      settled_[static_cast<std::size_t>(before->second)] = true;
      unreadable_.erase(before);
    }
    if (auto fault = fault_of(*text, End::new_end, fmt::format("{}, {} end", who(ball), end_name(end)))) {
      remark(std::move(*fault));
      unreadable_[{ball, end}] = entry_;
    }
  };
  check(entry.outside, BallEnd::outside);
  check(entry.inside, BallEnd::inside);
}

void Folding::check_readings(const did::Join& entry) {
  const auto check = [&](const std::optional<std::string>& text, End end, std::string_view key) {
    if (!text) return;
    if (auto fault = fault_of(*text, end, key)) remark(std::move(*fault));
  };
  check(entry.old_reading, End::old_end, "old");
  check(entry.new_reading, End::new_end, "new");
}

}  // namespace ballchange
