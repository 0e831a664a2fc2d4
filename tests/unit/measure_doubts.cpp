#include "measure/doubts.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <utility>
#include <vector>

namespace ballchange::measuring {
namespace {

struct Other {
  std::size_t section, entry;  // of strand 0
  ColourId written;
};

// Four sections a good metre round, colours 0 to 3 but for those of `named`; begun at section `turn`.
Weighed circle_of(const std::vector<std::pair<std::size_t, ColourId>>& named, const std::vector<Other>& slips,
                  double evidence, std::size_t turn = 0) {
  Weighed one;
  one.circle = {{0, 40, 2}, {1, 11, 1}, {2, 30, 2}, {3, 20, 1}};
  for (const auto& [section, colour] : named) one.circle[section].colour = colour;
  for (const Other& slip : slips) {
    one.slips.push_back({0, slip.entry, (slip.section + 4 - turn) % 4, slip.written, one.circle[slip.section].length});
  }
  one.evidence = evidence;
  std::rotate(one.circle.begin(), one.circle.begin() + static_cast<std::ptrdiff_t>(turn), one.circle.end());
  return one;
}

// Section 1 is 1 or 4, section 3 is 3 or 5; entries 1 and 3 came first.
TEST_CASE("a name that was open before another circle was put first stays open") {
  for (const std::size_t turn : {std::size_t{0}, std::size_t{1}, std::size_t{3}}) {
    CAPTURE(turn);
    std::vector<Weighed> weighed{
        circle_of({{1, 4}, {3, 5}}, {{1, 1, 1}, {3, 3, 3}}, 0),
        circle_of({{1, 1}, {3, 5}}, {{1, 5, 4}, {3, 3, 3}}, -0.1),
        circle_of({{1, 1}, {3, 3}}, {{1, 5, 4}, {3, 7, 5}}, -0.2, turn),
    };
    NamesOpen open = merge_names(weighed, 0, 0.95);
    REQUIRE(weighed.size() == 1);
    CHECK(weighed.front().circle[(4 - turn) % 4].colour == 0);
    std::vector<std::size_t> expected{(1 + 4 - turn) % 4, (3 + 4 - turn) % 4};
    std::sort(expected.begin(), expected.end());
    std::sort(open.sections.begin(), open.sections.end());
    open.sections.erase(std::unique(open.sections.begin(), open.sections.end()), open.sections.end());
    CHECK(open.sections == expected);
    Learnt learnt;
    learnt.verdict = LearnVerdict::found;
    tell_doubts(learnt, weighed.front(), open, {MatchOptions{}}, 0);
    CHECK(learnt.verdict == LearnVerdict::misnamed);
    CHECK(learnt.taken.size() == 2);
  }
}

TEST_CASE("names that are hardly likely are not open") {
  std::vector<Weighed> weighed{circle_of({}, {{1, 5, 4}}, 0), circle_of({{1, 4}}, {{1, 1, 1}}, -3.5)};
  CHECK(merge_names(weighed, 0, 0.95).sections.empty());
  CHECK(weighed.size() == 1);
}

}  // namespace
}  // namespace ballchange::measuring
