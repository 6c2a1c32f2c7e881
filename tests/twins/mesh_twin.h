// The same solid by Boolean operations on triangle meshes (corefinement), with exact constructions.
#pragma once
#include "scenes/scenes.h"

namespace twins {

// REQUIRES: the recipe is a board with cuts: nothing clipped or turned.
double mesh_volume_mm3(const scenes::Recipe& recipe);

}  // namespace twins
