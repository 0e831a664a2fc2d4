#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "project/balls.hpp"
#include "unit/ledger_log.hpp"

using namespace ballchange;

TEST_CASE("a dye lot is held against the ball in the work, or else against the last one added before") {
  struct Row {
    std::vector<std::string> more;
    const char *ball, *against;  // empty: nothing to tell
  };
  for (const Row& row : {Row{{}, "A", ""},
                         {{}, "B", ""},
                         {{}, "C", "B"},
                         {{}, "D", "C"},
                         {{"begin, ball: A"}, "B", ""},
                         {{"begin, ball: A"}, "C", "A"},
                         {{"begin, ball: C"}, "B", "C"}}) {
    std::vector<std::string> log{"ball, ball: A, dye_lot: '17'", "ball, ball: B, dye_lot: '17'",
                                 "ball, ball: C, dye_lot: '18'", "ball, ball: D, dye_lot: '19'"};
    log.insert(log.end(), row.more.begin(), row.more.end());
    CAPTURE(project_text(log));
    CAPTURE(std::string(row.ball));
    const State state = fold_of(log);
    const auto other = other_lot(state, *state.find_ball(row.ball));
    CHECK((other ? other->work_ball : "") == row.against);
  }
}
