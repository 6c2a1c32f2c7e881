#include "planner/work/part_solid.h"

#include "planner/work/cut.h"

namespace planner::work {
namespace {

geometry::LatticeBox placed(const geometry::LatticeBox& box,
                            const std::array<geometry::Length, 3>& at) {
  geometry::LatticeBox moved = box;
  for (std::size_t i = 0; i < 3; ++i) {
    moved.lo[i] += at[i];
    moved.hi[i] += at[i];
  }
  return moved;
}

geometry::HalfSpace placed(geometry::HalfSpace space, const std::array<geometry::Length, 3>& at) {
  for (std::size_t i = 0; i < 3; ++i) {
    space.through[i] += at[i];
  }
  return space;
}

// A box that the cylinder lies in, trimmed to it; its corners are cut off plane by plane.
geometry::Solid dowel(const Part& part) {
  const geometry::Length margin =
      part.width;  // the prism's corners stand out of its diameter a little
  geometry::LatticeBox box = part.blank();
  std::array<geometry::Length, 3> centre = part.at;
  for (const int axis : {part.across(), part.face}) {
    const auto i = static_cast<std::size_t>(axis);
    centre[i] += part.width / 2;
    box.lo[i] -= margin;
    box.hi[i] += margin;
  }
  geometry::Solid solid = geometry::board(box);
  for (const geometry::HalfSpace& side : cylinder(part.along, centre, part.width)) {
    solid = geometry::clip(solid, side);
  }
  return solid;
}

}  // namespace

geometry::Solid make_solid(const Part& part) {
  if (part.mesh) {
    return *part.mesh;
  }
  geometry::Solid solid = part.round ? dowel(part) : geometry::board(part.blank());
  for (const Cut& one : part.cuts) {
    const CutTools tools = tools_of(part, one);
    std::vector<geometry::LatticeBox> boxes;
    for (const geometry::LatticeBox& box : tools.boxes) {
      boxes.push_back(placed(box, part.at));
    }
    solid = geometry::cut(solid, boxes);
    for (const std::vector<geometry::HalfSpace>& tool : tools.prisms) {
      std::vector<geometry::HalfSpace> prism;
      for (const geometry::HalfSpace& side : tool) {
        prism.push_back(placed(side, part.at));
      }
      solid = geometry::cut(solid, prism);
    }
    if (tools.keep) {
      solid = geometry::clip(solid, placed(*tools.keep, part.at));
    }
  }
  for (const geometry::Turn& turn : part.turns) {
    solid = geometry::turned(solid, turn);
  }
  return solid;
}

std::vector<geometry::Solid> make_solids(std::span<const Part> parts) {
  std::vector<geometry::Solid> solids;
  for (const Part& part : parts) {
    solids.push_back(make_solid(part));
  }
  return solids;
}

std::vector<geometry::Box> bounds_of(std::span<const geometry::Solid> solids) {
  std::vector<geometry::Box> boxes;
  for (const geometry::Solid& solid : solids) {
    boxes.push_back(bounds(solid));
  }
  return boxes;
}

}  // namespace planner::work
