#include "planner/files/mesh_units.h"

#include <string>
#include <vector>

#include <doctest/doctest.h>

namespace planner::files {
namespace {

std::string told(const std::vector<geometry::Direction>& sizes) {
  const UnitGuess guess = guessed_unit(sizes);
  return guess.is_clear ? guess.likely->name
                        : std::string(guess.likely->name) + " or " + guess.other->name;
}

TEST_SUITE("planner/mesh_units") {
  TEST_CASE("boards of any usual size tell their unit") {
    CHECK(told({{500, 200, 18}, {250, 200, 18}}) == "mm");
    CHECK(told({{20, 8, 0.75}, {10, 8, 0.75}}) == "in");
    CHECK(told({{0.5, 0.2, 0.018}, {0.25, 0.2, 0.018}}) == "m");
    CHECK(told({{0.7, 0.05, 0.02}}) == "m");
    // A table, a jewelry box, a timber frame.
    CHECK(told({{1800, 95, 25}, {60, 700, 60}}) == "mm");
    CHECK(told({{72, 4, 1}, {2.5, 28, 2.5}}) == "in");
    CHECK(told({{180, 90, 8}}) == "mm");
    CHECK(told({{7, 3.5, 0.3125}}) == "in");
    CHECK(told({{2400, 120, 90}}) == "mm");
    CHECK(told({{2.4, 0.12, 0.09}}) == "m");
  }

  TEST_CASE("one thin panel among boards changes nothing") {
    CHECK(told({{200, 80, 8}, {200, 80, 8}, {200, 80, 8}, {200, 80, 1}}) == "mm");
  }

  TEST_CASE("what may be a small box in millimeters or timber in inches is asked for") {
    CHECK(told({{150, 80, 5}}) == "mm or in");
    CHECK(told({{120, 4, 4}}) == "in or mm");
  }
}

}  // namespace
}  // namespace planner::files
