#include "planner/order/stages.h"

#include <algorithm>

#include <doctest/doctest.h>

using namespace planner;
using namespace planner::order;

namespace {

void free_both(order::AssemblyProblem& a, int d, int i, int j) {
  a.leaves[static_cast<std::size_t>((d * a.units + i) * a.units + j)] = 0;
  const int back = a.removals[static_cast<std::size_t>(d)].opposite;
  a.leaves[static_cast<std::size_t>((back * a.units + j) * a.units + i)] = 0;
}

// Sides 0 and 1, shelves between them in dadoes: each leaves its sides along x only.
order::StageProblem shelved_case(int shelves, int spread_s) {
  order::StageProblem p;
  order::AssemblyProblem& a = p.whole.assembly;
  a.units = 2 + shelves;
  a.removals = {{{1, 0, 0}, false, 1}, {{-1, 0, 0}, false, 0}};
  const auto n = static_cast<std::size_t>(a.units);
  a.leaves.assign(2 * n * n, order::kRefused);
  a.touch.assign(n * n, false);
  free_both(a, 1, 0, 1);
  for (int s = 2; s < a.units; ++s) {
    free_both(a, 1, 0, s);
    free_both(a, 0, 1, s);
    for (int below = 2; below < s; ++below) {
      free_both(a, 0, s, below);
      free_both(a, 1, s, below);
    }
    for (const int side : {0, 1}) {
      a.joints.emplace_back(side, s);
      p.whole.joints.push_back({spread_s, 300, 600, 0, 0, -1});
      a.touch[static_cast<std::size_t>(side * a.units + s)] = true;
      a.touch[static_cast<std::size_t>(s * a.units + side)] = true;
    }
  }
  p.clamps = [](std::span<const int> joints) {
    order::StageClamps clamps;
    clamps.groups = {{static_cast<int>(joints.size()), 30, 10, 0, {}, {}}};
    clamps.rings = {{0, 45}};
    clamps.group_of.assign(joints.size(), 0);
    return clamps;
  };
  return p;
}

}  // namespace

TEST_SUITE("planner/stages") {
  TEST_CASE("a case of three shelves goes together in one go") {
    const order::StageOrders orders = solve_stages(shelved_case(3, 18));
    CHECK(orders.status == plan::Proof::proven);
    CHECK(orders.stages.size() == 1);
    CHECK(orders.slack_s >= 0);
  }

  TEST_CASE("a case of six shelves outlasts the glue and takes two stages") {
    const order::StageProblem problem = shelved_case(6, 18);
    const order::StageOrders orders = solve_stages(problem);
    CHECK(orders.status == plan::Proof::proven);
    REQUIRE(orders.stages.size() == 2);
    CHECK(orders.fewest == 2);
    CHECK(orders.slack_s >= 0);
    const order::StageOrder &first = orders.stages[0], &second = orders.stages[1];
    CHECK(first.joints.size() + second.joints.size() == 12);
    // One board of the second stage is all of the first.
    base::UnitSet glued;
    for (const base::UnitSet& board : first.boards) {
      CHECK(board.count() == 1);
      glued = glued | board;
    }
    CHECK(std::ranges::count(second.boards, glued) == 1);
    // A side with its shelves has no diagonals; the case has.
    const auto checks = [](const order::StageOrder& stage) {
      return std::ranges::count(stage.schedule.steps, plan::StepKind::check,
                                &order::PlannedStep::kind);
    };
    CHECK(checks(first) == 0);
    CHECK(checks(second) == 1);
  }

  TEST_CASE("steps, joins and clocks of a later stage speak of the whole job's joints and parts") {
    const order::StageOrders orders = solve_stages(shelved_case(6, 18));
    REQUIRE(orders.stages.size() == 2);
    for (const order::StageOrder& stage : orders.stages) {
      REQUIRE(stage.schedule.clocks.size() == stage.joints.size());
      std::vector<int> spread, closed;
      for (const order::PlannedStep& step : stage.schedule.steps) {
        if (step.kind == plan::StepKind::spread) {
          spread.push_back(step.joint);
        }
      }
      for (const order::PlannedJoin& join : stage.schedule.joins) {
        closed.insert(closed.end(), join.joints.begin(), join.joints.end());
      }
      std::ranges::sort(spread);
      std::ranges::sort(closed);
      CHECK(spread == stage.joints);
      CHECK(closed == stage.joints);
    }
  }

  TEST_CASE("a side that closes 38 dadoes at once is too much for one pair of hands, and named") {
    const order::StageOrders orders = solve_stages(shelved_case(38, 18));
    CHECK(orders.status == plan::Proof::impossible);
    REQUIRE(orders.unavoidable);
    CHECK(orders.unavoidable->joints.size() == 38);
    // 38 x 18 s to spread and 25 s to join, of 300 s open.
    CHECK(orders.unavoidable->short_by_s == 38 * 18 + 25 - 300);
    CHECK(orders.stages.size() == 1);  // one go, overrunning, to show by how much
  }

  TEST_CASE("a rack of five clamps makes two stages of what the clock would allow in one") {
    order::StageProblem problem = shelved_case(3, 18);
    const order::ClampDemand demand = problem.clamps;
    problem.clamps = [demand](std::span<const int> joints) {
      order::StageClamps clamps = demand(joints);
      clamps.enough = clamps.groups[0].clamps <= 5;
      return clamps;
    };
    const order::StageOrders orders = solve_stages(problem);
    CHECK(orders.stages.size() == 2);
    CHECK(orders.status == plan::Proof::proven);
    problem.clamps = [demand](std::span<const int> joints) {
      order::StageClamps clamps = demand(joints);
      clamps.enough = clamps.groups[0].clamps <= 2;
      return clamps;
    };
    const order::StageOrders none = solve_stages(problem);
    CHECK(none.status == plan::Proof::impossible);
    CHECK(none.rack_short);
  }

  TEST_CASE("a lid that closes the work is never glued before the last stage") {
    order::StageProblem problem = shelved_case(8, 18);
    problem.whole.closing_unit = 1;
    problem.whole.inside_check_s = 45;
    const order::StageOrders orders = solve_stages(problem);
    for (std::size_t i = 0; i + 1 < orders.stages.size(); ++i) {
      CHECK(std::ranges::count(orders.stages[i].boards, base::UnitSet::of(1)) == 0);
    }
  }
}
