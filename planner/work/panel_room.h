// Solid panels held in the grooves of a frame: whether they should float, and whether they have the
// room to.
#pragma once
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "planner/work/joint.h"

namespace planner::work {

struct PanelRoom {
  PartId panel = 0;
  int sides = 0;                  // it is held on, of its four
  std::vector<JointId> glued;     // joints that hold it by glue across its frame's grain
  double across_mm = 0;           // its size across its grain
  double movement_mm = 0;         // what that changes by over the whole change of moisture content
  std::optional<double> room_mm;  // between both edges and their grooves' floors, across the
                                  // grain; nothing where one of them is open
  std::optional<double> engaged_mm;  // least depth of an edge in its groove, across the grain
};

// Solid parts held in grooves, dadoes or rabbets of others on three sides or more, one of these
// across the grain of what holds it. Boards are taken flatsawn: Wood Handbook (GTR-190) eq. 13-2.
// By part.
std::vector<PanelRoom> panel_rooms(const Job& job, std::span<const geometry::Solid> solids,
                                   std::span<const Joint> joints, double change_percent);

// What is to be said of them: a glued one is proposed to float, with the reason; a floating one
// that has less room than it may want, or may shrink out of its grooves, is told with what would
// mend it. Sentences, lower case, no full stop.
std::vector<std::string> panel_notes(std::span<const PanelRoom> rooms,
                                     std::span<const Joint> joints, const Job& job);

}  // namespace planner::work
