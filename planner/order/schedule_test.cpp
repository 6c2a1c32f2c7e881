#include "planner/order/schedule.h"

#include <algorithm>
#include <limits>
#include <string>

#include <doctest/doctest.h>

using namespace planner;
using namespace planner::order;

namespace {

// Boards side by side, each free of its neighbour along x only.
order::ScheduleProblem boards(int count, int spread_s) {
  order::ScheduleProblem p;
  p.assembly.units = count;
  p.assembly.removals = {{{1, 0, 0}, false, 1}, {{-1, 0, 0}, false, 0}};
  const auto n = static_cast<std::size_t>(count);
  p.assembly.leaves.assign(2 * n * n, order::kRefused);
  p.assembly.touch.assign(n * n, false);
  for (int i = 0; i < count; ++i) {
    for (int j = 0; j < count; ++j) {
      p.assembly.leaves[static_cast<std::size_t>((i > j ? 0 : count * count) + i * count + j)] = 0;
      p.assembly.touch[static_cast<std::size_t>(i * count + j)] = i - j == 1 || j - i == 1;
    }
  }
  for (int i = 0; i + 1 < count; ++i) {
    p.assembly.joints.emplace_back(i, i + 1);
    p.joints.push_back({spread_s, 300, 600, 0, 0, 0});
  }
  p.groups = {{4, 30, 10, 0, {}, {}}};
  p.rings = {{}};
  return p;
}

const order::PlannedStep& only(const order::Schedule& s, plan::StepKind kind) {
  REQUIRE(std::ranges::count(s.steps, kind, &order::PlannedStep::kind) == 1);
  return *std::ranges::find(s.steps, kind, &order::PlannedStep::kind);
}

// Tack and checks by their rings, tightening by its rounds.
std::string finishes(const order::Schedule& s) {
  std::string text;
  for (const order::PlannedStep& step : s.steps) {
    if (step.kind == plan::StepKind::tighten) {
      text += "tighten " + std::to_string(step.group) + ", ";
    } else if (step.ring >= 0) {
      text += (step.kind == plan::StepKind::check ? "check " : "wait ") +
              std::to_string(step.ring) + ", ";
    }
  }
  return text;
}

}  // namespace

