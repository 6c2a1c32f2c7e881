// What is read of generated drawings, against CGAL's own volume and area of the same faces and
// against closed forms.
#include <algorithm>
#include <numbers>

#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>
#include <CGAL/Polygon_mesh_processing/measure.h>
#include <CGAL/Polygon_mesh_processing/polygon_soup_to_polygon_mesh.h>
#include <CGAL/Polygon_mesh_processing/repair_polygon_soup.h>
#include <CGAL/Polygon_mesh_processing/triangulate_faces.h>
#include <CGAL/Surface_mesh.h>
#include <doctest/doctest.h>

#include "geometry/contact.h"
#include "geometry/mesh/mesh_file.h"
#include "scenes/cad_shapes.h"

using namespace geometry;
using doctest::Approx;
using scenes::Measured;
using scenes::Mesh;

namespace {

const Length kMm = Length::whole_mm(1);

struct Measures {
  double volume_mm3, area_mm2;
};

Measures by_cgal(const Mesh& mesh) {
  using Kernel = CGAL::Exact_predicates_inexact_constructions_kernel;
  namespace pmp = CGAL::Polygon_mesh_processing;
  std::vector<Kernel::Point_3> points;
  for (const Point& p : mesh.points) {
    points.emplace_back(p.x, p.y, p.z);
  }
  std::vector<std::vector<std::size_t>> faces = mesh.faces;
  pmp::merge_duplicate_points_in_polygon_soup(points, faces);
  CGAL::Surface_mesh<Kernel::Point_3> surface;
  pmp::polygon_soup_to_polygon_mesh(points, faces, surface);
  pmp::triangulate_faces(surface);
  REQUIRE(CGAL::is_closed(surface));
  return {pmp::volume(surface), pmp::area(surface)};
}

double flat_mm2(const Solid& solid) {
  double sum = 0;
  for (const Facet& facet : facets(solid)) {
    sum += facet.area_mm2;
  }
  return sum;
}

MeshParts read(const Mesh& mesh) {
  return read_mesh(scenes::obj_text({{"part", mesh}}), MeshFormat::kObj, "", kMm);
}

struct Check {
  const char* what;
  Measured shape;
  double within = 1e-7;  // nanometers, at the sizes of boards
};

Measured turned(Measured shape, double about_z, double about_x) {
  shape.mesh = scenes::turned_about(std::move(shape.mesh), about_z, about_x);
  return shape;
}
Measured shaken(Measured shape, double mm) {
  shape.mesh = scenes::shaken(std::move(shape.mesh), mm, 5);
  return shape;
}
Measured unshared(Measured shape) {
  shape.mesh = scenes::unshared(shape.mesh);
  return shape;
}

Measured box() {
  return scenes::prism({{0, 0}, {600, 0}, {600, 18}, {0, 18}}, 140);
}
Measured tails() {
  return scenes::prism(scenes::tail_outline(140, 300, 18, 5, 6), 19);
}
Measured rounded() {
  return scenes::prism(scenes::rounded_outline(60, 40, 5, 20), 700);
}
Measured grooved() {
  std::vector<double> radii;
  for (int i = 0; i <= 24; ++i) {
    radii.push_back(i % 2 == 0 ? 9.0 : 10.0);
  }
  return scenes::bored_block(60, 36, radii, 64);
}
Measured leg() {
  return scenes::turned_measured({{0, 12}, {40, 20}, {80, 14}, {200, 24}, {300, 16}, {420, 22}},
                                 64);
}
Measured beam() {
  return scenes::notched_beam({800, 60, 80, 3, 16}, {{100, 150, 30}, {400, 490, 35, 15}});
}

std::vector<Check> checks() {
  const Measured sheet{scenes::gridded_board(600, 400, 20), 600.0 * 400 * 18,
                       2 * (600.0 * 400 + 1000 * 18)};
  return {
      {"a board", box()},
      {"a board turned by odd angles", turned(box(), 0.3, 0.7)},
      {"a board as a grid of triangles", sheet},
      {"a board each of whose faces has corners of its own", unshared(box())},
      {"a board with noise of a hundred thousandth of a millimeter", shaken(box(), 1e-5), 1e-5},
      {"a board with five dovetails", tails()},
      {"the dovetails turned by odd angles", turned(tails(), 1.1, 0.4)},
      {"the dovetails with noise", shaken(tails(), 1e-5), 1e-5},
      {"a rail mitered at both ends", scenes::prism({{0, 0}, {500, 0}, {440, 60}, {60, 60}}, 20)},
      {"a post of six sides", scenes::prism({{40, 0},
                                             {20, 34.641016},
                                             {-20, 34.641016},
                                             {-40, 0},
                                             {-20, -34.641016},
                                             {20, -34.641016}},
                                            700)},
      {"a bar rounded along its edges", rounded()},
      {"the rounded bar turned by odd angles", turned(rounded(), 0.2, 0.9)},
      {"the rounded bar with noise", shaken(rounded(), 1e-5), 1e-5},
      {"the rounded bar, its faces with corners of their own", unshared(rounded())},
      {"a block with a plain hole", scenes::bored_block(60, 36, {10, 10}, 64)},
      {"a block with a conical hole", scenes::bored_block(60, 36, {8, 14}, 64)},
      {"a block with a hole that has grooves all the way down", grooved()},
      {"a turned leg", leg()},
      {"the turned leg lying askew", turned(leg(), 0.4, 1.2)},
      {"a notched and mortised beam", beam()},
      {"the beam turned by odd angles", turned(beam(), 0.5, 0.1)},
      {"a board with a hollow in it", scenes::hollow_board({300, 100, 40}, 8)}};
}

// Each edge of one face of a board divided in three, and none of its neighbors'.
Mesh with_t_junctions() {
  Mesh mesh = box().mesh;
  std::vector<std::size_t> face;
  for (std::size_t i = 0; i < 4; ++i) {
    const Point a = mesh.points[mesh.faces[0][i]], b = mesh.points[mesh.faces[0][(i + 1) % 4]];
    face.push_back(mesh.faces[0][i]);
    for (const double t : {0.25, 0.6}) {
      face.push_back(mesh.points.size());
      mesh.points.push_back(a + t * (b - a));
    }
  }
  mesh.faces[0] = face;
  return mesh;
}

}  // namespace

