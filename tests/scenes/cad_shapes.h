// Shapes as CAD tessellates them, with their volumes and areas by closed forms.
#pragma once
#include <utility>
#include <vector>

#include "scenes/beams.h"

namespace scenes {

// What an outline in x and z, counter-clockwise seen from -y, sweeps along y from 0.
Measured prism(const std::vector<std::pair<double, double>>& outline, double along_y);

// Outlines for it: a board with `tails` dovetails 1:`slope` along its upper edge, as deep as
// `deep`; a bar whose four edges are rounded in `flats` flats each.
std::vector<std::pair<double, double>> tail_outline(double wide, double high, double deep,
                                                    int tails, double slope);
std::vector<std::pair<double, double>> rounded_outline(double wide, double high, double radius,
                                                       int flats);

// A square block round a hole through its middle along z whose radius runs through `radii`, evenly
// from bottom to top: straight, or with grooves as a thread has them. REQUIRES: 8 divides `sides`.
Measured bored_block(double side, double high, const std::vector<double>& radii, int sides);
// The same with a thread that climbs: a triangle as deep as `deep`, one turn each `pitch`, in
// `steps` steps each. Its volume and area are left at 0.
Measured threaded_block(double side, double high, double radius, double deep, double pitch,
                        int sides, int steps);

// A turned body (meshes.h) with what its frusta hold.
Measured turned_measured(const std::vector<std::pair<double, double>>& profile, int sides);

// A board with another inside it that looks inward: a hollow.
Measured hollow_board(const geometry::Point& size, double wall);

// Turned about z, then about x, in radians.
Mesh turned_about(Mesh mesh, double about_z, double about_x);
// Each face with corners of its own, as formats write that don't share them.
Mesh unshared(const Mesh& mesh);
// With the first face looking the other way.
Mesh flipped(Mesh mesh);

}  // namespace scenes
