#include <utility>

#include "planner/files/starter/boards.h"

namespace planner::files::starter {
namespace {

Expansion expand(const Node& node, FileNotes& notes) {
  StarterTable table(node, kLamination, notes);
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
    made.parts.push_back(
        board("layer " + std::to_string(n), species, table.keys().place("layers"), {along, 2},
              {{geometry::Length(), geometry::Length(), low}, {length, width, low + thickness}}));
    low += thickness;
  }
  return made;
}

constexpr Dimension kWhole[] = {
    {"length", "36", "900"}, {"width", "3", "75"}, {"thickness", "1 1/2", "36"}};
constexpr StarterKey kKeys[] = {
    {"length", Holds::length, "of the layers", kRequired},
    {"width", Holds::length, "of the layers", kRequired},
    {"thickness", Holds::length, "of the whole, where `layers` is a number"},
    {"layers",
     Holds::lengths,
     "how many alike; or thicknesses: [9, 9, 9]",
     kRequired,
     {"4"},
     {},
     2,
     1000},
    species_key("of the layers"),
    {"crossed",
     Holds::truth,
     "every second layer's grain runs across",
     "false",
     {"true", "", kAsComment}},
};

}  // namespace

constexpr Starter kLamination = {.name = "lamination",
                                 .summary = "layers face to face, from the bench up",
                                 .about = "`layer 1`, `layer 2` ... from the bench up.",
                                 .title = "Lamination",
                                 .wood = "white_ash",
                                 .dimensions = kWhole,
                                 .keys = kKeys,
                                 .expand = expand};

}  // namespace planner::files::starter
