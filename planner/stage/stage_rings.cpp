#include "planner/stage/stage_rings.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "planner/stage/stage_checks.h"
#include "planner/work/joint_fit.h"

namespace planner::stage {
namespace {

using JointIds = std::vector<work::JointId>;

// Once snug such a joint has all it asks: its own fit presses it, its glue wants contact only, or so
// much is pressed already. A glue that is left to soak in is pressed once it has.
bool snug_is_enough(work::JointId id, std::span<const work::Joint> joints,
                    const work::GlueInUse& glue, const StageDemand& demand) {
  const tables::GlueFamily* family = tables::find_glue_family(glue.family);
  const bool pressed = glue.min_wait_s == 0 && joints[id].glue.empty() &&
                       std::ranges::find(demand.snug_presses, id) != demand.snug_presses.end();
  return pressed || !main_face(joints[id]) ||
         (family != nullptr && family->chemistry == tables::Chemistry::epoxy);
}

bool presses(const StageDemand& demand, std::span<const work::Joint> joints,
             const work::Ring& ring) {
  const auto of_ring = [&](work::JointId id) { return in_ring(joints[id], ring); };
  return std::ranges::any_of(demand.holds, of_ring) || std::ranges::any_of(demand.presses, of_ring);
}

// Numbers the demands' rings: first those of the closed rings in their order, then the rounds that
// press none. Returns, by closed ring, its number; -1 where no round presses it.
std::vector<int> number_rings(std::span<const work::Joint> joints, const ClosedRings& rings,
                              std::vector<StageDemand>& demands) {
  std::vector<std::size_t> first(demands.size());  // of the rounds that are one with it
  std::iota(first.begin(), first.end(), std::size_t{0});
  std::vector<int> round_of(rings.closed.size(), -1);
  for (std::size_t r = 0; r < rings.closed.size(); ++r) {
    for (std::size_t d = 0; d < demands.size(); ++d) {
      if (presses(demands[d], joints, rings.all[rings.closed[r]])) {
        round_of[r] = round_of[r] < 0 ? static_cast<int>(d) : round_of[r];
        const std::size_t one = first[d];
        const std::size_t other = first[static_cast<std::size_t>(round_of[r])];
        std::ranges::replace(first, std::max(one, other), std::min(one, other));
      }
    }
  }
  std::vector<int> number(demands.size(), -1);
  int next = 0;
  const auto numbered = [&](std::size_t round) {
    int& of_first = number[first[round]];
    of_first = of_first < 0 ? next++ : of_first;
    return of_first;
  };
  for (int& round : round_of) {
    round = round < 0 ? round : numbered(static_cast<std::size_t>(round));
  }
  for (std::size_t d = 0; d < demands.size(); ++d) {
    demands[d].ring = numbered(d);
  }
  return round_of;
}

// What the round holds must be closed before it. Where it holds nothing, it closes shoulders: the
// rings', or all.
void close_first(std::span<const work::Joint> joints, const ClosedRings& rings,
                 StageDemand& demand) {
  demand.closed_first = demand.holds.empty() ? demand.presses : demand.holds;
  if (!demand.holds.empty()) {
    return;
  }
  JointIds corners;
  std::ranges::copy_if(demand.presses, std::back_inserter(corners), [&](work::JointId id) {
    return std::ranges::any_of(
        rings.closed, [&](std::size_t r) { return in_ring(joints[id], rings.all[r]); });
  });
  demand.closed_first = corners.empty() ? demand.presses : corners;
}

// Rings alike are measured in one go.
void add_diagonals(const work::Ring& ring, std::size_t index, const ClosedRings& rings,
                   const work::Pace& pace, StageRing& out) {
  const int seconds = ring_check_s(ring, pace);
  for (StageCheck& check : out.checks) {
    if (check.rings.empty()) {
      continue;
    }
    const work::Ring& other = rings.all[check.rings.front()];
    const bool alike = other.normal_axis == ring.normal_axis &&
                       std::abs(other.outside_mm[0] - ring.outside_mm[0]) < 1 &&
                       std::abs(other.outside_mm[1] - ring.outside_mm[1]) < 1;
    if (alike) {
      check.rings.push_back(index);
      check.seconds += seconds;
      return;
    }
  }
  const auto behind_flush = std::ranges::find_if(
      out.checks, [](const StageCheck& check) { return check.what != plan::Check::flush &&
                                                       check.rings.empty(); });
  out.checks.insert(behind_flush, {plan::Check::outside_diagonals, seconds, {index}});
}

}  // namespace

std::vector<StageRing> stage_rings(std::span<const work::Joint> joints, const ClosedRings& rings,
                                   std::vector<StageCheck> checks, const work::Pace& pace,
                                   const work::GlueInUse& glue,
                                   std::vector<StageDemand>& demands) {
  std::vector<int> ring_of(rings.closed.size(), -1);
  int count = 1;
  if (!rings.closed.empty()) {
    ring_of = number_rings(joints, rings, demands);
    for (const StageDemand& demand : demands) {
      count = std::max(count, demand.ring + 1);
    }
  }
  std::vector<StageRing> out(static_cast<std::size_t>(count));
  // Where no round presses a ring after all, its checks belong to the last of them.
  const auto at = [&](int ring) -> StageRing& {
    return ring < 0 ? out.back() : out[static_cast<std::size_t>(ring)];
  };
  at(ring_of.empty() ? 0 : ring_of.front()).checks = std::move(checks);
  for (std::size_t r = 0; r < rings.closed.size(); ++r) {
    const std::size_t index = rings.closed[r];
    add_diagonals(rings.all[index], index, rings, pace, at(ring_of[r]));
  }
  for (StageDemand& demand : demands) {
    close_first(joints, rings, demand);
    // While a check of its ring is still to come the work may be moved: it counts to its end.
    for (const work::JointId id : demand.holds) {
      if (out[static_cast<std::size_t>(demand.ring)].checks.empty() &&
          snug_is_enough(id, joints, glue, demand)) {
        demand.held_snug.push_back(id);
      }
    }
  }
  return out;
}

}  // namespace planner::stage
