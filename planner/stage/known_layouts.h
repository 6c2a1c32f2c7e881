// Clamp layouts already made: plans of stages that are tried come back to the same stages.
#pragma once
#include <map>
#include <tuple>
#include <vector>

#include "planner/clamps/layout/clamp_layout.h"
#include "planner/stage/stage_problem.h"

namespace planner::stage {

// REQUIRES: every stage is of the same job, shop and glue.
class KnownLayouts {
 public:
  // As `make` has it, called only where none is known. Not kept where `whole` says afterwards that
  // the answer was cut short.
  template <typename Make, typename Whole>
  clamps::layout::ClampLayout of(const StageWork& work, plan::Level goal, const Make& make,
                                 const Whole& whole) {
    if (const clamps::layout::ClampLayout* made = known(work, goal)) {
      return *made;
    }
    clamps::layout::ClampLayout layout = make();
    if (whole()) {
      made_.emplace(Key{work.units, work.joints, goal}, layout);
    }
    return layout;
  }

  // nullptr where none is.
  const clamps::layout::ClampLayout* known(const StageWork& work, plan::Level goal) const {
    const auto found = made_.find(Key{work.units, work.joints, goal});
    return found == made_.end() ? nullptr : &found->second;
  }

 private:
  using Key = std::tuple<std::vector<std::vector<work::PartId>>, std::vector<work::JointId>, plan::Level>;
  std::map<Key, clamps::layout::ClampLayout> made_;
};

}  // namespace planner::stage
