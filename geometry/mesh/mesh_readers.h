// Mesh files, a format a file.
#pragma once
#include <string_view>
#include <vector>

#include "geometry/mesh/mesh_surface.h"

namespace geometry {

// Readers. Their defects have no part's name where the whole file is meant.
struct MeshText {
  std::vector<MeshSurface> surfaces;
  std::vector<MeshDefect> defects;
};
MeshText read_obj(std::string_view text, double unit_mm);
MeshText read_off(std::string_view text, double unit_mm);
MeshText read_ply(std::string_view bytes, double unit_mm);
MeshText read_stl(std::string_view bytes, double unit_mm);

}  // namespace geometry
