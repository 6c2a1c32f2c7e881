// A glue face as a clamp sees it: a straight strip, the part that the jaw bears on over it and what
// it is pressed against.
#pragma once
#include <optional>
#include <span>
#include <vector>

#include "geometry/solid.h"
#include "planner/pressure/pressure_line.h"
#include "planner/work/joint.h"

namespace planner::pressure {

// The parts of one stage, in the order of `parts`: what stands between the jaws and in their way.
struct Work {
  std::vector<work::PartId> parts;
  std::vector<geometry::Solid> solids;
};
Work work_of(std::span<const work::PartId> parts, std::span<const geometry::Solid> solids);

// A stretch of a line of action inside one part, in mm along the axis.
struct Passage {
  work::PartId part = 0;
  double enter_mm = 0, leave_mm = 0;
};

// What a line of action passes through, in order, from one jaw to the other.
std::vector<Passage> passages(const Work& work, const geometry::Point& on_line,
                              const geometry::Direction& axis);

enum class LineShape {
  edge,  // boards side by side, each as thick as the joint: they bend together
  strip  // a panel over a strip of a stiffer part
};

struct GlueLine {
  work::JointId joint = 0;
  std::size_t face = 0;
  geometry::Direction along;  // its x
  geometry::Point start;      // x = 0, in the middle of the strip's width
  double length_mm = 0;
  double width_mm = 0;   // glued area across the axis / length, so that mean x area is the force
  double across_mm = 0;  // how wide the strip reaches, cut-outs included
  double tilt = 1;       // |normal . axis|: below 1 for mitres
  double offset_mm = 0;  // where the face lies along the axis
  LineShape shape = LineShape::strip;
  work::PartId over = 0, under = 0;  // the part on the jaw's side, and its mate
  bool from_low = true;              // `over` lies on the low side of the axis
  PanelOnStrip strip;                // for either shape; clamps = 1 and no caul
  EdgeBoard over_board, under_board;
  LineModuli offcut;       // of a strip of the panel's wood, its grain along the line
  double bow_mm = 0;       // gap at the middle (> 0) or the ends (< 0) before pressing
  bool wide = false;       // of boards laminated flat: pressed as a plate, not as a strip
  bool estimated = false;  // wider or more broken up than the straight-line model is checked for
};

// The line of a joint's face along an axis (a unit vector that the face's normal has a part in).
// Of the two parts the one next to a jaw is `over`; where both or neither are, the thinner; then
// the one on the low side. Heights are those on the line of action through the strip's middle: less
// over a rabbet than beside it. REQUIRES: both parts are in the work.
GlueLine glue_line(const work::Job& job, std::span<const work::Joint> joints, const Work& work,
                   work::JointId joint, std::size_t face, const geometry::Direction& axis);

// The sense of a direction in which its first coordinate that isn't nothing grows.
geometry::Direction non_negative(const geometry::Direction& d);

// Point on the strip's middle line at x.
geometry::Point point_at(const GlueLine& line, double x_mm);

// Stiffness of a part's wood in the axes of a line: x along it, z the pressing axis.
LineModuli moduli_along(const work::Part& part, const geometry::Direction& along,
                        const geometry::Direction& axis);

}  // namespace planner::pressure
