// Beams as CAD tessellates them: notched, filleted, in thousands of narrow flats, with what they
// hold and what surface they have by closed forms.
#pragma once
#include "scenes/meshes.h"

namespace scenes {

struct Measured {
  Mesh mesh;
  double volume_mm3 = 0, area_mm2 = 0;
};

// A beam along x from the origin, across y, its top at `high`.
struct Beam {
  double length, wide, high;
  double radius;  // of each fillet; the upright corners of a mortise have twice that
  int flats;      // of a quarter of a round
};

// A cut from the beam's top. A notch goes through from side to side; a mortise stops `rim` short of
// both sides, and is rounded at its corners and round its floor.
struct TopCut {
  double from, to, deep;
  double rim = 0;  // 0: a notch
};

// REQUIRES: cuts in order, a millimetre apart and from the ends; each wider than all its fillets.
Measured notched_beam(const Beam& beam, const std::vector<TopCut>& cuts);

// What fits a notch: a batten along y from `from.y`, its two lower edges rounded, its lowest corner
// were it square at `from`. `beam.length` runs along y, `beam.wide` along x.
Measured rounded_batten(const Beam& beam, const geometry::Point& from);

}  // namespace scenes
