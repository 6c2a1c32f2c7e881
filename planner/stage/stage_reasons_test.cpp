#include "planner/stage/stage_reasons.h"

#include <doctest/doctest.h>

namespace planner::stage {

TEST_SUITE("planner/stage_reasons") {
  TEST_CASE("of what is locked the pairs are told that have two ways apart at most, each once") {
    order::ScheduleProblem problem;
    order::AssemblyProblem& assembly = problem.assembly;
    assembly.units = 3;
    for (int axis = 0; axis < 2; ++axis) {
      const geometry::Direction& along = geometry::kAxis[static_cast<std::size_t>(axis)];
      assembly.removals.push_back({along, false, 2 * axis + 1});
      assembly.removals.push_back({-along, false, 2 * axis});
    }
    assembly.touch.assign(9, true);
    assembly.leaves.assign(4 * 9, order::kRefused);
    const auto let = [&](int d, int leaves, int stays) { assembly.leaves[static_cast<std::size_t>((d * 3 + leaves) * 3 + stays)] = 0; };
    for (const int d : {0, 1}) {
      let(d, 1, 0);
    }
    for (const int d : {0, 1, 2}) {
      let(d, 2, 0);
    }
    order::Schedule schedule;
    schedule.no_order = order::NoOrder::locked;
    schedule.locked = {0, 1, 2};
    const auto reason = impossible_reason(problem, schedule, {{{0}, {1}, {2}}, {}});
    const auto* locked = std::get_if<plan::Locked>(&reason);
    REQUIRE(locked != nullptr);
    CHECK(locked->parts == std::vector<work::PartId>{0, 1, 2});
    REQUIRE(locked->pairs.size() == 2);
    CHECK(locked->pairs[0].leaves == std::vector<work::PartId>{1});
    CHECK(locked->pairs[0].ways.size() == 2);
    CHECK(locked->pairs[1].stays == std::vector<work::PartId>{1});
    CHECK(locked->pairs[1].ways.empty());
  }
}

}  // namespace planner::stage
