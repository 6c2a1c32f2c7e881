// One stage of a job as the abstract problem that the schedule solves.
#pragma once
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "planner/order/schedule.h"
#include "planner/work/glue_quantity.h"
#include "planner/work/motion.h"

namespace planner::stage {

// What goes together in the stage: each unit a part, or the parts glued to one board earlier.
struct StageWork {
  std::vector<std::vector<work::PartId>> units;  // by lowest part
  std::vector<work::JointId> joints;             // glued, between different units
};

// The units put together: by every glued joint between two of them.
StageWork stage_work(std::vector<std::vector<work::PartId>> units,
                     std::span<const work::Joint> joints);

// Each group of parts by itself, in order, then all groups and what is of none of them together. Groups are
// ascending.
std::vector<StageWork> groups_first(std::span<const std::vector<work::PartId>> groups,
                                    std::span<const work::Joint> joints, std::size_t parts);

// The whole job in one go: every part a unit.
StageWork one_go(std::span<const work::Joint> joints, std::size_t parts);

// The clamps of one round, as the clock sees them.
struct StageDemand {
  int clamps = 0;
  int snug_s = 0, tighten_s = 0;  // a clamp
  std::vector<work::JointId> holds,
      presses;             // whose larger face it holds; all with a face on its axis
  std::vector<int> after;  // rounds that must be snug before it
  int ring = 0;            // which StageRing it is tightened with
  std::vector<work::JointId> snug_presses;  // of `holds`, what it presses enough when only snug
  std::vector<work::JointId> closed_first, held_snug;  // before it; by its snugging alone
  // What its going on is called: snug, of clamps; fasten, load. A round that is nobody's has no clamps.
  plan::StepKind does = plan::StepKind::snug;
  int ease_s = 0;  // of its tightening, at the end: straps lifted at their corners
  std::vector<work::JointId> waits_for;  // closed before it too: its clamps would bar them the way
};

struct StageCheck {
  plan::Check what = plan::Check::flush;
  int seconds = 0;
  std::vector<std::size_t> rings = {};  // of diagonals: whose, as StageInput has them
};

// Rounds that are tightened together, once cauls are set across them and these checks are made.
struct StageRing {
  std::vector<StageCheck> checks;
  int cauls_s = 0;
};

struct StageClock {
  const work::Shop& shop;
  const work::GlueInUse& glue;
  std::vector<StageRing> rings = {};
  // Goes on last, after a look inside of so many seconds.
  std::optional<work::PartId> closing_part = {};
  int inside_check_s = 0;
  bool fold_tape = false;                       // taped corners are folded shut, never pushed together
  std::span<const int> weight_g = {};           // by part; empty: light
  std::span<const geometry::Box> bounds = {};  // by part; empty: all of them short
};

// Times of joints that take another glue are that glue's. REQUIRES: every glue named in a joint is
// known (make_plan reports those that aren't).
order::ScheduleProblem schedule_problem(const StageWork& work, std::span<const work::Joint> joints,
                                        const work::Motions& motions,
                                        std::span<const StageDemand> rounds,
                                        const StageClock& clock);

}  // namespace planner::stage
