#include "planner/tables/csv.h"

#include <stdexcept>

#include <doctest/doctest.h>

using namespace planner;
using namespace planner::tables;

TEST_SUITE("planner/tables/csv") {
  TEST_CASE("a quoted cell keeps its commas, quotes and line breaks") {
    const auto rows = read_csv("id,name,n\na,\"Maple, \"\"hard\"\"\",1.5\r\nb,\"two\nlines\",\n");
    REQUIRE(rows.size() == 2);
    CHECK(rows[0].text("name") == "Maple, \"hard\"");
    CHECK(rows[0].number("n") == 1.5);
    CHECK(rows[1].text("name") == "two\nlines");
    CHECK_FALSE(rows[1].maybe("n").has_value());
  }

  TEST_CASE("a last line without its line break is a row too") {
    CHECK(read_csv("id,n\na,1\nb,2").size() == 2);
  }

  TEST_CASE("a source is read as its mark and the document it names") {
    const auto rows = read_csv("id,source\na,from memory: GTR-190 Table 5-1\nb,\nc,hearsay\n");
    CHECK(rows[0].source("source").mark == tables::Mark::from_memory);
    CHECK(to_text(rows[0].source("source")) == "from memory: GTR-190 Table 5-1");
    CHECK(rows[1].source("source").text.empty());
    CHECK_THROWS_AS(rows[2].source("source"), std::logic_error);
  }

  TEST_CASE("a row that is short of a cell, or a cell that is no number, is refused") {
    CHECK_THROWS_AS(read_csv("id,n\na\n"), std::logic_error);
    CHECK_THROWS_AS(read_csv("id,n\na,1x\n")[0].number("n"), std::logic_error);
    CHECK_THROWS_AS(read_csv("id,n\na,1\n")[0].number("m"), std::logic_error);
  }
}
