#include "planner/clamps/count/fewest_clamps_search.h"

#include <algorithm>

#include <doctest/doctest.h>

#include "planner/pressure/solved_line_test.h"

namespace planner::clamps::count {
namespace {

constexpr SearchEffort kPatient{1e12};

}  // namespace

TEST_SUITE("planner/fewest_clamps_search") {
  // Outside, solver: GLPK, CBC (tests/reference/placements.json)
  TEST_CASE("a 400 mm joint wants three clamps, as three solvers found") {
    const PlacementQuestion q =
        question_of(pressure::kShort, pressure::kShort.least_MPa, pressure::kShort.most_MPa);
    CHECK(search_intervals(q, pressure::kShort.clamps - 1, kPatient).outcome ==
          SearchOutcome::none);
    CHECK(search_intervals(q, pressure::kShort.clamps, kPatient).outcome == SearchOutcome::found);
  }
  // Outside, solver: GLPK (tests/reference/placements.json)
  TEST_CASE("a 1200 mm joint wants five, and four are ruled out") {
    const PlacementQuestion q =
        question_of(pressure::kMiddle, pressure::kMiddle.least_MPa, pressure::kMiddle.most_MPa);
    CHECK(search_intervals(q, pressure::kMiddle.clamps - 1, kPatient).outcome ==
          SearchOutcome::none);
    CHECK(search_intervals(q, pressure::kMiddle.clamps, kPatient).outcome == SearchOutcome::found);
  }
  // Outside, solver: GLPK, CBC (tests/reference/placements.json)
  TEST_CASE("seven are ruled out on an 1800 mm joint, for which eight were found") {
    const PlacementQuestion q =
        question_of(pressure::kLong, pressure::kLong.least_MPa, pressure::kLong.most_MPa);
    CHECK(search_intervals(q, pressure::kLong.clamps - 1, kPatient).outcome == SearchOutcome::none);
    // The reference's own eight, every second place from 60 mm: 60, 300, 540 ... with pipes.
    std::vector<std::size_t> eight;
    for (std::size_t i = 0; i < 8; ++i) {
      eight.push_back(2 * 4 * i);
    }
    CHECK(try_spots(q, eight).has_value());
  }
  // Outside, solver: GLPK, CBC (tests/reference/placements.json): the least greatest deviation
  TEST_CASE("the evenest placements are as even as the solvers' and no evener") {
    for (const pressure::SolvedLine& line : {pressure::kShort, pressure::kMiddle}) {
      for (const double slack : {0.01, -0.01}) {  // its springs stand on other nodes
        const double d = line.deviation_MPa + slack;
        const PlacementQuestion q = question_of(line, std::max(line.least_MPa, line.target_MPa - d),
                                                std::min(line.most_MPa, line.target_MPa + d));
        CHECK(search_intervals(q, line.clamps, kPatient).outcome ==
              (slack > 0 ? SearchOutcome::found : SearchOutcome::none));
      }
    }
  }
  TEST_CASE("out of effort is not a proof") {
    const PlacementQuestion q =
        question_of(pressure::kMiddle, pressure::kMiddle.least_MPa, pressure::kMiddle.most_MPa);
    CHECK(search_intervals(q, pressure::kMiddle.clamps - 1, {1000}).outcome ==
          SearchOutcome::out_of_effort);
  }
}

}  // namespace planner::clamps::count
