// A recipe as sets of half spaces: what is kept, and each tool. All twins start from these, never
// from the cells of geometry/exact/body.h.
#pragma once
#include <vector>

#include "scenes/scenes.h"

namespace twins {

using ConvexSet = std::vector<geometry::HalfSpace>;

ConvexSet half_spaces(const geometry::LatticeBox& box);
ConvexSet kept(const scenes::Recipe& recipe);
std::vector<ConvexSet> tools(const scenes::Recipe& recipe);

}  // namespace twins
