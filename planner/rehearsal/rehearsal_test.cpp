#include "planner/rehearsal/rehearsal.h"

#include <doctest/doctest.h>

using namespace planner;
using namespace planner::rehearsal;

TEST_SUITE("planner/rehearsal") {
  TEST_CASE("a log line is read as it was written") {
    const rehearsal::LogLine line{7, 60, 95.5, 61.2, 99, "lost\tthe mallet\nagain"};
    const std::string text = to_text(line);
    CHECK(text == "7\t60\t95.5\t61.2\t99\tlost the mallet again\n");
    const rehearsal::LogReading read = rehearsal::read_log("log", text);
    REQUIRE(read.lines.size() == 1);
    CHECK(read.lines[0].n == 7);
    CHECK(read.lines[0].end_s == 99);
    CHECK(read.lines[0].note == "lost the mallet again");
  }

  TEST_CASE("a line that a kill cut off is left out, and the last of two lines counts") {
    const rehearsal::LogReading read =
        rehearsal::read_log("log", "# for people\n1\t0\t5\t0\t6\t\n1\t0\t5\t0\t7\t\n2\t5\t1");
    CHECK(read.diagnostics.empty());
    REQUIRE(read.lines.size() == 1);
    CHECK(read.lines[0].end_s == 7);
  }

  TEST_CASE(
      "the bench sheet's log is read: no line end behind the last line, no end of the last step") {
    const rehearsal::LogReading read =
        rehearsal::read_log("log", "1\t0\t5\t0\t6\t\n2\t5\t10\t6\t\tstuck");
    CHECK(read.diagnostics.empty());
    REQUIRE(read.lines.size() == 2);
    CHECK_FALSE(read.lines[1].end_s.has_value());
    CHECK(read.lines[1].note == "stuck");
  }

  TEST_CASE("a line that is none is told by its number") {
    const rehearsal::LogReading read = rehearsal::read_log("log", "1\t0\t5\t0\t6\t\nhello\n");
    REQUIRE(read.diagnostics.size() == 1);
    CHECK(read.diagnostics[0].place.line == 2);
    CHECK(read.diagnostics[0].place.column == 1);
    CHECK(has_errors(
        rehearsal::read_log("log", "1\t0\t5\t9\t6\t\n").diagnostics));  // ends before it starts
    CHECK(has_errors(rehearsal::read_log("log", "1\t0\t5\t0\tnan\t\n").diagnostics));
  }
}
