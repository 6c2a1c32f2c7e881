// The solver against its slow twin.
#include "tests/schedules/twin.h"

#include <algorithm>
#include <cstdlib>

#include <doctest/doctest.h>

#include "tests/schedules/every_order.h"
#include "tests/schedules/instances.h"
#include "tests/schedules/random_jobs.h"
#include "tests/schedules/rules.h"

using namespace planner;

namespace {

// tests/run.sh --all asks for more.
unsigned jobs_to_try(unsigned usual) {
  const char* bulk = std::getenv("GLUEUP_TWIN_JOBS");
  return bulk != nullptr ? static_cast<unsigned>(std::atol(bulk)) : usual;
}

void compare(unsigned number, const tests::RandomJobSize& size) {
  CAPTURE(number);
  const order::ScheduleProblem problem = tests::random_job(number, size);
  const tests::TwinAnswer twin = tests::solve_by_trying_all(problem);
  const order::Schedule s = solve_schedule(problem);
  REQUIRE((s.status != plan::Proof::impossible) == twin.slack_s.has_value());
  if (!twin.slack_s) {
    return;
  }
  CHECK(s.status == plan::Proof::proven);
  if (!problem.joints.empty()) {
    CHECK(s.slack_s == *twin.slack_s);
  }
  CHECK(s.makespan_s == twin.makespan_s);
  for (const std::string& rule : tests::broken_rules(problem, s)) {
    FAIL_CHECK(rule);
  }
  order::AssemblyProblem told_apart = problem.assembly;
  for (int u = 0; u < told_apart.units; ++u) {
    told_apart.unit_likeness.push_back(u);
  }
  order::AssemblyGraph graph(told_apart);
  std::set<base::UnitSet> last_joins;
  for (const order::Split& split : graph.splits(graph.whole())) {
    const base::UnitSet lid =
        base::UnitSet::of(problem.closing_unit < 0 ? 0 : problem.closing_unit);
    if (problem.closing_unit < 0 || split.second == lid) {
      last_joins.insert(split.first);
    }
  }
  CHECK(last_joins == twin.last_joins);
}

}  // namespace

TEST_SUITE("tests/schedules") {
  TEST_CASE("random glue-ups alone: no order tried by hand has more slack or is sooner done") {
    for (unsigned number = 1; number <= jobs_to_try(400); ++number) {
      compare(number, {.units = 5, .joints = 4, .people = 1});
    }
  }
  TEST_CASE("random glue-ups with two or three people: no order tried by hand is better") {
    for (unsigned number = 1; number <= jobs_to_try(100); ++number) {
      compare(number + 10000, {.units = 4, .joints = 4, .people = 3});
    }
  }
  TEST_CASE("of every order of the solved glue-ups of up to seven parts none has more slack") {
    for (const tests::SolvedInstance& solved : tests::solved_instances()) {
      if (solved.problem.assembly.units > 7) {
        continue;
      }
      CAPTURE(solved.name);
      CAPTURE(solved.people);
      const tests::EveryOrder all(solved.problem);
      CHECK(solve_schedule(solved.problem).slack_s == all.best_slack_s());
      CHECK(all.orders() > 5);
    }
  }
}
