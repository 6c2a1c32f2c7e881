#include <algorithm>
#include <cmath>
#include <map>

#include "geometry/overlap.h"
#include "planner/clamp_setting.h"
#include "planner/verify_context.h"

namespace planner {
namespace {

using Body = std::array<geometry::Box, 3>;

// By more than a millimetre.
bool runs_into(const Body& body, const geometry::Solid& part) {
  constexpr double kTouch_mm = 1;
  const geometry::Box around = geometry::bounds(part);
  return std::any_of(body.begin(), body.end(), [&](const geometry::Box& box) {
    geometry::LatticeBox within;
    for (std::size_t i = 0; i < 3; ++i) {
      const double lo = box.lo[i] + kTouch_mm, hi = box.hi[i] - kTouch_mm;
      if (lo >= around.hi[i] || hi <= around.lo[i] || lo >= hi) {
        return false;
      }
      within.lo[i] = geometry::Length::nm(std::llround(lo * 1e6));
      within.hi[i] = geometry::Length::nm(std::llround(hi * 1e6));
    }
    const std::array<geometry::Solid, 2> both{geometry::board(within), part};
    return !geometry::find_overlaps(both, {}).empty();
  });
}

// The stage's clamps as they are brought to their places, those that are laid there early before
// the one they would have to pass.
class Setting {
 public:
  Setting(VerifyContext& context, const Stage& stage) : c_(context), stage_(stage) {
    std::vector<geometry::Direction> sides;
    for (const PlannedClamp& clamp : stage.clamps) {
      index_[clamp.n] = standing_.size();
      standing_.push_back(standing_clamp(clamp, context.shop));
      sides.push_back(clamp.bar_side);
      bodies_.push_back(body_of(standing_.back(), clamp.bar_side));
    }
    ways_ = ClampWays(standing_, sides);
    begun_.assign(standing_.size(), 0);
    there_ = begun_;
  }

  void set(int n) {
    const auto at = index_.find(n);
    if (at == index_.end() || begun_[at->second] != 0) {
      return;
    }
    const PlannedClamp& clamp = stage_.clamps[at->second];
    begun_[at->second] = 1;
    for (const PlannedClamp& early : stage_.clamps) {
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

  void stands_beside_the_work() {
    for (std::size_t i = 0; i < bodies_.size(); ++i) {
      const PlannedClamp& clamp = stage_.clamps[i];
      for (const PartId part : stage_.parts) {
        const bool jaws = clamp.round.empty();
        c_.require(!jaws || !runs_into(bodies_[i], c_.solids[part]),
                   "clamp " + std::to_string(clamp.n) + " runs into " + c_.job.parts[part].name);
      }
    }
  }

  // Bars that can't be kept clear of one another are told.
  void stands_clear() {
    for (std::size_t i = 0; i < bodies_.size(); ++i) {
      for (std::size_t j = i + 1; j < bodies_.size(); ++j) {
        const PlannedClamp &a = stage_.clamps[i], &b = stage_.clamps[j];
        const bool jaws = a.round.empty() && b.round.empty();
        c_.require(!jaws || a.meets > 0 || b.meets > 0 || !bodies_clash(bodies_[i], bodies_[j]),
                   "clamps " + std::to_string(a.n) + " and " + std::to_string(b.n) +
                       " are in each other's way");
      }
    }
  }

 private:
  VerifyContext& c_;
  const Stage& stage_;
  std::map<int, std::size_t> index_;
  std::vector<StandingClamp> standing_;
  std::vector<Body> bodies_;
  ClampWays ways_;
  std::vector<char> begun_, there_;
};

}  // namespace

void verify_setting(VerifyContext& c) {
  for (const Stage& stage : c.plan.stages) {
    Setting setting(c, stage);
    setting.stands_beside_the_work();
    setting.stands_clear();
    for (const Step& step : stage.steps) {
      if (step.kind == StepKind::snug) {
        std::vector<int> numbers = step.clamps;
        std::sort(numbers.begin(), numbers.end());
        std::for_each(numbers.begin(), numbers.end(), [&](int n) { setting.set(n); });
      }
    }
  }
}

}  // namespace planner
