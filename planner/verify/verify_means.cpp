#include "planner/verify/verify_means.h"

#include <algorithm>
#include <optional>
#include <set>

#include "geometry/contact.h"
#include "planner/tables/wood.h"
#include "planner/work/joint_fit.h"

namespace planner::verify {
namespace {

using work::HeldBy;

constexpr double kSheet_mm = 10, kApart_mm = 152.4, kTapeSide_mm = 304.8, kTapeStock_mm = 12.7,
                 kRub_mm = 609.6, kSawClear_mm = 10, kSkin_mm = 3.2, kUnderWeights_mm = 1;

bool asked_for(const VerifyContext& c, const work::Joint& joint) {
  const std::set<std::string> own{c.job.parts[joint.parts[0]].name,
                                  c.job.parts[joint.parts[1]].name};
  std::optional<HeldBy> last;
  for (const work::JointOverride& o : c.job.overrides) {
    if (o.held_by && std::set<std::string>(o.between.begin(), o.between.end()) == own) {
      last = o.held_by;
    }
  }
  return last == joint.held_by;
}

bool thin_sheet(const work::Part& part) {
  const tables::Wood* wood = wood_of(part);
  return wood != nullptr && wood->kind == tables::WoodKind::sheet &&
         part.thickness.mm() <= kSheet_mm;
}

// Its outside looks down or back, or the job says what of it shows, and not that.
bool back_or_bottom(const VerifyContext& c, const work::Joint& joint, std::size_t side) {
  const work::Part& part = c.job.parts[joint.parts[side]];
  return std::ranges::any_of(joint.faces, [&](const work::GlueFace& face) {
    const geometry::Direction out = (side == 0 ? -1.0 : 1.0) * face.contact.normal;
    const bool usual = out.z < -0.99 || out.y > 0.99;
    const bool named = part.show && std::ranges::any_of(*part.show, [&](const work::Face& shown) {
      return (shown.positive ? 1 : -1) * out[static_cast<std::size_t>(shown.axis)] > 0.99;
    });
    return part.show ? !named : usual;
  });
}

bool light(const work::Part& part) {
  return std::max({part.length.mm(), part.width.mm(), part.thickness.mm()}) <= kTapeSide_mm &&
         part.thickness.mm() <= kTapeStock_mm;
}

bool some_cheek(const work::Joint& joint) {
  for (std::size_t face = 0; face < joint.faces.size(); ++face) {
    if (fit_pressed(joint, face)) {
      return true;
    }
  }
  return false;
}

bool skin_on(const work::Joint& joint, const work::Part& skin, const work::Part& core, double most_mm) {
  return joint.kind == work::JointKind::lamination && skin.thickness.mm() <= most_mm &&
         core.thickness.mm() >= 3 * skin.thickness.mm();
}

// Both its ends are let into others.
bool tenoned(const VerifyContext& c, work::PartId part) {
  return std::ranges::count_if(c.plan.joints, [&](const work::Joint& joint) {
           return joint.kind == work::JointKind::mortise_and_tenon && joint.glued && joint.host &&
                  joint.parts[1 - *joint.host] == part;
         }) >= 2;
}

// Where the job says nothing of it, the trade would do so with what the shop has.
bool lawful(const VerifyContext& c, const work::Joint& joint) {
  const work::Part &a = c.job.parts[joint.parts[0]], &b = c.job.parts[joint.parts[1]];
  switch (joint.held_by) {
    case HeldBy::clamps:
    case HeldBy::strap:
      return true;  // told by the clamps themselves
    case HeldBy::fit:
      return !joint.glued || some_cheek(joint) ||
             (joint.kind == work::JointKind::half_lap && tenoned(c, joint.parts[0]) && tenoned(c, joint.parts[1]));
    case HeldBy::pins:
      return (thin_sheet(a) && back_or_bottom(c, joint, 0)) ||
             (thin_sheet(b) && back_or_bottom(c, joint, 1));
    case HeldBy::tape:
      return c.shop.tape && joint.kind == work::JointKind::mitre && light(a) && light(b);
    case HeldBy::hand:
      return c.plan.glue.glue.family == "hide_hot" && joint.kind == work::JointKind::edge &&
             joint.faces[0].contact.length_mm <= kRub_mm;
    case HeldBy::vacuum:
      return (c.shop.vacuum || c.shop.unlimited_rack) &&
             (skin_on(joint, a, b, kSkin_mm) || skin_on(joint, b, a, kSkin_mm));
    case HeldBy::weights:
      return !c.shop.weights.empty() && (skin_on(joint, a, b, kUnderWeights_mm) ||
                                         skin_on(joint, b, a, kUnderWeights_mm));
    case HeldBy::screws:
    case HeldBy::nails:
      return false;  // by the job alone
  }
  return false;
}

void verify_row(VerifyContext& c, const plan::Fastening& row, const std::string& name) {
  c.require(row.at.size() >= 2, name + " has fewer than two fasteners");
  c.require(row.by == c.joints[row.joint].held_by, name + " is fastened otherwise than told");
  const geometry::Box box = geometry::bounds(c.solids[row.sheet]);
  for (std::size_t k = 0; k < row.at.size(); ++k) {
    const geometry::Point& at = row.at[k];
    for (std::size_t axis = 0; axis < 3; ++axis) {
      c.require(at[axis] >= box.lo[axis] - 0.01 && at[axis] <= box.hi[axis] + 0.01,
                name + ": a fastener misses the sheet");
    }
    for (const work::SawLater& saw : c.job.saw_later) {
      const double off = std::abs(at[static_cast<std::size_t>(saw.axis)] - saw.at.mm());
      const bool along = k > 0 && std::abs(row.at[k][static_cast<std::size_t>(saw.axis)] -
                                           row.at[k - 1][static_cast<std::size_t>(saw.axis)]) < 1;
      c.require(along || off >= saw.kerf.mm() / 2 + kSawClear_mm - 0.01,
                name + ": a fastener stands in the saw's way");
    }
    c.require(k == 0 || c.job.saw_later.size() > 0 ||
                  length(at - row.at[k - 1]) <= kApart_mm + 0.01,
              name + ": fasteners stand too far apart");
  }
}

// Once it is joined, and once all that is clamped is tight.
void verify_step(VerifyContext& c, const plan::Stage& stage, const plan::Step& step,
                 work::JointId joint, const std::string& name) {
  c.require(std::ranges::count(stage.joints, joint) > 0, name + " isn't of its stage");
  for (const plan::Step& other : stage.steps) {
    const bool joins = other.kind == plan::StepKind::join &&
                       std::ranges::count(other.joints, joint) > 0;
    c.require(!joins || other.end_s <= step.start_s + 1e-6, name + " is fastened before it is joined");
    const bool tightens = other.kind == plan::StepKind::tighten;
    c.require(!tightens || other.end_s <= step.start_s + 1e-6,
              name + " is fastened before the clamps are tight");
  }
}

}  // namespace

void verify_means(VerifyContext& c) {
  for (std::size_t j = 0; j < c.joints.size(); ++j) {
    c.joints[j].held_by = c.plan.joints[j].held_by;
    c.require(asked_for(c, c.joints[j]) || lawful(c, c.joints[j]),
              "joint " + joint_name(c.joints[j], c.job) + " is held by what it can't be");
  }
}

void verify_clampless(VerifyContext& c) {
  for (const plan::Stage& stage : c.plan.stages) {
    std::set<work::JointId> done;
    for (const plan::Fastening& row : stage.fastenings) {
      verify_row(c, row, "joint " + joint_name(c.joints[row.joint], c.job));
    }
    for (const plan::Step& step : stage.steps) {
      if (step.kind != plan::StepKind::fasten && step.kind != plan::StepKind::load) {
        continue;
      }
      for (const work::JointId joint : step.joints) {
        verify_step(c, stage, step, joint, "joint " + joint_name(c.joints[joint], c.job));
        done.insert(joint);
      }
    }
    for (const work::JointId joint : stage.joints) {
      const HeldBy by = c.joints[joint].held_by;
      const bool wants = work::fastens(by) || by == HeldBy::weights || by == HeldBy::vacuum;
      const bool has_row = std::ranges::any_of(
          stage.fastenings, [&](const plan::Fastening& row) { return row.joint == joint; });
      c.require(!wants || stage.steps.empty() || done.contains(joint),
                "joint " + joint_name(c.joints[joint], c.job) + " is never fastened or loaded");
      c.require(work::fastens(by) == has_row, "joint " + joint_name(c.joints[joint], c.job) +
                                                  " and its fasteners don't agree");
    }
  }
}

}  // namespace planner::verify
