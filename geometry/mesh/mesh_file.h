// Parts from a CAD mesh: triangles become planes, planes part space into the convex cells of a
// Solid. Edges that are divided on one side only become so on both; flat faces that noise has left
// uneven by up to 0.01 mm are flat again; narrow flats that turn a few degrees are a curve, which
// cells only come near to and which is no facet.
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "geometry/solid.h"

namespace geometry {

enum class MeshFormat { kObj, kOff, kPly, kStl };

// By the file name's ending, in either case; nullopt for any other.
std::optional<MeshFormat> mesh_format(std::string_view file_name);
// Whether it is, by its ending, STEP or IGES: surfaces as formulas, which nothing here reads.
bool is_formula_model(std::string_view file_name);

// The extents of each part's box, in units of the file; none where the file can't be read or its
// parts can't be told apart.
std::vector<Direction> drawn_sizes(std::string_view bytes, MeshFormat format);

struct MeshPart {
  std::string name;
  Solid solid;
  std::size_t triangle_count = 0;
  std::size_t facet_count = 0;  // planes that stand for its triangles
  std::size_t cell_count = 0;   // convex pieces
  double curved_mm2 = 0;        // of its surface; the rest is the solid's facets
  Direction longest_edge;       // of its facets; the grain where nothing else says so
};

// Why a part can't be used, in words that follow its name: "has an open edge".
struct MeshDefect {
  std::string part;  // empty where the file as a whole can't be read
  std::string what;
  std::optional<Point> at;  // mm
  int line = 0;             // of an OBJ file, from 1; 0 where it has none
  std::string remedy{};     // what to do in the drawing; empty where only its maker can tell
};

struct MeshParts {
  std::vector<MeshPart> parts;
  std::vector<MeshDefect> defects;   // empty where all parts are sound
  std::size_t curved_triangles = 0;  // of the parts with curves together
};

// Triangles that all parts with curves of a job may have together: more take longer than anyone
// waits.
inline constexpr std::size_t kMostCurved = 300'000;

// One part for each object of an OBJ file (each group where it has no objects). The other formats
// know no groups: one part for each closed surface, called `name` where there is one, else `name
// 1`, `name 2` ... in the file's order. All defects at once, one for each bad part. REQUIRES: unit
// is the length of one unit of the file. Parts with curves may have `most_curved` triangles
// together.
MeshParts read_mesh(std::string_view bytes, MeshFormat format, const std::string& name, Length unit,
                    std::size_t most_curved = kMostCurved);

}  // namespace geometry
