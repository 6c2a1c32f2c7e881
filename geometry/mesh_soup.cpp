// OFF, PLY and STL through CGAL's readers. Counts in their heads are checked first: the readers
// make room for whatever a head promises.
#include <cmath>
#include <cstring>
#include <sstream>

#include <CGAL/IO/OFF.h>
#include <CGAL/IO/PLY.h>
#include <CGAL/IO/STL.h>

#include "geometry/mesh_surface.h"

namespace geometry {
namespace {

using SoupKernel = CGAL::Simple_cartesian<double>;

MeshText unreadable(std::string what) {
  return {{}, {{"", std::move(what), std::nullopt, 0}}};
}

// The largest whole number in the text's first lines: no head of n bytes' worth of content promises
// more than n of anything.
bool promises_too_much(std::string_view bytes, MeshFormat format) {
  if (format == MeshFormat::kStl) {
    if (bytes.size() < 84 || bytes.starts_with("solid")) {
      return false;
    }
    std::uint32_t count = 0;
    std::memcpy(&count, bytes.data() + 80, sizeof count);
    return (bytes.size() - 84) / 50 < count;
  }
  std::istringstream head{std::string(bytes.substr(0, 2000))};
  for (std::string word; head >> word && word != "end_header";) {
    char* end = nullptr;
    const double number = std::strtod(word.c_str(), &end);
    if (*end == '\0' && number > static_cast<double>(bytes.size())) {
      return true;
    }
  }
  return false;
}

}  // namespace

MeshText read_soup(std::string_view bytes, MeshFormat format, double unit_mm) {
  if (promises_too_much(bytes, format)) {
    return unreadable("promises more than the file holds");
  }
  std::vector<SoupKernel::Point_3> points;
  std::vector<std::vector<std::size_t>> faces;
  std::istringstream stream{std::string(bytes)};
  bool ok = false;
  try {
    switch (format) {
      case MeshFormat::kOff:
        ok = CGAL::IO::read_OFF(stream, points, faces);
        break;
      case MeshFormat::kPly:
        ok = CGAL::IO::read_PLY(stream, points, faces);
        break;
      case MeshFormat::kStl:
        ok = CGAL::IO::read_STL(stream, points, faces);
        break;
      case MeshFormat::kObj:
        break;
    }
  } catch (const std::exception&) {
    ok = false;
  }
  if (!ok) {
    return unreadable("can't be read as the mesh its name says it is");
  }
  if (faces.empty()) {
    return unreadable("has no faces");
  }
  MeshSurface surface;
  for (const SoupKernel::Point_3& p : points) {
    if (!std::isfinite(p.x()) || !std::isfinite(p.y()) || !std::isfinite(p.z())) {
      return unreadable("has a vertex that isn't three numbers");
    }
    surface.points.push_back({p.x() * unit_mm, p.y() * unit_mm, p.z() * unit_mm});
  }
  for (const std::vector<std::size_t>& face : faces) {
    for (const std::size_t corner : face) {
      if (corner >= points.size()) {
        return unreadable("has a face with vertex " + std::to_string(corner) + " of " +
                          std::to_string(points.size()));
      }
    }
    if (face.size() >= 3) {
      add_polygon(face, surface);
    }
  }
  return {{std::move(surface)}, {}};
}

}  // namespace geometry
