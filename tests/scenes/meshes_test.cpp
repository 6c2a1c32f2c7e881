#include "scenes/meshes.h"

#include <algorithm>
#include <numbers>

#include <doctest/doctest.h>

#include "geometry/contact.h"
#include "geometry/mesh/mesh_file.h"
#include "geometry/overlap.h"
#include "scenes/random_parts.h"

using namespace geometry;
using doctest::Approx;
using scenes::Mesh;

namespace {

const Length kMm = Length::whole_mm(1);

std::vector<Solid> solids_of(const MeshParts& read) {
  std::vector<Solid> solids;
  for (const MeshPart& part : read.parts) {
    solids.push_back(part.solid);
  }
  return solids;
}

std::vector<std::pair<std::string, Mesh>> named_meshes(const scenes::Assembly& assembly) {
  std::vector<std::pair<std::string, Mesh>> meshes;
  for (std::size_t i = 0; i < assembly.size(); ++i) {
    meshes.emplace_back("part " + std::to_string(i), scenes::mesh_of(assembly[i]));
  }
  return meshes;
}

double surface_mm2(const Solid& solid) {
  double sum = 0;
  for (const Facet& facet : facets(solid)) {
    sum += facet.area_mm2;
  }
  return sum;
}

void check_same(const std::vector<Contact>& ours, const std::vector<Contact>& theirs,
                double within) {
  REQUIRE(ours.size() == theirs.size());
  for (std::size_t i = 0; i < ours.size(); ++i) {
    CHECK(ours[i].a == theirs[i].a);
    CHECK(ours[i].b == theirs[i].b);
    CHECK(ours[i].area_mm2 == Approx(theirs[i].area_mm2).epsilon(within));
    CHECK(ours[i].regions.size() == theirs[i].regions.size());
  }
}

Mesh leg() {
  return scenes::turned_body({{0, 12}, {40, 20}, {80, 14}, {200, 24}, {300, 16}, {420, 22}}, 48);
}

}  // namespace

