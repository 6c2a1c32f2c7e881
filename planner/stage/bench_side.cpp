#include "planner/stage/bench_side.h"

#include <algorithm>
#include <array>

namespace planner::stage {
namespace {

using geometry::Direction;
using Coming = BenchSide::Coming;

// A join as the bench sees it.
struct Meeting {
  std::vector<work::PartId> moving, staying;  // of the schedule's join
  Direction off;                              // the way `moving` comes off
  bool folds = false;
  bool clamped[2] = {false, false};  // there are clamps on `moving`, on `staying`
};

// One way to lay the work.
struct Side {
  std::vector<Coming> joins;
  int hands = 0, turns = 0;
};

bool among(work::PartId part, const std::vector<work::PartId>& parts) {
  return std::ranges::binary_search(parts, part);
}

// The rounds of clamps that are on when the join is made.
std::vector<std::size_t> rounds_before(const order::Schedule& schedule, std::size_t join,
                                       std::span<const StageDemand> rounds) {
  std::vector<std::size_t> on;
  for (const order::PlannedStep& step : schedule.steps) {
    if (step.join == static_cast<int>(join)) {
      break;
    }
    const auto g = static_cast<std::size_t>(step.group);
    if (step.group >= 0 && step.kind == plan::StepKind::snug && g < rounds.size() && rounds[g].clamps > 0 &&
        rounds[g].does == plan::StepKind::snug) {
      on.push_back(g);
    }
  }
  return on;
}

std::vector<Meeting> meetings_of(const order::ScheduleProblem& problem, const order::Schedule& schedule,
                                 const StageWork& work, std::span<const work::Joint> joints,
                                 std::span<const StageDemand> rounds) {
  std::vector<Meeting> out;
  for (std::size_t i = 0; i < schedule.joins.size(); ++i) {
    const order::PlannedJoin& join = schedule.joins[i];
    const order::Removal& removal = problem.assembly.removals[static_cast<std::size_t>(join.removal)];
    Meeting m{parts_of(join.moving, work), parts_of(join.staying, work), removal.direction, removal.folds};
    for (const std::size_t g : rounds_before(schedule, i, rounds)) {
      for (const work::JointId id : rounds[g].presses) {
        const work::PartId a = joints[id].parts[0], b = joints[id].parts[1];
        m.clamped[0] = m.clamped[0] || (among(a, m.moving) && among(b, m.moving));
        m.clamped[1] = m.clamped[1] || (among(a, m.staying) && among(b, m.staying));
      }
    }
    out.push_back(std::move(m));
  }
  return out;
}

Side side_with(const Direction& up_at_last, std::span<const Meeting> meetings, const work::Standing& standing) {
  constexpr double kAlong = 0.5;
  Side side;
  Direction up = up_at_last;
  for (std::size_t i = meetings.size(); i-- > 0;) {
    const Meeting& m = meetings[i];
    Coming coming;
    const double height = m.folds ? 0 : dot(m.off, up);  // of where `moving` comes from
    if (m.clamped[0] != m.clamped[1]) {
      coming.other = m.clamped[0];
      coming.turned_after = (coming.other ? -height : height) < -kAlong;
    } else {
      coming.other = height < -kAlong;
    }
    up = coming.turned_after ? -up : up;
    const auto& comes = coming.other ? m.staying : m.moving;
    const auto& stays = coming.other ? m.moving : m.staying;
    std::vector<work::PartId> all = m.moving;
    all.insert(all.end(), m.staying.begin(), m.staying.end());
    coming.up = up;
    coming.wants_hand = !((m.folds || standing.stays(comes, stays, up)) && standing.stands(all, up));
    side.hands += coming.wants_hand ? 1 : 0;
    side.turns += coming.turned_after ? 1 : 0;
    side.joins.push_back(coming);
  }
  std::ranges::reverse(side.joins);
  return side;
}

BenchSide told(Side side, const Direction& up_at_last, plan::OrderReason why) {
  const Direction up = side.joins.empty() ? up_at_last : side.joins.front().up;
  return {std::move(side.joins), up, std::move(why)};
}

}  // namespace

std::vector<work::PartId> parts_of(const base::UnitSet& units, const StageWork& work) {
  std::vector<work::PartId> parts;
  for (int u = units.lowest(); u >= 0; u = units.next(u)) {
    const auto& unit = work.units[static_cast<std::size_t>(u)];
    parts.insert(parts.end(), unit.begin(), unit.end());
  }
  std::sort(parts.begin(), parts.end());
  return parts;
}

BenchSide choose_bench_side(const order::ScheduleProblem& problem, const order::Schedule& schedule,
                            const StageWork& work, std::span<const work::Joint> joints,
                            std::span<const StageDemand> rounds, const work::Standing& standing) {
  const std::vector<Meeting> meetings = meetings_of(problem, schedule, work, joints, rounds);
  if (problem.closing_unit >= 0 && !schedule.joins.empty()) {
    const order::PlannedJoin& last = schedule.joins.back();
    const Direction off = meetings.back().off;
    const Direction up = last.moving == base::UnitSet::of(problem.closing_unit) ? off : -off;
    return told(side_with(up, meetings, standing), up, plan::ClosedFromAbove{});
  }
  constexpr std::array<Direction, 6> kUps{
      {{0, 0, 1}, {0, -1, 0}, {0, 1, 0}, {1, 0, 0}, {-1, 0, 0}, {0, 0, -1}}};
  constexpr int kWorthTurning = 2;
  const auto trouble = [](const Side& side) { return side.hands + kWorthTurning * side.turns; };
  const Side as_drawn = side_with(kUps[0], meetings, standing);
  Side best = as_drawn;
  Direction up = kUps[0];
  for (std::size_t i = 1; i < kUps.size() && trouble(as_drawn) >= kWorthTurning; ++i) {
    Side other = side_with(kUps[i], meetings, standing);
    if (trouble(other) < trouble(best) && trouble(other) + kWorthTurning <= trouble(as_drawn)) {
      best = std::move(other);
      up = kUps[i];
    }
  }
  const plan::BenchSideChosen why{-up, -kUps[0], best.hands, as_drawn.hands};
  return told(std::move(best), up, why);
}

}  // namespace planner::stage
