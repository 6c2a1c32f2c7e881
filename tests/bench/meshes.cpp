// What drawings cost: a beam and a trellis of beams with notches, mortises and fillets in thousands
// of narrow flats, beside what CGAL's own readers and checks take.
//   meshes               lines of the bench's table
//   meshes FOLDER        leaves a job of the trellis, turned, there: for a whole plan
#include <cstdio>
#include <fstream>
#include <iterator>
#include <sstream>

#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>
#include <CGAL/IO/OBJ.h>
#include <CGAL/IO/OFF.h>
#include <CGAL/IO/PLY.h>
#include <CGAL/IO/STL.h>
#include <CGAL/Polygon_mesh_processing/polygon_soup_to_polygon_mesh.h>
#include <CGAL/Polygon_mesh_processing/self_intersections.h>
#include <CGAL/Polygon_mesh_processing/triangulate_faces.h>
#include <CGAL/Surface_mesh.h>

#include "bench/table.h"
#include "geometry/bearing.h"
#include "geometry/blocking.h"
#include "geometry/contact.h"
#include "geometry/mesh/mesh_file.h"
#include "geometry/mesh/mesh_readers.h"
#include "geometry/overlap.h"
#include "scenes/cad_shapes.h"

namespace {

using CgalPoint = CGAL::Exact_predicates_inexact_constructions_kernel::Point_3;
using Drawing = std::vector<std::pair<std::string, scenes::Mesh>>;

constexpr int kBeams = 9;

// 21,756 triangles.
scenes::Mesh beam() {
  return scenes::notched_beam({2400, 90, 120, 3, 24}, {{200, 260, 40},
                                                       {400, 500, 50, 20},
                                                       {700, 760, 40},
                                                       {1000, 1100, 50, 20},
                                                       {1300, 1360, 40},
                                                       {1600, 1700, 50, 20},
                                                       {1900, 1960, 40}})
      .mesh;
}

// 196,620 triangles: beams side by side, a batten through each row of their notches; turned off
// every axis or not.
Drawing trellis(bool turned) {
  Drawing drawing;
  for (int i = 0; i < kBeams; ++i) {
    drawing.emplace_back("beam " + std::to_string(i + 1), beam());
    for (geometry::Point& p : drawing.back().second.points) {
      p.y += 400 * i;
    }
  }
  for (const int at : {200, 700, 1300, 1900}) {
    drawing.emplace_back(
        "batten at " + std::to_string(at),
        scenes::rounded_batten({400 * kBeams, 60, 60, 3, 24}, {1.0 * at, -100, 80}).mesh);
  }
  for (auto& [name, mesh] : drawing) {
    mesh = turned ? scenes::turned_about(std::move(mesh), 0.3, 0.7) : std::move(mesh);
  }
  return drawing;
}

struct Soup {
  std::vector<CgalPoint> points;
  std::vector<std::vector<std::size_t>> faces;
};

template <class Read>
Soup raw(const std::string& bytes, Read read) {
  Soup soup;
  std::istringstream in(bytes);
  if (!read(in, soup.points, soup.faces)) {
    std::fputs("CGAL refuses the drawing\n", stderr);
  }
  return soup;
}

constexpr auto kRawObj = [](auto&... to) { return CGAL::IO::read_OBJ(to...); };
constexpr auto kRawOff = [](auto&... to) { return CGAL::IO::read_OFF(to...); };
constexpr auto kRawPly = [](auto&... to) { return CGAL::IO::read_PLY(to...); };
constexpr auto kRawStl = [](auto&... to) { return CGAL::IO::read_STL(to...); };

// Read, made a surface and asked whether it is closed and crosses itself.
bool is_sound(const std::string& off) {
  namespace pmp = CGAL::Polygon_mesh_processing;
  Soup soup = raw(off, kRawOff);
  CGAL::Surface_mesh<CgalPoint> surface;
  pmp::polygon_soup_to_polygon_mesh(soup.points, soup.faces, surface);
  pmp::triangulate_faces(surface);
  return CGAL::is_closed(surface) && !pmp::does_self_intersect(surface);
}

void beam_rows() {
  const scenes::Mesh mesh = beam();
  const std::string off = scenes::off_text(mesh), ply = scenes::ply_text(mesh),
                    stl = scenes::stl_text({mesh}), bytes = scenes::stl_bytes(mesh);
  const auto rows = [](const char* format, const std::string& text, auto ours, auto theirs) {
    bench::row_beside(std::string("drawn beam: ") + format + " read", "",
                      bench::median_ms([&] { ours(text, 1); }), "CGAL's reader",
                      bench::median_ms([&] { raw(text, theirs); }));
  };
  rows("OFF", off, geometry::read_off, kRawOff);
  rows("PLY", ply, geometry::read_ply, kRawPly);
  rows("STL", stl, geometry::read_stl, kRawStl);
  rows("binary STL", bytes, geometry::read_stl, kRawStl);
  const geometry::Length mm = geometry::Length::whole_mm(1);
  bool sound = true;
  const double theirs = bench::median_ms([&] { sound = is_sound(off); });
  bench::row_beside("drawn beam: read, checked, made a solid", "", bench::median_ms([&] {
                      geometry::read_mesh(off, geometry::MeshFormat::kOff, "beam", mm);
                    }),
                    sound ? "CGAL, read and checked" : "CGAL, which finds it unsound", theirs);
}

void trellis_rows(const std::string& name, bool turned) {
  const std::string obj = scenes::obj_text(trellis(turned));
  std::vector<geometry::Solid> solids;
  std::vector<geometry::Contact> contacts;
  const double read = bench::once_ms([&] {
    geometry::MeshParts parts = geometry::read_mesh(obj, geometry::MeshFormat::kObj, "trellis",
                                                    geometry::Length::whole_mm(1));
    for (const geometry::MeshPart& part : parts.parts) {
      solids.push_back(part.solid);
    }
  });
  bench::row_beside(name + ": read, made solids", "", read, "CGAL's reader",
                    bench::once_ms([&] { raw(obj, kRawObj); }));
  const auto row = [&](const char* step, double ms) {
    bench::row(name + ": " + step, "", bench::ms(ms));
  };
  row("contacts", bench::once_ms([&] { contacts = find_contacts(solids, {}); }));
  row("overlaps", bench::once_ms([&] { find_overlaps(solids, {}); }));
  std::vector<geometry::Direction> ways;
  for (const geometry::Contact& contact : contacts) {
    ways.insert(ways.end(), {contact.normal, -contact.normal});
  }
  ways.resize(std::min<std::size_t>(ways.size(), 6));
  row("blocking", bench::once_ms([&] { find_blocking(solids, ways, {}); }));
  row("bearing faces of an axis",
      bench::once_ms([&] { find_bearing_faces(solids, contacts.front().normal, {}); }));
}

bool leave_job(const std::string& folder) {
  std::ofstream(folder + "/trellis.obj") << scenes::obj_text(trellis(true));
  std::ofstream job(folder + "/job.toml");
  job << "units = \"mm\"\nspecies = \"douglas_fir\"\n\n"
         "[mesh]\nfile = \"trellis.obj\"\nunits = \"mm\"\n";
  return static_cast<bool>(job.flush());
}

}  // namespace

int main(int argc, char** argv) {
  if (argc > 1) {
    return leave_job(argv[1]) ? 0 : 1;
  }
  beam_rows();
  trellis_rows("drawn trellis", false);
  trellis_rows("drawn trellis, turned", true);
}
