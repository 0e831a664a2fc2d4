#include <doctest/doctest.h>

#include "ledger/worked.hpp"

using namespace ballchange;

TEST_CASE("a row is done with its last stitch, or where no stitch was told") {
  struct Row {
    WorkPlace at;
    bool done;
    int rows;
  };
  Fabric fabric;
  fabric.stitches = 50;
  for (const Row& row : {Row{{12, 50}, true, 12}, {{12, 49}, false, 11}, {{12, {}}, true, 12}, {{1, 0}, false, 0}}) {
    CHECK(row_is_done(row.at, fabric) == row.done);
    CHECK(rows_done(row.at, fabric) == row.rows);
  }
  CHECK(rows_done(std::nullopt, fabric) == 0);
  fabric.stitches.reset();  // how many there are isn't known
  CHECK(rows_done(WorkPlace{12, 50}, fabric) == 11);
  CHECK(rows_done(WorkPlace{12, {}}, fabric) == 12);
}
