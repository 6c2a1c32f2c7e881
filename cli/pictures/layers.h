// Whole faces in an order in which each may be painted over what lies behind it, those that don't meet on the sheet
// together: a path each, outlined by its own stroke, instead of pieces of faces and lines round them.
#pragma once
#include <vector>

#include "cli/pictures/painter.h"

namespace cli::pictures {

struct Layer {
  int fill = 0;
  bool cut = false;  // pieces of faces, whose outlines aren't those of the faces
  std::vector<Face> faces;
};

// The faces that look at the viewer, the farthest layer first. Faces that lie before one another in a circle, and
// what is between them, are cut as painted_order does. Less than `least_mm` of one on another doesn't count; of
// faces that pass through one another the one that stands out farther is nearer.
std::vector<Layer> painted_layers(std::vector<Face> faces, const model::View& view, double least_mm);

}  // namespace cli::pictures
