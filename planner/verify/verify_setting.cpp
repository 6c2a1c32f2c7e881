#include "planner/verify/verify_setting.h"

#include <algorithm>
#include <map>

#include "planner/clamps/bodies/clamp_setting.h"
#include "planner/clamps/bodies/part_way.h"
#include "planner/work/part_solid.h"

namespace planner::verify {
namespace {

// The stage's clamps as they are brought to their places, those that are laid there early before
// the one they would have to pass.
class Setting {
 public:
  Setting(VerifyContext& context, const plan::Stage& stage)
      : c_(context), stage_(stage), bounds_(work::bounds_of(context.solids)) {
    std::vector<geometry::Direction> sides;
    for (const plan::PlannedClamp& clamp : stage.clamps) {
      index_[clamp.n] = standing_.size();
      standing_.push_back(clamps::bodies::standing_clamp(clamp, context.shop));
      sides.push_back(clamp.bar_side);
      bodies_.push_back(body_of(standing_.back(), clamp.bar_side));
    }
    ways_ = clamps::bodies::ClampWays(standing_, sides);
    begun_.assign(standing_.size(), 0);
    there_ = snug_ = begun_;
  }

  void set(int n) {
    const auto at = index_.find(n);
    if (at == index_.end() || begun_[at->second] != 0) {
      return;
    }
    const plan::PlannedClamp& clamp = stage_.clamps[at->second];
    begun_[at->second] = 1;
    for (const plan::PlannedClamp& early : stage_.clamps) {
      if (early.laid_before == n) {
        set(early.n);
      }
    }
    const auto behind = ways_.behind(at->second, there_);
    c_.require(!behind || clamp.meets > 0,
               "clamp " + std::to_string(n) + " can't be brought to its place past clamp " +
                   (behind ? std::to_string(stage_.clamps[*behind].n) : ""));
    there_[at->second] = 1;
  }

  void snug(int n) {
    if (const auto at = index_.find(n); at != index_.end()) {
      snug_[at->second] = 1;
    }
  }

  // What comes together straight must pass the clamps that are snug on either side already; what is
  // only laid in its place is shifted aside.
  void lets_in(const plan::Step& join) const {
    if (!join.motion || join.motion->fold) {
      return;
    }
    const std::vector<work::PartId>& moving = join.motion->moving;
    for (std::size_t i = 0; i < snug_.size(); ++i) {
      const bool moves = snug_[i] != 0 && stands_within(stage_.clamps[i], moving);
      for (const work::PartId part : join.parts) {
        const bool comes = std::ranges::count(moving, part) > 0;
        const geometry::Direction& way = join.motion->direction;
        c_.require(snug_[i] == 0 || comes == moves ||
                       !stands_within(stage_.clamps[i], join.parts) ||
                       !clamps::bodies::bars_the_way(stage_.clamps[i], c_.shop, bounds_[part],
                                                     comes ? way : -way),
                   "step " + std::to_string(join.n) + ": " + c_.job.parts[part].name +
                       " can't come in past clamp " + std::to_string(stage_.clamps[i].n));
      }
    }
  }

  // Bars that can't be kept clear of one another are told.
  void stands_clear() {
    for (std::size_t i = 0; i < bodies_.size(); ++i) {
      for (std::size_t j = i + 1; j < bodies_.size(); ++j) {
        const plan::PlannedClamp &a = stage_.clamps[i], &b = stage_.clamps[j];
        const bool jaws = a.round.empty() && b.round.empty();
        c_.require(!jaws || a.meets > 0 || b.meets > 0 ||
                       !clamps::bodies::bodies_clash(bodies_[i], bodies_[j]),
                   "clamps " + std::to_string(a.n) + " and " + std::to_string(b.n) +
                       " are in each other's way");
      }
    }
  }

 private:
  // A joint that the clamp presses is between two of these parts.
  bool stands_within(const plan::PlannedClamp& clamp, const std::vector<work::PartId>& parts) const {
    return std::ranges::any_of(clamp.joints, [&](work::JointId id) {
      return std::ranges::count(parts, c_.joints[id].parts[0]) > 0 &&
             std::ranges::count(parts, c_.joints[id].parts[1]) > 0;
    });
  }

  VerifyContext& c_;
  const plan::Stage& stage_;
  std::vector<geometry::Box> bounds_;
  std::map<int, std::size_t> index_;
  std::vector<clamps::bodies::StandingClamp> standing_;
  std::vector<std::array<geometry::Box, 3>> bodies_;
  clamps::bodies::ClampWays ways_;
  std::vector<char> begun_, there_, snug_;
};

}  // namespace

void verify_setting(VerifyContext& c) {
  for (const plan::Stage& stage : c.plan.stages) {
    Setting setting(c, stage);
    setting.stands_clear();
    for (const plan::Step& step : stage.steps) {
      if (step.kind == plan::StepKind::join) {
        setting.lets_in(step);
      }
      if (step.kind == plan::StepKind::snug) {
        std::vector<int> numbers = step.clamps;
        std::sort(numbers.begin(), numbers.end());
        std::ranges::for_each(numbers, [&](int n) { setting.set(n); });
        std::ranges::for_each(numbers, [&](int n) { setting.snug(n); });
      }
    }
  }
}

}  // namespace planner::verify
