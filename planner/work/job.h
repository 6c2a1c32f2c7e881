// What is being glued, as the job file says it.
#pragma once
#include <array>
#include <optional>
#include <string>
#include <vector>

#include "planner/base/quantity_text.h"
#include "planner/work/bend.h"
#include "planner/work/means.h"
#include "planner/work/part.h"

namespace planner::work {

// What the user says about the joint between two parts; everything else is found.
struct JointOverride {
  std::array<std::string, 2> between;
  std::optional<bool> glued;        // `glue = false`: a floating panel
  std::optional<std::string> glue;  // another glue for this joint
  std::optional<int> faces;         // 1 or 2 faces to spread
  std::optional<geometry::Length> middle;     // glue only this length in the middle
  base::Place place;
  std::optional<HeldBy> held_by = {};  // what is to press it
  bool pocket = false;  // its screws go in aslant, through the end of the part that ends there
  bool loose = false;  // `fit = "loose"`: dovetails that do not stay home by themselves
};

// Where a closed box is sawn open afterwards: the plane across `axis` at `at`.
struct SawLater {
  int axis = 2;
  geometry::Length at, kerf;
  base::Place place;
};

// What the user wants glued up together before the rest: parts, and earlier stages by their names.
struct AskedStage {
  std::string name;
  std::vector<std::string> parts;
  base::Place place;
};

// Keys let in across the corners once the glue has cured: no glue line of this glue-up.
struct Keys {
  int each = 0, corners = 0;  // at each corner, and how many corners
  base::Place place;
};

// Boards across both ends of a panel, on a tongue that is glued in its middle only.
struct Breadboard {
  geometry::Length across;  // of the panel, which goes on moving under them
};

// Sides alike round a middle, as a ring has them; `across` from flat to flat, outside, where it is
// widest. `slope_deg`: how far they lean out, going up; below 0 in.
struct EvenRing {
  int sides = 0;
  geometry::Length across;
  double slope_deg = 0;
};

// A clamp the user has placed by hand, to be tried.
struct PlacedClamp {
  int axis = 0;
  std::array<geometry::Length, 3> at{};  // a point on its line of action
  std::string kind;            // of the clamp table; empty where only a force is given
  std::optional<double> force_N;
  std::optional<std::array<geometry::Length, 2>> pad;
  base::Place place;
};

// A cut as it was made: how deep, how wide.
struct MeasuredCut {
  std::array<std::string, 2> between;
  std::optional<geometry::Length> depth, width;
  base::Place place;
};

// Winding sticks: how far one end of the far stick stands above the near one.
struct MeasuredWind {
  geometry::Length reading, sticks;  // sticks: how long they are
  std::string high;  // "left" or "right": the end of the far (back, top) stick that looks high
  base::Place place;
};

// What was measured with the parts dry in clamps.
struct DryFit {
  std::vector<geometry::Length> diagonals;  // none or two: from the low corner of both axes, then the other
  std::string around;             // of the diagonals: "inside", "outside"; empty: whichever is near
  std::vector<geometry::Length> openings;
  std::vector<std::string> closes;  // the parts that are cut to the openings
  std::vector<MeasuredCut> cuts;
  std::optional<MeasuredWind> wind;
  base::Place place;
};

// Files of a CAD mesh, each with one part or several, and what the job says of them by name.
struct MeshNote {
  Part said;                 // name, species (empty: the job's), show, bow, cup, hollow
  std::optional<int> along;  // the axis of the grain; else the longest edge's
};
struct MeshSource {
  std::vector<std::string> files;  // as the job names them, relative to its folder
  geometry::Length unit;                     // of their coordinates
  std::string species;             // of parts that name none; may be empty
  std::vector<MeshNote> notes;
  base::Place place;
};

struct Job {
  std::string file;  // as given on the command line
  std::string title;
  base::Units units = base::Units::mm;
  bool uk_words = false;  // the file says rebate, housing, mortice: so does the plan
  std::string starter;    // "box", "panel" ...; empty for explicit parts
  std::vector<Part> parts;
  OwnWoods own_woods;  // the shop's, where any were there to name
  std::optional<MeshSource> mesh;  // its parts are in `parts` once mesh_parts.h has read the files
  std::string glue;  // id of the glue table or a name in the shop file; empty: the shop's first,
                     // else the default
  base::Place glue_place;
  std::vector<JointOverride> overrides;
  std::vector<SawLater> saw_later;
  std::vector<AskedStage> stages;  // in order; what is left goes together after them
  std::optional<Keys> keys;
  std::optional<EvenRing> even_ring;
  std::optional<Breadboard> breadboard;
  std::optional<Bend> bend;
  std::vector<PlacedClamp> placed;
  std::optional<DryFit> dry_fit;
};

}  // namespace planner::work
