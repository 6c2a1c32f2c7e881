// What must hold for every glue-up, whatever the solver does.
#include <algorithm>

#include <doctest/doctest.h>

#include "tests/schedules/random_jobs.h"
#include "tests/schedules/rules.h"

using namespace planner;

namespace {

constexpr tests::RandomJobSize kSize{.units = 7, .joints = 10, .people = 2};
constexpr unsigned kJobs = 500;

}  // namespace

TEST_SUITE("tests/schedules") {
  TEST_CASE("another pair of hands never costs slack") {
    for (unsigned number = 1; number <= kJobs; ++number) {
      CAPTURE(number);
      order::ScheduleProblem problem = tests::random_job(number, kSize);
      const order::Schedule before = solve_schedule(problem);
      ++problem.people;
      const order::Schedule after = solve_schedule(problem);
      if (before.status == plan::Proof::proven && after.status == plan::Proof::proven) {
        CHECK(after.slack_s >= before.slack_s);
      }
      CHECK((before.status == plan::Proof::impossible) ==
            (after.status == plan::Proof::impossible));
    }
  }

  TEST_CASE("a glue that stays open longer never costs slack") {
    for (unsigned number = 1; number <= kJobs; ++number) {
      CAPTURE(number);
      order::ScheduleProblem problem = tests::random_job(number, kSize);
      const order::Schedule before = solve_schedule(problem);
      for (order::JointTime& joint : problem.joints) {
        joint.open_s += 17;
      }
      const order::Schedule open = solve_schedule(problem);
      const bool shared = std::ranges::any_of(
          problem.joints, [](const order::JointTime& joint) { return joint.closed_s > 0; });
      for (order::JointTime& joint : problem.joints) {
        joint.total_s += 17;
        joint.closed_s += joint.closed_s > 0 ? 17 : 0;
      }
      const order::Schedule both = solve_schedule(problem);
      if (before.status == plan::Proof::proven && open.status == plan::Proof::proven) {
        CHECK(open.slack_s >= before.slack_s);
        // A shared budget that is spent before the joint is closed is so by more, the more it was.
        CHECK((both.slack_s >= open.slack_s || (shared && open.slack_s < 0)));
      }
    }
  }

  TEST_CASE(
      "counting slack in quarter minutes gives the order up to one quarter and keeps every rule") {
    for (unsigned number = 1; number <= kJobs; ++number) {
      CAPTURE(number);
      order::ScheduleProblem problem = tests::random_job(number, kSize);
      const order::Schedule exact = solve_schedule(problem);
      problem.step_s = 15;
      problem.ties = order::Ties::file_order_then_length;
      const order::Schedule s = solve_schedule(problem);
      if (exact.status != plan::Proof::proven || exact.clocks.empty()) {
        continue;
      }
      CHECK(s.status == plan::Proof::proven);
      CHECK(s.slack_s <= exact.slack_s);
      CHECK(s.slack_s > exact.slack_s - 15);
      for (const std::string& rule : tests::broken_rules(problem, s)) {
        FAIL_CHECK(rule);
      }
    }
  }

  TEST_CASE("a glue that must stand before it is pressed costs slack at most, and stands") {
    int waited = 0;
    for (unsigned number = 1; number <= kJobs; ++number) {
      CAPTURE(number);
      order::ScheduleProblem problem = tests::random_job(number, kSize);
      const order::Schedule free = solve_schedule(problem);
      for (order::JointTime& joint : problem.joints) {
        joint.wait_s = static_cast<int>(number) % 4 * 60;
      }
      const order::Schedule s = solve_schedule(problem);
      REQUIRE((s.status == plan::Proof::impossible) == (free.status == plan::Proof::impossible));
      if (s.status != plan::Proof::proven) {
        continue;
      }
      CHECK(s.slack_s <= free.slack_s);
      waited += s.slack_s < free.slack_s ? 1 : 0;
      for (const std::string& rule : tests::broken_rules(problem, s)) {
        FAIL_CHECK(rule);
      }
    }
    CHECK(waited > 20);
  }

  TEST_CASE("joins given in advance are kept and cost slack at most") {
    for (unsigned number = 1; number <= 200; ++number) {
      CAPTURE(number);
      order::ScheduleProblem problem = tests::random_job(number, kSize);
      const order::Schedule free = solve_schedule(problem);
      problem.ties = order::Ties::file_order_then_length;
      const order::Schedule ordered = solve_schedule(problem);
      if (free.status != plan::Proof::proven || ordered.status != plan::Proof::proven) {
        continue;
      }
      for (const order::PlannedJoin& join : ordered.joins) {
        problem.given_joins.emplace_back(join.moving, join.staying);
      }
      const order::Schedule given = solve_schedule(problem);
      CHECK(given.status == plan::Proof::proven);
      CHECK(given.slack_s == free.slack_s);
      for (std::size_t m = 0; m < given.joins.size(); ++m) {
        CHECK((given.joins[m].moving | given.joins[m].staying) ==
              (ordered.joins[m].moving | ordered.joins[m].staying));
      }
    }
  }
}
