#include <utility>

#include "planner/files/starter/boards.h"

namespace planner::files::starter {

Expansion lamination(const Node& node, FileNotes& notes) {
  StarterTable table(node, "lamination", notes);
  const geometry::Length length = table.size("length"), width = table.size("width");
  const std::string species = table.species();
  const bool crossed = table.keys().truth("crossed").value_or(false);
  const std::vector<geometry::Length> layers = table.pieces("layers", "thickness", "layer");
  table.keys().finish();
  Expansion made;
  if (table.failed()) {
    return made;
  }
  geometry::Length low;
  for (const geometry::Length thickness : layers) {
    const std::size_t n = made.parts.size() + 1;
    const int along = crossed && n % 2 == 0 ? 1 : 0;
    made.parts.push_back(board("layer " + std::to_string(n), species, table.keys().place("layers"),
                               {along, 2},
                               {{geometry::Length(), geometry::Length(), low}, {length, width, low + thickness}}));
    low += thickness;
  }
  return made;
}

}  // namespace planner::files::starter
