// Starters: one table of a job file that stands for all its parts. Each refuses what cannot be
// made, with the reason, and takes sizes from common practice where the file gives none.
#pragma once
#include <vector>

#include "planner/files/file_notes.h"
#include "planner/work/job.h"

namespace planner::files::starter {

// What a table stands for; without parts where something is wrong, which is then in the notes. The
// assembly has its lowest corner at 0, 0, 0: x along the length, y along the width with the front
// at its low side, z up.
struct Expansion {
  std::vector<work::Part> parts;
  std::vector<work::JointOverride> overrides;
};

// front, back, left, right and, where there are such, bottom and top.
Expansion box(const Node& table, FileNotes& notes);

// "board 1" ... from the low side of y, edges glued; with loose tongues "tongue 1" ... after them.
Expansion panel(const Node& table, FileNotes& notes);

// left stile, right stile, bottom rail, top rail and, where there is one, panel; flat on the bench,
// its height along y.
Expansion frame(const Node& table, FileNotes& notes);

// left side, right side, bottom and top, "divider 1" ..., "shelf 1" ... (with dividers "shelf 1,
// bay 1"
// ...) and back; x its width, y its depth.
Expansion carcass(const Node& table, FileNotes& notes);

// front, back, left side, right side and bottom; x its width, y its depth.
Expansion drawer(const Node& table, FileNotes& notes);

// Four legs ("front left leg" ...), front, back, left and right rail, and the same as "lower ..."
// where there are stretchers.
Expansion trestle(const Node& table, FileNotes& notes);

// "layer 1" ... from the bench up.
Expansion lamination(const Node& table, FileNotes& notes);

}  // namespace planner::files::starter
