#include "ledger/moment.hpp"

#include <fmt/core.h>

#include <cassert>
#include <optional>

#include "base/problem.hpp"
#include "base/text.hpp"

namespace ballchange {
namespace {

constexpr std::int64_t kDay = 86'400;
constexpr std::int64_t kFirst = -62'135'596'800;  // 0001-01-01T00:00:00Z
constexpr std::int64_t kLast = 253'402'300'799;   // 9999-12-31T23:59:59Z

bool is_leap(int year) { return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0; }

int days_in(int year, int month) {
  if (month == 2) return is_leap(year) ? 29 : 28;
  return month == 4 || month == 6 || month == 9 || month == 11 ? 30 : 31;
}

// Days from 1970-01-01, proleptic Gregorian; years counted from March, so that the leap day comes last.
std::int64_t days_from_date(int year, int month, int day) {
  const std::int64_t y = month <= 2 ? year - 1 : year;
  const std::int64_t m = (month + 9) % 12;
  return 365 * y + y / 4 - y / 100 + y / 400 + (153 * m + 2) / 5 + day - 1 - 719'468;
}

bool in_calendar(int year, int month, int day) {
  return year >= 1 && month >= 1 && month <= 12 && day >= 1 && day <= days_in(year, month);
}

struct Date {
  std::int64_t year, month, day;
};

Date date_from_days(std::int64_t days) {
  const std::int64_t z = days + 719'468;
  const std::int64_t era = z / 146'097;
  const std::int64_t in_era = z % 146'097;
  const std::int64_t year = (in_era - in_era / 1460 + in_era / 36'524 - in_era / 146'096) / 365;
  const std::int64_t in_year = in_era - (365 * year + year / 4 - year / 100);
  const std::int64_t m = (5 * in_year + 2) / 153;
  const std::int64_t month = m < 10 ? m + 3 : m - 9;
  return {year + 400 * era + (month <= 2 ? 1 : 0), month, in_year - (153 * m + 2) / 5 + 1};
}

class Cursor {
 public:
  explicit Cursor(std::string_view text) : rest_(text) {}

  bool take(std::string_view any) {
    if (rest_.empty() || any.find(rest_.front()) == std::string_view::npos) return false;
    rest_.remove_prefix(1);
    return true;
  }
  // Exactly so many digits; a fault is remembered.
  int number(std::size_t digits) {
    int value = 0;
    for (; digits > 0; --digits) {
      if (rest_.empty() || rest_.front() < '0' || rest_.front() > '9') {
        good_ = false;
        return 0;
      }
      value = 10 * value + (rest_.front() - '0');
      rest_.remove_prefix(1);
    }
    return value;
  }
  void skip_digits() {
    do {
      number(1);
    } while (good_ && !rest_.empty() && rest_.front() >= '0' && rest_.front() <= '9');
  }
  void want(std::string_view any) { good_ = take(any) && good_; }
  [[nodiscard]] bool good() const { return good_; }
  [[nodiscard]] bool done() const { return good_ && rest_.empty(); }

 private:
  std::string_view rest_;
  bool good_ = true;
};

struct Day {
  int year = 0, month = 0, day = 0;  // of a calendar or not
};
Day take_date(Cursor& cursor) {
  Day date;
  date.year = cursor.number(4);
  cursor.want("-");
  date.month = cursor.number(2);
  cursor.want("-");
  date.day = cursor.number(2);
  return date;
}

// Minutes east of UTC; nothing where no zone stands.
std::optional<int> take_zone(Cursor& cursor) {
  if (cursor.take("Zz")) return 0;
  const bool west = cursor.take("-");
  if (!west && !cursor.take("+")) return std::nullopt;
  const int hours = cursor.number(2);
  int minutes = 0;
  if (cursor.take(":") || !cursor.done()) minutes = cursor.number(2);
  // No place on earth is further from UTC than a day, and 24:00 is no offset.
  if (hours > 23 || minutes > 59) return std::nullopt;
  return (west ? -1 : 1) * (60 * hours + minutes);
}

}  // namespace

Moment parse_moment(std::string_view text, std::string_view what) {
  const auto problem = [&](std::string_view why) {
    return Problem(Fault::content, fmt::format("{}: '{}' {}, like 2026-03-02T19:20:00Z or 2026-03-02T20:20+01:00", what,
                                               printable(text, 40), why));
  };
  Cursor cursor(trim(text));
  const auto [year, month, day] = take_date(cursor);
  cursor.want("Tt ");
  const int hour = cursor.number(2);
  cursor.want(":");
  const int minute = cursor.number(2);
  int second = 0;
  if (cursor.take(":")) {
    second = cursor.number(2);
    if (cursor.take(".,")) cursor.skip_digits();
  }
  if (!cursor.good()) throw problem("is no date and time; write both");
  if (cursor.done()) throw problem("has no time zone; add one");
  const std::optional<int> zone = take_zone(cursor);
  if (!zone || !cursor.done()) throw problem("does not end in a time zone; write Z or an offset");
  if (!in_calendar(year, month, day)) {
    throw problem("is no day of the calendar; write one that is");
  }
  if (hour > 23 || minute > 59 || second > 59) throw problem("is no time of day; write 00:00:00 to 23:59:59");
  const std::int64_t minutes = std::int64_t{hour} * 60 + minute - *zone;
  const Moment moment{days_from_date(year, month, day) * kDay + minutes * 60 + second};
  if (moment.seconds < kFirst || moment.seconds > kLast) throw problem("is out of range; write a year from 1 to 9999");
  return moment;
}

std::optional<Moment> parse_day(std::string_view text) {
  Cursor cursor(trim(text));
  const auto [year, month, day] = take_date(cursor);
  if (!cursor.done() || !in_calendar(year, month, day)) return std::nullopt;
  return Moment{days_from_date(year, month, day) * kDay};
}

std::string format_moment(Moment moment) {
  assert(moment.seconds >= kFirst && moment.seconds <= kLast);
  const std::int64_t since = moment.seconds - kFirst;
  const Date date = date_from_days(since / kDay + kFirst / kDay);
  const std::int64_t second = since % kDay;
  return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}Z", date.year, date.month, date.day, second / 3600,
                     second / 60 % 60, second % 60);
}

}  // namespace ballchange
