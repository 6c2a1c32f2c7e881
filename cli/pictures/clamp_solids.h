// Clamps as solids: two jaws, bar or frame, screw and handle, to scale in opening and reach.
#pragma once
#include <vector>

#include "planner/plan/plan.h"

namespace cli::pictures {

enum class Stuff { iron, wood };  // of the clamp itself; of its pads and cauls

struct Piece {
  Stuff stuff = Stuff::iron;
  std::vector<geometry::Facet> facets;
};

struct ClampSolid {
  int n = 0;
  std::vector<Piece> pieces;
  geometry::Point handle;  // where its number stands: the end that is turned, or the buckle
};

// Its handle at whichever end looks more towards `eye`, where a hand reaches it; without one, it is
// only the frame that stays on meanwhile.
ClampSolid clamp_solid(const planner::plan::PlannedClamp& clamp, const geometry::Direction& eye,
                       bool with_handle);
// A caul or pad that several clamps share is made with the first of them only.
std::vector<ClampSolid> clamp_solids(const std::vector<const planner::plan::PlannedClamp*>& clamps,
                                     const geometry::Direction& eye, bool with_handles);

// A pair of cauls across a panel with a clamp at either end, each.
std::vector<Piece> cross_caul_pieces(const planner::plan::Stage& stage, const geometry::Box& work,
                                     const geometry::Direction& up);

// The form under the work, or platens on both sides of it, that the clamp's jaws press: each in the middle of
// `work`'s sides, as large.
std::vector<Piece> backing_pieces(const planner::plan::PlannedClamp& clamp, const geometry::Box& work);

}  // namespace cli::pictures
