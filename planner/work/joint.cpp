#include "planner/work/joint.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "planner/work/joint_kind.h"

namespace planner::work {
namespace {

using geometry::Direction;

// A face that looks within 45 degrees of the grain shows end grain.
GrainClass grain_class(const Direction& normal, const Direction& grain) {
  constexpr double kCos45 = 0.70710678118654752;
  return std::abs(dot(normal, grain)) > kCos45 - 1e-9 ? GrainClass::end_grain
                                                      : GrainClass::long_grain;
}

// Fibres that cross by more than 30 degrees swell in different directions.
bool fibres_cross(const Direction& a, const Direction& b) {
  constexpr double kCos30 = 0.86602540378443865;
  return std::abs(dot(a, b)) < kCos30;
}

GlueFace glue_face(const geometry::Contact& contact, const Job& job) {
  GlueFace face{contact, {}, false};
  const Direction grain[2] = {grain_of(job.parts[contact.a]), grain_of(job.parts[contact.b])};
  face.grain = {grain_class(contact.normal, grain[0]), grain_class(contact.normal, grain[1])};
  face.crossed = face.grain[0] == GrainClass::long_grain &&
                 face.grain[1] == GrainClass::long_grain && fibres_cross(grain[0], grain[1]);
  return face;
}

// Ways parts[1] might leave parts[0], as far as their touching faces tell: along a face's normal,
// the common line of two faces, or an axis of either part.
std::vector<Direction> ways_apart(const Joint& joint, const Job& job) {
  std::vector<Direction> ways;
  const auto add_both = [&](const Direction& d) {
    if (length(d) > 1e-6) {
      ways.push_back(unit(d));
      ways.push_back(-unit(d));
    }
  };
  for (std::size_t i = 0; i < joint.faces.size(); ++i) {
    add_both(joint.faces[i].contact.normal);
    for (std::size_t j = i + 1; j < joint.faces.size(); ++j) {
      add_both(cross(joint.faces[i].contact.normal, joint.faces[j].contact.normal));
    }
  }
  for (PartId part : joint.parts) {
    for (const Direction& axis : part_axes(job.parts[part])) {
      add_both(axis);
    }
  }
  std::erase_if(ways, [&](const Direction& d) {
    return std::any_of(joint.faces.begin(), joint.faces.end(),
                       [&](const GlueFace& f) { return dot(f.contact.normal, d) < -1e-6; });
  });
  return ways;
}

double closing_depth(const Joint& joint, const Job& job) {
  double depth = -1;
  for (const Direction& d : ways_apart(joint, job)) {
    const double wiped = wiped_mm(joint, d);
    depth = depth < 0 ? wiped : std::min(depth, wiped);
  }
  return std::max(depth, 0.0);
}

// The override for a pair of parts, or none.
const JointOverride* override_for(const Job& job, const Joint& joint) {
  const std::string& a = job.parts[joint.parts[0]].name;
  const std::string& b = job.parts[joint.parts[1]].name;
  for (const JointOverride& o : job.overrides) {
    if ((o.between[0] == a && o.between[1] == b) || (o.between[0] == b && o.between[1] == a)) {
      return &o;
    }
  }
  return nullptr;
}

void apply_override(Joint& joint, const JointOverride& o) {
  if (o.glued && !*o.glued) {
    joint.glued = false;
    joint.unglued_reason = "left dry, as the job file says";
    joint.spread = {false, false};
  }
  if (o.glue) {
    joint.glue = *o.glue;
  }
  if (joint.glued && o.faces) {
    const bool second = joint.spread[1] && !joint.spread[0];
    joint.spread =
        *o.faces == 2 ? std::array<bool, 2>{true, true} : std::array<bool, 2>{!second, second};
  }
  joint.driven = joint.driven && !o.loose;
  joint.pocket = o.pocket && joint.glued && joint.kind == JointKind::butt;
  if (o.middle) {
    joint.middle_mm = o.middle->mm();
  }
}

// An end that is butted and pegged by a third part, a dowel or a loose tenon, needs only come home:
// common practice.
void mark_seated(std::vector<Joint>& joints) {
  std::map<PartId, std::set<PartId>> pegged;  // what each peg or tongue stands in, glued
  for (const Joint& joint : joints) {
    const bool peg = joint.kind == JointKind::dowel || joint.kind == JointKind::mortise_and_tenon;
    if (peg && joint.glued && joint.host) {
      pegged[joint.parts[1 - *joint.host]].insert(joint.parts[*joint.host]);
    }
  }
  for (Joint& joint : joints) {
    joint.seated = joint.kind == JointKind::butt &&
                   std::any_of(pegged.begin(), pegged.end(), [&](const auto& peg) {
                     return peg.second.contains(joint.parts[0]) &&
                            peg.second.contains(joint.parts[1]);
                   });
  }
}

// A sheet or panel in grooves all round asks nothing of its own: what presses its frame or box shuts
// its grooves (common practice). On three sides at least, as a drawer's bottom is.
void mark_let_in(std::vector<Joint>& joints) {
  const auto let_in = [](const Joint& joint) {
    return joint.host && (joint.kind == JointKind::groove || joint.kind == JointKind::dado);
  };
  std::map<PartId, int> sides;
  for (const Joint& joint : joints) {
    sides[let_in(joint) ? joint.parts[1 - *joint.host] : joint.parts[0]] += let_in(joint) ? 1 : 0;
  }
  for (Joint& joint : joints) {
    constexpr int kAllRound = 3;
    if (let_in(joint) && sides[joint.parts[1 - *joint.host]] >= kAllRound) {
      joint.driven = true;
    }
  }
}

// A spline may be slid in from the edge of its mitre once that is together: its kerf fits so that
// the glue stays, and the wipe is free (common practice).
void mark_splines(std::vector<Joint>& joints) {
  std::set<std::array<PartId, 2>> mitred;
  std::map<PartId, std::set<PartId>> let_into;
  for (const Joint& joint : joints) {
    if (joint.kind == JointKind::mitre) {
      mitred.insert(joint.parts);
    } else if (joint.host) {
      let_into[joint.parts[1 - *joint.host]].insert(joint.parts[*joint.host]);
    }
  }
  for (Joint& joint : joints) {
    if (!joint.host || joint.kind == JointKind::mitre) {
      continue;
    }
    const PartId host = joint.parts[*joint.host];
    for (const PartId other : let_into[joint.parts[1 - *joint.host]]) {
      if (mitred.contains({std::min(host, other), std::max(host, other)}) &&
          let_into[joint.parts[1 - *joint.host]].size() == 2) {
        joint.splined = joint.kind != JointKind::dowel;
        joint.depth_mm = std::max(joint.depth_mm, joint.faces[0].contact.length_mm);
      }
    }
  }
}

}  // namespace

double Joint::glued_area_mm2() const {
  double area = 0;
  for (const GlueFace& face : faces) {
    area += glued_share(face) * face.contact.area_mm2;
  }
  return area;
}

double wiped_mm(const Joint& joint, const Direction& d) {
  double wiped = 0;
  for (const GlueFace& face : joint.faces) {
    if (std::abs(dot(face.contact.normal, d)) < 1e-6) {
      wiped = std::max(wiped, extent_along(face.contact.regions, d).size());
    }
  }
  return wiped;
}

std::string joint_name(const Joint& joint, const Job& job) {
  return job.parts[joint.parts[0]].name + " - " + job.parts[joint.parts[1]].name;
}

std::vector<Joint> classify_joints(const Job& job, std::span<const geometry::Contact> contacts) {
  std::map<std::array<PartId, 2>, Joint> by_pair;
  for (const geometry::Contact& contact : contacts) {
    Joint& joint = by_pair[{contact.a, contact.b}];
    joint.parts = {contact.a, contact.b};
    joint.faces.push_back(glue_face(contact, job));
  }
  std::vector<Joint> joints;
  for (auto& [pair, joint] : by_pair) {
    const JointShape shape = joint_shape(joint, job);
    joint.kind = shape.kind;
    if (shape.host) {
      joint.host = static_cast<std::size_t>(*shape.host);
    }
    joint.spread = spread_sides(joint, shape);
    joint.depth_mm = closing_depth(joint, job);
    joint.driven = trade_of(joint.kind).asks == Asks::driven;
    if (const JointOverride* o = override_for(job, joint)) {
      apply_override(joint, *o);
    }
    joints.push_back(std::move(joint));
  }
  mark_seated(joints);
  mark_let_in(joints);
  mark_splines(joints);
  return joints;
}

}  // namespace planner::work
