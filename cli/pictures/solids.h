// Plain blocks and turned parts, as facets: what a picture is built of beside the parts themselves.
#pragma once
#include <array>
#include <vector>

#include "planner/plan/plan.h"

namespace cli::pictures {

// A block: its middle and half its sides, three directions at right angles with their lengths.
std::vector<geometry::Facet> block(const geometry::Point& middle,
                                   const std::array<geometry::Direction, 3>& halves);
// The same about the line from `a` to `b`: a bar, a screw, a strap. `thick` is a whole side.
std::vector<geometry::Facet> rod(const geometry::Point& a, const geometry::Point& b,
                                 const geometry::Direction& side, double wide, double thick);

// A flat shape given a thickness, half of it on either side: `ring` runs counter-clockwise seen from the
// tip of `half`.
std::vector<geometry::Facet> extruded(const geometry::Ring& ring, const geometry::Direction& half);

std::vector<geometry::Facet> moved(std::vector<geometry::Facet> facets, const geometry::Direction& by);
// Turned about the hinge, by positive angles right-handed.
std::vector<geometry::Facet> turned(std::vector<geometry::Facet> facets, const geometry::Hinge& hinge,
                                    double angle_rad);
geometry::Point turned(const geometry::Point& p, const geometry::Hinge& hinge, double angle_rad);

// The box round all of the facets, along three directions at right angles: low and high ends.
std::array<geometry::Extent, 3> reach(const std::vector<geometry::Facet>& facets,
                                      const std::array<geometry::Direction, 3>& axes);

}  // namespace cli::pictures
