

#include <doctest/doctest.h>

#include "tests/schedules/instances.h"
#include "tests/schedules/rules.h"

using namespace planner;

TEST_SUITE("tests/schedules") {
  // Optima of Gecode through MiniZinc (tests/reference/schedule.mzn).
  TEST_CASE("each solved glue-up gets the reference solver's slack and makespan, or better") {
    for (const tests::SolvedInstance& solved : tests::solved_instances()) {
      CAPTURE(solved.name);
      CAPTURE(solved.people);
      const Schedule s = solve_schedule(solved.problem);
      CHECK(s.status == Proof::proven);
      CHECK(s.ties_settled);
      for (const std::string& rule : tests::broken_rules(solved.problem, s)) {
        FAIL_CHECK(rule);
      }
      if (solved.proven) {
        CHECK(s.slack_s == solved.slack_s);
        CHECK(s.makespan_s == solved.makespan_s);
      } else {
        CHECK(s.slack_s >= solved.slack_s);
        CHECK((s.slack_s > solved.slack_s || s.makespan_s <= solved.makespan_s));
      }
    }
  }
}
