// What in the drawing wants mending before wood is cut or glue opened. What the shop lacks is no
// fault of the drawing's and isn't told here.
#pragma once
#include <vector>

#include "planner/plan/plan.h"

namespace planner::say {

// Worst first: what can't be put together at all, then wood that will crack, then weak glue lines.
enum class FaultKind {
  locked,        // each of `parts` holds the others in, whatever the order
  across_grain,  // at `joints` wood is glued across wood that moves more than it bears
  gap            // the faces of `joints` are drawn `gap_mm` apart, for glue to fill
};

struct DrawingFault {
  FaultKind kind = FaultKind::locked;
  std::vector<work::PartId> parts;
  std::vector<work::JointId> joints;
  double gap_mm = 0;
};

// At most one of a kind, but for gaps: one a width.
std::vector<DrawingFault> drawing_faults(const plan::Plan& plan);

// Less is what rounding to whole nanometres leaves between faces drawn at an angle (ours), and
// would be printed as 0.00 mm.
inline constexpr double kDrawnGap_mm = 0.005;

// The widest gap that the drawing leaves between two faces of the joint; 0 where they touch.
double drawn_gap_mm(const work::Joint& joint);

}  // namespace planner::say
