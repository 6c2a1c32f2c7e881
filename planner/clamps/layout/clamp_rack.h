// Which of the shop's clamps come into question, and what to plan on.
#pragma once
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "planner/clamps/axis/axis_clamps.h"
#include "planner/clamps/layout/clamp_assignment.h"
#include "planner/work/shop.h"

namespace planner::clamps::layout {

// A kind that clamps are planned on: jaws and forces of its row, or of the weakest of several.
struct PlannedKind : axis::KindInUse {
  std::string kind;          // id of the clamp table
  bool wooden_jaws = false;  // no pads wanted
  bool springs = false;      // spring clamps: no screw to tighten
  int count = 0;             // of them on the rack; 0: as many as one likes
  bool several = false;      // kinds of the rack, planned on as one
  double mass_kg = 0;        // of one, its bar as long as it opens
};

// Kinds that open far enough. On an owned rack each row's (of more than twelve unlike ones, all rows of
// a kind as one), the least first: by force, then mass; then the two strongest together, the three
// strongest and so on, planned on the smallest jaw, throat and force among them. Spring clamps stay by
// themselves. An unlimited rack has heavy F clamps up to the longest made, then pipes, sash clamps and
// deep-reach ones; where all are too short, pipes coupled to whatever length. Empty: nothing owned opens
// so far.
std::vector<PlannedKind> kinds_that_open(const work::Shop& shop, double opening_mm);

// How hard a clamp is drawn to this force, of what hands give with it.
plan::Strength strength_of(double force_N, double hands_N);

// For an unlimited rack: the size sold of the kind that opens so far.
double sold_opening_mm(const std::string& kind, double opening_mm);

// Makes the clamp one of the rack's `row`, or, with nothing, one of `kind` as sold that opens far
// enough; tells how hard it is drawn with that, and what it gives when snug. REQUIRES: the clamp knows
// how far it has to open and how hard it presses.
void take_from_rack(plan::PlannedClamp& clamp, const work::Shop& shop,
                    std::optional<std::size_t> row, const std::string& kind);

}  // namespace planner::clamps::layout
