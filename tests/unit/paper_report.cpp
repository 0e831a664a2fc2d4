#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "ledger_log.hpp"
#include "paper/report_tables.hpp"

using namespace ballchange;

TEST_CASE("a report says when all rows planned are worked, and how many more") {
  const auto said = [](const std::string& row) {
    const std::vector<std::string> log{"ball, ball: A", "begin, ball: A", row};
    return all_worked(project_of(log), fold_of(log));
  };
  CHECK(said("row, row: 99").empty());
  CHECK(said("row, row: 100, stitch: 49").empty());
  CHECK(said("row, row: 100, stitch: 50") == "All 100 rows planned are worked.");
  CHECK(said("row, row: 100") == "All 100 rows planned are worked.");
  CHECK(said("row, row: 101, stitch: 20") == "All 100 rows planned are worked.");
  CHECK(said("row, row: 101") == "All 100 rows planned are worked, and 1 row more.");
  CHECK(said("row, row: 110") == "All 100 rows planned are worked, and 10 rows more.");
}
