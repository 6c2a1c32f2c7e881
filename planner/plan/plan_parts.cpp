#include "planner/plan/plan_parts.h"

#include <algorithm>
#include <cmath>

#include "planner/tables/wood.h"
#include "planner/work/movement.h"

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
    told.own_wood = part.own_wood;
    told.size_mm = {part.length.mm(), part.width.mm(), part.thickness.mm()};
    told.grain = grain_of(part);
    told.volume_mm3 = volume_mm3(solids[i]);
    told.bounds = bounds(solids[i]);
    told.facets = facets(solids[i]);
    told.show = show_faces(part, told.bounds, all);
    if (const tables::Wood* wood = wood_of(part)) {
      told.mass_g = told.volume_mm3 * density_kg_per_m3(*wood) * 1e-6;  // kg/m3 is 1e-6 g/mm3
    }
    parts.push_back(std::move(told));
  }
  return parts;
}

std::vector<int> weights_g(std::span<const PlanPart> parts) {
  constexpr double kMost_g = 1e6;
  std::vector<int> grams;
  for (const PlanPart& part : parts) {
    grams.push_back(static_cast<int>(std::lround(std::min(part.mass_g, kMost_g))));
  }
  return grams;
}

work::PaceShare snug_share(const PlannedClamp& clamp, const work::Pace& pace) {
  if (clamp.platen_mm > 0 || clamp.form_mm > 0) {
    return {"platen", pace.platen_s, 1};
  }
  return {pace.any_snug_s ? "snug" : "snug." + clamp.kind, work::snug_seconds(clamp.kind, pace), 1};
}

work::Face bench_face_after(const Stage& stage, const Step& step) {
  work::Face face = stage.bench_face;
  for (const Step& s : stage.steps) {
    if (s.kind == StepKind::turn && s.n <= step.n) {
      face.positive = !face.positive;
    }
  }
  return face;
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

Plan start_plan(const work::Job& job, const work::Shop& shop, const work::GlueInUse& glue,
                std::span<const geometry::Solid> solids, std::span<const work::Joint> joints,
                std::vector<work::Ring> rings) {
  Plan plan;
  plan.title = job.title;
  plan.units = job.units;
  plan.uk_words = job.uk_words;
  plan.people = std::clamp(shop.people, 1, work::kMostPeople);
  plan.no_shop_file = shop.file.empty();
  plan.temperature_C = shop.temperature_C;
  plan.humidity = shop.humidity;
  plan.parts = plan_parts(job, solids);
  plan.glue = glue_quantity(joints, glue, shop.pace);
  const GrainShares shares = grain_shares(joints);
  plan.long_mm2 = shares.long_mm2;
  plan.cross_mm2 = shares.cross_mm2;
  plan.end_mm2 = shares.end_mm2;
  plan.cross_grain = cross_grain_notes(job, joints, work::kSeasonalChange_percent);
  plan.joints.assign(joints.begin(), joints.end());
  if (!rings.empty()) {
    const work::Ring& ring = rings.front();
    plan.needs_square = true;
    plan.square_normal = ring.normal_axis;
    plan.inside_mm = ring.inside_mm;
    plan.outside_mm = ring.outside_mm;
  }
  plan.rings = std::move(rings);
  plan.bend = job.bend;
  return plan;
}

}  // namespace planner::plan
