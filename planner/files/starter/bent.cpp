#include <cmath>
#include <numbers>
#include <utility>

#include "planner/files/starter/boards.h"

namespace planner::files::starter {
namespace {

using geometry::Length;

// Dry wood breaks where its outer face is bent by about 1 %, its modulus of rupture over its stiffness
// (GTR-190 Table 5-3a: 0.8 to 1.1 %); a ply is by half its thickness over the radius.
constexpr int kTightest = 50;  // plies thick, of the radius

Expansion expand(const Node& node, FileNotes& notes) {
  StarterTable table(node, kBent, notes);
  work::Bend bend;
  bend.radius = table.size("radius");
  bend.arc_deg = table.count("arc").value_or(90);
  bend.plies = table.count("plies").value_or(2);
  bend.ply = table.size("ply");
  bend.width = table.size("width");
  bend.species = table.species();
  table.keys().finish();
  if (!table.failed() && bend.radius < kTightest * bend.ply) {
    table.refuse("ply",
                 "plies " + table.text(bend.ply) + " thick break on a radius of " +
                     table.text(bend.radius),
                 "make them " + table.text(bend.radius / kTightest) + " thick at most, or the radius " +
                     table.text(kTightest * bend.ply));
  }
  Expansion made;
  if (table.failed()) {
    return made;
  }
  // Along the middle line: what the glue lines lack inside of it they have more outside.
  const double middle_mm = bend.radius.mm() + bend.plies * bend.ply.mm() / 2;
  const Length length =
      Length::nm(std::llround(bend.arc_deg * std::numbers::pi / 180 * middle_mm * 1e6));
  for (int n = 0; n < bend.plies; ++n) {
    made.parts.push_back(
        board("ply " + std::to_string(n + 1), bend.species, table.keys().place(), {0, 2},
              {{Length(), Length(), n * bend.ply}, {length, bend.width, (n + 1) * bend.ply}}));
  }
  made.bend = std::move(bend);
  return made;
}

constexpr Dimension kWhole[] = {{"radius", "16", "400"}, {"width", "2 1/2", "60"}};
constexpr StarterKey kKeys[] = {
    {"radius", Holds::length, "of the finished bend, inside", kRequired},
    {"arc", Holds::count, "how far it turns, in degrees", kRequired, {"90"}, {}, 5, 180},
    {"plies", Holds::count, "how many", kRequired, {"8"}, {}, 2, 100},
    {"ply", Holds::length, "thickness of one: a fiftieth of the radius at most", kRequired, {"1/8", "3"}},
    {"width", Holds::length, "of the plies", kRequired},
    species_key("of the plies"),
};

}  // namespace

constexpr Starter kBent = {
    .name = "bent",
    .summary = "plies bent over a form and glued to keep its curve",
    .about =
        R"(Makes `ply 1`, against the form, `ply 2` and so on. They are planned and drawn flat, as long as the curve is along its
middle: the same glue, the same clamps, which stand square to the curve.)",
    .title = "Bent lamination",
    .wood = "white_ash",
    .dimensions = kWhole,
    .keys = kKeys,
    .expand = expand};

}  // namespace planner::files::starter
