#include "planner/stage/staging.h"

#include <algorithm>
#include <map>

#include "planner/order/comfort.h"
#include "planner/stage/stage_checks.h"
#include "planner/stage/stage_demands.h"
#include "planner/work/joint_fit.h"
#include "planner/work/step_seconds.h"

namespace planner::stage {
namespace {

// The clamps that one go puts on these joints: what a stage with only them would ask for.
class DemandOfJoints {
 public:
  DemandOfJoints(const PlannedStage& one_go, const StageInput& input)
      : one_go_(one_go), input_(input), pace_(input.shop.pace) {}

  order::StageClamps operator()(std::span<const int> joints) const {
    order::StageClamps out;
    out.group_of.assign(joints.size(), -1);
    int pressing = 0;
    for (const clamps::layout::PressingAxis& round : one_go_.layout.rounds) {
      add_round(round, joints, out, pressing);
    }
    add_clampless(joints, out);
    add_rings(joints, out);
    out.enough = pressing <= on_the_rack();
    return out;
  }

 private:
  int on_the_rack() const {
    int there = 0;
    for (const clamps::layout::PressingAxis& round : one_go_.layout.rounds) {
      there += round.hands_do ? 0 : static_cast<int>(round.clamps.size());
    }
    return there - one_go_.layout.missing;
  }

  // The ring that the round is tightened with in one go: that of a joint it holds, else the first.
  int ring_of(const clamps::layout::PressingAxis& round) const {
    for (std::size_t j = 0; j < one_go_.stage.joints.size(); ++j) {
      const int group = one_go_.problem.joints[j].group;
      if (group >= 0 && std::ranges::count(round.holds, one_go_.stage.joints[j]) > 0) {
        return one_go_.problem.groups[static_cast<std::size_t>(group)].ring;
      }
    }
    return 0;
  }

  // What a stage of these joints is checked for.
  int check_s(std::span<const int> joints, bool closes_ring) const {
    StageWork work;
    for (const int joint : joints) {
      work.joints.push_back(id_of(joint));
      for (const work::PartId part : input_.joints[id_of(joint)].parts) {
        work.units.push_back({part});
      }
    }
    int sum = closes_ring && !input_.rings.empty() ? ring_check_s(input_.rings.front(), pace_) : 0;
    for (const StageCheck& check :
         stage_checks(work, input_.joints, input_.bounds, closes_ring, pace_)) {
      sum += check.seconds;
    }
    return sum;
  }

  // Those of one go that have rounds here, numbered anew; the first of all has the checks.
  void add_rings(std::span<const int> joints, order::StageClamps& out) const {
    std::map<int, int> number;
    for (order::SnugRound& round : out.groups) {
      const auto [known, fresh] = number.try_emplace(round.ring, static_cast<int>(number.size()));
      if (fresh) {
        out.rings.push_back(one_go_.problem.rings[static_cast<std::size_t>(round.ring)]);
        out.rings.back().check_s =
            round.ring == 0 ? check_s(joints, true) : out.rings.back().check_s;
      }
      round.ring = known->second;
    }
    if (!out.rings.empty()) {
      out.open = {one_go_.problem.rings.front().tack_s, check_s(joints, false)};
    }
  }

  work::JointId id_of(int joint) const {
    return one_go_.stage.joints[static_cast<std::size_t>(joint)];
  }

  void add_round(const clamps::layout::PressingAxis& round, std::span<const int> joints,
                 order::StageClamps& out, int& pressing) const {
    order::SnugRound snug;
    std::vector<plan::PlannedClamp> on_these;
    for (const plan::PlannedClamp& clamp : round.clamps) {
      const bool wanted = std::any_of(joints.begin(), joints.end(), [&](int joint) {
        return std::find(clamp.joints.begin(), clamp.joints.end(), id_of(joint)) !=
               clamp.joints.end();
      });
      if (wanted) {
        on_these.push_back(clamp);
      }
    }
    if (on_these.empty()) {
      return;
    }
    snug.clamps = static_cast<int>(on_these.size());
    snug.snug_s = snug_seconds(on_these, pace_);
    snug.tighten_s = work::whole_seconds(pace_.tighten_s);
    snug.ring = ring_of(round);
    const auto& first = round.holds.empty() ? round.presses : round.holds;
    for (std::size_t j = 0; j < joints.size(); ++j) {
      if (std::find(first.begin(), first.end(), id_of(joints[j])) != first.end()) {
        snug.closed_first.push_back(joints[j]);
        if (!round.holds.empty()) {
          out.group_of[j] = static_cast<int>(out.groups.size());
        }
      }
    }
    if (!snug.closed_first.empty()) {
      pressing += round.hands_do ? 0 : snug.clamps;
      out.groups.push_back(std::move(snug));
    }
  }

  // What is fastened or loaded, in the rounds of one go.
  void add_clampless(std::span<const int> joints, order::StageClamps& out) const {
    std::map<int, std::size_t> known;
    for (std::size_t j = 0; j < joints.size(); ++j) {
      const work::HeldBy by = input_.joints[id_of(joints[j])].held_by;
      const int group = one_go_.problem.joints[static_cast<std::size_t>(joints[j])].group;
      const bool fastened = work::fastens(by);
      if (group < 0 || !(fastened || by == work::HeldBy::weights || by == work::HeldBy::vacuum)) {
        continue;
      }
      const auto [at, fresh] = known.try_emplace(group, out.groups.size());
      if (fresh) {
        out.groups.push_back(one_go_.problem.groups[static_cast<std::size_t>(group)]);
        out.groups.back().closed_first.clear();
        out.groups.back().after.clear();
        out.groups.back().clamps = fastened ? 0 : out.groups.back().clamps;
      }
      order::SnugRound& round = out.groups[at->second];
      round.closed_first.push_back(joints[j]);
      round.clamps += fastened ? fasteners_of(id_of(joints[j])) : 0;
      out.group_of[j] = static_cast<int>(at->second);
    }
  }

