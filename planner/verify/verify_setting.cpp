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
    // What stays dry may go in when the clamps are off.
    const bool dry = std::ranges::none_of(
        join.joints, [&](work::JointId id) { return c_.joints[id].glued; });
    if (!join.motion || join.motion->fold || dry) {
      return;
    }
    const std::vector<work::PartId>& moving = join.motion->moving;
    std::vector<work::PartId> staying;
    std::ranges::copy_if(join.parts, std::back_inserter(staying), [&](work::PartId part) {
      return std::ranges::count(moving, part) == 0;
    });
    for (std::size_t i = 0; i < snug_.size(); ++i) {
      const auto with = pressed_among(stage_.clamps[i], moving);
      const auto against = pressed_among(stage_.clamps[i], staying);
      if (snug_[i] == 0 || with == against) {
        continue;  // not on yet, or somewhere else
      }
      const geometry::Direction& way = join.motion->direction;
      for (const work::PartId part : with > against ? staying : moving) {
        c_.require(!clamps::bodies::bars_the_way(stage_.clamps[i], c_.shop, bounds_[part],
                                                 with > against ? -way : way),
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
  // How many of these parts the clamp presses.
  std::ptrdiff_t pressed_among(const plan::PlannedClamp& clamp,
                               const std::vector<work::PartId>& parts) const {
    return std::ranges::count_if(parts, [&](work::PartId part) {
      return std::ranges::any_of(clamp.joints, [&](work::JointId id) {
        return std::ranges::count(c_.joints[id].parts, part) > 0;
      });
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
