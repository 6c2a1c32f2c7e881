#include "planner/work/joint_means.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>

#include "planner/tables/wood.h"
#include "planner/work/joint_fit.h"
#include "planner/work/joint_kind.h"

namespace planner::work {
namespace {

using geometry::Direction;

constexpr std::size_t kThick = 1;  // of part_axes
constexpr double kUpright = 0.99;  // cosine
constexpr double kThinBeside = 3;  // times as thick is what a skin lies on, at least (ours)

bool along(const Direction& a, const Direction& b) { return std::abs(dot(a, b)) > kUpright; }

bool is_sheet(const Part& part) {
  const tables::Wood* wood = wood_of(part);
  return wood != nullptr && wood->kind == tables::WoodKind::sheet;
}

// What the job says last of the joint, where it says anything.
std::optional<HeldBy> asked(const Job& job, const Joint& joint) {
  const std::string& a = job.parts[joint.parts[0]].name;
  const std::string& b = job.parts[joint.parts[1]].name;
  std::optional<HeldBy> held_by;
  for (const JointOverride& o : job.overrides) {
    const bool same = (o.between[0] == a && o.between[1] == b) ||
                      (o.between[0] == b && o.between[1] == a);
    held_by = same && o.held_by ? o.held_by : held_by;
  }
  return held_by;
}

// A shop that says what it has has no other bag or weights.
bool there(HeldBy by, const Shop& shop) {
  return shop.unlimited_rack || (by == HeldBy::vacuum    ? shop.vacuum
                                 : by == HeldBy::weights ? !shop.weights.empty()
                                                         : true);
}

// A face of the joint that the guest's broad side lies on, with another across from it: a cheek.
const geometry::Contact* cheek(const Joint& joint, const Job& job) {
  if (!joint.host) {
    return nullptr;
  }
  const Direction broad = part_axes(job.parts[joint.parts[1 - *joint.host]])[kThick];
  for (std::size_t f = 0; f < joint.faces.size(); ++f) {
    if (fit_pressed(joint, f) && along(joint.faces[f].contact.normal, broad)) {
      return &joint.faces[f].contact;
    }
  }
  return nullptr;
}

// Ways across which a part lies between the cheeks of grooves, by part: 1 for its length, 2 for its
// width.
std::map<PartId, unsigned> grooved_ways(std::span<const Joint> joints, const Job& job) {
  std::map<PartId, unsigned> ways;
  for (const Joint& joint : joints) {
    if (const geometry::Contact* face = cheek(joint, job)) {
      const PartId guest = joint.parts[1 - *joint.host];
      ways[guest] |= along(face->along, part_axes(job.parts[guest])[0]) ? 2U : 1U;
    }
  }
  return ways;
}

// Held on its edges along both of its ways: its neighbours close round it.
bool captured(const Joint& joint, const Job& job, const std::map<PartId, unsigned>& ways) {
  const auto found = joint.host ? ways.find(joint.parts[1 - *joint.host]) : ways.end();
  return found != ways.end() && found->second == 3U && cheek(joint, job) != nullptr;
}

// How many of its ends each part has let into others.
std::map<PartId, int> ends_let_in(std::span<const Joint> joints) {
  std::map<PartId, int> ends;
  for (const Joint& joint : joints) {
    if (joint.glued && joint.host && joint.kind == JointKind::mortise_and_tenon) {
      ++ends[joint.parts[1 - *joint.host]];
    }
  }
  return ends;
}

// Glazing bars halved where they cross: the halving's cheeks and their ends keep it shut, and no clamp of a
// rack reaches it. Common practice.
bool bars_crossing(const Joint& joint, const std::map<PartId, int>& ends) {
  return joint.kind == JointKind::half_lap && std::ranges::all_of(joint.parts, [&](PartId part) {
           const auto found = ends.find(part);
           return found != ends.end() && found->second >= 2;
         });
}

// The outside of a sheet that lies on the joint's face: one that the user named, else any but a
// bottom's and a back's.
bool shows(const Joint& joint, const SheetFace& at, const Job& job) {
  const auto& named = job.parts[joint.parts[at.sheet]].show;
  const Direction out = (at.sheet == 0 ? -1.0 : 1.0) * joint.faces[at.face].contact.normal;
  if (!named) {
    return out.z > -kUpright && out.y < kUpright;
  }
  return std::ranges::any_of(*named, [&](const Face& face) {
           return dot((face.positive ? 1.0 : -1.0) * geometry::kAxis[face.axis], out) > kUpright;
         });
}

// In the bag, which presses all of it; where there is none a veneer, not a skin, may lie under weights.
// Bars reach no middle: only where there is neither.
HeldBy veneer_means(const Joint& joint, const Job& job, const Shop& shop) {
  if (there(HeldBy::vacuum, shop)) {
    return HeldBy::vacuum;
  }
  const bool slight = std::ranges::any_of(joint.parts, [&](PartId part) {
    return job.parts[part].thickness.mm() <= kWeightedVeneer_mm;
  });
  return slight && there(HeldBy::weights, shop) ? HeldBy::weights : HeldBy::clamps;
}

bool rubs(const Joint& joint, const GlueInUse& glue, const Shop& shop) {
  const auto own = joint.glue.empty() ? std::nullopt : glue_named(joint.glue, {}, shop).glue;
  const std::string& family = own ? own->family : glue.family;
  return family == "hide_hot" && joint.kind == JointKind::edge &&
         joint.faces[0].contact.length_mm <= kRubbed_mm;
}

// A mitred corner that tape can be hinge and clamp of: light boards, and taller than they are thick.
bool tape_would_do(const Joint& joint, const Job& job) {
  if (joint.kind != JointKind::mitre || joint.faces.size() != 1 || !joint.glued) {
    return false;
  }
  return std::ranges::all_of(joint.parts, [&](PartId id) {
    const Part& part = job.parts[id];
    const double longest = std::max(part.length.mm(), part.width.mm());
    const Direction broad = part_axes(part)[2];
    return longest <= kTapedSide_mm && part.thickness.mm() <= kTapedStock_mm &&
           std::abs(dot(joint.faces[0].contact.normal, broad)) < 1e-3;
  });
}

// Joints of rings all of whose corners tape would do for: every part meets two others so.
std::set<JointId> taped(std::span<const Joint> joints, const Job& job) {
  std::map<PartId, int> corners, all;
  for (const Joint& joint : joints) {
    for (const PartId part : joint.parts) {
      corners[part] += tape_would_do(joint, job) ? 1 : 0;
      all[part] += joint.kind == JointKind::mitre ? 1 : 0;
    }
  }
  std::set<JointId> out;
  for (JointId id = 0; id < joints.size(); ++id) {
    const bool ring = std::ranges::all_of(joints[id].parts, [&](PartId part) {
      return corners[part] == 2 && all[part] == 2;
    });
    if (ring && tape_would_do(joints[id], job)) {
      out.insert(id);
    }
  }
  return out;
}

// One corner too heavy for tape, and none of its ring is taped.
void leave_broken_rings(std::span<const Joint> joints, std::set<JointId>& taped_joints) {
  for (bool less = true; less;) {
    less = false;
    for (const JointId id : taped_joints) {
      const bool alone = std::ranges::any_of(joints[id].parts, [&](PartId part) {
        return std::ranges::count_if(taped_joints, [&](JointId other) {
                 return std::ranges::count(joints[other].parts, part) > 0;
               }) != 2;
      });
      if (alone) {
        taped_joints.erase(id);
        less = true;
        break;
      }
    }
  }
}

}  // namespace

bool is_veneer(const Joint& joint, const Job& job) {
  const auto [thin, under] = std::minmax({job.parts[joint.parts[0]].thickness.mm(),
                                          job.parts[joint.parts[1]].thickness.mm()});
  return joint.kind == JointKind::lamination && thin <= kSkin_mm && thin <= under / kThinBeside;
}

std::optional<SheetFace> sheet_face(const Joint& joint, const Job& job) {
  for (std::size_t side = 0; side < 2; ++side) {
    const Part& part = job.parts[joint.parts[side]];
    if (!is_sheet(part) || part.round) {
      continue;
    }
    const Direction broad = part_axes(part)[kThick];
    for (std::size_t f = 0; f < joint.faces.size(); ++f) {
      if (along(joint.faces[f].contact.normal, broad)) {
        return SheetFace{f, side};
      }
    }
  }
  return std::nullopt;
}

void take_means(std::vector<Joint>& joints, const Job& job, const Shop& shop,
                const GlueInUse& glue) {
  const auto ways = grooved_ways(joints, job);
  const auto ends = ends_let_in(joints);
  std::set<JointId> on_tape = shop.tape ? taped(joints, job) : std::set<JointId>{};
  leave_broken_rings(joints, on_tape);
  for (JointId id = 0; id < joints.size(); ++id) {
    Joint& joint = joints[id];
    joint.held_by = HeldBy::clamps;
    if (const auto wanted = asked(job, joint)) {
      joint.held_by = there(*wanted, shop) ? *wanted : HeldBy::clamps;
      continue;
    }
    const auto sheet = sheet_face(joint, job);
    const bool on_sheet = joint.kind == JointKind::rabbet || joint.kind == JointKind::butt;
    if (!joint.glued || captured(joint, job, ways) || bars_crossing(joint, ends)) {
      joint.held_by = HeldBy::fit;
    } else if (sheet && on_sheet && !shows(joint, *sheet, job) &&
               job.parts[joint.parts[sheet->sheet]].thickness.mm() <= kFastenedSheet_mm) {
      joint.held_by = HeldBy::pins;
    } else if (is_veneer(joint, job)) {
      joint.held_by = veneer_means(joint, job, shop);
    } else if (rubs(joint, glue, shop)) {
      joint.held_by = HeldBy::hand;
    } else if (on_tape.contains(id)) {
      joint.held_by = HeldBy::tape;
    }
  }
}

}  // namespace planner::work
