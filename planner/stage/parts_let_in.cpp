#include "planner/stage/parts_let_in.h"

#include <algorithm>
#include <set>

#include "planner/clamps/bodies/part_way.h"
#include "planner/stage/bench_side.h"

namespace planner::stage {
namespace {

using Parts = std::vector<work::PartId>;

bool among(work::PartId part, const Parts& parts) {
  return std::ranges::find(parts, part) != parts.end();
}

// What a join brings together, and how.
struct Meeting {
  Parts moving, staying;
  geometry::Direction comes;  // of what moves
};

bool in_the_way(const plan::PlannedClamp& clamp, const work::Shop& shop, const Parts& coming,
                const geometry::Direction& comes, std::span<const geometry::Box> bounds) {
  return std::ranges::any_of(coming, [&](work::PartId part) {
    return clamps::bodies::bars_the_way(clamp, shop, bounds[part], comes);
  });
}

// The clamp stands on the side with more of the parts that it presses, as what is still to come to it
// is less; the other side comes to it.
bool bars(const plan::PlannedClamp& clamp, const Meeting& meeting,
          std::span<const work::Joint> joints, std::span<const geometry::Box> bounds,
          const work::Shop& shop) {
  std::set<work::PartId> pressed;
  for (const work::JointId id : clamp.joints) {
    pressed.insert(joints[id].parts.begin(), joints[id].parts.end());
  }
  const auto on = [&](const Parts& side) {
    return std::ranges::count_if(pressed, [&](work::PartId part) { return among(part, side); });
  };
  const auto moving = on(meeting.moving), staying = on(meeting.staying);
  return moving > staying   ? in_the_way(clamp, shop, meeting.staying, -meeting.comes, bounds)
         : staying > moving ? in_the_way(clamp, shop, meeting.moving, meeting.comes, bounds)
                            : false;
}

// Adds what of `joints` isn't there yet; false where all is.
bool wait_for(std::span<const int> joints, const StageWork& work, StageDemand& demand) {
  bool more = false;
  for (const int joint : joints) {
    const work::JointId id = work.joints[static_cast<std::size_t>(joint)];
    if (std::ranges::find(demand.waits_for, id) == demand.waits_for.end()) {
      demand.waits_for.push_back(id);
      more = true;
    }
  }
  return more;
}

}  // namespace

bool let_parts_in(const order::Schedule& schedule, const order::ScheduleProblem& problem,
                  const StageWork& work, std::span<const work::Joint> joints,
                  std::span<const geometry::Box> bounds, const work::Shop& shop, const clamps::layout::ClampLayout& layout,
                  std::span<const ClampGroup> groups, std::vector<StageDemand>& demands) {
  std::vector<std::size_t> snug;
  for (const order::PlannedStep& step : schedule.steps) {
    if (step.kind == plan::StepKind::snug && step.group < static_cast<int>(groups.size())) {
      snug.push_back(static_cast<std::size_t>(step.group));
    }
    if (step.kind != plan::StepKind::join) {
      continue;
    }
    const order::PlannedJoin& join = schedule.joins[static_cast<std::size_t>(step.join)];
    const order::Removal& removal =
        problem.assembly.removals[static_cast<std::size_t>(join.removal)];
    if (removal.folds) {
      continue;
    }
    const Meeting meeting{parts_of(join.moving, work), parts_of(join.staying, work),
                          -removal.direction};
    for (const std::size_t g : snug) {
      const bool blocked = std::ranges::any_of(groups[g], [&](std::size_t round) {
        return std::ranges::any_of(layout.rounds[round].clamps,
                                   [&](const plan::PlannedClamp& clamp) {
                                     return bars(clamp, meeting, joints, bounds, shop);
                                   });
      });
      if (blocked && wait_for(join.joints, work, demands[g])) {
        return true;
      }
    }
  }
  return false;
}

}  // namespace planner::stage
