#include "planner/verify/verify_placed.h"

#include <algorithm>

#include "geometry/crossing.h"
#include "planner/tables/clamp.h"
#include "planner/work/joint_fit.h"

namespace planner::verify {
namespace {

// The clamp stands where the file puts it, as hard as the file or the table says.
void verify_as_placed(VerifyContext& c, const plan::PlannedClamp& clamp) {
  const std::string name = "placed clamp " + std::to_string(clamp.n);
  if (clamp.n < 1 || static_cast<std::size_t>(clamp.n) > c.job.placed.size()) {
    c.require(false, name + " is not in the file");
    return;
  }
  const work::PlacedClamp& given = c.job.placed[static_cast<std::size_t>(clamp.n) - 1];
  const geometry::Direction axis = geometry::kAxis[static_cast<std::size_t>(given.axis)];
  const geometry::Point at{given.at[0].mm(), given.at[1].mm(), given.at[2].mm()};
  const geometry::Direction off = clamp.at - at;
  c.require(std::abs(dot(axis, clamp.axis)) > 0.999, name + " runs along another axis");
  c.require(length(off - dot(off, axis) * axis) < 0.01, name + " isn't where the file puts it");
  const tables::ClampKind* kind = tables::find_clamp_kind(given.kind);
  const double force = given.force_N ? *given.force_N : kind != nullptr ? kind->force_typ_N : 0;
  c.require(std::abs(clamp.force_N - force) < 1, name + " isn't drawn as hard as the file says");
  const auto path = crossings(c.solids, clamp.at, clamp.axis);
  c.require(!path.empty() && std::abs(path.front().enter_mm - dot(clamp.at, clamp.axis)) < 0.01 &&
                std::abs(path.back().leave_mm - path.front().enter_mm - clamp.span_mm) < 0.01,
            name + " doesn't reach from face to face of the work");
  const double area = clamp.pad.along_mm * clamp.pad.across_mm;
  c.require(area > 0 && std::abs(clamp.bearing_MPa * area - clamp.force_N) < 1e-6 * clamp.force_N,
            name + " bears on another area than its pad's");
}

void verify_line(VerifyContext& c, const plan::PlacedTrial& trial, const plan::LinePressure& line) {
  if (line.joint >= c.joints.size() || line.face >= c.joints[line.joint].faces.size()) {
    c.require(false, "placed clamps are told to press a face that isn't there");
    return;
  }
  const std::string name = joint_name(c.joints[line.joint], c.job);
  double force = 0;  // a clamp may press a line through the corner of a rim as well
  for (const plan::PlannedClamp& clamp : trial.clamps) {
    force += std::abs(dot(clamp.axis, line.axis)) > 0.99 ? clamp.force_N : 0;
  }
  const geometry::Contact& contact = c.joints[line.joint].faces[line.face].contact;
  const double area = contact.area_mm2 * std::abs(dot(contact.normal, line.axis));
  c.require(line.mean_MPa * area <= 1.02 * force + 1,
            "joint " + name + " is said to carry more than the placed clamps give");
  c.require(line.min_MPa <= line.mean_MPa + 1e-9 && line.mean_MPa <= line.max_MPa + 1e-9,
            "joint " + name + ", placed clamps: least, mean and greatest are out of order");
  c.require(!trial.holds || line.level != plan::Level::short_of_hold,
            "the placed clamps are said to hold, and joint " + name + " is short");
  const bool held = line.level == plan::Level::full || line.level == plan::Level::hold;
  c.require(!held || line.min_MPa >= line.hold_MPa * 0.999,
            "joint " + name + " is said to be held by the placed clamps and isn't");
}

}  // namespace

void verify_placed(VerifyContext& c) {
  c.require(c.plan.placed.has_value() == !c.job.placed.empty(),
            "clamps are placed in the file, or tried, not both");
  if (!c.plan.placed) {
    return;
  }
  const plan::PlacedTrial& trial = *c.plan.placed;
  for (const plan::PlannedClamp& clamp : trial.clamps) {
    verify_as_placed(c, clamp);
    c.require(!trial.holds || clamp.bearing_MPa <= clamp.bearing_limit_MPa * 1.001,
              "the placed clamps are said to hold, and one dents the wood");
  }
  for (const plan::LinePressure& line : trial.pressure) {
    verify_line(c, trial, line);
  }
  for (work::JointId j = 0; j < c.joints.size(); ++j) {
    const auto face = main_face(c.joints[j]);
    const bool told = std::any_of(
        trial.pressure.begin(), trial.pressure.end(),
        [&](const plan::LinePressure& l) { return l.joint == j && (!face || l.face == *face); });
    c.require(told || !face || !c.joints[j].glued,
              "nothing is said of what the placed clamps do to " + joint_name(c.joints[j], c.job));
  }
  c.require(trial.holds || !trial.findings.empty(),
            "the placed clamps don't hold, and nothing says why");
  c.require(!trial.holds || trial.mends.empty(), "what holds is offered a mend");
}

}  // namespace planner::verify
