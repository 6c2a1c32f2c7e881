#include "planner/cut.h"
#include "planner/part.h"

namespace planner {
namespace {

geometry::LatticeBox placed(const geometry::LatticeBox& box, const std::array<Length, 3>& at) {
  geometry::LatticeBox moved = box;
  for (std::size_t i = 0; i < 3; ++i) {
    moved.lo[i] += at[i];
    moved.hi[i] += at[i];
  }
  return moved;
}

}  // namespace

geometry::Solid make_solid(const Part& part) {
  geometry::Solid solid = geometry::board(part.blank());
  for (const Cut& one : part.cuts) {
    const CutTools tools = tools_of(part, one);
    std::vector<geometry::LatticeBox> boxes;
    for (const geometry::LatticeBox& box : tools.boxes) {
      boxes.push_back(placed(box, part.at));
    }
    solid = geometry::cut(solid, boxes);
    if (tools.keep) {
      geometry::HalfSpace keep = *tools.keep;
      for (std::size_t i = 0; i < 3; ++i) {
        keep.through[i] += part.at[i];
      }
      solid = geometry::clip(solid, keep);
    }
  }
  return part.turn ? geometry::turned(solid, *part.turn) : solid;
}

}  // namespace planner