TEST_SUITE("tests/meshes") {
  TEST_CASE("the chest drawn as a mesh has the joints and areas of the chest as cut") {
    const std::vector<Contact> as_cut = find_contacts(scenes::make(scenes::chest()), {});
    const auto meshes = named_meshes(scenes::chest());
    const MeshParts read = read_mesh(scenes::obj_text(meshes), MeshFormat::kObj, "chest", kMm);
    CHECK(read.defects.empty());
    REQUIRE(read.parts.size() == 6);
    CHECK(read.parts[5].name == "part 5");
    check_same(find_contacts(solids_of(read), {}), as_cut, 1e-12);
    CHECK(find_overlaps(solids_of(read), {}).empty());
    CHECK(length(read.parts[1].longest_edge - kAxis[0]) == 0);
    // Three boards are a box, two cells or three: no more than when they are cut.
    for (const MeshPart& part : read.parts) {
      CHECK(part.cell_count <= 3);
    }
  }

  TEST_CASE("unevenness of a ten thousandth of a millimetre changes no joint") {
    const std::vector<Contact> as_cut = find_contacts(scenes::make(scenes::chest()), {});
    auto meshes = named_meshes(scenes::chest());
    for (std::size_t i = 0; i < meshes.size(); ++i) {
      meshes[i].second = scenes::shaken(meshes[i].second, 1e-4, i);
    }
    const MeshParts read = read_mesh(scenes::obj_text(meshes), MeshFormat::kObj, "chest", kMm);
    CHECK(read.defects.empty());
    REQUIRE(read.parts.size() == 6);
    check_same(find_contacts(solids_of(read), {}), as_cut, 1e-4);
    CHECK(find_overlaps(solids_of(read), {}).empty());
  }

  TEST_CASE("random boards as meshes keep volume, surface and contacts") {
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
      CAPTURE(seed);
      scenes::Dice dice(seed);
      scenes::Assembly assembly = scenes::random_lattice_assembly(dice);
      const std::vector<Solid> as_cut = scenes::make(assembly);
      const bool all_whole =
          std::all_of(as_cut.begin(), as_cut.end(), [](const Solid& s) { return !is_empty(s); });
      if (!all_whole) {
        continue;
      }
      const MeshParts read =
          read_mesh(scenes::obj_text(named_meshes(assembly)), MeshFormat::kObj, "", kMm);
      CHECK(read.defects.empty());
      REQUIRE(read.parts.size() == as_cut.size());
      for (std::size_t i = 0; i < as_cut.size(); ++i) {
        CHECK(volume_mm3(read.parts[i].solid) == Approx(volume_mm3(as_cut[i])).epsilon(1e-12));
        CHECK(surface_mm2(read.parts[i].solid) == Approx(surface_mm2(as_cut[i])).epsilon(1e-12));
        CHECK(piece_count(read.parts[i].solid) == piece_count(as_cut[i]));
      }
      check_same(find_contacts(solids_of(read), {}), find_contacts(as_cut, {}), 1e-12);
    }
  }

  TEST_CASE("every format brings the same board") {
    const scenes::Recipe recipe = scenes::chest()[0];
    const double volume = volume_mm3(scenes::make(recipe));
    const Mesh mesh = scenes::mesh_of(recipe);
    const auto check = [&](const std::string& bytes, MeshFormat format, double within) {
      const MeshParts read = read_mesh(bytes, format, "bottom", kMm);
      REQUIRE(read.parts.size() == 1);
      CHECK(read.parts[0].name == "bottom");
      CHECK(read.parts[0].facet_count == 11);
      CHECK(volume_mm3(read.parts[0].solid) == Approx(volume).epsilon(within));
    };
    check(scenes::off_text(mesh), MeshFormat::kOff, 1e-12);
    check(scenes::ply_text(mesh), MeshFormat::kPly, 1e-12);
    check(scenes::stl_text({mesh}), MeshFormat::kStl, 1e-12);
    check(scenes::stl_bytes(mesh), MeshFormat::kStl, 1e-6);
  }

  // Outside, closed form: frusta of regular polygons, h/3 (A1 + A2 + sqrt(A1 A2))
  TEST_CASE("a turned leg is parted into slices and keeps its volume") {
    const MeshParts read = read_mesh(scenes::obj_text({{"leg", leg()}}), MeshFormat::kObj, "", kMm);
    CHECK(read.defects.empty());
    REQUIRE(read.parts.size() == 1);
    // Frusta of regular 48-gons: h/3 (A1 + A2 + sqrt(A1 A2)), A = n/2 r2 sin(2 pi / n).
    const double per_r2 = 24 * std::sin(2 * std::numbers::pi / 48);
    const double radius[] = {12, 20, 14, 24, 16, 22}, height[] = {0, 40, 80, 200, 300, 420};
    double volume = 0;
    for (int i = 0; i < 5; ++i) {
      const double a = radius[i], b = radius[i + 1];
      volume += (height[i + 1] - height[i]) / 3 * per_r2 * (a * a + b * b + a * b);
    }
    CHECK(volume_mm3(read.parts[0].solid) == Approx(volume).epsilon(1e-6));
    CHECK(read.parts[0].cell_count <= 5);
    CHECK(piece_count(read.parts[0].solid) == 1);
  }

  TEST_CASE("two boards in one STL come apart where a gap lies between, else are refused") {
    const auto at = [](double x) {
      scenes::Recipe r;
      r.board = {
          {Length::nm(std::llround(x * 1e6)), Length{}, Length{}},
          {Length::nm(std::llround((x + 100) * 1e6)), Length::whole_mm(50), Length::whole_mm(20)}};
      return scenes::mesh_of(r);
    };
    const MeshParts apart =
        read_mesh(scenes::stl_text({at(0), at(100.1)}), MeshFormat::kStl, "rack", kMm);
    REQUIRE(apart.parts.size() == 2);
    CHECK(apart.parts[1].name == "rack 2");
    CHECK(find_contacts(solids_of(apart), {}).size() == 1);
    const MeshParts joined =
        read_mesh(scenes::stl_text({at(0), at(100)}), MeshFormat::kStl, "rack", kMm);
    CHECK(joined.parts.empty());
    REQUIRE(joined.defects.size() == 1);
    CHECK(joined.defects[0].what.find("share an edge") != std::string::npos);
    // Objects of an OBJ file know which is which.
    const std::string obj = scenes::obj_text({{"a", at(0)}, {"b", at(100)}});
    CHECK(find_contacts(solids_of(read_mesh(obj, MeshFormat::kObj, "rack", kMm)), {}).size() == 1);
  }

  TEST_CASE("a sheet of twenty thousand triangles is six faces and one cell") {
    const MeshParts read =
        read_mesh(scenes::obj_text({{"sheet", scenes::gridded_board(600, 400, 70)}}),
                  MeshFormat::kObj, "", kMm);
    REQUIRE(read.parts.size() == 1);
    CHECK(read.parts[0].triangle_count > 20'000);
    CHECK(read.parts[0].facet_count == 6);
    CHECK(read.parts[0].cell_count == 1);
    CHECK(volume_mm3(read.parts[0].solid) == 600.0 * 400 * 18);
  }
}
