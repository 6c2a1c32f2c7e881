#include "planner/verify/verify_mitres.h"

#include <algorithm>
#include <array>

#include "planner/work/joint_fit.h"

namespace planner::verify {
namespace {

// Of what the plan says is held, if lightly: squeezing force along each of the assembly's axes.
std::array<double, 3> axis_forces(const VerifyContext& c, work::JointId id) {
  std::array<double, 3> force{};
  for (const plan::LinePressure& line : c.plan.pressure) {
    const bool held = line.level == plan::Level::full || line.level == plan::Level::hold ||
                      line.level == plan::Level::light;
    if (line.joint != id || !held) {
      continue;
    }
    const geometry::Contact& face = c.joints[id].faces[line.face].contact;
    for (std::size_t axis = 0; axis < 3; ++axis) {
      if (std::abs(line.axis[axis]) > 0.99) {
        force[axis] += line.mean_MPa * face.area_mm2 * std::abs(dot(face.normal, line.axis));
      }
    }
  }
  return force;
}

bool looks_along(const VerifyContext& c, work::JointId id, std::size_t axis) {
  const double along = std::abs(c.joints[id].faces[0].contact.normal[axis]);
  return along > 0.1 && along < 0.95;
}

bool by_strap(const plan::Stage& stage, work::JointId id) {
  return std::ranges::any_of(stage.clamps, [&](const plan::PlannedClamp& clamp) {
    return !clamp.round.empty() && std::ranges::count(clamp.joints, id) > 0;
  });
}

// Some part glued to both lies in the corner: its middle nearer to the mitre's than its face is long.
bool keyed(const VerifyContext& c, const plan::Stage& stage, work::JointId id) {
  const work::Joint& mitre = c.joints[id];
  std::vector<int> glued(c.solids.size(), 0);
  for (const work::JointId other : stage.joints) {
    const auto& [a, b] = c.joints[other].parts;
    for (const work::PartId own : mitre.parts) {
      glued[a] += other != id && b == own ? 1 : 0;
      glued[b] += other != id && a == own ? 1 : 0;
    }
  }
  for (work::PartId part = 0; part < glued.size(); ++part) {
    const geometry::Box box = geometry::bounds(c.solids[part]);
    const geometry::Point middle = box.lo + 0.5 * (box.hi - box.lo);
    if (glued[part] == 2 &&
        length(middle - mitre.faces[0].contact.centroid) <= mitre.faces[0].contact.length_mm / 2) {
      return true;
    }
  }
  return false;
}

void verify_balance(VerifyContext& c, work::JointId id, const std::string& name) {
  const std::array<double, 3> force = axis_forces(c, id);
  for (std::size_t a = 0; a < 3; ++a) {
    for (std::size_t b = a + 1; b < 3; ++b) {
      const bool both = looks_along(c, id, a) && looks_along(c, id, b);
      const double most = std::max(force[a], force[b]);
      c.require(!both || most == 0 || std::abs(force[a] - force[b]) <= 0.2 * most + 1,
                name + " slides: " + shown(force[a]) + " N along one axis, " + shown(force[b]) +
                    " along the other");
    }
  }
}

// No step leaves it tight along one axis and slack along the other.
void verify_turns(VerifyContext& c, const plan::Stage& stage, work::JointId id,
                  const std::string& name) {
  for (const plan::Step& step : stage.steps) {
    if (step.kind != plan::StepKind::tighten) {
      continue;
    }
    std::size_t inside = 0, outside = 0;
    for (const plan::PlannedClamp& clamp : stage.clamps) {
      if (std::ranges::count(clamp.joints, id) > 0) {
        ++(std::ranges::count(step.clamps, clamp.n) > 0 ? inside : outside);
      }
    }
    c.require(inside == 0 || outside == 0, name + " is tightened along one axis before the other");
  }
}

}  // namespace

void verify_mitres(VerifyContext& c) {
  for (const plan::Stage& stage : c.plan.stages) {
    for (const work::JointId id : stage.joints) {
      const work::Joint& joint = c.joints[id];
      if (!joint.glued || joint.kind != work::JointKind::mitre || by_strap(stage, id) ||
          work::wants_no_clamp(joint.held_by) || keyed(c, stage, id)) {
        continue;
      }
      const std::string name = "joint " + joint_name(joint, c.job);
      verify_balance(c, id, name);
      verify_turns(c, stage, id, name);
    }
  }
}

}  // namespace planner::verify
