#include "planner/stage/stage_rings.h"

#include <algorithm>

#include "planner/work/joint_fit.h"

namespace planner::stage {
namespace {

using JointIds = std::vector<work::JointId>;

bool in_ring(const work::Joint& joint, const work::Ring& ring) {
  const std::size_t n = ring.parts.size();
  for (std::size_t i = 0; i < n; ++i) {
    const work::PartId a = ring.parts[i], b = ring.parts[(i + 1) % n];
    if (joint.parts == std::array{std::min(a, b), std::max(a, b)}) {
      return true;
    }
  }
  return false;
}

// Once snug such a joint has all it asks: its own fit presses it, or its glue wants contact only.
bool snug_is_enough(const work::Joint& joint, const work::GlueInUse& glue) {
  const tables::GlueFamily* family = tables::find_glue_family(glue.family);
  return !main_face(joint) || (family != nullptr && family->chemistry == tables::Chemistry::epoxy);
}

}  // namespace

std::vector<StageRing> stage_rings(std::span<const work::Joint> joints, const work::Ring* ring,
                                   std::vector<StageCheck> checks, const work::GlueInUse& glue,
                                   std::vector<StageDemand>& demands) {
  const auto of_ring = [&](work::JointId id) { return in_ring(joints[id], *ring); };
  std::vector<StageRing> rings{{std::move(checks)}};
  for (StageDemand& demand : demands) {
    const bool its = ring == nullptr || std::ranges::any_of(demand.holds, of_ring) ||
                     std::ranges::any_of(demand.presses, of_ring);
    demand.ring = its ? 0 : static_cast<int>(rings.size());
    if (!its) {
      rings.emplace_back();
    }
    // What the round holds must be closed before it. Where it holds nothing, it closes shoulders:
    // the ring's, or all.
    demand.closed_first = demand.holds.empty() ? demand.presses : demand.holds;
    if (ring != nullptr && its && demand.holds.empty()) {
      JointIds corners;
      std::ranges::copy_if(demand.presses, std::back_inserter(corners), of_ring);
      demand.closed_first = corners.empty() ? demand.presses : corners;
    }
  }
  // Where the ring's own rounds are others' after all, the checks belong to the last of them.
  if (!demands.empty() &&
      std::ranges::none_of(demands, [](const StageDemand& d) { return d.ring == 0; })) {
    for (StageDemand& demand : demands) {
      --demand.ring;
    }
    rings[demands.size()].checks = std::move(rings[0].checks);
    rings.erase(rings.begin());
  }
  for (StageDemand& demand : demands) {
    // While a check of its ring is still to come the work may be moved: it counts to its end.
    for (const work::JointId id : demand.holds) {
      if (rings[static_cast<std::size_t>(demand.ring)].checks.empty() &&
          snug_is_enough(joints[id], glue)) {
        demand.held_snug.push_back(id);
      }
    }
  }
  return rings;
}

}  // namespace planner::stage
