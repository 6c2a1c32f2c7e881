// The same contact areas by Boolean operations on the cross sections of two parts, just under and
// just over every plane that bounds one of them.
#pragma once
#include <vector>

#include "scenes/scenes.h"

namespace twins {

// Areas of all planar contacts of two parts, one for each plane and side, largest first. mm2.
// REQUIRES: the recipes have no turns.
std::vector<double> contact_areas(const scenes::Recipe& a, const scenes::Recipe& b);

}  // namespace twins
