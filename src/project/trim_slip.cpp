#include "project/trim_slip.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <string_view>

#include "base/text.hpp"

namespace ballchange {
namespace {

struct Slip {
  std::string ball;
  Length held, trim;
  std::string_view where;
};

// A fresh ball holds what its record says, or it would not be worth a join; what is left of the one in the work is
// only known as well as its length.
std::optional<Slip> slip_of(const Recorded& recorded, const JoinState& join) {
  const Length half = join.allowance.value_or(Length()) / 2;
  if (const BallState* old = recorded.before.find_ball(join.old_ball); old != nullptr && old->left) {
    const Length since = join.used && recorded.before.used ? *join.used - *recorded.before.used : Length();
    const Length held = std::max(*old->left - since, Length());
    const Length trim = join.knot ? join.trim_old + join.trim_new : join.trim_old;
    const Length taken = trim + (join.knot ? 2 * half : half);
    if (trim > Length() && taken > held + kBallDoubt * old->length.value_or(Length())) {
      return Slip{old->id, held, trim, join.knot ? "at the knot" : "off the old end"};
    }
  }
  const BallState* fresh = join.knot ? nullptr : recorded.before.find_ball(join.new_ball);
  if (fresh == nullptr || !fresh->left || join.trim_new + half <= *fresh->left) return std::nullopt;
  return Slip{fresh->id, *fresh->left, join.trim_new, "off the new end"};
}

}  // namespace

void remark_on_trims(Recorded& recorded, const std::string& path, Told told) {
  for (const LogEntry& entry : recorded.entries()) {
    const std::vector<JoinState>& joins = recorded.after.joins;
    const auto join = std::find_if(joins.begin(), joins.end(), [&](const JoinState& j) { return j.entry == entry.n; });
    if (join == joins.end()) continue;
    const auto slip = slip_of(recorded, *join);
    if (!slip) continue;
    const std::string undo =
        recorded.written ? fmt::format(" (ballchange cancel {} {})", typed_path(path), entry.n) : std::string();
    recorded.remarks.insert(
        recorded.remarks.begin(),
        fmt::format("by the record ball {} held only {}: is {} {} a slip{}?", printable(slip->ball, 60),
                    amount(slip->held, told), amount(slip->trim, told), slip->where, undo));
  }
}

}  // namespace ballchange
