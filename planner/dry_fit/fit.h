// What the dry fit's measurements say: the size to cut closing parts to, what a cut deeper or
// wider than drawn changes, and how far the work is out of square or in wind.
#pragma once
#include <array>
#include <optional>
#include <vector>

#include "planner/dry_fit/cut_fit.h"
#include "planner/work/square.h"

namespace planner::dry_fit {

// A shaving is left to trim by plane: 0.2 mm. Common practice.
inline constexpr double kShaving_mm = 0.2;
// Readings of one opening that differ by more say that a neighbour is out of place. Common
// practice.
inline constexpr double kUneven_mm = 0.5;

// One length for all the parts that close an opening: each to its own would make a trapezoid.
struct OpeningFit {
  std::vector<work::PartId> parts;  // that are cut to it; empty where the file doesn't say
  double opening_mm = 0;            // the smallest reading
  double tenons_mm = 0;             // of both ends, which the opening is measured without
  double cut_mm() const { return opening_mm + tenons_mm; }
  double spread_mm = 0;  // largest less smallest
  bool uneven() const { return spread_mm > kUneven_mm + 1e-9; }
  std::size_t smallest = 0, largest = 0;  // of the readings, the earlier of equal ones
  std::optional<double> drawn_mm;         // length of the parts as the job has it
  // With a reading for each of two parts, or two (its low and its high side) for each: which
  // difference weighs most, and by how much the second is wider than the first.
  enum class Pattern { none, between_parts, low_to_high, twist };
  Pattern pattern = Pattern::none;
  double pattern_mm = 0;
  std::vector<work::PartId> neighbours;  // the parts that their ends stand against
};

// A corner of the ring: on the low or high side of its two axes, in x y z order.
using RingCorner = std::array<bool, 2>;  // true: high

struct SquareFit {
  work::Ring ring;
  bool inside = true;
  std::array<double, 2> sides_mm{};      // along the ring's axes
  std::array<double, 2> diagonals_mm{};  // from the low corner of both axes; the other
  // d1^2 - d2^2 = 4 a b sin(theta), exact for a parallelogram: above 0 the first is longer.
  double lean_deg = 0;
  // How far the high end of each side is out of place across it, when the other stays.
  std::array<double, 2> offset_mm{};
  double wanted_mm = 0;     // what both diagonals of the straightened work read
  double tolerance_mm = 0;  // of their difference
  bool square = false;
  std::array<RingCorner, 2> long_corners{};  // a clamp across these pulls it square
  std::vector<work::PartId> panels;          // in rabbets or grooves all round: they hold the lean
  // The diagonals can't be those of a parallelogram with the drawn sides (over 1/16 in off).
  bool other_sides = false;
};

struct WindFit {
  work::Ring ring;
  double rise_mm = 0;  // of the high corner over the plane of the other three
  RingCorner high{};   // and the one opposite
  bool known_side = false;
  double tolerance_mm = 0;
  bool flat = false;
};

struct Fit {
  std::optional<OpeningFit> opening;
  std::vector<CutFit> cuts;
  // What the measured depths of cuts change; not the parts that `opening` already gives a length.
  std::vector<CutSize> sizes;
  std::optional<SquareFit> square;
  std::optional<WindFit> wind;
  // What there is to measure: the ring, its two parts whose ends stand against the others with the
  // opening drawn for them, a cut that a part sits in.
  std::optional<work::Ring> ring;
  std::vector<work::PartId> closing;
  double closing_mm = 0;
  std::optional<CutFit> seated;
  bool good() const;  // nothing that has to be mended before the glue
};

struct FitAnswer {
  std::optional<Fit> fit;         // missing where the drawing has errors
  base::Diagnostics diagnostics;  // also readings that nothing can be made of
};
FitAnswer judge_fit(const work::Job& job);

// Lean of a parallelogram with sides a and b from its diagonals, radians. Nothing where no
// parallelogram has them.
std::optional<double> lean_of(double d1_mm, double d2_mm, double a_mm, double b_mm);

}  // namespace planner::dry_fit
