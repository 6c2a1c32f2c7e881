// The numbers that a stage's clamps carry: the order in which they are set.
#pragma once
#include <span>
#include <vector>

#include "planner/clamps/bodies/clamp_setting.h"
#include "planner/stage/stage_demands.h"

namespace planner::stage {

// Groups of rounds, and the ways to their clamps.
class SettingRounds {
 public:
  SettingRounds() = default;
  SettingRounds(const clamps::layout::ClampLayout& layout, std::span<const ClampGroup> groups,
                const work::Shop& shop);

  // Where the groups' order leaves a clamp no way to its place: has one go on before another, in
  // their `after`. False where nothing helps.
  bool let_in(std::span<const int> order, std::vector<StageDemand>& groups) const;
  // The groups' clamps in the order to set them, the groups in the order given: indices into the
  // layout's clamps, all rounds counted through.
  clamps::bodies::SettingOrder order(std::span<const int> groups) const;

 private:
  std::vector<clamps::bodies::ClampIds> rounds(std::span<const int> groups) const;

  std::vector<clamps::bodies::ClampIds> clamps_;  // by group
  clamps::bodies::ClampWays ways_;
};

// The groups in the order that they are snugged; as they are where there is no schedule.
std::vector<int> rounds_in_order(const order::Schedule& schedule, std::size_t groups);

// Numbers the layout's clamps from `first` and appends them to `clamps`. Returns each group's
// numbers.
std::vector<std::vector<int>> number_clamps(const SettingRounds& setting,
                                            std::span<const int> order, int first,
                                            clamps::layout::ClampLayout& layout,
                                            std::vector<plan::PlannedClamp>& clamps);

}  // namespace planner::stage
