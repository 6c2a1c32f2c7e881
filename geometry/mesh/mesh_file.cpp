#include "geometry/mesh/mesh_file.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <memory>
#include <utility>

#include "geometry/mesh/mesh_cells.h"
#include "geometry/mesh/mesh_crossing.h"
#include "geometry/mesh/mesh_flats.h"
#include "geometry/mesh/mesh_readers.h"
#include "geometry/mesh/mesh_seams.h"
#include "geometry/mesh/mesh_turning.h"

namespace geometry {
namespace {

// Beyond the largest size a job may have.
constexpr double kFarMm = 30'000;

Direction longest_edge(const std::vector<Facet>& facets) {
  // Edges this close in length, relative, are as long: the one nearer a lower axis is meant.
  constexpr double kSame = 1e-6;
  Direction longest;
  const auto main_axis = [](const Direction& d) {
    return std::abs(d.x) >= std::abs(d.y) && std::abs(d.x) >= std::abs(d.z) ? 0
           : std::abs(d.y) >= std::abs(d.z)                                 ? 1
                                                                            : 2;
  };
  for (const Facet& facet : facets) {
    for (const Polygon& region : facet.regions) {
      for (std::size_t i = 0; i < region.outer.size(); ++i) {
        const Direction edge = region.outer[(i + 1) % region.outer.size()] - region.outer[i];
        const double more = length(edge) - length(longest), same = kSame * length(edge);
        if (more > same || (more > -same && main_axis(edge) < main_axis(longest))) {
          longest = edge;
        }
      }
    }
  }
  for (std::size_t k = 0; k < 3; ++k) {
    if (longest[k] != 0) {
      return unit(longest[k] > 0 ? longest : -longest);
    }
  }
  return longest;
}

std::optional<MeshDefect> too_far(const MeshSurface& surface) {
  for (const Point& p : surface.points) {
    for (std::size_t k = 0; k < 3; ++k) {
      if (std::abs(p[k]) > kFarMm) {
        return MeshDefect{surface.name, "reaches farther than 30 m", p, 0,
                          "set units in [mesh] to what it was drawn in"};
      }
    }
  }
  return std::nullopt;
}

std::shared_ptr<Solid::Body> body_of(const MeshSurface& surface, const MeshFacets& flat,
                                     Cells cells) {
  if (!flat.any_curved) {
    return std::make_shared<Solid::Body>(std::move(cells));
  }
  if (cells.on_lattice()) {
    cells.cells.push_back(to_cell(cells.boxes.back()));
    cells.boxes.pop_back();
  }
  return std::make_shared<Solid::Body>(std::move(cells), drawn_of(surface, flat));
}

// What would take too long. Adds to the triangles of curved parts.
std::optional<MeshDefect> too_fine(const MeshSurface& surface, const MeshFacets& flat,
                                   std::size_t most_curved, std::size_t& curved) {
  const auto defect = [&](std::string what) {
    return MeshDefect{surface.name, std::move(what), std::nullopt, 0,
                      "draw its curves with fewer flats"};
  };
  if (flat.planes.size() > kMostPlanes) {
    return defect("has more than " + std::to_string(kMostPlanes) + " flat faces");
  }
  curved += flat.any_curved ? surface.triangles.size() : 0;
  if (flat.any_curved && curved > most_curved) {
    const bool alone = surface.triangles.size() > kMostCurved;
    return defect(std::string("has curves and") +
                  (alone ? "" : ", with the curved parts before it,") + " more than " +
                  std::to_string(kMostCurved) + " triangles");
  }
  return std::nullopt;
}

void add_part(const MeshSurface& surface, std::size_t most_curved, MeshParts& result) {
  if (const std::optional<MeshDefect> defect = defect_of(surface)) {
    if (const std::optional<MeshSurface> turned = turned_outward(surface)) {
      return add_part(*turned, most_curved, result);
    }
    result.defects.push_back(*defect);
    return;
  }
  const MeshFacets flat = facets_of(surface);
  if (const auto defect = too_fine(surface, flat, most_curved, result.curved_triangles)) {
    result.defects.push_back(*defect);
    return;
  }
  // Cells find out for themselves but where curves are, which they only come near to.
  if (const auto crossing = flat.any_curved ? crossing_of(surface) : std::nullopt) {
    result.defects.push_back(*crossing);
    return;
  }
  MeshCells cells = cells_of(surface, flat);
  if (!cells.defect && cells.cells.size() == 0) {
    cells.defect = MeshDefect{surface.name, "has no volume", std::nullopt, 0,
                              "draw it as a solid, or leave it out"};
  }
  if (cells.defect) {
    result.defects.push_back(*cells.defect);
    return;
  }
  const std::size_t cell_count = cells.cells.size();
  const Solid solid(body_of(surface, flat, std::move(cells.cells)));
  result.parts.push_back({surface.name, solid, surface.triangles.size(), flat.planes.size(),
                          cell_count, curved_mm2(surface, flat), longest_edge(facets(solid))});
}

MeshText read_text(std::string_view bytes, MeshFormat format, double unit_mm) {
  switch (format) {
    case MeshFormat::kObj:
      return read_obj(bytes, unit_mm);
    case MeshFormat::kOff:
      return read_off(bytes, unit_mm);
    case MeshFormat::kPly:
      return read_ply(bytes, unit_mm);
    case MeshFormat::kStl:
      break;
  }
  return read_stl(bytes, unit_mm);
}

// Formats without groups: a part for each closed surface. All of it where welding left no triangle,
// for add_part to say so.
std::vector<MeshSurface> told_apart(const MeshSurface& all, std::vector<MeshDefect>& defects) {
  Components components = components_of(all);
  if (components.defect) {
    defects.push_back(*components.defect);
    return {};
  }
  if (components.surfaces.empty()) {
    return {all};
  }
  if (components.surfaces.size() > 1) {
    for (std::size_t i = 0; i < components.surfaces.size(); ++i) {
      components.surfaces[i].name += " " + std::to_string(i + 1);
    }
  }
  return std::move(components.surfaces);
}

bool ends_in(std::string_view file_name, std::string_view ending) {
  return file_name.size() > ending.size() &&
         std::equal(ending.rbegin(), ending.rend(), file_name.rbegin(), [](char a, char b) {
           return a == std::tolower(static_cast<unsigned char>(b));
         });
}

Direction extents(const MeshSurface& surface) {
  Point lo = surface.points.front(), hi = lo;
  for (const Point& p : surface.points) {
    lo = {std::min(lo.x, p.x), std::min(lo.y, p.y), std::min(lo.z, p.z)};
    hi = {std::max(hi.x, p.x), std::max(hi.y, p.y), std::max(hi.z, p.z)};
  }
  return hi - lo;
}

}  // namespace

std::optional<MeshFormat> mesh_format(std::string_view file_name) {
  static constexpr std::pair<std::string_view, MeshFormat> kEndings[] = {
      {".obj", MeshFormat::kObj},
      {".off", MeshFormat::kOff},
      {".ply", MeshFormat::kPly},
      {".stl", MeshFormat::kStl}};
  for (const auto& [ending, format] : kEndings) {
    if (ends_in(file_name, ending)) {
      return format;
    }
  }
  return std::nullopt;
}

bool is_formula_model(std::string_view file_name) {
  return ends_in(file_name, ".step") || ends_in(file_name, ".stp") || ends_in(file_name, ".iges") ||
         ends_in(file_name, ".igs");
}

std::vector<Direction> drawn_sizes(std::string_view bytes, MeshFormat format) {
  MeshText text = read_text(bytes, format, 1);
  std::vector<Direction> sizes;
  for (const MeshSurface& surface : text.surfaces) {
    std::vector<MeshDefect> defects;
    const bool grouped = format == MeshFormat::kObj;
    for (const MeshSurface& part :
         grouped ? std::vector{surface} : told_apart(welded(surface), defects)) {
      if (!part.points.empty()) {
        sizes.push_back(extents(part));
      }
    }
  }
  return text.defects.empty() ? sizes : std::vector<Direction>{};
}

MeshParts read_mesh(std::string_view bytes, MeshFormat format, const std::string& name, Length unit,
                    std::size_t most_curved) {
  MeshText text = read_text(bytes, format, unit.mm());
  MeshParts result{{}, std::move(text.defects)};
  if (!result.defects.empty()) {
    return result;
  }
  for (MeshSurface& surface : text.surfaces) {
    if (surface.name.empty()) {
      surface.name = name;
    }
    if (const std::optional<MeshDefect> defect = too_far(surface)) {
      result.defects.push_back(*defect);
      continue;
    }
    const MeshSurface whole = seamed(welded(surface));
    if (format == MeshFormat::kObj) {
      add_part(whole, most_curved, result);
      continue;
    }
    for (const MeshSurface& one : told_apart(whole, result.defects)) {
      add_part(one, most_curved, result);
    }
  }
  return result;
}

}  // namespace geometry
