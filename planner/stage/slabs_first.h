// A panel glued up as slabs that still go through the planer, then joined: halves, not board after board.
#pragma once
#include <optional>
#include <span>
#include <vector>

#include "planner/stage/stage_problem.h"

namespace planner::stage {

// Boards edge to edge in one row.
struct BoardRow {
  std::vector<work::PartId> boards;  // from one side to the other
  std::vector<double> width_mm;      // of each, across the row
  double wet_mm = 0;                 // of edges, all together

  double whole_mm() const;
};

// The whole work as such a row; nothing where anything else is glued, or there are fewer than four boards,
// which nobody halves. `bounds` by part.
std::optional<BoardRow> board_row(std::span<const work::Joint> joints,
                                  std::span<const geometry::Box> bounds);

// More edges than hands can spread and close calmly at one go, whatever the clock says: 8 m, with a helper
// 12 (ours).
bool too_many_edges(const BoardRow& row, int people);

// The row in so many neighbouring slabs, as equal in width as can be; nothing where one would be a single
// board or wider than the planer. REQUIRES: slabs at least 2.
std::optional<std::vector<std::vector<work::PartId>>> slabs_of(const BoardRow& row, std::size_t slabs,
                                                               double planer_mm);

}  // namespace planner::stage
