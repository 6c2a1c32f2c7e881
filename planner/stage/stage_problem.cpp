#include "planner/stage/stage_problem.h"

#include <algorithm>
#include <cmath>

#include "planner/work/job_check.h"
#include "planner/work/step_seconds.h"

namespace planner::stage {
namespace {

std::vector<int> unit_of_part(const StageWork& work, std::size_t parts) {
  std::vector<int> unit(parts, -1);
  for (std::size_t u = 0; u < work.units.size(); ++u) {
    for (work::PartId part : work.units[u]) {
      unit[part] = static_cast<int>(u);
    }
  }
  return unit;
}

// A unit leaves another when every one of its parts leaves every one of the other's; the cost is
// the worst wipe beyond a joint's own depth.
std::int16_t unit_leaves(const work::Motions& motions, std::size_t d,
                         const std::vector<work::PartId>& a, const std::vector<work::PartId>& b) {
  double worst = 0;
  for (work::PartId i : a) {
    for (work::PartId j : b) {
      if (!motions.leaves(d, i, j)) {
        return order::kRefused;
      }
      worst = std::max(worst, motions.overwipe_mm(d, i, j));
    }
  }
  return static_cast<std::int16_t>(std::ceil(worst - 1e-6));
}

int index_of_opposite(const std::vector<geometry::Direction>& directions, std::size_t d) {
  const auto found = std::find_if(
      directions.begin(), directions.end(),
      [&](const geometry::Direction& other) { return dot(other, directions[d]) < -1 + 1e-9; });
  return static_cast<int>(found - directions.begin());
}

static_assert(work::kMostParts <= base::UnitSet::kCapacity);

void fill_directions(order::AssemblyProblem& problem, const StageWork& work,
                     const work::Motions& motions) {
  const auto& directions = motions.directions();
  const std::size_t count =
      std::min<std::size_t>(directions.size(), order::AssemblyProblem::kMaxRemovals);
  for (std::size_t d = 0; d < count; ++d) {
    problem.removals.push_back({directions[d], false, index_of_opposite(directions, d)});
    for (const std::vector<work::PartId>& i : work.units) {
      for (const std::vector<work::PartId>& j : work.units) {
        problem.leaves.push_back(&i == &j ? std::int16_t{0} : unit_leaves(motions, d, i, j));
      }
    }
  }
}

bool unit_unfolds(const work::Motions& motions, std::size_t f, const std::vector<work::PartId>& a,
                  const std::vector<work::PartId>& b) {
  return std::all_of(a.begin(), a.end(), [&](work::PartId i) {
    return std::all_of(b.begin(), b.end(),
                       [&](work::PartId j) { return motions.unfolds(f, i, j); });
  });
}

// Corners whose boards both take part and are not glued to each other yet.
void fill_folds(order::AssemblyProblem& problem, const StageWork& work,
                const work::Motions& motions, const std::vector<int>& unit) {
  const std::vector<work::Fold>& folds = motions.folds();
  for (std::size_t f = 0; f + 1 < folds.size(); f += 2) {
    const int turns = unit[folds[f].turns], stays = unit[folds[f].stays];
    const auto first = static_cast<int>(problem.removals.size());
    if (turns < 0 || stays < 0 || turns == stays ||
        first + 2 > order::AssemblyProblem::kMaxRemovals) {
      continue;
    }
    for (const std::size_t way : {f, f + 1}) {
      const bool back = way != f;
      problem.removals.push_back({folds[way].opens,
                                  true,
                                  back ? first : first + 1,
                                  {back ? stays : turns, back ? turns : stays},
                                  static_cast<int>(way),
                                  folds[way].usual});
      for (const std::vector<work::PartId>& i : work.units) {
        for (const std::vector<work::PartId>& j : work.units) {
          problem.leaves.push_back(&i == &j || unit_unfolds(motions, way, i, j) ? std::int16_t{0}
                                                                                : order::kRefused);
        }
      }
    }
  }
}

// A taped corner is folded shut on its tape, where its boards fold: they don't part straight.
void fold_taped_corners(order::AssemblyProblem& problem, const StageWork& work,
                        std::span<const work::Joint> joints, const work::Motions& motions,
                        const std::vector<int>& unit) {
  const auto n = static_cast<std::size_t>(problem.units);
  for (const work::JointId id : work.joints) {
    const work::PartId a = joints[id].parts[0], b = joints[id].parts[1];
    const bool folds = std::ranges::any_of(motions.folds(), [&](const work::Fold& fold) {
      return (fold.turns == a && fold.stays == b) || (fold.turns == b && fold.stays == a);
    });
    if (joints[id].held_by != work::HeldBy::tape || !folds) {
      continue;
    }
    const auto i = static_cast<std::size_t>(unit[a]), j = static_cast<std::size_t>(unit[b]);
    for (std::size_t d = 0; d < problem.removals.size(); ++d) {
      problem.leaves[(d * n + i) * n + j] = order::kRefused;
      problem.leaves[(d * n + j) * n + i] = order::kRefused;
    }
  }
}

// Everything that touches, glued or not: a floating panel is joined like any part.
void fill_touches(order::AssemblyProblem& problem, std::span<const work::Joint> joints,
                  const std::vector<int>& unit) {
  const int n = problem.units;
  problem.touch.assign(static_cast<std::size_t>(n * n), false);
  for (const work::Joint& joint : joints) {
    const int a = unit[joint.parts[0]], b = unit[joint.parts[1]];
    if (a >= 0 && b >= 0 && a != b) {
      problem.touch[static_cast<std::size_t>(a * n + b)] = true;
      problem.touch[static_cast<std::size_t>(b * n + a)] = true;
    }
  }
}

// A part that floats clear of everything, held captive by its neighbours, is joined with them.
void let_captives_touch(order::AssemblyProblem& problem) {
  const int n = problem.units, count = static_cast<int>(problem.removals.size());
  for (int u = 0; u < n; ++u) {
    bool touches = false;
    for (int v = 0; v < n; ++v) {
      touches = touches || problem.touching(u, v);
    }
    for (int v = 0; v < n && !touches; ++v) {
      for (int d = 0; d < count; ++d) {
        if (v != u && problem.leave(d, u, v) == order::kRefused) {
          problem.touch[static_cast<std::size_t>(u * n + v)] = true;
          problem.touch[static_cast<std::size_t>(v * n + u)] = true;
        }
      }
    }
  }
}

// Faces that swim on one another under clamps are left to tack once snug, so that tightening moves nothing
// (common practice: a minute). Water-based glues take hold; the others stay slippery until they
// set.
int tack_s(const StageWork& work, std::span<const work::Joint> joints,
           const work::GlueInUse& glue) {
  constexpr int kTack_s = 60;
  const bool swims = std::any_of(work.joints.begin(), work.joints.end(), [&](work::JointId id) {
    return joints[id].kind == work::JointKind::lamination && joints[id].held_by == work::HeldBy::clamps;
  });
  const tables::GlueFamily* family = tables::find_glue_family(glue.family);
  const bool tacks = family != nullptr &&
                     (family->chemistry == tables::Chemistry::pva || family->id == "hide_liquid");
  return swims && tacks ? kTack_s : 0;
}

order::JointTime joint_time(const work::Joint& joint, const StageClock& clock) {
  work::GlueInUse glue = clock.glue;
  if (!joint.glue.empty()) {
    if (const auto other = glue_named(joint.glue, {}, clock.shop).glue) {
      glue = *other;
    }
  }
  order::JointTime time;
  time.spread_s = spread_seconds(joint, clock.shop.pace);
  time.join_s = join_seconds(joint, clock.bounds, clock.shop.pace);
  time.next_s = next_seconds(joint, clock.shop.pace);
  time.open_s = std::max(1, static_cast<int>(glue.open_s));  // the hot end of a curve reaches 0
  time.total_s = static_cast<int>(glue.total_s);
  time.closed_s = glue.shared_budget ? time.total_s : 0;
  time.wait_s = static_cast<int>(glue.min_wait_s);
  return time;
}

// Indices into the stage's joints of the ids that are among them.
std::vector<int> local(const std::vector<work::JointId>& ids,
                       const std::vector<work::JointId>& stage) {
  std::vector<int> out;
  for (work::JointId id : ids) {
    const auto found = std::find(stage.begin(), stage.end(), id);
    if (found != stage.end()) {
      out.push_back(static_cast<int>(found - stage.begin()));
    }
  }
  return out;
}

void fill_rounds(order::ScheduleProblem& problem, const StageWork& work,
                 std::span<const StageDemand> rounds) {
  for (std::size_t g = 0; g < rounds.size(); ++g) {
    const StageDemand& round = rounds[g];
    std::vector<int> first = local(round.closed_first, work.joints);
    for (const int joint : local(round.waits_for, work.joints)) {
      if (std::ranges::find(first, joint) == first.end()) {
        first.push_back(joint);
      }
    }
    problem.groups.push_back(
        {round.clamps, round.snug_s, round.tighten_s + round.ease_s, round.ring, std::move(first), round.after});
    for (int joint : local(round.holds, work.joints)) {
      problem.joints[static_cast<std::size_t>(joint)].group = static_cast<int>(g);
    }
    for (int joint : local(round.held_snug, work.joints)) {
      problem.joints[static_cast<std::size_t>(joint)].held_snug = true;
    }
  }
}

// What no clamp holds is looked at all the same, once all is together: by a round without clamps.
void fill_rings(order::ScheduleProblem& problem, const StageWork& work,
                std::span<const work::Joint> joints, std::span<const StageDemand> rounds,
                const StageClock& clock) {
  for (const StageRing& ring : clock.rings) {
    order::RingFinish finish;
    finish.tack_s = rounds.empty() ? 0 : tack_s(work, joints, clock.glue);
    finish.check_s = ring.cauls_s;
    for (const StageCheck& check : ring.checks) {
      finish.check_s += check.seconds;
    }
    problem.rings.push_back(finish);
  }
  if (rounds.empty() && !problem.rings.empty()) {
    problem.groups.push_back({0, 0, 0, 0, local(work.joints, work.joints), {}});
  }
}

void fill_weights(order::ScheduleProblem& problem, const StageWork& work,
                  std::span<const int> weight_g) {
  int all = 0;
  for (const std::vector<work::PartId>& unit : work.units) {
    int sum = 0;
    for (const work::PartId part : unit) {
      sum += part < weight_g.size() ? weight_g[part] : 0;
    }
    problem.weight_g.push_back(sum);
    all += sum;
  }
  // The lighter side never weighs more than half of it all: where that can be lifted, units of
  // different weight may still stand for one another.
  if (all / 2 <= problem.people * order::kOnePersonLifts_g) {
    problem.weight_g.clear();
  }
}

}  // namespace

StageWork stage_work(std::vector<std::vector<work::PartId>> units,
                     std::span<const work::Joint> joints) {
  StageWork work{std::move(units), {}};
  std::ranges::sort(work.units);
  const auto unit_of = [&](work::PartId part) {
    return std::ranges::find_if(work.units, [&](const std::vector<work::PartId>& unit) {
      return std::ranges::find(unit, part) != unit.end();
    });
  };
  for (work::JointId j = 0; j < joints.size(); ++j) {
    if (!joints[j].glued) {
      continue;
    }
    const auto a = unit_of(joints[j].parts[0]), b = unit_of(joints[j].parts[1]);
    if (a != work.units.end() && b != work.units.end() && a != b) {
      work.joints.push_back(j);
    }
  }
  return work;
}

std::vector<StageWork> groups_first(std::span<const std::vector<work::PartId>> groups,
                                    std::span<const work::Joint> joints, std::size_t parts) {
  std::vector<StageWork> stages;
  std::vector<std::vector<work::PartId>> whole(groups.begin(), groups.end());
  for (const std::vector<work::PartId>& group : groups) {
    std::vector<std::vector<work::PartId>> units;
    for (const work::PartId part : group) {
      units.push_back({part});
    }
    stages.push_back(stage_work(std::move(units), joints));
  }
  for (work::PartId part = 0; part < parts; ++part) {
    const bool of_group = std::ranges::any_of(
        groups, [part](const auto& group) { return std::ranges::find(group, part) != group.end(); });
    if (!of_group) {
      whole.push_back({part});
    }
  }
  std::ranges::sort(whole);
  stages.push_back(stage_work(std::move(whole), joints));
  return stages;
}

StageWork one_go(std::span<const work::Joint> joints, std::size_t parts) {
  std::vector<std::vector<work::PartId>> units;
  for (work::PartId part = 0; part < parts; ++part) {
    units.push_back({part});
  }
  return stage_work(std::move(units), joints);
}

order::ScheduleProblem schedule_problem(const StageWork& work, std::span<const work::Joint> joints,
                                        const work::Motions& motions,
                                        std::span<const StageDemand> rounds,
                                        const StageClock& clock) {
  order::ScheduleProblem problem;
  const std::vector<int> unit = unit_of_part(work, motions.parts());
  problem.assembly.units = static_cast<int>(work.units.size());
  fill_directions(problem.assembly, work, motions);
  if (clock.fold_tape) {
    fold_taped_corners(problem.assembly, work, joints, motions, unit);
  }
  fill_folds(problem.assembly, work, motions, unit);
  fill_touches(problem.assembly, joints, unit);
  let_captives_touch(problem.assembly);
  for (work::JointId id : work.joints) {
    const work::Joint& joint = joints[id];
    problem.assembly.joints.emplace_back(unit[joint.parts[0]], unit[joint.parts[1]]);
    problem.joints.push_back(joint_time(joint, clock));
  }
  fill_rounds(problem, work, rounds);
  const work::Pace& pace = clock.shop.pace;
  problem.people = std::clamp(clock.shop.people, 1, work::kMostPeople);
  fill_weights(problem, work, clock.weight_g);
  problem.join_s = work::whole_seconds(pace.join_s);
  fill_rings(problem, work, joints, rounds, clock);
  if (clock.closing_part) {
    problem.closing_unit = unit[*clock.closing_part];
    problem.inside_check_s = problem.closing_unit >= 0 ? clock.inside_check_s : 0;
  }
  return problem;
}

}  // namespace planner::stage
