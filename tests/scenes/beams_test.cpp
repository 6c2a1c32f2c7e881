#include "scenes/beams.h"

#include <algorithm>
#include <cmath>

#include <doctest/doctest.h>

#include "geometry/bearing.h"
#include "geometry/blocking.h"
#include "geometry/contact.h"
#include "geometry/mesh/mesh_file.h"
#include "geometry/overlap.h"

using namespace geometry;
using doctest::Approx;

namespace {

const Length kMm = Length::whole_mm(1);

double flat_mm2(const Solid& solid) {
  double sum = 0;
  for (const Facet& facet : facets(solid)) {
    sum += facet.area_mm2;
  }
  return sum;
}

MeshPart read_one(const scenes::Mesh& mesh) {
  MeshParts read = read_mesh(scenes::obj_text({{"beam", mesh}}), MeshFormat::kObj, "", kMm);
  for (const MeshDefect& defect : read.defects) {
    FAIL_CHECK(defect.part << " " << defect.what);
  }
  REQUIRE(read.parts.size() == 1);
  return std::move(read.parts[0]);
}

void check_measures(const scenes::Measured& beam) {
  const MeshPart part = read_one(beam.mesh);
  CAPTURE(part.triangle_count);
  CAPTURE(part.cell_count);
  CHECK(volume_mm3(part.solid) == Approx(beam.volume_mm3).epsilon(3e-9));
  CHECK(flat_mm2(part.solid) + part.curved_mm2 == Approx(beam.area_mm2).epsilon(3e-9));
  CHECK(piece_count(part.solid) == 1);
}

}  // namespace

