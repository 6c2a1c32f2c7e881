#include "planner/tables/version.h"

#include <doctest/doctest.h>

using namespace planner;
using namespace planner::tables;

TEST_SUITE("planner/tables/version") {
  // Outside, definition: CRC-32/ISO-HDLC, its check value
  TEST_CASE("the checksum is the published one") {
    CHECK(tables::crc32_of("123456789") == 0xCBF43926);  // the check value of CRC-32/ISO-HDLC
    CHECK(tables::crc32_of("") == 0);
  }

  TEST_CASE("every table has its rows and its checksum") {
    for (const tables::TableVersion& table : tables::table_versions()) {
      CAPTURE(table.name);
      CHECK(table.rows > 0);
      CHECK(table.crc32 != 0);
    }
  }
}
