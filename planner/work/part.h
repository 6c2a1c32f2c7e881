// A board with its cuts, as the user describes it, and the solid it makes.
#pragma once
#include <array>
#include <cstddef>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "geometry/length.h"
#include "geometry/turn.h"
#include "planner/base/diagnostic.h"
#include "planner/base/quantity_text.h"
#include "planner/tables/wood.h"

namespace planner::work {

using PartId = std::size_t;  // index into Job::parts

// A face of a part by the direction it looks in: -x +x -y +y -z +z, before any turn.
struct Face {
  int axis = 0;  // 0 x, 1 y, 2 z
  bool positive = true;
  friend auto operator<=>(const Face&, const Face&) = default;
};
std::string to_text(Face face);                          // "-x" ... "+z"
std::optional<Face> face_from(const std::string& text);  // nothing if it names no face

// Cuts. All lengths are measured from the part's own low side along each axis.
struct Rabbet {
  Face on, side;                   // sunk into `on`, along `side`
  geometry::Length width, depth;             // in from the side; into the face
  std::optional<geometry::Length> from, to;  // along its run; stopped where given
};
struct Channel {
  bool across_grain;  // a dado (housing) across the grain, a groove along it: the user's word
  Face on;
  int runs;  // the axis it runs along
  geometry::Length offset, width, depth;
  std::optional<geometry::Length> from, to;
  double lean_deg =
      0;  // of its sides over the floor, off square: a dovetail; `width` is the floor's
};
struct Notch {
  std::array<geometry::Length, 3> from, size;
};
struct Mortise {
  Face on;
  std::array<geometry::Length, 2> from, size;  // along the face's two axes in x y z order
  geometry::Length depth;                      // through where it reaches the other face
};
struct Tenon {
  Face on;  // the end it stands on
  geometry::Length length;
  std::array<geometry::Length, 2> from, size;  // what is left standing, along the face's two axes
};
struct Mitre {
  Face side;       // the end or edge that is cut
  Face long_face;  // the face that keeps its full length
  double angle_deg;
  // Off square along the long face, as a saw's miter gauge is set: above 0 it narrows toward the high
  // side of the third axis, where below 0 it keeps its full length.
  double taper_deg = 0;
};
inline constexpr int kMostFingers = 1000;
// Slopes of dovetails, 1 in so many: steeper ones break at their corners, shallower ones slip.
inline constexpr int kSteepestTail = 4, kShallowestTail = 12;
struct Fingers {
  Face side;     // the end they stand on
  geometry::Length depth;  // of the cuts: the mate's thickness
  int count;     // pieces that the width is divided into, fingers and gaps together
  bool first_kept;
};
// Dovetails: `count` tails with as many sockets and two half ones between them, from `from` to `to`
// across the board, else over all of it. Halfway along, a tail is twice as wide as a pin; its cheeks
// lean by 1 in `slope`.
struct Tails {
  Face side;              // the end they stand on, where they are widest
  geometry::Length depth;  // how long they are
  int count, slope;
  std::optional<geometry::Length> from, to;
};
struct Pins {
  Face side;              // the end they stand on
  Face on;                // the face that the tails come in by, where the pins are widest
  geometry::Length depth;  // how long the pins are: the mate's thickness
  geometry::Length reach;  // how far tails reach in from `on`: through, or half-blind
  int count, slope;
  std::optional<geometry::Length> from, to;
};
// A slot for a spline, sawn square into a mitred end along all of it: upright as in a box, along the
// mitre's edges, or flat as in a frame, from its long face to its short one.
struct Kerf {
  Face side, long_face;   // the mitre's
  double angle_deg;       // the mitre's
  geometry::Length in;     // to the slot's middle: from the long face, square to it; of a flat one
                          // from the part's low side
  geometry::Length width, depth;
  bool flat = false;
};
// The edge between two faces taken off.
struct Chamfer {
  Face on, side;
  geometry::Length width, depth;  // in from the side; into the face
};
struct Hole {
  Face on;
  std::array<geometry::Length, 2> at;  // its axis, along the face's two axes
  geometry::Length diameter, depth;    // through where it reaches the other face
};
struct Cut {
  base::Place place;
  std::variant<Rabbet, Channel, Notch, Mortise, Tenon, Mitre, Fingers, Tails, Pins, Kerf, Chamfer,
               Hole>
      shape;
  std::vector<std::pair<std::string, base::Place>>
      values{};  // of its keys; none where a starter made it
};

// More than a board has room for, and than the search has: beyond, the file is refused.
inline constexpr int kMostCuts = 500;

using OwnWoods = std::vector<std::shared_ptr<const tables::Wood>>;

struct Part {
  std::string name;
  std::string species;  // id of the wood table, or the name of `own_wood`
  std::shared_ptr<const tables::Wood> own_wood;  // one of the shop's own; else empty
  geometry::Length length, width, thickness;
  int along = 0;               // the axis the length (and the grain) runs along
  int face = 2;                // the axis the thickness runs along; the width takes the third
  bool round = false;          // a dowel: width and thickness are its diameter
  std::array<geometry::Length, 3> at{};  // lowest corner in the assembly
  std::vector<Cut> cuts;
  std::vector<geometry::Turn> turns;         // applied last, one after another
  std::optional<std::vector<Face>> show;     // show faces where the user names them
  std::optional<geometry::Length> bow, cup;            // as built, along and across
  std::optional<Face> hollow;                // the side the bow or cup is hollow on
  std::optional<geometry::Solid> mesh;       // from a CAD file, which then is its shape
  std::optional<geometry::Direction> grain;  // of a mesh, where it lies along no axis
  base::Place place;                         // of its header in the job file

  int across() const { return 3 - along - face; }  // the axis of the width
  geometry::Length size(int axis) const { return axis == along ? length : axis == face ? thickness : width; }
  geometry::LatticeBox blank() const;  // the board before its cuts
};

// Cuts that lie off the part or sink deeper than it is thick, sizes and faces that contradict each
// other: one diagnostic a mistake, placed at the cut; one for all the parts of a starter that are
// too thin. Lengths in the messages are in `units`. Whether the cuts together leave one piece is
// for job_check.h, which has the solids.
base::Diagnostics check_parts(std::span<const Part> parts, base::Units units);

// What it is made of; null where its species is not known.
const tables::Wood* wood_of(const Part& part);

// Gives the parts their wood where it is one of these, by its name.
void take_own_woods(std::span<Part> parts, const OwnWoods& woods);

// A direction of the part before its turns, as it looks after them.
geometry::Direction turned(const Part& part, geometry::Direction d);

// Unit vector of the grain in the assembly, after any turn. Its sense carries no meaning.
geometry::Direction grain_of(const Part& part);

}  // namespace planner::work