TEST_SUITE("tests/beams") {
  // Outside, closed form: prisms less notches with fillets (tests/scenes/beams.h)
  TEST_CASE("notches with fillets keep volume and area, and are flat where they are flat") {
    const scenes::Measured beam =
        scenes::notched_beam({800, 60, 80, 3, 24}, {{100, 150, 30}, {400, 460, 40}});
    check_measures(beam);
    // Six sides, and of each notch two walls and a floor.
    CHECK(facets(read_one(beam.mesh).solid).size() == 12);
  }

  // Outside, closed form: prisms less rounded mortises (tests/scenes/beams.h)
  TEST_CASE("mortises rounded in all their corners keep volume and area") {
    check_measures(scenes::notched_beam({400, 80, 90, 2.5, 20}, {{150, 240, 35, 20}}));
  }

  TEST_CASE("twenty thousand triangles of notches and mortises are one beam") {
    const scenes::Measured beam =
        scenes::notched_beam({2400, 90, 120, 3, 24}, {{200, 260, 40},
                                                      {400, 500, 50, 20},
                                                      {700, 760, 40},
                                                      {1000, 1100, 50, 20},
                                                      {1300, 1360, 40},
                                                      {1600, 1700, 50, 20},
                                                      {1900, 1960, 40}});
    CHECK(read_one(beam.mesh).triangle_count > 15'000);
    check_measures(beam);
    // Battens fit into all its notches and lift out again: its cells are nowhere out of the wood.
    std::vector<Solid> solids = {read_one(beam.mesh).solid};
    for (const double at : {200, 700, 1300, 1900}) {
      solids.push_back(
          read_one(scenes::rounded_batten({300, 60, 60, 3, 24}, {at, -100, 80}).mesh).solid);
    }
    CHECK(find_overlaps(solids, {}).empty());
    CHECK(find_contacts(solids, {}).size() == 12);
    const Blocking blocking = find_blocking(solids, std::vector{kAxis[2], kAxis[0]}, {});
    for (std::size_t i = 1; i < solids.size(); ++i) {
      CHECK_FALSE(blocking.blocked(0, i, 0));
      CHECK(blocking.blocked(1, i, 0));
    }
  }

  TEST_CASE("a beam that a batten of the same object runs through crosses itself") {
    scenes::Mesh beam = scenes::notched_beam({600, 60, 80, 3, 24}, {{100, 150, 30}}).mesh;
    const scenes::Mesh batten = scenes::rounded_batten({300, 50, 40, 3, 24}, {300, -100, 50}).mesh;
    const std::size_t first = beam.points.size();
    beam.points.insert(beam.points.end(), batten.points.begin(), batten.points.end());
    for (std::vector<std::size_t> face : batten.faces) {
      for (std::size_t& corner : face) {
        corner += first;
      }
      beam.faces.push_back(std::move(face));
    }
    const MeshParts read = read_mesh(scenes::obj_text({{"beam", beam}}), MeshFormat::kObj, "", kMm);
    REQUIRE(read.defects.size() == 1);
    CHECK(read.defects[0].what == "crosses itself");
  }

  TEST_CASE("a beam turned by an odd angle holds as much, its contacts as large") {
    const double a = 0.3;
    const auto turned = [&](scenes::Mesh mesh) {
      for (Point& p : mesh.points) {
        p = {p.x * std::cos(a) - p.z * std::sin(a), p.y, p.x * std::sin(a) + p.z * std::cos(a)};
      }
      return mesh;
    };
    scenes::Measured beam = scenes::notched_beam({600, 60, 80, 3, 16}, {{100, 150, 30}});
    beam.mesh = turned(beam.mesh);
    check_measures(beam);
    const scenes::Mesh batten =
        turned(scenes::rounded_batten({300, 50, 40, 3, 16}, {100, -100, 50}).mesh);
    const std::vector<Solid> solids = {read_one(beam.mesh).solid, read_one(batten).solid};
    CHECK(find_overlaps(solids, {}).empty());
    const std::vector<Contact> contacts = find_contacts(solids, {});
    REQUIRE(contacts.size() == 3);
    CHECK(contacts[0].area_mm2 == Approx(44.0 * 60).epsilon(1e-6));
  }

  TEST_CASE("unevenness of a hundred thousandth of a millimetre changes no beam") {
    scenes::Measured beam =
        scenes::notched_beam({400, 80, 90, 2.5, 20}, {{60, 110, 30}, {150, 240, 35, 20}});
    beam.mesh = scenes::shaken(beam.mesh, 1e-5, 7);
    const MeshPart part = read_one(beam.mesh);
    CHECK(volume_mm3(part.solid) == Approx(beam.volume_mm3).epsilon(1e-6));
    CHECK(flat_mm2(part.solid) + part.curved_mm2 == Approx(beam.area_mm2).epsilon(1e-5));
    CHECK(facets(part.solid).size() == 14);
  }

  // Outside, closed form: sums of rectangles from the sizes alone
  TEST_CASE("a batten in a notch touches its floor and walls, not its fillets, and lifts out") {
    const scenes::Measured beam =
        scenes::notched_beam({600, 60, 80, 3, 24}, {{100, 150, 30}, {400, 450, 30}});
    const scenes::Measured batten = scenes::rounded_batten({300, 50, 40, 3, 24}, {100, -100, 50});
    const MeshParts read =
        read_mesh(scenes::obj_text({{"beam", beam.mesh}, {"batten", batten.mesh}}),
                  MeshFormat::kObj, "", kMm);
    REQUIRE(read.parts.size() == 2);
    const std::vector<Solid> solids = {read.parts[0].solid, read.parts[1].solid};
    CHECK(find_overlaps(solids, {}).empty());
    const std::vector<Contact> contacts = find_contacts(solids, {});
    REQUIRE(contacts.size() == 3);
    CHECK(contacts[0].area_mm2 == Approx(44.0 * 60).epsilon(1e-6));
    CHECK(contacts[1].area_mm2 == Approx(27.0 * 60).epsilon(1e-6));
    CHECK(contacts[2].area_mm2 == Approx(27.0 * 60).epsilon(1e-6));
    const Direction ways[] = {kAxis[2], -kAxis[2], kAxis[0], kAxis[1]};
    const Blocking blocking = find_blocking(solids, ways, {});
    CHECK_FALSE(blocking.blocked(0, 1, 0));
    CHECK(blocking.blocked(1, 1, 0));
    CHECK(blocking.blocked(2, 1, 0));
    CHECK_FALSE(blocking.blocked(3, 1, 0));
    // Nothing lies over the batten's top; the beam's underside is free from end to end.
    const std::vector<BearingFace> bearing = find_bearing_faces(solids, kAxis[2], {});
    const auto batten_top = std::find_if(bearing.begin(), bearing.end(), [](const BearingFace& f) {
      return f.solid == 1 && f.normal.z > 0;
    });
    REQUIRE(batten_top != bearing.end());
    CHECK(batten_top->regions.size() == 1);
  }
}
