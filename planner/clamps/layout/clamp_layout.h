// The clamps of one stage: where each stands, which it is, what it presses and how hard, what the
// rack lacks and what to do about it.
#pragma once
#include <span>
#include <string>
#include <vector>

#include "planner/base/stop.h"
#include "planner/plan/plan.h"
#include "planner/work/glue_quantity.h"

namespace planner::clamps::layout {

struct ClampProblem {
  const work::Job& job;
  const work::Shop& shop;
  std::span<const geometry::Solid> solids;  // of all parts
  std::span<const work::Joint> joints;      // all
  std::vector<work::PartId> parts;          // of the stage
  std::vector<work::JointId> stage_joints;  // that it closes
  const work::GlueInUse& glue;
  bool prove = false;  // search on without the effort limit
  // Once asked, the first clamps found stay: no others are tried, for more pressure or as ways out.
  const base::Stop* stop = nullptr;
};

// The clamps on one axis, snugged together.
struct PressingAxis {
  geometry::Direction axis;
  bool seat = false;  // what comes home and shoulders only: no pressure is asked
  bool hands_do = false;  // such that hands or a mallet do without clamps
  std::vector<plan::PlannedClamp> clamps;
  std::optional<plan::ByHand>
      by_hand;  // in place of clamps that a seated axis wants and the rack lacks
  std::vector<plan::LinePressure> lines;  // every glued face on the axis, by (joint, face)
  std::vector<work::JointId> holds;       // joints whose larger face is on the axis
  std::vector<work::JointId> presses;     // all with a face on it
  plan::Level level =
      plan::Level::hold;  // full, hold, light or short_of_hold of the worst held line; or seat
  // Force along the axis that presses to hold, and to full, the held faces (on a seated axis the
  // shoulders): the largest over the cuts from jaw to jaw.
  double hold_N = 0, full_N = 0;
  bool proven_fewest = false;
  int fewest_bound = 0;  // no fewer clamps do, in the model
};

// The choice between holding, as planned, and borrowing clamps for full pressure.
struct FullerRack {
  plan::WayOut hold, borrow;
  double more_s = 0;  // that those take to set and tighten
};

struct ClampLayout {
  std::vector<PressingAxis> rounds;  // held axes first, x before y before z; then seated ones
  std::vector<plan::InventoryRow> inventory;
  std::vector<plan::WayOut> ways_out;  // where the rack is short of holding: least trouble first
  std::optional<FullerRack> fuller;    // where the rack holds and is short of full
  std::vector<plan::SpareNote>
      spare;  // where clamps left on the rack would help most, on the axis pressed least
  std::vector<plan::SpareNote> tried;  // what else of the rack was, and why it won't do
  int missing = 0;                     // clamps wanted that the rack has not
  // Pairs of clamps that can't be kept clear of one another; they tell which they meet.
  int bar_clashes = 0;
};

// `goal` hold: the fewest clamps that hold every joint. `goal` light: the same where the rack has
// them, else the most of it that the rack gives to joints that may be lightly held. `goal` full: those that press fully, on
// each axis where the rack has them; elsewhere those that hold. One rack serves all axes at once.
// With an unlimited rack the kinds to borrow or buy. Clamps are numbered from 1. REQUIRES: goal is
// hold, light or full.
ClampLayout lay_out_clamps(const ClampProblem& problem, plan::Level goal);

// True where lightly held may be more than `hold` is, the layout for goal hold of a limited rack: where
// that lacks clamps, and there are as many as it takes. Else the layout for goal light is the same.
bool light_may_help(const ClampLayout& hold, const work::Shop& shop);

}  // namespace planner::clamps::layout
