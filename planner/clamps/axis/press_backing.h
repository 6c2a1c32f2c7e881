// What lies between jaws and a whole wide face: the form that plies are bent on, or platens over veneers.
#pragma once
#include <span>

#include "planner/clamps/axis/pressing_axes.h"
#include "planner/pressure/pressure_line.h"

namespace planner::clamps::axis {

// Behind the form's face the clamps' lower jaws reach in so far (common practice: 3 in); an arc is
// clamped every 5 in at least (common practice).
inline constexpr double kForm_mm = 3 * 25.4, kFormApart_mm = 5 * 25.4;
// A platen of a sheet good so thick on each side, pressed by crowned bearers every 4 in at least
// (common practice: veneering handbooks).
inline constexpr double kPlaten_mm = 0.75 * 25.4, kBearersApart_mm = 4 * 25.4;

struct PressBacking {
  double form_mm = 0;    // under the work; 0: none
  double platen_mm = 0;  // on both sides of it, each; 0: none
  double widest_apart_mm = 0;  // stations along the face; 0: as for any other face
  double moment_Nmm = 0;       // that keeps the plies bent

  double between_mm() const { return form_mm + 2 * platen_mm; }
  // Of an outermost clamp's force what keeps the plies bent and presses no glue, where clamps are so far apart:
  // it bends their ends on half of that (ours).
  double bending_N(double apart_mm) const { return 2 * moment_Nmm / apart_mm; }
  friend bool operator==(const PressBacking&, const PressBacking&) = default;
};

// Of what is held on an axis: a form where the job is bent, platens where a veneer or a skin is to be
// pressed by clamps; else nothing.
PressBacking press_backing(const work::Job& job, std::span<const work::Joint> joints,
                           std::span<const FaceRef> held);

// The platens' stiffness: of the table's medium-density fiberboard.
pressure::LineModuli platen_moduli();

}  // namespace planner::clamps::axis
