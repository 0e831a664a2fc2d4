#pragma once
#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

// Points in time as ISO 8601 writes them (the profile of RFC 3339): "2026-03-02T19:20:00Z".
namespace ballchange {

struct Moment {
  std::int64_t seconds = 0;  // since 1970-01-01T00:00:00Z, without leap seconds
  friend auto operator<=>(const Moment&, const Moment&) = default;
};

// Date and time to the minute or second, with a Z or an offset: "2026-03-02T20:20+01:00". A fraction of a second is
// read and dropped. Throws Problem(content) that starts with `what`, and outside the years 1 to 9999 in UTC.
[[nodiscard]] Moment parse_moment(std::string_view text, std::string_view what);
// A day alone, "2026-03-02": when it begins in UTC; nothing for all else.
[[nodiscard]] std::optional<Moment> parse_day(std::string_view text);
// In UTC, to the second. The year must be one parse_moment gives: asserted.
[[nodiscard]] std::string format_moment(Moment moment);

}  // namespace ballchange
