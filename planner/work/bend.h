// Bent work: plies glued up on a form.
#pragma once
#include <string>

#include "geometry/length.h"

namespace planner::work {

// Plies glued up on a curved form. Its parts lie flat, as long as the curve's middle line, which is what
// the plies' glued area and their clamps ask; `radius` is that of the finished inside.
struct Bend {
  geometry::Length radius, ply, width;
  int arc_deg = 0, plies = 0;
  std::string species;

  // Of the form's face: what is bent on it opens by deflection / plies squared once it is off (published
  // estimate: epoxy makers' boat-building manuals, springback of laminates).
  double form_radius_mm() const;
  // That bends the plies, each by itself, to the form: E I / R of each, N mm.
  double moment_Nmm(double along_grain_MPa) const;
};

}  // namespace planner::work
