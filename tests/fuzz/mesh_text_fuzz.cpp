// Any bytes as a mesh, as far as its triangles: read, welded, told apart, looked over for open
// edges. No body is built, which mesh_file_fuzz does at a hundredth of the speed.
#include <algorithm>
#include <cmath>

#include "geometry/mesh/mesh_readers.h"
#include "tests/fuzz/fuzz_check.h"

namespace {

constexpr geometry::MeshText (*kReaders[])(std::string_view, double) = {
    geometry::read_obj, geometry::read_off, geometry::read_ply, geometry::read_stl};

// Points beyond 30 m are refused before they are welded.
bool near_enough(const geometry::MeshSurface& surface) {
  return std::all_of(surface.points.begin(), surface.points.end(), [](const geometry::Point& p) {
    return std::max({std::abs(p.x), std::abs(p.y), std::abs(p.z)}) <= 30'000;
  });
}

void require_corners(const geometry::MeshSurface& surface) {
  for (const geometry::Point& p : surface.points) {
    fuzz::require(std::isfinite(p.x) && std::isfinite(p.y) && std::isfinite(p.z),
                  "a point is somewhere");
  }
  for (const geometry::Corners3& corners : surface.triangles) {
    for (const std::size_t corner : corners) {
      fuzz::require(corner < surface.points.size(), "a triangle has its corners");
    }
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
  if (size == 0) {
    return 0;
  }
  const std::string_view bytes(reinterpret_cast<const char*>(data + 1), size - 1);
  const geometry::MeshText text = kReaders[data[0] % 4](bytes, 1.0);
  if (!text.defects.empty()) {
    return 0;
  }
  for (const geometry::MeshSurface& surface : text.surfaces) {
    require_corners(surface);
    if (!near_enough(surface)) {
      continue;
    }
    const geometry::MeshSurface whole = geometry::welded(surface);
    require_corners(whole);
    for (const geometry::MeshSurface& one : geometry::components_of(whole).surfaces) {
      require_corners(one);
      const auto defect = geometry::defect_of(one);
      fuzz::require(!defect || !defect->what.empty(), "a defect has words");
    }
  }
  return 0;
}
