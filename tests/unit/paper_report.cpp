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

TEST_CASE("a report doesn't forget the edging when all rows are worked") {
  const std::vector<std::string> log{"ball, ball: A", "begin, ball: A", "row, row: 100"};
  Project project = project_of(log);
  project.piece.edging = Amount{5, Unit::m};
  CHECK(all_worked(project, fold_of(log)) == "All 100 rows planned are worked; an edging is planned too.");
}

TEST_CASE("a report tells a section's plus-minus as finely as it was written down") {
  Yarn yarn = project_of({}).yarn;
  yarn.repeat = Repeat(
      {{"brick", {}}, {"ecru", {}}, {"pine", {}}},
      {{0, Length::cm(24), Length::cm(1.5)}, {1, Length::cm(6), Length::cm(0.7)}, {2, Length::cm(13), Length::cm(1)}});
  const auto told = [&](Told in) {
    std::vector<std::string> words;
    for (const auto& row : repeat_table(yarn, in).rows) words.push_back(row[2]);
    return words;
  };
  CHECK(told(Told::stitches) == std::vector<std::string>{"1.5 stitches", "0.7 stitches", "1 stitch"});
  CHECK(told(Told::centimetres) == std::vector<std::string>{"1.5 cm", "0.7 cm", "1 cm"});
}