TEST_SUITE("tests/mesh_checks") {
  // Outside, CGAL: volume and area of a surface mesh; closed forms of prisms, frusta and fillets (tests/scenes/cad_shapes.h)
  TEST_CASE("drawn shapes have the volume and area of CGAL and of closed forms") {
    for (const Check& check : checks()) {
      CAPTURE(check.what);
      const MeshParts parts = read(check.shape.mesh);
      for (const MeshDefect& defect : parts.defects) {
        FAIL_CHECK(defect.what);
      }
      if (parts.parts.size() != 1) {
        FAIL_CHECK("not one part");
        continue;
      }
      const MeshPart& part = parts.parts[0];
      const double volume = volume_mm3(part.solid), area = flat_mm2(part.solid) + part.curved_mm2;
      const Measures twin = by_cgal(check.shape.mesh);
      CHECK(volume == Approx(twin.volume_mm3).epsilon(check.within));
      CHECK(area == Approx(twin.area_mm2).epsilon(check.within));
      CHECK(volume == Approx(check.shape.volume_mm3).epsilon(check.within));
      CHECK(area == Approx(check.shape.area_mm2).epsilon(check.within));
    }
  }

  // Outside, CGAL: volume and area of a surface mesh
  TEST_CASE("a thread that climbs has the volume and area of CGAL") {
    const Mesh mesh = scenes::threaded_block(60, 30, 9, 1, 3, 64, 8).mesh;
    const MeshParts parts = read(mesh);
    REQUIRE(parts.parts.size() == 1);
    const Measures twin = by_cgal(mesh);
    const MeshPart& part = parts.parts[0];
    CHECK(volume_mm3(part.solid) == Approx(twin.volume_mm3).epsilon(1e-6));
    CHECK(flat_mm2(part.solid) + part.curved_mm2 == Approx(twin.area_mm2).epsilon(1e-6));
  }

  // Outside, CGAL: volume of a surface mesh
  TEST_CASE("shells apart are parts of their own where the format has no groups") {
    Mesh away = rounded().mesh;
    for (Point& p : away.points) {
      p.x += 200;
    }
    const MeshParts parts =
        read_mesh(scenes::stl_text({box().mesh, away}), MeshFormat::kStl, "rack", kMm);
    REQUIRE(parts.parts.size() == 2);
    CHECK(volume_mm3(parts.parts[0].solid) == Approx(by_cgal(box().mesh).volume_mm3));
    CHECK(volume_mm3(parts.parts[1].solid) == Approx(by_cgal(away).volume_mm3).epsilon(1e-7));
  }

  TEST_CASE("an edge divided on one side only is divided on both") {
    for (const Mesh& mesh :
         {with_t_junctions(), scenes::turned_about(with_t_junctions(), 0.3, 0.7)}) {
      const MeshParts parts = read(mesh);
      REQUIRE(parts.parts.size() == 1);
      const MeshPart& part = parts.parts[0];
      CHECK(volume_mm3(part.solid) == Approx(box().volume_mm3).epsilon(1e-7));
      CHECK(flat_mm2(part.solid) == Approx(box().area_mm2).epsilon(1e-7));
      CHECK(part.facet_count == 6);
    }
  }

  // Outside, closed form: prisms less notches with fillets (tests/scenes/cad_shapes.h)
  TEST_CASE("shapes hold as much whichever way their faces were drawn to look") {
    for (const Measured& shape : {box(), tails(), turned(beam(), 0.5, 0.1)}) {
      Mesh mixed = shape.mesh, inward = shape.mesh;
      for (std::size_t i = 0; i < mixed.faces.size(); ++i) {
        std::reverse(inward.faces[i].begin(), inward.faces[i].end());
        mixed.faces[i] = i % 3 == 0 ? inward.faces[i] : mixed.faces[i];
      }
      for (const Mesh& mesh : {scenes::flipped(shape.mesh), mixed, inward}) {
        const MeshParts parts = read(mesh);
        REQUIRE(parts.parts.size() == 1);
        const MeshPart& part = parts.parts[0];
        CHECK(volume_mm3(part.solid) == Approx(shape.volume_mm3).epsilon(1e-7));
        CHECK(flat_mm2(part.solid) + part.curved_mm2 == Approx(shape.area_mm2).epsilon(1e-7));
      }
    }
  }

  TEST_CASE("what isn't a closed surface is refused, with the place") {
    const auto said = [](const Mesh& mesh) {
      const MeshParts parts = read(mesh);
      return parts.defects.empty() ? "read" : parts.defects[0].what;
    };
    Mesh open = box().mesh;
    open.faces.pop_back();
    CHECK(said(open) == "has an open edge");
  }

  // Outside, closed form: a rectangle's area, whatever its turn
  TEST_CASE("boards turned by odd angles touch as much as boards along the axes") {
    const Measured a = box();
    Measured b = scenes::prism({{0, 18}, {600, 18}, {600, 58}, {0, 58}}, 100);
    for (const auto& turned : {std::pair{0.0, 0.0}, {0.3, 0.0}, {0.0, 1.0}, {0.7, 0.2}, {2.2, 3.0}}) {
      const double about_z = turned.first, about_x = turned.second;
      CAPTURE(about_z);
      const MeshParts parts =
          read_mesh(scenes::obj_text({{"a", scenes::turned_about(a.mesh, about_z, about_x)},
                                      {"b", scenes::turned_about(b.mesh, about_z, about_x)}}),
                    MeshFormat::kObj, "", kMm);
      REQUIRE(parts.parts.size() == 2);
      const std::vector<Contact> contacts =
          find_contacts(std::vector{parts.parts[0].solid, parts.parts[1].solid}, {});
      REQUIRE(contacts.size() == 1);
      CHECK(contacts[0].area_mm2 == Approx(600.0 * 100).epsilon(1e-6));
    }
  }
}