TEST_SUITE("planner/schedule") {
  TEST_CASE("two boards are spread, joined, snugged and tightened without a pause") {
    const order::Schedule s = solve_schedule(boards(2, 50));
    CHECK(s.status == plan::Proof::proven);
    CHECK(s.clocks[0].used_open_s == 50 + 25);
    CHECK(s.clocks[0].used_total_s == 50 + 25 + 4 * 30 + 4 * 10);
    CHECK(s.slack_s == 300 - 75);
    CHECK(s.makespan_s == 50 + 25 + 4 * 30 + 4 * 10);
  }

  TEST_CASE("a joint that snug clamps press enough is held before the check") {
    order::ScheduleProblem p = boards(2, 50);
    p.rings = {{60, 45}};
    CHECK(solve_schedule(p).clocks[0].used_total_s == 50 + 25 + 4 * 30 + 60 + 45 + 4 * 10);
    p.joints[0].held_snug = true;
    CHECK(solve_schedule(p).clocks[0].used_total_s == 50 + 25 + 4 * 30);
  }

  TEST_CASE(
      "it can be pulled apart until open time, or half the total of what was closed in time") {
    order::ScheduleProblem p = boards(2, 50);
    CHECK(solve_schedule(p).pull_apart_by_s == 300);
    p.joints[0].total_s = 700;
    CHECK(solve_schedule(p).pull_apart_by_s == 350);
    p.joints[0].open_s = 60;  // closed at 75
    CHECK(solve_schedule(p).pull_apart_by_s == 60);
  }

  TEST_CASE("a ring is checked and tightened before the next is clamped, where that gains time") {
    order::ScheduleProblem p = boards(3, 50);
    p.joints[1].group = 1;
    p.groups.push_back({2, 30, 10, 1, {}, {}});
    p.rings = {{60, 45}, {0, 20}};
    for (order::JointTime& joint : p.joints) {
      joint.total_s = 400;
    }
    const order::Schedule s = solve_schedule(p);
    CHECK(finishes(s) == "check 1, tighten 1, wait 0, check 0, tighten 0, ");
    CHECK(s.slack_s == 400 - (50 + 25 + 120 + 60 + 45 + 40));
    p.groups[1].ring = 0;
    p.rings = {{60, 45}};
    const order::Schedule one_ring = solve_schedule(p);
    CHECK(finishes(one_ring) == "wait 0, check 0, tighten 0, tighten 1, ");
    CHECK(one_ring.slack_s < s.slack_s);
  }

  // docs/method.md, "Time limits": a third of the open time used leaves two thirds of the closed
  // time.
  TEST_CASE("resorcinol open for 3 min 20 s of its ten may stay closed for 40 min of its sixty") {
    const order::JointTime resorcinol{60, 600, 3600, 3600, 0, 0};
    CHECK(slack_of(resorcinol, 0, 200, 200 + 2400) == 0);
    CHECK(slack_of(resorcinol, 0, 200, 200 + 2401) == -1);
    CHECK(slack_of(resorcinol, 0, 300, 300 + 1800) == 0);
    CHECK(slack_of(resorcinol, 0, 0, 3600) == 0);
  }

  // Resorcinol waits 15 to 45 minutes before pressure.
  TEST_CASE("a hot shop's resorcinol, open for a minute, overruns by a figure and isn't refused") {
    order::ScheduleProblem p = boards(2, 200);
    p.joints[0].open_s = 60;
    p.joints[0].total_s = p.joints[0].closed_s = 1800;
    const order::Schedule s = solve_schedule(p);
    REQUIRE(s.status == plan::Proof::proven);
    CHECK(s.clocks[0].used_open_s == 200 + 25);
    CHECK(s.slack_s == 1800 * (60 - 225) / 60 - 4 * 30 - 4 * 10);
  }

  TEST_CASE("resorcinol stands its quarter of an hour before it is pressed") {
    order::ScheduleProblem p = boards(3, 60);
    for (order::JointTime& joint : p.joints) {
      joint = {60, 600, 3600, 3600, 900, 0};
    }
    const order::Schedule s = solve_schedule(p);
    CHECK(s.status == plan::Proof::proven);
    CHECK(s.slack_s > 0);
    const order::PlannedStep& tighten = only(s, plan::StepKind::tighten);
    CHECK(only(s, plan::StepKind::snug).start_s == only(s, plan::StepKind::wait).end_s);
    const int last_spread = std::max(s.clocks[0].spread_end_s, s.clocks[1].spread_end_s);
    CHECK(tighten.start_s - last_spread >= 900);
    CHECK(tighten.start_s - last_spread < 900 + 60);
    for (order::JointTime& joint : p.joints) {
      joint.held_snug = true;
    }
    const order::Schedule longer = solve_schedule(p);
    for (const order::JointClock& clock : longer.clocks) {
      CHECK(only(longer, plan::StepKind::snug).start_s - clock.spread_end_s >= 900);
    }
  }

  TEST_CASE("a joint that no clamp presses is held when it is closed") {
    order::ScheduleProblem p = boards(2, 50);
    p.joints[0].group = -1;
    const order::Schedule s = solve_schedule(p);
    CHECK(s.clocks[0].held_s == s.clocks[0].joined_s);
    CHECK(s.clocks[0].used_total_s == 75);
  }

  TEST_CASE("clamps that would bar others the way go on after those") {
    order::ScheduleProblem p = boards(3, 50);
    const auto snug_first = [](const order::Schedule& s) {
      return std::ranges::find(s.steps, plan::StepKind::snug, &order::PlannedStep::kind)->group;
    };
    p.groups.push_back({2, 30, 10, 0, {0, 1}, {}});
    const int first = snug_first(solve_schedule(p));
    p.groups[static_cast<std::size_t>(first)].after = {1 - first};
    CHECK(snug_first(solve_schedule(p)) == 1 - first);
  }

  TEST_CASE("clamps on an axis wait for every joint that looks along it") {
    order::ScheduleProblem p = boards(3, 50);
    p.groups.push_back({2, 30, 10, 0, {0, 1}, {}});
    const order::Schedule s = solve_schedule(p);
    const int closed = std::max(s.clocks[0].joined_s, s.clocks[1].joined_s);
    for (const order::PlannedStep& step : s.steps) {
      if (step.kind == plan::StepKind::snug) {
        CHECK(step.start_s >= closed);
      }
    }
  }

  TEST_CASE("of two slabs that one person cannot lift, two lift either") {
    order::ScheduleProblem p = boards(2, 50);
    p.weight_g = {26'000, 40'000};
    CHECK(solve_schedule(p).status == plan::Proof::impossible);
    CHECK(solve_schedule(p).no_order == NoOrder::too_heavy);
    p.people = 2;
    CHECK(solve_schedule(p).status == plan::Proof::proven);
    p.people = 1;
    p.weight_g = {24'000, 40'000};  // the lighter goes to the heavier
    CHECK(solve_schedule(p).status == plan::Proof::proven);
  }

  TEST_CASE("boards are laid to the panel one by one where its halves are too heavy to lift") {
    order::ScheduleProblem p = boards(4, 50);
    p.weight_g = {15'000, 15'000, 15'000, 15'000};
    const order::Schedule s = solve_schedule(p);
    REQUIRE(s.status == plan::Proof::proven);
    for (const order::PlannedJoin& join : s.joins) {
      CHECK(std::min(join.moving.count(), join.staying.count()) == 1);
    }
  }

  TEST_CASE("boards that cannot be parted are named") {
    order::ScheduleProblem p = boards(3, 50);
    p.assembly.leaves.assign(p.assembly.leaves.size(), order::kRefused);
    const order::Schedule s = solve_schedule(p);
    CHECK(s.status == plan::Proof::impossible);
    CHECK(s.locked == std::vector<int>{0, 1, 2});
  }

  TEST_CASE("boards go together in the job file's order where the clock does not mind") {
    const order::Schedule s = solve_schedule(boards(4, 10));
    REQUIRE(s.joins.size() == 3);
    int last = 0;
    for (const order::PlannedJoin& join : s.joins) {
      CHECK((join.moving | join.staying).count() >= 2);
      const base::UnitSet all = join.moving | join.staying;
      CHECK((all == base::UnitSet::first(all.count())));
      CHECK(all.count() > last);
      last = all.count();
    }
  }

  TEST_CASE("a search cut short says how much better it might be") {
    order::ScheduleProblem p = boards(14, 40);
    p.people = 3;
    for (std::size_t j = 0; j < p.joints.size(); ++j) {
      p.joints[j].spread_s += static_cast<int>(j * 7 % 13);
    }
    const order::Schedule s = solve_schedule(p, order::Effort{500});
    CHECK(s.status == plan::Proof::bounded);
    REQUIRE(s.bound_s);
    CHECK(*s.bound_s >= s.slack_s);
    CHECK(s.joins.size() == 13);
  }

  TEST_CASE("with its work spent a search still ends with an order, no better than it says, and always the same") {
    order::ScheduleProblem p = boards(24, 40);
    for (std::size_t j = 0; j < p.joints.size(); ++j) {
      p.joints[j].spread_s += static_cast<int>(j * 7 % 13);
    }
    const order::Schedule best = solve_schedule(p, order::Effort{300000, 4e7});
    int before = std::numeric_limits<int>::min();
    for (const double work : {0.0, 1e5, 4e6}) {
      const order::Schedule s = solve_schedule(p, order::Effort{300000, work});
      REQUIRE(s.joins.size() == 23);
      CHECK(s.slack_s <= best.bound_s.value_or(best.slack_s));
      CHECK((s.status == plan::Proof::proven || s.bound_s.value_or(-1000000) >= best.slack_s));
      CHECK(s.slack_s >= before);
      const order::Schedule again = solve_schedule(p, order::Effort{300000, work});
      CHECK(again.slack_s == s.slack_s);
      CHECK(again.nodes == s.nodes);
      before = s.slack_s;
    }
  }

  TEST_CASE("a single board needs nothing") {
    order::ScheduleProblem p = boards(1, 50);
    p.groups.clear();
    const order::Schedule s = solve_schedule(p);
    CHECK(s.status == plan::Proof::proven);
    CHECK(s.makespan_s == 0);
  }
}
