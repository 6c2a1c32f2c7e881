// Faces that look the wrong way, as they do behind what was mirrored or drawn face by face.
#pragma once
#include <optional>

#include "geometry/mesh/mesh_surface.h"

namespace geometry {

// A welded surface in one piece with all its faces turned to look outward; nullopt where that makes
// no body of it, or where which way is outward is not plain: of several pieces one may be a hollow.
std::optional<MeshSurface> turned_outward(MeshSurface surface);

}  // namespace geometry
