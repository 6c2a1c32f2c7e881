// Remedies and reasons on the solved instances and on random glue-ups.
#include <algorithm>
#include <cmath>
#include <optional>
#include <tuple>

#include <doctest/doctest.h>

#include "planner/order/clock_remedies.h"
#include "planner/order/order_reasons.h"
#include "tests/schedules/instances.h"
#include "tests/schedules/random_jobs.h"

using namespace planner;

namespace {

order::ScheduleProblem solved(const std::string& name, int people) {
  for (const tests::SolvedInstance& s : tests::solved_instances()) {
    if (s.name == name && s.people == people) {
      return s.problem;
    }
  }
  FAIL("no such instance");
  return {};
}

int slack(const order::ScheduleProblem& problem) {
  return solve_schedule(problem).slack_s;
}

}  // namespace

TEST_SUITE("tests/schedules") {
  // tests/reference/schedules.json: one person -598 s, two -134 s.
  TEST_CASE("a case of eight shelves wants four people, or a glue that waits longer") {
    const order::ScheduleProblem problem = solved("case_8_shelves", 1);
    const order::ClockRemedies r = clock_remedies(problem, solve_schedule(problem));
    REQUIRE(r.people.size() == 3);
    CHECK(r.people[0].people == 2);
    CHECK(r.people[0].slack_s == -134);
    CHECK(r.people[1].slack_s < 0);
    CHECK(r.people[2].people == 4);
    CHECK(r.people[2].slack_s >= 0);
    REQUIRE(r.glue);
    // The clamp round alone outlasts no open time: it is the total that is short, by 598 s.
    CHECK(r.glue->open_s == 0);
    CHECK(r.glue->total_s == 598);
    CHECK_FALSE(r.spread_percent);  // clamps and joins alone take longer than ten minutes
  }

  // tests/reference/schedules.json: what two are short of, given.
  TEST_CASE("where two just make it nobody asks for a third") {
    const order::ScheduleProblem problem = with_more_time(solved("case_8_shelves", 1), {0, 134});
    const order::ClockRemedies r = clock_remedies(problem, solve_schedule(problem));
    REQUIRE(r.people.size() == 1);
    CHECK(r.people[0].slack_s == 0);
  }

  TEST_CASE("a remedy holds, and a little less of it does not") {
    int tried = 0;
    for (unsigned number = 1; number <= 300; ++number) {
      CAPTURE(number);
      const order::ScheduleProblem problem =
          tests::random_job(number, {.units = 6, .joints = 8, .people = 2});
      const order::Schedule s = solve_schedule(problem);
      if (s.status != plan::Proof::proven || s.slack_s >= 0) {
        continue;
      }
      ++tried;
      const order::ClockRemedies r = clock_remedies(problem, s);
      for (const order::WithPeople& more : r.people) {
        order::ScheduleProblem helped = problem;
        helped.people = more.people;
        CHECK(slack(helped) == more.slack_s);
      }
      if (r.glue) {
        CHECK(slack(with_more_time(problem, *r.glue)) >= 0);
        const order::MoreGlueTime less{std::max(0, r.glue->open_s - 1),
                                       std::max(0, r.glue->total_s - 1)};
        CHECK(slack(with_more_time(problem, less)) < 0);
      }
      if (r.spread_percent) {
        CHECK(slack(with_spread_percent(problem, *r.spread_percent)) >= 0);
        CHECK(slack(with_spread_percent(problem, *r.spread_percent + 1)) < 0);
      }
    }
    CHECK(tried > 20);
  }

  TEST_CASE(
      "two people who share each joint's faces never have less time than one who spreads both") {
    int gained = 0;
    for (unsigned number = 1; number <= 100; ++number) {
      CAPTURE(number);
      const order::ScheduleProblem problem =
          tests::random_job(number, {.units = 4, .joints = 4, .people = 2});
      const order::Schedule s = solve_schedule(problem),
                            both = solve_schedule(with_double_spread(problem));
      REQUIRE((s.status == plan::Proof::impossible) == (both.status == plan::Proof::impossible));
      if (s.status == plan::Proof::proven && both.status == plan::Proof::proven &&
          s.tightest >= 0) {
        // A half that is rounded up costs a second for each joint.
        CHECK(both.slack_s >= s.slack_s - static_cast<int>(problem.joints.size()));
        gained += both.slack_s > s.slack_s ? 1 : 0;
      }
    }
    CHECK(gained > 10);
  }

  TEST_CASE("a glue that waits longer does so open and in all, and closed where it is asked for that") {
    order::ScheduleProblem problem = tests::random_job(1, {.units = 3, .joints = 2, .people = 1});
    problem.joints[0].closed_s = 0;
    problem.joints[1].closed_s = 300;
    const order::ScheduleProblem slower = with_more_time(problem, {60, 90});
    for (std::size_t j = 0; j < 2; ++j) {
      CHECK(slower.joints[j].open_s == problem.joints[j].open_s + 60);
      CHECK(slower.joints[j].total_s == problem.joints[j].total_s + 90);
    }
    CHECK(slower.joints[0].closed_s == 0);
    CHECK(slower.joints[1].closed_s == 390);
  }

  TEST_CASE("the next best order differs and is no better") {
    for (const tests::SolvedInstance& instance : tests::solved_instances()) {
      CAPTURE(instance.name);
      CAPTURE(instance.people);
      const order::Schedule best = solve_schedule(instance.problem);
      const auto other = next_best_order(instance.problem, best);
      if (!other) {
        continue;
      }
      CHECK(other->schedule.slack_s <= best.slack_s);
      const order::PlannedJoin& left_out = best.joins[static_cast<std::size_t>(other->without)];
      for (const order::PlannedJoin& join : other->schedule.joins) {
        const bool same = (join.moving == left_out.moving && join.staying == left_out.staying) ||
                          (join.moving == left_out.staying && join.staying == left_out.moving);
        CHECK_FALSE(same);
      }
    }
  }

  TEST_CASE("the next best order is the best of those without one of the joins, the last of equals, also out of time") {
    std::vector<order::ScheduleProblem> problems;
    for (const tests::SolvedInstance& instance : tests::solved_instances()) {
      problems.push_back(instance.problem);
    }
    for (unsigned job = 0; job < 40; ++job) {
      problems.push_back(tests::random_job(job, {.units = 4, .joints = 4, .people = 1}));
    }
    for (const order::ScheduleProblem& given : problems) {
      for (const int hurry : {1, 3, 8}) {
        CAPTURE(hurry);
        order::ScheduleProblem problem = given;
        for (order::JointTime& joint : problem.joints) {
          joint.open_s /= hurry;
          joint.total_s /= hurry;
        }
        const order::Schedule best = solve_schedule(problem);
        std::optional<std::tuple<double, int, int>> wanted;  // whole steps of slack, seconds saved, the join left out
        for (std::size_t m = 0; m < best.joins.size(); ++m) {
          order::ScheduleProblem other = problem;
          other.joins_left_out = {{best.joins[m].moving, best.joins[m].staying}};
          const order::Schedule s = solve_schedule(other, order::Effort::trial());
          if (s.status != plan::Proof::impossible) {
            wanted = std::max(wanted, std::optional(std::tuple(std::floor(s.slack_s / static_cast<double>(problem.step_s)),
                                                               -s.makespan_s, static_cast<int>(m))));
          }
        }
        const auto other = next_best_order(problem, best);
        REQUIRE(other.has_value() == wanted.has_value());
        CHECK((!other || other->without == std::get<2>(*wanted)));
      }
    }
  }

  TEST_CASE("where a joint's time goes adds up") {
    for (const tests::SolvedInstance& instance : tests::solved_instances()) {
      CAPTURE(instance.name);
      const order::Schedule s = solve_schedule(instance.problem);
      const order::TimeSpent t = time_spent(instance.problem, s, s.tightest);
      CHECK(t.spreading_s + t.joining_s + t.snugging_s + t.checking_s + t.tightening_s +
                t.waiting_s ==
            t.used_s);
      CHECK(t.limit_s - t.used_s == s.slack_s);
      CHECK(t.spreading_s >=
            instance.problem.joints[static_cast<std::size_t>(s.tightest)].spread_s);
      CHECK(t.joining_s == static_cast<int>(t.joins.size()) * instance.problem.join_s);
    }
  }
}
