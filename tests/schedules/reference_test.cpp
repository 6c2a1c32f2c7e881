

#include <doctest/doctest.h>

#include "tests/schedules/instances.h"
#include "tests/schedules/rules.h"

using namespace planner;

TEST_SUITE("tests/schedules") {
  // Optima of Gecode through MiniZinc (tests/reference/schedule.mzn).
  // Outside, solver: each of tests/reference/schedules.json: Gecode 150 s long, slack and makespan
  TEST_CASE("each solved glue-up gets the reference solver's slack and makespan, or better") {
    for (const tests::SolvedInstance& solved : tests::solved_instances()) {
      CAPTURE(solved.name);
      CAPTURE(solved.people);
      const order::Schedule s = solve_schedule(solved.problem);
      CHECK(s.status == plan::Proof::proven);
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

  TEST_CASE("a floating panel is in its grooves before the frame closes round it") {
    for (tests::SolvedInstance& solved : tests::solved_instances()) {
      if (solved.name != "door_floating_panel") {
        continue;
      }
      for (const order::Ties ties : {order::Ties::shortest, order::Ties::file_order_then_length}) {
        solved.problem.ties = ties;
        const order::Schedule s = solve_schedule(solved.problem);
        const base::UnitSet panel = base::UnitSet::of(4), stile = base::UnitSet::of(0),
                            other = base::UnitSet::of(1);
        REQUIRE(s.joins.size() == 4);
        const order::PlannedJoin& last = s.joins.back();
        CHECK((last.moving != panel && last.staying != panel));
        // Each rail's tenons run through: only a stile or what hangs on it can come off at the end.
        CHECK((last.moving.covers(stile) || last.moving.covers(other)));
      }
    }
  }
}
