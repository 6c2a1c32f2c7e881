#include "planner/clamps/layout/mitre_bars.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "planner/clamps/axis/planned_clamp.h"
#include "planner/clamps/axis/pressure_levels.h"
#include "planner/pressure/mitre_press.h"
#include "planner/work/joint_kind.h"

namespace planner::clamps::layout {
namespace {

// A mitre's face looks along neither axis alone.
bool oblique(const geometry::Contact& face, const geometry::Direction& axis) {
  const double along = std::abs(dot(face.normal, axis));
  return along > 0.1 && along < 0.95;
}

bool oblique_mitre(const ClampProblem& problem, work::JointId id, std::size_t face,
                   const geometry::Direction& axis) {
  const work::Joint& joint = problem.joints[id];
  return joint.kind == work::JointKind::mitre && oblique(joint.faces[face].contact, axis);
}

// Force along the axis that arrives at each mitre that the clamps press, as a mean pressure: forces
// alike give a face of 45 degrees the pressure that both tell.
std::map<work::JointId, double> mitre_pressures(const ClampProblem& problem,
                                                const axis::AxisClamps& plan) {
  std::map<work::JointId, double> out;
  const auto of_mitre = [&](const axis::AskedLine& line) {
    return oblique_mitre(problem, line.joint, line.face, plan.round.axis);
  };
  if (plan.clamps.empty() || std::ranges::none_of(plan.held(), of_mitre)) {
    return out;  // pressing costs
  }
  const auto results = press(plan, plan.clamps);
  for (std::size_t l = 0; l < plan.held_lines; ++l) {
    const axis::AskedLine& line = plan.lines[l];
    if (of_mitre(line)) {
      out[line.joint] = results[l].profile.mean_MPa;
    }
  }
  return out;
}

// By how much the first round's mitres are pressed harder than the second's, on the mean of those
// that both press; 0 where there are none.
double ratio_of(const std::map<work::JointId, double>& one,
                const std::map<work::JointId, double>& other) {
  double of_one = 0, of_other = 0;
  for (const auto& [joint, pressure] : one) {
    if (const auto same = other.find(joint); same != other.end()) {
      of_one += pressure;
      of_other += same->second;
    }
  }
  return of_one > 0 && of_other > 0 ? of_one / of_other : 0;
}

// The clamps that press mitres; what else the axis presses is not drawn anew.
bool presses_mitre(const ClampProblem& problem, const axis::AxisClamps& plan,
                   const axis::ChosenClamp& clamp) {
  for (std::size_t l = 0; l < plan.held_lines; ++l) {
    const axis::AskedLine& line = plan.lines[l];
    if (oblique_mitre(problem, line.joint, line.face, plan.round.axis) &&
        plan.model->presses(clamp.site, l)) {
      return true;
    }
  }
  return false;
}

// How much harder they can be drawn: by hand, for the wood under them, and for the lines they press.
double room_above(const ClampProblem& problem, const StageAxis& round) {
  double most = 1e9;
  const auto results = press(round.plan, round.plan.clamps);
  for (const axis::ChosenClamp& chosen : round.plan.clamps) {
    if (!presses_mitre(problem, round.plan, chosen)) {
      continue;
    }
    const plan::PlannedClamp c = planned_clamp(round.plan, chosen, problem.job.units);
    most = std::min(most, round.kind.force_N / chosen.force_N);
    if (c.bearing_MPa > 0) {
      most = std::min(most, c.bearing_limit_MPa / c.bearing_MPa);
    }
    for (std::size_t l = 0; l < round.plan.held_lines; ++l) {
      if (results[l].profile.mean_MPa > 0 && round.plan.model->presses(chosen.site, l)) {
        most = std::min(most, round.plan.lines[l].most_MPa / results[l].profile.mean_MPa);
      }
    }
  }
  return std::max(1.0, most);
}

void scale(const ClampProblem& problem, axis::AxisClamps& plan, double by) {
  for (axis::ChosenClamp& c : plan.clamps) {
    c.force_N *= presses_mitre(problem, plan, c) ? by : 1;
  }
}

void even_out(const ClampProblem& problem, StageAxis& weak, StageAxis& strong, double ratio) {
  const double raised = std::min(ratio, room_above(problem, weak));
  scale(problem, weak.plan, raised);
  scale(problem, strong.plan, raised / ratio);
}

// A part of the stage that lies in the mitre itself and is glued to both: a spline, a dowel.
bool keyed(const ClampProblem& problem, const work::Joint& mitre) {
  constexpr double kBeside_mm = 25;
  const geometry::Contact& face = mitre.faces[0].contact;
  const auto glued_to = [&](work::PartId part, work::PartId other) {
    return std::ranges::any_of(problem.stage_joints, [&](work::JointId id) {
      const work::Joint& joint = problem.joints[id];
      return joint.glued && std::ranges::count(joint.parts, part) > 0 &&
             std::ranges::count(joint.parts, other) > 0;
    });
  };
  return std::ranges::any_of(problem.parts, [&](work::PartId part) {
    if (std::ranges::count(mitre.parts, part) > 0) {
      return false;
    }
    const geometry::Box box = geometry::bounds(problem.solids[part]);
    const double reach = length(box.hi - box.lo) / 2;
    const geometry::Point middle = box.lo + 0.5 * (box.hi - box.lo);
    return reach <= face.length_mm / 2 + kBeside_mm &&
           length(middle - face.centroid) <= face.length_mm / 2 &&
           glued_to(part, mitre.parts[0]) && glued_to(part, mitre.parts[1]);
  });
}

// A bar whose force opens the mitre's outside: farther from the centreline of the rail that runs its
// way than a third of the rail's width. Under a caul, which lies on both rails, none does.
bool off_its_rail(const ClampProblem& problem, const work::Joint& mitre,
                  const plan::PlannedClamp& clamp) {
  const geometry::Direction& normal = mitre.faces[0].contact.normal;
  const geometry::Direction across = unit(normal - dot(normal, clamp.axis) * clamp.axis);
  for (const work::PartId part : mitre.parts) {
    const bool its_way =
        std::abs(dot(part_axes(problem.job.parts[part])[0], clamp.axis)) > 0.99;
    if (!clamp.caul && its_way) {
      geometry::Extent wide{1e300, -1e300};
      for (const auto& cell : cell_points(problem.solids[part])) {
        for (const geometry::Point& p : cell) {
          wide = {std::min(wide.lo, dot(p, across)), std::max(wide.hi, dot(p, across))};
        }
      }
      return std::abs(dot(clamp.at, across) - (wide.lo + wide.hi) / 2) >
             pressure::mitre_reach_mm(wide.size()) + 0.5;
    }
  }
  return false;
}

// All of an axis's bars that press it stand so far off.
bool opens_outside(const ClampProblem& problem, const PressingAxis& round, work::JointId id) {
  bool any = false;
  for (const plan::PlannedClamp& clamp : round.clamps) {
    if (std::ranges::count(clamp.joints, id) > 0) {
      any = true;
      if (!off_its_rail(problem, problem.joints[id], clamp)) {
        return false;
      }
    }
  }
  return any;
}

// The force that arrives along the line's axis, from its mean pressure.
double axis_force_N(const plan::LinePressure& line, const geometry::Contact& face) {
  return line.mean_MPa * face.area_mm2 * std::abs(dot(face.normal, line.axis));
}

bool apart(double one_N, double other_N) {
  constexpr double kApart = 0.2;  // friction 0.11 of wet glue (ours)
  return std::abs(one_N - other_N) > kApart * std::max(one_N, other_N);
}

bool would_slide(const ClampProblem& problem, const std::vector<plan::LinePressure*>& lines) {
  const work::Joint& joint = problem.joints[lines.front()->joint];
  const geometry::Contact& face = joint.faces[lines.front()->face].contact;
  const double one = axis_force_N(*lines.front(), face);
  const double other = lines.size() > 1 ? axis_force_N(*lines[1], face) : 0;
  return apart(one, other) && !keyed(problem, joint);
}

}  // namespace

void even_out_mitres(const ClampProblem& problem, StageAxes& stage) {
  for (std::size_t a = 0; a < stage.rounds.size(); ++a) {
    for (std::size_t b = a + 1; b < stage.rounds.size(); ++b) {
      StageAxis &one = stage.rounds[a], &other = stage.rounds[b];
      const double ratio = ratio_of(mitre_pressures(problem, one.plan),
                                    mitre_pressures(problem, other.plan));
      if (ratio > 1) {
        even_out(problem, other, one, ratio);
      } else if (ratio > 0) {
        even_out(problem, one, other, 1 / ratio);
      }
    }
  }
}

void refuse_sliding(const ClampProblem& problem, std::vector<PressingAxis>& rounds) {
  std::map<work::JointId, std::vector<plan::LinePressure*>> mitres;
  for (PressingAxis& round : rounds) {
    const bool strap = !round.clamps.empty() && !round.clamps.front().round.empty();
    for (plan::LinePressure& line : round.lines) {
      if (!strap && line.mean_MPa > 0 && line.level != plan::Level::seat &&
          oblique_mitre(problem, line.joint, line.face, line.axis)) {
        mitres[line.joint].push_back(&line);
        if (opens_outside(problem, round, line.joint)) {
          line.level = plan::Level::short_of_hold;
        }
      }
    }
  }
  for (const auto& [joint, lines] : mitres) {
    if (would_slide(problem, lines)) {
      for (plan::LinePressure* line : lines) {
        line->level = plan::Level::short_of_hold;
      }
    }
  }
  for (PressingAxis& round : rounds) {
    for (const plan::LinePressure& line : round.lines) {
      round.level = line.level == plan::Level::short_of_hold ? line.level : round.level;
    }
  }
}

}  // namespace planner::clamps::layout
