// The same solid by Boolean operations on Nef polyhedra.
#pragma once
#include "scenes/scenes.h"

namespace twins {

struct NefFigures {
  double volume_mm3 = 0;
  double surface_mm2 = 0;
};

// REQUIRES: the recipe has no turns.
NefFigures nef_figures(const scenes::Recipe& recipe);

}  // namespace twins
