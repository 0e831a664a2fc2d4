#pragma once
#include <doctest/doctest.h>

#include <fstream>
#include <sstream>
#include <string>
#include <vector>

// Published values as tables (tests/checks, sources in SOURCES.md there).
namespace ballchange {

// The cells of tests/checks/NAME, the line of captions left out.
inline std::vector<std::vector<std::string>> rows_of(const std::string& name) {
  std::ifstream file(std::string(BALLCHANGE_TESTS) + "/checks/" + name);
  REQUIRE_MESSAGE(file.is_open(), name);
  std::vector<std::vector<std::string>> rows;
  std::string line;
  std::getline(file, line);
  while (std::getline(file, line)) {
    std::vector<std::string> row;
    std::istringstream cells(line);
    for (std::string cell; std::getline(cells, cell, ',');) row.push_back(cell);
    rows.push_back(row);
  }
  return rows;
}

}  // namespace ballchange
