// What each kind of cut takes out of a board.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "geometry/solid.h"
#include "planner/work/part.h"

namespace planner::work {

// The tools of one cut in the part's own coordinates (its low corner at 0, 0, 0): boxes to take
// out, prisms to take out, each where all its half spaces meet, and for a mitre or a chamfer the
// side of its plane to keep.
struct CutTools {
  std::vector<geometry::LatticeBox> boxes;
  std::vector<std::vector<geometry::HalfSpace>> prisms;
  std::optional<geometry::HalfSpace> keep;
};

// REQUIRES: check_cut() (cut_check.h) finds nothing wrong.
CutTools tools_of(const Part& part, const Cut& cut);

// A cylinder along `axis` through `centre`, without ends, as the 12-sided prism of the same
// surface: a dowel and its hole are the same prism, and touch over all of it.
std::vector<geometry::HalfSpace> cylinder(int axis, const std::array<geometry::Length, 3>& centre,
                                          geometry::Length diameter);

// The narrowest that a pin may be, 1/8 in, the narrowest chisel (common practice), and how many
// tails at most leave such pins in a row so long.
inline constexpr geometry::Length kThinnestPin = geometry::Length::in_64ths(8);
int most_tails(geometry::Length span, geometry::Length reach, int slope);

// "rabbet", "groove", "dado" ..., as the file says it.
std::string kind_of(const Cut& cut);

// The two axes of a face in x y z order.
std::array<int, 2> axes_of(Face face);

}  // namespace planner::work
