// Starters: one table of a job file that stands for all its parts. Each refuses what cannot be
// made, with the reason, and takes sizes from common practice where the file gives none.
#pragma once
#include <vector>

#include "planner/file_notes.h"
#include "planner/job.h"

namespace planner::starter {

// What a table stands for; without parts where something is wrong, which is then in the notes. The
// assembly has its lowest corner at 0, 0, 0: x along the length, y along the width with the front
// at its low side, z up.
struct Expansion {
  std::vector<Part> parts;
  std::vector<JointOverride> overrides;
};

// front, back, left, right and, where there are such, bottom and top.
Expansion box(const Node& table, FileNotes& notes);

// "board 1" ... from the low side of y, edges glued.
Expansion panel(const Node& table, FileNotes& notes);

}  // namespace planner::starter
