#include "twins/convex_sets.h"

namespace twins {

ConvexSet half_spaces(const geometry::LatticeBox& box) {
  ConvexSet set;
  for (std::size_t k = 0; k < 3; ++k) {
    geometry::HalfSpace low{{}, box.lo}, high{{}, box.hi};
    low.normal[k] = -1;
    high.normal[k] = 1;
    set.push_back(low);
    set.push_back(high);
  }
  return set;
}

ConvexSet kept(const scenes::Recipe& recipe) {
  ConvexSet set = half_spaces(recipe.board);
  set.insert(set.end(), recipe.keep.begin(), recipe.keep.end());
  return set;
}

std::vector<ConvexSet> tools(const scenes::Recipe& recipe) {
  std::vector<ConvexSet> sets;
  for (const geometry::LatticeBox& cut : recipe.cuts) {
    sets.push_back(half_spaces(cut));
  }
  sets.insert(sets.end(), recipe.prisms.begin(), recipe.prisms.end());
  return sets;
}

}  // namespace twins
