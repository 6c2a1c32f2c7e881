// Pressure along glue lines: stacks of Timoshenko beams joined by springs that can push and not
// pull, several stacks tied where they meet. One system a stage and axis; see docs/clamping.md.
//
// A stack is a line seen along its length: its layers (boards on edge, a panel's strip, a caul) lie
// on one another, outermost first, with a bed of springs between each two and, unless it is pressed
// from both sides, one between the last layer and a rigid base. Deflection and force are positive
// from the first layer to the last.
#pragma once
#include <limits>
#include <memory>
#include <span>
#include <vector>

#include "planner/pressure/pressure_contact.h"

namespace planner::pressure {

// How a part bowed into a parabola stands off, before any force: by `bow_mm` in the middle of the length
// where that is > 0, by as much at the ends where it is < 0.
struct BowGap {
  double bow_mm = 0, length_mm = 0;
  double at_mm(double x_mm) const {
    if (bow_mm == 0) {
      return 0;
    }
    const double arch = 4 * x_mm * (length_mm - x_mm) / (length_mm * length_mm);
    return bow_mm > 0 ? bow_mm * arch : -bow_mm * (1 - arch);
  }
  friend bool operator==(const BowGap&, const BowGap&) = default;
};

// The springs below a layer.
struct SpringBed {
  double stiffness_MPa = 0;                                // N per mm of line per mm of closing
  double width_mm = 0;                                     // pressure = force per mm / width
  double from_mm = 0;                                      // the part of the line on which the two
  double to_mm = std::numeric_limits<double>::infinity();  // layers can touch, within the line
  std::vector<BowGap> gaps;  // which add up
  double gap_mm(double x_mm) const {
    double sum = 0;
    for (const BowGap& gap : gaps) {
      sum += gap.at_mm(x_mm);
    }
    return sum;
  }
  friend bool operator==(const SpringBed&, const SpringBed&) = default;
};

// What stiffens a layer from beside it: the rest of a panel, that follows long waves and not short
// ones, as it hangs on by springs that pull too.
struct BesideBeam {
  int layer = 0;
  BeamLayer beam;
  double coupling_MPa = 0;  // N per mm of line per mm
  friend bool operator==(const BesideBeam&, const BesideBeam&) = default;
};

struct StackLine {
  double length_mm = 0;
  double step_mm = 10;  // longest element; made shorter where a bed is stiff (0.15 / beta)
  std::vector<BeamLayer> layers;  // outermost first
  std::vector<SpringBed> beds;    // beds[i] is under layers[i]; the last layer's may be missing
  std::vector<BesideBeam> beside;
  friend bool operator==(const StackLine&, const StackLine&) = default;
};

// A place on a layer of a line.
struct Spot {
  int line = 0, layer = 0;
  double x_mm = 0;
  friend bool operator==(const Spot&, const Spot&) = default;
};

// Two places that go down together, as two strips of one panel do at its corner. Rotations stay
// free.
struct Tie {
  Spot a, b;
  friend bool operator==(const Tie&, const Tie&) = default;
};

// How a bed's springs are gathered at the nodes. Lumped springs can open one by one. Consistent
// ones follow the beam's shape between nodes: for lines in contact all along, where a closed form
// is to be met to the last digits.
enum class Springs { lumped, consistent };

struct StackSystem {
  std::vector<StackLine> lines;
  std::vector<Tie> ties;
  Springs springs = Springs::lumped;
  friend bool operator==(const StackSystem&, const StackSystem&) = default;
};

// A force spread evenly over `length_mm` of a layer, centred on `at`; a footprint that would pass
// the line's end is narrowed on both sides, so that its resultant stays where it is. A clamp on a
// stack without a base is two pushes, the second with negative force on the last layer.
struct Push {
  Spot at;
  double length_mm = 0;
  double force_N = 0;
  friend bool operator==(const Push&, const Push&) = default;
};

// A node of a bed. `length_mm` is the piece of line it stands for.
struct BedSample {
  int line = 0, bed = 0;
  double x_mm = 0, length_mm = 0, width_mm = 0;
};

class StackMesh;

class PressureSystem {
 public:
  // REQUIRES: lengths, stiffnesses and widths > 0; a layer or one fewer bed a line; spots within
  // their lines; at most one bed missing a line; 0 <= from < to.
  explicit PressureSystem(const StackSystem& system);
  PressureSystem(PressureSystem&&) noexcept;
  PressureSystem& operator=(PressureSystem&&) noexcept;
  ~PressureSystem();

  // By line, bed, x.
  const std::vector<BedSample>& samples() const;

  // Pressure at each sample with every spring holding, pull as well as push, under no force: what
  // the initial gaps do. Zero without gaps.
  const std::vector<double>& pressure_at_rest_MPa() const;

  // What `pushes` add to it. Linear in the forces: p = p0 + sum of influences is the true pressure
  // as long as no value is negative.
  std::vector<double> influence_MPa(std::span<const Push> pushes) const;
  // Of each entry's pushes for itself.
  std::vector<std::vector<double>> influences_MPa(std::span<const std::vector<Push>> pushes) const;

  // The pressure with springs that cannot pull. Unique; equilibrium holds to rounding (1e-9 of the
  // force). REQUIRES: lumped springs; a line without a base pushed equally from both sides.
  ContactSolution press(std::span<const Push> pushes) const;

 private:
  std::unique_ptr<const StackMesh> mesh_;
  ContactSolver solver_;
};

}  // namespace planner::pressure
