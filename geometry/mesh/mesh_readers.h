// Mesh files, a format a file.
#pragma once
#include <string_view>
#include <vector>

#include "geometry/mesh/mesh_surface.h"

namespace geometry {

// Readers. Their defects have no part's name where the whole file is meant. They stand here though
// CGAL has some, since any bytes may come. Of CGAL 5.5.1, read_PLY follows a null pointer where
// coordinates or corners have unlikely types, passes corners on that no vertex has, and takes a
// list's length as it stands; read_OFF allocates whatever is promised, and looks for textures beyond
// the line; read_STL takes NaN. None says where a file is wrong. They take 3 to 10 times as long.
struct MeshText {
  std::vector<MeshSurface> surfaces;
  std::vector<MeshDefect> defects;
};
MeshText read_obj(std::string_view text, double unit_mm);
MeshText read_off(std::string_view text, double unit_mm);
MeshText read_ply(std::string_view bytes, double unit_mm);
MeshText read_stl(std::string_view bytes, double unit_mm);

}  // namespace geometry
