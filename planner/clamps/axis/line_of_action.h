// A clamp's line of action: what it passes through between its jaws, which glue lines it presses,
// and what its pads bear on.
#pragma once
#include <array>
#include <optional>
#include <span>
#include <vector>

#include "geometry/bearing.h"
#include "planner/clamps/axis/asked_line.h"
#include "planner/plan/plan.h"
#include "planner/pressure/glue_line.h"

namespace planner::clamps::axis {

geometry::Box bounds_of(const pressure::Work& work);

// The line along `axis` through the work.
struct LineOfAction {
  geometry::Direction axis;
  geometry::Point at, far;              // where it enters the work on the low side, and leaves it
  std::vector<pressure::Passage> path;  // not empty
  double span_mm() const { return path.back().leave_mm - path.front().enter_mm; }
};
// Nothing where it misses all parts.
std::optional<LineOfAction> line_of_action(const pressure::Work& work,
                                           const geometry::Point& on_line,
                                           const geometry::Direction& axis);

// The air between parts that a force still gets across: so much as the glue fills, or as faces may
// be apart that touch, and a little.
double bridged_gap_mm(double glue_fills_mm);

// The passage before which there is more air than `max_gap_mm` (between joined parts than a mortise
// is deeper than its tenon): no force gets across it.
std::optional<std::size_t> after_hollow(const LineOfAction& action,
                                        std::span<const work::Joint> joints, double max_gap_mm);

// A line that a line of action passes through, and where along it.
struct PressedAt {
  std::size_t line = 0;
  double x_mm = 0;
};
// Lines whose face it goes through where their two parts meet on it; a tenon's shoulder is pressed
// over the tenon too. By line.
std::vector<PressedAt> lines_pressed(const LineOfAction& action, std::span<const AskedLine> lines,
                                     std::span<const work::Joint> joints, double max_gap_mm);

// A jaw's end of the action: what there is to bear on, and the way a pad lies on it.
struct PadPlace {
  const pressure::Work& work;
  std::span<const geometry::BearingFace> bearing;  // of the work, along the axis
  geometry::Direction along, across;               // of the pad's sides
};
// How much thicker a pad is a mm along its sides, to lie on a face that isn't square to the clamp.
struct Slope {
  double along = 0, across = 0;
  bool flat() const { return along == 0 && across == 0; }
};

// Where a pad centred on the line of action has its whole face on one free part at each end, the
// slopes there: low end, high end. Nothing elsewhere.
std::optional<std::array<Slope, 2>> slopes_under(const PadPlace& place, const LineOfAction& action,
                                                 const plan::PadSize& pad);
// The same for pads that are flat.
bool pads_bear(const PadPlace& place, const LineOfAction& action, const plan::PadSize& pad);

}  // namespace planner::clamps::axis
