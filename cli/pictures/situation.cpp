#include "cli/pictures/situation.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

#include "cli/model/line_drawing.h"
#include "planner/plan/plan_parts.h"

namespace cli::pictures {
namespace {

using geometry::Direction;
using planner::plan::Plan;
using planner::plan::PlannedClamp;
using planner::plan::Stage;
using planner::plan::Step;
using planner::plan::StepKind;
using planner::work::JointId;
using planner::work::PartId;

// Parts that hang together, each under the lowest of them.
class Groups {
 public:
  explicit Groups(std::size_t parts) : first_(parts) { std::iota(first_.begin(), first_.end(), 0); }
  void unite(const std::vector<PartId>& parts) {
    for (const PartId part : parts) {
      const PartId a = first_[parts.front()], b = first_[part];
      std::replace(first_.begin(), first_.end(), std::max(a, b), std::min(a, b));
    }
  }
  void add_with(PartId part, std::vector<PartId>& out) const {
    for (PartId other = 0; other < first_.size(); ++other) {
      if (first_[other] == first_[part] && !holds(out, other)) {
        out.push_back(other);
      }
    }
  }

 private:
  std::vector<PartId> first_;
};

Groups groups_before(const Plan& plan, const Stage& stage, const std::vector<words::BenchStep>& steps,
                     std::size_t index) {
  Groups groups(plan.parts.size());
  for (const Stage& earlier : plan.stages) {
    if (&earlier == &stage) {
      break;
    }
    groups.unite(earlier.parts);
  }
  for (std::size_t i = 0; i < index; ++i) {
    if (steps[i].step.kind == StepKind::join) {
      groups.unite(steps[i].step.parts);
    }
  }
  return groups;
}

// The parts of what a step presses, looks at or spreads.
std::vector<PartId> subjects(const Plan& plan, const Stage& stage, const Step& step) {
  std::vector<PartId> parts = step.parts;
  const auto add_joint = [&](JointId id) {
    for (const PartId part : plan.joints[id].parts) {
      parts.push_back(part);
    }
  };
  if (parts.empty()) {
    std::for_each(step.joints.begin(), step.joints.end(), add_joint);
  }
  for (const PlannedClamp& clamp : stage.clamps) {
    if (holds(step.clamps, clamp.n)) {
      std::for_each(clamp.joints.begin(), clamp.joints.end(), add_joint);
    }
  }
  for (const std::size_t ring : step.rings) {
    parts.insert(parts.end(), plan.rings[ring].parts.begin(), plan.rings[ring].parts.end());
  }
  return parts.empty() ? stage.parts : parts;
}

double extent(const geometry::Box& box, const Direction& d) {
  const Direction size = box.hi - box.lo;
  return std::abs(size.x * d.x) + std::abs(size.y * d.y) + std::abs(size.z * d.z);
}

// As far as it must be lifted to be clear of the rest, but no more than 1.5 times its width.
Direction drawn_off(const Plan& plan, const Situation& at, const Direction& way) {
  const double apart = reach_along(plan, at.moving, way).hi - reach_along(plan, at.still, way).lo;
  double widest = 0, thickest = 0;
  for (const PartId part : at.moving) {
    widest = std::max(widest, plan.parts[part].size_mm[1]);
    thickest = std::max(thickest, plan.parts[part].size_mm[2]);
  }
  // Apart enough for an arrow in between.
  const geometry::Box rest = box_of(plan, at.still);
  const double arrow = 0.2 * length(rest.hi - rest.lo);
  const double most = std::max(1.5 * widest, 3 * thickest);
  return (-std::min(std::max(apart, 0.0) + arrow, std::max(most, arrow))) * way;
}

void take_join(const Plan& plan, const Step& step, Situation& at) {
  if (!step.motion || step.motion->moving.empty()) {
    at.moving = step.parts;
    return;
  }
  at.moving = step.motion->moving;
  std::copy_if(step.parts.begin(), step.parts.end(), std::back_inserter(at.still),
               [&](PartId part) { return !holds(at.moving, part); });
  if (step.motion->fold) {
    constexpr double kShown = 0.6;  // of the way still to go
    at.fold = step.motion->fold;
    at.fold_rad = kShown * at.fold->angle_deg * std::numbers::pi / 180;
    return;
  }
  at.off = drawn_off(plan, at, step.motion->direction);
}

// Both sides of a joint get glue: laid a little apart, so that both are seen.
void take_spread(const Plan& plan, const Stage& stage, const Step& step, const Groups& groups, Situation& at) {
  std::vector<PartId> with;
  groups.add_with(step.parts.front(), with);
  if (step.parts.size() < 2 || holds(with, step.parts[1])) {
    at.moving = {step.parts.front()};
    std::copy_if(with.begin(), with.end(), std::back_inserter(at.still),
                 [&](PartId part) { return part != step.parts.front(); });
    at.lone = at.still.empty();
    at.turns_round = true;
    return;
  }
  at.still = with;
  groups.add_with(step.parts[1], at.moving);
  const planner::work::Joint& joint = plan.joints[step.joints.front()];
  const auto joins = std::find_if(stage.steps.begin(), stage.steps.end(), [&](const Step& other) {
    return other.kind == StepKind::join && other.motion && !other.motion->fold && holds(other.joints, step.joints.front());
  });
  if (joins != stage.steps.end()) {
    // Back the way it will come, clear of what it slides into.
    const Direction& way = joins->motion->direction;
    const double side = holds(joins->motion->moving, at.moving.front()) ? -1 : 1;
    at.off = (side * std::max(joint.depth_mm + 60, 0.4 * extent(box_of(plan, at.moving), way))) * way;
    return;
  }
  const double side = holds(at.moving, joint.parts[1]) ? 1 : -1;
  const geometry::Contact& face = joint.faces.front().contact;
  at.off = (side * std::max(60.0, 0.4 * extent(box_of(plan, at.moving), face.normal))) * face.normal;
}

void take_clamps(const Plan& plan, const Stage& stage, const std::vector<words::BenchStep>& steps,
                 std::size_t index, Situation& at) {
  std::vector<int> before;
  for (std::size_t i = 0; i < index; ++i) {
    before.insert(before.end(), steps[i].step.clamps.begin(), steps[i].step.clamps.end());
  }
  const auto all_in = [&](const PlannedClamp& clamp, const std::vector<PartId>& parts) {
    return std::any_of(clamp.joints.begin(), clamp.joints.end(), [&](JointId id) {
      const auto& [a, b] = plan.joints[id].parts;
      return holds(parts, a) && holds(parts, b);
    });
  };
  for (const PlannedClamp& clamp : stage.clamps) {
    if (holds(steps[index].step.clamps, clamp.n)) {
      at.own.push_back(&clamp);
    } else if (holds(before, clamp.n) && all_in(clamp, at.still)) {
      at.earlier.push_back(&clamp);
    } else if (holds(before, clamp.n) && all_in(clamp, at.moving)) {
      at.carried.push_back(&clamp);
    }
  }
}

// With more parts than this on the bench a picture shows only what its step touches, with more clamps than
// this only the step's own, and those without pads; with some, only the step's own with pads: a crowd hides what is
// to be done (ours).
constexpr std::size_t kManyParts = 16, kManyClamps = 24, kSomeClamps = 8;

void thin_out(const Plan& plan, const Step& step, Situation& at) {
  const bool moves = step.kind == StepKind::spread || step.kind == StepKind::join;
  if (moves && at.still.size() + at.moving.size() > kManyParts) {
    std::erase_if(at.still, [&](PartId part) {
      return std::none_of(at.wet.begin(), at.wet.end(), [&](JointId id) {
        const auto& [a, b] = plan.joints[id].parts;
        return (a == part && holds(at.moving, b)) || (b == part && holds(at.moving, a));
      });
    });
    at.lone = at.still.empty() && at.moving.size() == 1;
    at.earlier.clear();
    at.carried.clear();
  }
  const std::size_t clamps = at.own.size() + at.earlier.size() + at.carried.size();
  at.bare_earlier = clamps > kSomeClamps;
  if (clamps > kManyClamps) {
    at.earlier.clear();
    at.carried.clear();
    at.bare_clamps = at.own.size() > kManyClamps;
  }
}

}  // namespace

geometry::Extent reach_along(const Plan& plan, const std::vector<PartId>& parts, const Direction& way) {
  geometry::Extent all{1e300, -1e300};
  for (const PartId part : parts) {
    const geometry::Extent own = model::reach_of(plan.parts[part].facets, way);
    all = {std::min(all.lo, own.lo), std::max(all.hi, own.hi)};
  }
  return all;
}

geometry::Point seat_of(const Plan& plan, const Situation& at) {
  const Direction way = (-1 / length(at.off)) * at.off;
  const geometry::Box box = box_of(plan, at.moving);
  const geometry::Point middle = box.lo + 0.5 * (box.hi - box.lo);
  return middle + (reach_along(plan, at.moving, way).hi - dot(middle, way)) * way;
}

geometry::Box box_of(const Plan& plan, const std::vector<PartId>& parts) {
  geometry::Box all{{1e300, 1e300, 1e300}, {-1e300, -1e300, -1e300}};
  for (const PartId part : parts) {
    const geometry::Box& box = plan.parts[part].bounds;
    all.lo = {std::min(all.lo.x, box.lo.x), std::min(all.lo.y, box.lo.y), std::min(all.lo.z, box.lo.z)};
    all.hi = {std::max(all.hi.x, box.hi.x), std::max(all.hi.y, box.hi.y), std::max(all.hi.z, box.hi.z)};
  }
  return all;
}

Situation situation_at(const Plan& plan, const Stage& stage, const std::vector<words::BenchStep>& steps,
                       std::size_t index) {
  const Step& step = steps[index].step;
  const Groups groups = groups_before(plan, stage, steps, index);
  Situation at;
  at.stance = stance_on(bench_face_after(stage, step));
  if (step.kind == StepKind::join) {
    take_join(plan, step, at);
    at.wet = step.joints;
  } else if (step.kind == StepKind::spread) {
    take_spread(plan, stage, step, groups, at);
    at.wet = step.joints;
  } else {
    for (const PartId part : subjects(plan, stage, step)) {
      groups.add_with(part, at.still);
    }
  }
  std::sort(at.still.begin(), at.still.end());
  std::sort(at.moving.begin(), at.moving.end());
  take_clamps(plan, stage, steps, index, at);
  thin_out(plan, step, at);
  return at;
}

std::map<PartId, std::string> part_letters(const Plan& plan) {
  std::vector<PartId> order;
  const auto come = [&](PartId part) {
    if (!holds(order, part)) {
      order.push_back(part);
    }
  };
  for (const Stage& stage : plan.stages) {
    for (const Step& step : stage.steps) {
      for (const bool moves : {false, true}) {
        for (const PartId part : step.kind == StepKind::join ? step.parts : std::vector<PartId>{}) {
          if (moves == (step.motion && holds(step.motion->moving, part))) {
            come(part);
          }
        }
      }
    }
  }
  for (PartId part = 0; part < plan.parts.size(); ++part) {
    come(part);
  }
  std::map<PartId, std::string> letters;
  for (std::size_t i = 0; i < order.size(); ++i) {
    const std::string last(1, static_cast<char>('A' + i % 26));
    letters[order[i]] = i < 26 ? last : std::string(1, static_cast<char>('A' + i / 26 - 1)) + last;
  }
  return letters;
}

}  // namespace cli::pictures
