#include "planner/work/pace.h"

#include <algorithm>
#include <cmath>

#include "planner/tables/clamp.h"

namespace planner::work {
namespace {

// A joint with a face wider than this is spread by area, not by length (common practice).
constexpr double kNarrow_mm = 50;

// A clamp of a kind that the table does not know (common practice).
constexpr double kSnug_s = 30;

}  // namespace

int whole_seconds(double seconds) {
  return static_cast<int>(std::ceil(seconds - 1e-6));
}

int spread_seconds(const Joint& joint, const Pace& pace) {
  double run = 0, wide = 0;
  for (const GlueFace& face : joint.faces) {
    if (face.contact.width_mm > kNarrow_mm) {
      wide += face.contact.area_mm2;
    } else {
      run = std::max(run, face.contact.length_mm);
    }
  }
  if (joint.middle_mm > 0) {
    const double whole = std::max(run, joint.faces[0].contact.length_mm);
    const double share = std::min(1.0, joint.middle_mm / whole);
    run *= share;
    wide *= share;
  }
  return whole_seconds(run * pace.narrow_s_per_mm + wide * pace.wide_s_per_mm2 + pace.joint_s);
}

int snug_seconds(const std::string& clamp_kind, const Pace& pace) {
  if (pace.snug_s) {
    return whole_seconds(*pace.snug_s);
  }
  const tables::ClampKind* kind = tables::find_clamp_kind(clamp_kind);
  return whole_seconds(kind ? kind->snug_s : kSnug_s);
}

}  // namespace planner::work
