// The work as triangles and edges, for the view that turns.
#pragma once
#include <string>
#include <vector>

#include "planner/plan/plan.h"

namespace cli::pictures {

// JSON, numbers only but for colour classes. `parts`: its colour class `c`, the way it is pulled off when
// the work is pulled apart `x`, its surface `m` and its glue `g`; `iron`, `pads`: of the last stage's clamps;
// `bench`: the work's directions that lie to the right, away and up on the bench then. A surface is its
// points `p` in whole tenths of a millimetre, three numbers each, and by the points' numbers triangles `t`, those
// that look at another part of the work `i`, those of the marks on show faces `s`, and edges `e`. `pulled_mm` is by
// part.
std::string turning_model(const planner::plan::Plan& plan, const std::vector<geometry::Direction>& pulled_mm);

// A flat region with holes as triangles, counter-clockwise seen from the tip of the normal, three points
// each: cut into strips at every corner.
std::vector<geometry::Point> triangles_of(const geometry::Polygon& region, const geometry::Direction& normal);

// The species' colour class: "pale", "tan", "red", "dark" (from memory).
const char* colour_class(const std::string& species);

}  // namespace cli::pictures
