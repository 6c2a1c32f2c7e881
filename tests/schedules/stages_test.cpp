// The fewest stages against trying every sequence of groups.
#include "planner/order/stages.h"

#include <algorithm>

#include <doctest/doctest.h>

#include "planner/order/merged_boards.h"
#include "tests/schedules/random_jobs.h"
#include "tests/schedules/rules.h"

using namespace planner;

namespace {

order::StageProblem random_stages(unsigned number) {
  order::StageProblem p;
  p.whole = tests::random_job(number, {.units = 5, .joints = 7, .people = 2});
  for (order::JointTime& joint : p.whole.joints) {
    joint.open_s = joint.open_s * 2 / 3;
    joint.total_s = joint.total_s / 2;
    joint.closed_s = 0;
    joint.group = -1;
  }
  p.whole.groups.clear();
  p.whole.rings.clear();
  const order::RingFinish finish{0, number % 2 == 0 ? 45 : 0};
  p.clamps = [finish](std::span<const int> joints) {
    order::StageClamps clamps;
    if (!joints.empty()) {
      clamps.groups = {{static_cast<int>(joints.size()), 15, 10, 0, {}, {}}};
      clamps.rings = {finish};
    }
    clamps.group_of.assign(joints.size(), 0);
    return clamps;
  };
  return p;
}

// Tries every set of boards, touching or not, as the next stage.
bool can_do(const order::StageProblem& problem, const std::vector<base::UnitSet>& boards,
            int stages) {
  const auto fits = [&](const std::vector<base::UnitSet>& some, bool last) {
    const order::StageClamps clamps = problem.clamps(joints_between(problem.whole.assembly, some));
    return fits_in_time(merged_boards(problem, some, clamps, last).problem) == order::Fits::yes;
  };
  if (stages == 1) {
    return fits(boards, true);
  }
  for (unsigned chosen = 0; chosen < 1u << boards.size(); ++chosen) {
    std::vector<base::UnitSet> some, then;
    base::UnitSet all;
    for (std::size_t b = 0; b < boards.size(); ++b) {
      if ((chosen >> b & 1u) != 0) {
        some.push_back(boards[b]);
        all = all | boards[b];
      } else {
        then.push_back(boards[b]);
      }
    }
    const int lid = problem.whole.closing_unit;
    if (some.size() < 2 || then.empty() || (lid >= 0 && all.contains(lid)) || !fits(some, false)) {
      continue;
    }
    then.push_back(all);
    std::ranges::sort(then, {}, &base::UnitSet::lowest);
    if (can_do(problem, then, stages - 1)) {
      return true;
    }
  }
  return false;
}

}  // namespace

TEST_SUITE("tests/schedules") {
  TEST_CASE("no sequence of groups tried by hand needs fewer stages") {
    int staged = 0;
    for (unsigned number = 1; number <= 200; ++number) {
      CAPTURE(number);
      const order::StageProblem problem = random_stages(number);
      const order::StageOrders orders = solve_stages(problem);
      std::vector<base::UnitSet> boards;
      for (int u = 0; u < problem.whole.assembly.units; ++u) {
        boards.push_back(base::UnitSet::of(u));
      }
      int fewest = 0;
      for (int k = 1; k < std::max(2, problem.whole.assembly.units) && fewest == 0; ++k) {
        fewest = can_do(problem, boards, k) ? k : 0;
      }
      REQUIRE(orders.in_time() == (fewest > 0));
      if (fewest == 0) {
        continue;
      }
      CHECK(orders.status == plan::Proof::proven);
      CHECK(static_cast<int>(orders.stages.size()) == fewest);
      staged += fewest > 1 ? 1 : 0;
      for (std::size_t i = 0; i < orders.stages.size(); ++i) {
        CHECK((orders.stages[i].schedule.slack_s >= 0 || orders.stages[i].joints.empty()));
      }
    }
    CHECK(staged > 5);  // the jobs are not all trivial
  }
}
