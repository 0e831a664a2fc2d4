#include "fabric/sizes.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cstddef>
#include <string>
#include <vector>

#include "unit/rows.hpp"

// hooks.csv, needles.csv: the Craft Yarn Council's tables (see tests/checks/SOURCES.md).
namespace ballchange {
namespace {

TEST_CASE("hooks and needles are those of the council's tables") {
  for (const Tool tool : {Tool::hook, Tool::needle}) {
    const auto published = rows_of(tool == Tool::hook ? "hooks.csv" : "needles.csv");
    REQUIRE(sizes(tool).size() == published.size());
    for (std::size_t k = 0; k < published.size(); ++k) {
      const ToolSize& size = sizes(tool)[k];
      CAPTURE(published[k][0]);
      CHECK(size.mm == std::stod(published[k][0]));
      CHECK(size.name == (published[k].size() > 1 ? published[k][1] : ""));
      if (size.name.empty()) continue;
      const auto named = size_named(tool, size.name);
      REQUIRE(named);
      const bool among =
          named->mm == size.mm || std::find(named->also.begin(), named->also.end(), size.mm) != named->also.end();
      CHECK(among);
    }
  }
}

TEST_CASE("letters and numbers, the millimetres taken and what else goes by the name") {
  struct Row {
    Tool tool;
    std::string name;
    double mm;
    std::vector<double> also;
  };
  const Row rows[] = {
      {Tool::hook, "E", 3.5, {}},        {Tool::hook, "F", 3.75, {}},        {Tool::hook, "G", 4, {4.25}},
      {Tool::hook, "g/6", 4, {}},        {Tool::hook, "G-6", 4, {}},         {Tool::hook, "7", 4.5, {}},
      {Tool::hook, "K 10.5", 6.5, {}},   {Tool::hook, "K-10½", 6.5, {}},     {Tool::hook, "US H", 5, {}},
      {Tool::hook, "I", 5.5, {5.25}},    {Tool::needle, "US 6", 4, {4.25}},  {Tool::needle, "8", 5, {}},
      {Tool::needle, "10 1/2", 6.5, {}}, {Tool::needle, "3", 3.25, {3.125}}, {Tool::needle, "000", 1.5, {}},
      {Tool::needle, "10", 6, {5.75}},
  };
  for (const Row& row : rows) {
    CAPTURE(row.name);
    const auto named = size_named(row.tool, row.name);
    REQUIRE(named);
    CHECK(named->mm == row.mm);
    CHECK(named->also == row.also);
  }
  for (const std::string word : {"", "G-7", "zz", "99", "US", "--"}) {
    CAPTURE(word);
    CHECK(!size_named(Tool::hook, word));
  }
  CHECK(!size_named(Tool::needle, "G"));
}

}  // namespace
}  // namespace ballchange
