#include "planner/plan/plan_parts.h"

#include <algorithm>

#include "planner/tables/wood.h"

namespace planner::plan {
namespace {

// Left alone, the outside faces but the bottom are show faces (domain default): a face on the hull
// of the whole assembly.
std::vector<work::Face> show_faces(const work::Part& part, const geometry::Box& own,
                                   const geometry::Box& all) {
  if (part.show) {
    return *part.show;
  }
  std::vector<work::Face> show;
  for (int axis = 0; axis < 3; ++axis) {
    const auto k = static_cast<std::size_t>(axis);
    if (axis != 2 && own.lo[k] <= all.lo[k] + 1e-6) {
      show.push_back({axis, false});
    }
    if (own.hi[k] >= all.hi[k] - 1e-6) {
      show.push_back({axis, true});
    }
  }
  return show;
}

geometry::Box hull(std::span<const geometry::Solid> solids) {
  geometry::Box all = bounds(solids.front());
  for (const geometry::Solid& solid : solids) {
    const geometry::Box one = bounds(solid);
    all.lo = {std::min(all.lo.x, one.lo.x), std::min(all.lo.y, one.lo.y),
              std::min(all.lo.z, one.lo.z)};
    all.hi = {std::max(all.hi.x, one.hi.x), std::max(all.hi.y, one.hi.y),
              std::max(all.hi.z, one.hi.z)};
  }
  return all;
}

}  // namespace

std::vector<PlanPart> plan_parts(const work::Job& job, std::span<const geometry::Solid> solids) {
  std::vector<PlanPart> parts;
  if (solids.empty()) {
    return parts;
  }
  const geometry::Box all = hull(solids);
  for (work::PartId i = 0; i < job.parts.size(); ++i) {
    const work::Part& part = job.parts[i];
    PlanPart told;
    told.name = part.name;
    told.species = part.species;
    told.size_mm = {part.length.mm(), part.width.mm(), part.thickness.mm()};
    told.grain = grain_of(part);
    told.volume_mm3 = volume_mm3(solids[i]);
    told.bounds = bounds(solids[i]);
    told.facets = facets(solids[i]);
    told.show = show_faces(part, told.bounds, all);
    if (const tables::Wood* wood = tables::find_wood(part.species)) {
      told.mass_g = told.volume_mm3 * density_kg_per_m3(*wood) * 1e-6;  // kg/m3 is 1e-6 g/mm3
    }
    parts.push_back(std::move(told));
  }
  return parts;
}

GrainShares grain_shares(std::span<const work::Joint> joints) {
  GrainShares shares;
  for (const work::Joint& joint : joints) {
    double faces = 0;
    for (const work::GlueFace& face : joint.faces) {
      faces += face.contact.area_mm2;
    }
    // Where only the middle is glued, each face gives its share alike.
    const double glued = faces > 0 ? joint.glued_area_mm2() / faces : 0;
    for (const work::GlueFace& face : joint.faces) {
      const bool end = face.grain[0] == work::GrainClass::end_grain ||
                       face.grain[1] == work::GrainClass::end_grain;
      (end            ? shares.end_mm2
       : face.crossed ? shares.cross_mm2
                      : shares.long_mm2) += glued * face.contact.area_mm2;
    }
  }
  return shares;
}

}  // namespace planner::plan
