#include <utility>

#include "planner/files/starter/boards.h"

namespace planner::files::starter {
namespace {

using geometry::Length;

// One face alone bows the panel as its glue dries: told where the file asks for it.
Expansion expand(const Node& node, FileNotes& notes) {
  StarterTable table(node, kVeneer, notes);
  const auto size = table.outside();
  const Length core = table.size("core"), face = table.size("face");
  const int faces = table.count("faces").value_or(2);
  const std::string species = table.species();
  const std::string core_species = table.species("core_species", species);
  table.keys().finish();
  if (!table.failed() && face >= core) {
    table.refuse("face",
                 "a face " + table.text(face) + " thick is no veneer on a core of " +
                     table.text(core),
                 "make it thinner than the core, or write [lamination]");
  }
  Expansion made;
  if (table.failed()) {
    return made;
  }
  const base::Place place = table.keys().place();
  const auto add = [&](const std::string& name, const std::string& wood, Length low, Length high) {
    made.parts.push_back(
        board(name, wood, place, {0, 2}, {{Length(), Length(), low}, {size[0], size[1], high}}));
  };
  const Length under = faces == 2 ? face : Length();
  add("core", core_species, under, under + core);
  add("face 1", species, under + core, under + core + face);
  if (faces == 2) {
    add("face 2", species, Length(), face);
  }
  return made;
}

constexpr Dimension kWhole[] = {{"length", "24", "600"}, {"width", "16", "400"}};
constexpr StarterKey kKeys[] = {
    {"size", Holds::outside, "", kRequired},
    {"core", Holds::length, "its thickness", kRequired, {"5/8", "16"}},
    {"face", Holds::length, "thickness of the veneers", kRequired, {"1/32", "0.9"}},
    {"faces", Holds::count, "how many sides are veneered; one alone bows the panel", "2", {}, {}, 1, 2},
    species_key("of the veneers"),
    {"core_species", Holds::wood, "", "the veneers'", {"mdf"}},
};

}  // namespace

constexpr Starter kVeneer = {
    .name = "veneer",
    .summary = "a core with veneers on both sides, or on one",
    .about =
        R"(Makes `core`, `face 1` on top of it and `face 2` below, all as large as `size`, their grain along x. Both faces go on
at one go: a panel veneered on one side bows as the glue dries.)",
    .title = "Veneered panel",
    .wood = "black_walnut",
    .dimensions = kWhole,
    .keys = kKeys,
    .expand = expand};

}  // namespace planner::files::starter
