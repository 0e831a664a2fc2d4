#include "project/trim_slip.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <optional>
#include <string_view>

#include "base/problem.hpp"
#include "base/text.hpp"
#include "project/project.hpp"
#include "reading/reading.hpp"

namespace ballchange {
namespace {

constexpr Length kHair = Length::cm(0.05);

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

// Yarn from the hook to the old strand's loose end, as the entry tells it.
std::optional<Length> loose_in(const Recorded& recorded, const LogEntry& entry) {
  const auto* join = std::get_if<did::Join>(&entry.what);
  if (join == nullptr || !join->old_reading) return std::nullopt;
  Palette palette{recorded.before.yarn.repeat.colours(), false};
  const Ruler ruler = ruler_on_record(recorded.before.ruler, recorded.project);
  try {
    return parse_reading(*join->old_reading, End::old_end, palette, ruler, "old").loose;
  } catch (const Problem&) {
    return std::nullopt;
  }
}

// Of what hangs loose too little is left to join.
std::optional<std::string> too_little_to_join(const Recorded& recorded, const LogEntry& entry, const JoinState& join,
                                              Told told) {
  const auto loose = loose_in(recorded, entry);
  const Length allowance = join.allowance.value_or(Length());
  if (!loose || join.knot_left || join.trim_old + allowance <= *loose + kHair) return std::nullopt;
  return fmt::format("{} hung loose, {} of it came off, and the join takes {}: is one of them a slip",
                     amount(*loose, told), amount(join.trim_old, told), amount(allowance, told));
}

}  // namespace

void remark_on_trims(Recorded& recorded, const std::string& path, Told told) {
  for (const LogEntry& entry : recorded.entries()) {
    const std::vector<JoinState>& joins = recorded.after.joins;
    const auto join = std::find_if(joins.begin(), joins.end(), [&](const JoinState& j) { return j.entry == entry.n; });
    if (join == joins.end()) continue;
    const std::string undo =
        recorded.written ? fmt::format(" (ballchange cancel {} {})", typed_path(path), entry.n) : std::string();
    if (const auto little = too_little_to_join(recorded, entry, *join, told)) {
      recorded.remarks.insert(recorded.remarks.begin(), fmt::format("{}{}?", *little, undo));
    }
    const auto slip = slip_of(recorded, *join);
    if (!slip) continue;
    recorded.remarks.insert(
        recorded.remarks.begin(),
        fmt::format("by the record ball {} held only {}: is {} {} a slip{}?", printable(slip->ball, 60),
                    amount(slip->held, told), amount(slip->trim, told), slip->where, undo));
  }
}

}  // namespace ballchange
