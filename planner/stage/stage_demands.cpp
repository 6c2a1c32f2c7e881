#include "planner/stage/stage_demands.h"

#include <algorithm>

#include "planner/plan/plan_parts.h"
#include "planner/work/joint_fit.h"
#include "planner/work/step_seconds.h"

namespace planner::stage {
namespace {

// A joint whose main face its own fit presses is held by the clamps that close it.
std::vector<work::JointId> held_by(const clamps::layout::PressingAxis& round,
                                   std::span<const work::Joint> joints) {
  std::vector<work::JointId> held = round.holds;
  for (work::JointId joint : round.presses) {
    if (!main_face(joints[joint]) && !work::wants_no_clamp(joints[joint].held_by)) {
      held.push_back(joint);
    }
  }
  return held;
}

void add_once(std::vector<work::JointId>& all, const std::vector<work::JointId>& more) {
  for (work::JointId joint : more) {
    if (std::find(all.begin(), all.end(), joint) == all.end()) {
      all.push_back(joint);
    }
  }
}

// Of the joints, those whose every face that these rounds press is held while they are only snug.
std::vector<work::JointId> pressed_snug(std::span<const work::JointId> joints,
                                        const clamps::layout::ClampLayout& layout,
                                        const ClampGroup& rounds) {
  std::vector<work::JointId> out;
  for (const work::JointId joint : joints) {
    bool any = false, all = true;
    for (const std::size_t r : rounds) {
      for (const plan::LinePressure& line : layout.rounds[r].lines) {
        const bool its = line.joint == joint && line.level != plan::Level::seat;
        any = any || its;
        all = all && (!its || line.snug_holds);
      }
    }
    if (any && all) {
      out.push_back(joint);
    }
  }
  return out;
}

// Corner clamps are set before the round that holds their corners, and take its time.
void add_corners(std::span<const plan::CornerClamp> corners, const work::Pace& pace,
                 std::vector<StageDemand>& demands) {
  for (StageDemand& demand : demands) {
    int more_s = 0;
    for (const plan::CornerClamp& corner : corners) {
      const bool holds =
          std::find(demand.holds.begin(), demand.holds.end(), corner.joint) != demand.holds.end();
      more_s += holds ? work::whole_seconds(work::snug_seconds(corner.kind, pace)) : 0;
    }
    demand.snug_s += (more_s + demand.clamps - 1) / std::max(1, demand.clamps);
  }
}

// On average over the clamps: a tap at each corner of a strap.
int ease_seconds(std::span<const plan::PlannedClamp> clamps, const work::Pace& pace) {
  double all = 0;
  for (const plan::PlannedClamp& clamp : clamps) {
    all += static_cast<double>(clamp.round.size()) * pace.flush_s;
  }
  return clamps.empty() ? 0 : work::whole_seconds(all / static_cast<double>(clamps.size()));
}

}  // namespace

std::vector<ClampGroup> together(const clamps::layout::ClampLayout& layout,
                                 std::span<const work::Joint> joints) {
  std::vector<ClampGroup> groups;
  for (std::size_t r = 0; r < layout.rounds.size(); ++r) {
    if (layout.rounds[r].clamps.empty()) {
      continue;
    }
    const auto held = held_by(layout.rounds[r], joints);
    const auto shares = [&](const ClampGroup& group) {
      return std::any_of(group.begin(), group.end(), [&](std::size_t other) {
        const auto theirs = held_by(layout.rounds[other], joints);
        return std::find_first_of(theirs.begin(), theirs.end(), held.begin(), held.end()) !=
               theirs.end();
      });
    };
    const auto found = std::find_if(groups.begin(), groups.end(), shares);
    if (found != groups.end()) {
      found->push_back(r);
    } else {
      groups.push_back({r});
    }
  }
  return groups;
}

std::vector<StageDemand> demands_of(const clamps::layout::ClampLayout& layout,
                                    std::span<const ClampGroup> groups,
                                    std::span<const work::Joint> joints, const work::Pace& pace,
                                    std::span<const plan::CornerClamp> corners) {
  std::vector<StageDemand> demands;
  for (const ClampGroup& group : groups) {
    StageDemand demand;
    std::vector<plan::PlannedClamp> clamps;
    for (std::size_t r : group) {
      const clamps::layout::PressingAxis& round = layout.rounds[r];
      clamps.insert(clamps.end(), round.clamps.begin(), round.clamps.end());
      add_once(demand.holds, held_by(round, joints));
      add_once(demand.presses, round.presses);
    }
    demand.snug_presses = pressed_snug(demand.holds, layout, group);
    demand.clamps = static_cast<int>(clamps.size());
    demand.snug_s = snug_seconds(clamps, pace);
    demand.tighten_s = work::whole_seconds(pace.tighten_s);
    demand.ease_s = ease_seconds(clamps, pace);
    demands.push_back(std::move(demand));
  }
  add_corners(corners, pace, demands);
  return demands;
}

int snug_seconds(std::span<const plan::PlannedClamp> clamps, const work::Pace& pace) {
  double all = 0;
  for (const plan::PlannedClamp& clamp : clamps) {
    all += snug_share(clamp, pace).seconds();
  }
  return clamps.empty() ? 0 : work::whole_seconds(all / static_cast<double>(clamps.size()));
}

}  // namespace planner::stage