  int fasteners_of(work::JointId id) const {
    const auto row = std::ranges::find(one_go_.stage.fastenings, id, &plan::Fastening::joint);
    return row == one_go_.stage.fastenings.end() ? 0 : static_cast<int>(row->at.size());
  }

  const PlannedStage& one_go_;
  const StageInput& input_;
  const work::Pace& pace_;
};

order::StageProblem stage_problem(const PlannedStage& one_go, const StageInput& input,
                                  StageCount count) {
  order::StageProblem problem;
  problem.whole = one_go.problem;
  problem.whole.groups.clear();
  problem.whole.rings.clear();
  for (order::JointTime& joint : problem.whole.joints) {
    joint.group = -1;
  }
  problem.clamps = DemandOfJoints(one_go, input);
  problem.least = count.least;
  problem.most = count.most;
  return problem;
}

// In one go every unit is a part of the same number.
StageWork work_of(const order::StageOrder& order, const PlannedStage& one_go) {
  StageWork work;
  for (const base::UnitSet& board : order.boards) {
    work.units.emplace_back();
    for (int part = board.lowest(); part >= 0; part = board.next(part)) {
      work.units.back().push_back(static_cast<work::PartId>(part));
    }
  }
  for (int joint : order.joints) {
    work.joints.push_back(one_go.stage.joints[static_cast<std::size_t>(joint)]);
  }
  return work;
}

std::vector<StageWork> works_of(const order::StageOrders& orders, const PlannedStage& one_go) {
  std::vector<StageWork> works;
  for (const order::StageOrder& order : orders.stages) {
    works.push_back(work_of(order, one_go));
  }
  return works;
}

// The best plan of stages whose clamps, laid out for each stage, are on the rack and press every
// joint; of some that are as few. Where none presses them all, the best; empty where the rack or
// the clock fails after all.
std::vector<PlannedStage> staged(const order::StageOrders& best, const order::StageProblem& problem,
                                 const StageInput& input, const PlannedStage& one_go,
                                 const PlanOptions& options) {
  constexpr std::size_t kMany = 16;  // parts: each way to stage them takes long
  const int others = input.job.parts.size() > kMany ? 1 : 5;
  const auto good = [&input](const PlannedStage& stage) { return holds(stage) && presses(stage, input.joints); };
  std::vector<PlannedStage> first = plan_while(works_of(best, one_go), input, options, holds);
  if (!first.empty() && std::ranges::all_of(first, good)) {
    return first;
  }
  for (const order::StageOrders& other : next_best_stages(problem, best, others)) {
    std::vector<PlannedStage> stages = plan_while(works_of(other, one_go), input, options, good);
    if (!stages.empty()) {
      return stages;
    }
  }
  return first;
}

}  // namespace

bool presses(const PlannedStage& planned, std::span<const work::Joint> joints) {
  return std::ranges::all_of(planned.layout.rounds, [&](const clamps::layout::PressingAxis& round) {
    return std::ranges::none_of(round.lines, [&](const plan::LinePressure& line) {
      const auto main = main_face(joints[line.joint]);
      return line.level == plan::Level::short_of_hold && (!main || *main == line.face);
    });
  });
}

std::vector<PlannedStage> plan_while(std::span<const StageWork> works, const StageInput& input,
                                     const PlanOptions& options,
                                     const std::function<bool(const PlannedStage&)>& good) {
  std::vector<PlannedStage> stages;
  int step = 1, clamp = 1;
  for (const StageWork& work : works) {
    stages.push_back(plan_stage(input, work, options, step, clamp));
    if (!good(stages.back())) {
      return {};
    }
    step += static_cast<int>(stages.back().stage.steps.size());
    clamp += static_cast<int>(stages.back().stage.clamps.size());
  }
  return stages;
}

std::vector<PlannedStage> plan_each(std::span<const StageWork> works, const StageInput& input,
                                    const PlanOptions& options) {
  return plan_while(works, input, options, [](const PlannedStage&) { return true; });
}

bool holds(const PlannedStage& planned) {
  return planned.schedule.in_time() && planned.layout.missing == 0;
}

bool comfortable(std::span<const PlannedStage> stages) {
  return std::ranges::all_of(stages, [](const PlannedStage& stage) {
    return order::comfortable(stage.problem, stage.schedule);
  });
}

const PlannedStage& tightest(std::span<const PlannedStage> stages) {
  return *std::ranges::min_element(stages, {},
                                   [](const PlannedStage& s) { return s.schedule.slack_s; });
}

Staging plan_in_stages(const StageInput& input, const PlannedStage& one_go,
                       const PlanOptions& options, StageCount count) {
  const order::StageProblem problem = stage_problem(one_go, input, count);
  Staging out{solve_stages(problem), {}};
  if (out.orders.in_time() && out.orders.stages.size() > 1) {
    out.stages = staged(out.orders, problem, input, one_go, options);
  }
  return out;
}

}  // namespace planner::stage
