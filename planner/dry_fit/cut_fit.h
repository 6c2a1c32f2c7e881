// Rabbets, grooves and dados as they were made: what a depth or width other than drawn changes in
// the part that goes in.
#pragma once
#include <optional>
#include <span>
#include <vector>

#include "planner/work/joint.h"

namespace planner::dry_fit {

// Finer than a shaving: not worth a word.
inline constexpr double kWorthTelling_mm = 0.1;

struct CutFit {
  work::PartId cut_in = 0, mate = 0;
  work::JointKind kind = work::JointKind::other;  // rabbet, dado or groove, by the cut's own name
  int depth_axis = 0, width_axis = 0;             // of the assembly
  std::optional<double> depth_mm;                 // as measured
  double drawn_depth_mm = 0;
  double goes_in_mm = 0;             // the mate, as drawn: all the depth unless it has room to move
  double width_mm = 0, mate_mm = 0;  // of the cut (as measured, else as drawn), of what goes in
  bool width_measured = false;

  // Longer or shorter the mate has to be along the depth, so that the work keeps its outside. A
  // mate that has room at the bottom of the cut only has to when the room is used up.
  double longer_mm() const;
  double spare_mm() const { return width_mm - mate_mm; }  // below 0: it doesn't go in
  // Rabbets have one wall only: what doesn't go in stands proud, and is planed flush.
  bool open_sided() const { return kind == work::JointKind::rabbet; }
};

// Those that were measured, and those whose width differs from what goes in by more than
// kWorthTelling_mm; in the order of the joints. `told` gets an error for each measured cut that no
// joint has.
std::vector<CutFit> cut_fits(const work::Job& job, std::span<const work::Joint> joints,
                             base::Diagnostics& told);

// The first joint's that has one, whether there is something to tell of it or not.
std::optional<CutFit> first_seat(const work::Job& job, std::span<const work::Joint> joints);

// A part whose size along an axis changes by what was measured at its ends.
struct CutSize {
  work::PartId part = 0;
  int axis = 0;
  double drawn_mm = 0, cut_mm = 0;
  double longer_mm() const { return cut_mm - drawn_mm; }
};
// By part, then axis.
std::vector<CutSize> sizes_to_cut(const work::Job& job, std::span<const CutFit> cuts);

}  // namespace planner::dry_fit
