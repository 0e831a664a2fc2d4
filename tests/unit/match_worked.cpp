#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "slow/slow_match.hpp"
#include "slow/worked.hpp"

// Worked posteriors by an independent implementation of the model (checks/placed_readings.jsonl): probability within
// 0.01, place within 0.1 cm, and nothing else above 1 %.
namespace ballchange::slow {
namespace {

void compare(const WorkedReading& row, const std::vector<Candidate>& found) {
  CAPTURE(row.what);
  CAPTURE(row.text);
  const Repeat& repeat = row.yarn.repeat;
  for (const WorkedCandidate& wanted : row.candidates) {
    CAPTURE(wanted.place);
    const auto match = std::find_if(found.begin(), found.end(), [&](const Candidate& c) {
      return c.direction == wanted.direction &&
             std::abs(nearest(c.place - Length::cm(wanted.place), repeat.total()).cm()) <= 0.1;
    });
    REQUIRE(match != found.end());
    CHECK(std::abs(match->probability - wanted.probability) <= 0.01);
    CHECK(repeat.name_of(repeat.spot(match->place).section) == wanted.colour);
  }
  const auto above = std::count_if(found.begin(), found.end(), [](const Candidate& c) { return c.probability > 0.02; });
  CHECK(above <= static_cast<std::ptrdiff_t>(row.candidates.size()));
}

TEST_CASE("the worked posteriors are reproduced") {
  const std::vector<WorkedReading> rows = worked_readings();
  CHECK(rows.size() == 24);
  for (const WorkedReading& row : rows) {
    Matcher matcher(row.yarn);
    compare(row, matcher.match(row.reading, {}).candidates);
  }
}

TEST_CASE("the slow matcher reproduces them too, so it is a fair judge") {
  for (const WorkedReading& row : worked_readings()) compare(row, slow_match(row.yarn, row.reading, {}).candidates);
}

}  // namespace
}  // namespace ballchange::slow
