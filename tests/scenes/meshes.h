// The same parts as CAD would hand them over: triangles and quads, never the program's own facets.
#pragma once
#include <string>
#include <vector>

#include "scenes/scenes.h"

namespace scenes {

struct Mesh {
  std::vector<geometry::Point> points;          // mm
  std::vector<std::vector<std::size_t>> faces;  // counter-clockwise from outside, from 0
};

// A recipe of boxes alone, as the faces between full and empty fields of the grid of all its sides.
// REQUIRES: no oblique planes, no turns.
Mesh mesh_of(const Recipe& recipe);

// A body turned on a lathe about z: a ring of `sides` points for each (height, radius), closed by
// flat ends.
Mesh turned_body(const std::vector<std::pair<double, double>>& profile, int sides);

// A sheet a x b, 18 thick, each face a grid of n x n squares halved into triangles.
Mesh gridded_board(double a, double b, int n);

// Every point moved by at most `mm` each way, by seed.
Mesh shaken(Mesh mesh, double mm, std::uint64_t seed);

// As text, coordinates to nine decimals. One object a mesh in OBJ.
std::string obj_text(const std::vector<std::pair<std::string, Mesh>>& meshes);
std::string off_text(const Mesh& mesh);
std::string ply_text(const Mesh& mesh);
std::string stl_text(const std::vector<Mesh>& meshes);
// Little-endian, coordinates in single precision.
std::string stl_bytes(const Mesh& mesh);

}  // namespace scenes
