#include <utility>

#include "planner/starter/boards.h"

namespace planner::starter {

Expansion lamination(const Node& node, FileNotes& notes) {
  StarterTable table(node, "lamination", notes);
  const Length length = table.size("length"), width = table.size("width");
  const std::string species = table.species();
  const bool crossed = table.keys().truth("crossed").value_or(false);
  const std::vector<Length> layers = table.pieces("layers", "thickness", "layer");
  table.keys().finish();
  Expansion made;
  if (table.failed()) {
    return made;
  }
  Length low;
  for (const Length thickness : layers) {
    const std::size_t n = made.parts.size() + 1;
    const int along = crossed && n % 2 == 0 ? 1 : 0;
    made.parts.push_back(board("layer " + std::to_string(n), species, table.keys().place("layers"),
                               {along, 2},
                               {{Length(), Length(), low}, {length, width, low + thickness}}));
    low += thickness;
  }
  return made;
}

}  // namespace planner::starter
