#include "planner/verify/verify_backing.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "planner/tables/wood.h"

namespace planner::verify {
namespace {

constexpr double kFormApart_mm = 127, kBearersApart_mm = 101.6, kBentPly_mm = 3.2;

bool skin(const work::Job& job, const work::Joint& joint) {
  const double a = job.parts[joint.parts[0]].thickness.mm(), b = job.parts[joint.parts[1]].thickness.mm();
  return joint.kind == work::JointKind::lamination && std::min(a, b) <= kBentPly_mm &&
         std::max(a, b) >= 3 * std::min(a, b);
}

// Clamps' places along a way, each once, in order.
std::vector<double> stations(const plan::Stage& stage, const geometry::Direction& along) {
  std::vector<double> at;
  for (const plan::PlannedClamp& clamp : stage.clamps) {
    at.push_back(dot(clamp.at, along));
  }
  std::ranges::sort(at);
  at.erase(std::unique(at.begin(), at.end(), [](double a, double b) { return b - a < 1; }), at.end());
  return at;
}

void verify_apart(VerifyContext& c, const std::vector<double>& at, double most_mm, const std::string& what) {
  for (std::size_t i = 1; i < at.size(); ++i) {
    c.require(at[i] - at[i - 1] <= most_mm + 0.1, what + " has clamps too far apart");
  }
}

// Each plies' own stiffness bends it: E b t^3 / 12 over the form's radius, all of them, at both ends on a
// lever of half of what the clamps are apart.
void verify_bent(VerifyContext& c, const work::Bend& bend, const plan::Stage& stage) {
  const std::vector<double> at = stations(stage, geometry::kAxis[0]);
  verify_apart(c, at, kFormApart_mm, "the form");
  double last_off = 0;
  const double middle = (at.front() + at.back()) / 2;
  for (const plan::PlannedClamp& clamp : stage.clamps) {
    const double off = std::abs(clamp.at.x - middle);
    c.require(clamp.form_mm > 0, "clamp " + std::to_string(clamp.n) + " doesn't reach round the form");
    c.require(off >= last_off - 1, "clamps on the form aren't set from the middle out");
    last_off = off;
  }
  const double t = bend.ply.mm(), n = bend.plies;
  const double E = elastic_of(*wood_of(c.job.parts.front())).e_length_MPa;
  const double moment = n * E * bend.width.mm() * t * t * t / 12 / (bend.radius.mm() * (1 - 1 / (n * n)));
  double force = 0;
  for (const plan::PlannedClamp& clamp : stage.clamps) {
    force += clamp.force_N;
  }
  for (const plan::LinePressure& line : c.plan.pressure) {
    if (line.level == plan::Level::short_of_hold) {
      continue;  // clamps that don't even bend the plies
    }
    const geometry::Contact& face = c.joints[line.joint].faces[line.face].contact;
    const double bends = 2 * 2 * moment * static_cast<double>(at.size()) / face.length_mm;  // both ends
    c.require(line.mean_MPa * face.area_mm2 <= 1.02 * std::max(0.0, force - bends) + 1,
              "the plies' own stiffness is not taken off the clamps' force");
  }
}

}  // namespace

void verify_backing(VerifyContext& c) {
  for (const plan::Stage& stage : c.plan.stages) {
    if (stage.clamps.empty()) {
      continue;
    }
    if (c.job.bend) {
      verify_bent(c, *c.job.bend, stage);
      continue;
    }
    for (const plan::PlannedClamp& clamp : stage.clamps) {
      const bool veneered = std::ranges::any_of(
          clamp.joints, [&](work::JointId joint) { return skin(c.job, c.joints[joint]); });
      const std::string name = "clamp " + std::to_string(clamp.n);
      c.require(clamp.form_mm == 0, name + " reaches round a form that isn't there");
      c.require(!veneered || clamp.platen_mm > 0, name + " presses a veneer without a platen");
      if (veneered && clamp.caul) {
        verify_apart(c, stations(stage, cross(clamp.axis, clamp.pad_along)), kBearersApart_mm, "the platen");
      }
    }
  }
}

}  // namespace planner::verify
