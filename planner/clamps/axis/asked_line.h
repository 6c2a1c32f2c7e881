// A glue line of an axis with what is asked of it.
#pragma once
#include "planner/pressure/glue_line.h"

namespace planner::clamps::axis {

struct AskedLine : pressure::GlueLine {
  double hold_MPa = 0;        // the least pressure anywhere that holds the joint
  double full_MPa = 0;        // the least that presses it fully, not below `hold_MPa`
  double camber_mm = 0;       // of the caul over it; 0 under blocks and straight cauls
  bool beyond_reach = false;  // no clamp can stand where it would press it
};

}  // namespace planner::clamps::axis
