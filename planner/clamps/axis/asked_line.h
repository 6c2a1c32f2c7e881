// A glue line of an axis with what is asked of it.
#pragma once
#include "planner/base/units.h"
#include "planner/pressure/glue_line.h"

namespace planner::clamps::axis {

// What is lightly held, from so much on (10 psi); and how far a line may gape, as drawn or pressed,
// and count as closed. Both ours: handbooks say that small flat planed faces bond well at lower
// pressure, and rubbed joints hold with none.
inline constexpr double kLight_MPa = 10 * base::kMPaPerPsi, kClosedGap_mm = 0.05;

struct AskedLine : pressure::GlueLine {
  double hold_MPa = 0;        // the least pressure anywhere that holds the joint
  double full_MPa = 0;        // the least that presses it fully, not below `hold_MPa`
  double most_MPa = 0;        // no higher mean is planned
  bool may_be_light = false;  // nothing has to be pulled in, so that less than holds will do
  bool spaced = false;        // an edge or a face: its clamps stand no farther apart than kWidestApart_mm
  double camber_mm = 0;       // of the caul over it; 0 under blocks and straight cauls
  bool too_slight = false;    // the wood on its way bears no snug clamp anywhere
  bool beyond_reach = false;  // no clamp can stand where it would press it
};

}  // namespace planner::clamps::axis
