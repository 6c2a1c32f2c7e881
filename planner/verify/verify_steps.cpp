#include "planner/verify/verify_steps.h"

#include <algorithm>
#include <numeric>

#include "geometry/blocking.h"
#include "geometry/overlap.h"
#include "planner/tables/glue.h"
#include "planner/work/joint_fit.h"
#include "planner/work/part_solid.h"
#include "planner/work/square.h"

namespace planner::verify {
namespace {

// Which parts are together, by a label each; joined parts share one.
class Blocks {
 public:
  explicit Blocks(std::size_t parts) : label_(parts) {
    std::iota(label_.begin(), label_.end(), std::size_t{0});
  }
  bool together(work::PartId a, work::PartId b) const { return label_[a] == label_[b]; }
  void join(work::PartId a, work::PartId b) {
    const std::size_t from = label_[b], to = label_[a];
    std::replace(label_.begin(), label_.end(), from, to);
  }
  bool one_block() const {
    return std::all_of(label_.begin(), label_.end(), [&](std::size_t l) { return l == label_[0]; });
  }
  // Everything that is together with `part`.
  std::vector<work::PartId> block_of(work::PartId part) const {
    std::vector<work::PartId> block;
    for (work::PartId p = 0; p < label_.size(); ++p) {
      if (together(p, part)) {
        block.push_back(p);
      }
    }
    return block;
  }

 private:
  std::vector<std::size_t> label_;
};

std::string at_step(const plan::Step& step) {
  return "step " + std::to_string(step.n);
}

// A wet face slides no farther than its joint is deep, or 25 mm (common practice).
void verify_wiping(VerifyContext& c, const plan::Step& step,
                   const std::vector<work::PartId>& moving,
                   const std::vector<work::PartId>& staying) {
  constexpr double kMostWipe_mm = 25;
  for (const work::Joint& joint : c.joints) {
    const bool closes = (is_in(joint.parts[0], moving) && is_in(joint.parts[1], staying)) ||
                        (is_in(joint.parts[1], moving) && is_in(joint.parts[0], staying));
    c.require(!joint.glued || !closes ||
                  wiped_mm(joint, step.motion->direction) <=
                      std::max(joint.depth_mm, kMostWipe_mm) + 1e-3,
              at_step(step) + " wipes the glue off " + joint_name(joint, c.job));
  }
}

std::string no_way_in(const VerifyContext& c, const plan::Step& step, work::PartId mover,
                      work::PartId other) {
  return at_step(step) + ": " + c.job.parts[mover].name + " can't come in past " +
         c.job.parts[other].name;
}

void verify_straight(VerifyContext& c, const plan::Step& step,
                     const std::vector<work::PartId>& moving,
                     const std::vector<work::PartId>& staying) {
  const geometry::Direction away[1] = {-step.motion->direction};
  const auto blocking = find_blocking(c.solids, away, geometry::Tolerance{});
  for (work::PartId i : moving) {
    for (work::PartId j : staying) {
      c.require(!blocking.blocked(0, i, j), no_way_in(c, step, i, j));
    }
  }
}

// A fold about a line along an axis: the moving parts turned step by step, and looked at for what
// they share with the rest.
void verify_fold(VerifyContext& c, const plan::Step& step, const std::vector<work::PartId>& moving,
                 const std::vector<work::PartId>& staying) {
  const plan::FoldUp& fold = *step.motion->fold;
  c.require(is_in(fold.turns, moving) && is_in(fold.stays, staying),
            at_step(step) + " folds about a corner that is not between its parts");
  int axis = 0;
  for (int k = 1; k < 3; ++k) {
    axis = std::abs(fold.hinge.along[static_cast<std::size_t>(k)]) > 0.5 ? k : axis;
  }
  const double sense = fold.hinge.along[static_cast<std::size_t>(axis)];
  c.require(std::abs(std::abs(sense) - 1) < 1e-9, at_step(step) + " folds about a slanting line");
  const auto nm = [](double mm) { return geometry::Length::nm(std::llround(mm * 1e6)); };
  const geometry::Point& at = fold.hinge.at;
  constexpr int kLooks = 18;
  for (int look = 1; look <= kLooks; ++look) {
    const geometry::Turn turn{axis,
                              (sense > 0 ? 1 : -1) * fold.angle_deg * look / kLooks,
                              {nm(at.x), nm(at.y), nm(at.z)}};
    std::vector<geometry::Solid> there = c.solids;
    for (work::PartId part : moving) {
      there[part] = turned(c.solids[part], turn);
    }
    for (const geometry::Overlap& shared : find_overlaps(there, geometry::Tolerance{})) {
      const bool crossed = is_in(shared.a, moving)
                               ? is_in(shared.b, staying)
                               : is_in(shared.a, staying) && is_in(shared.b, moving);
      c.require(!crossed, no_way_in(c, step, shared.a, shared.b));
    }
  }
}

// The moving group and the rest must each be whole blocks, and no moving part may run into another.
void verify_join(VerifyContext& c, const plan::Step& step, Blocks& blocks) {
  if (!step.motion || step.motion->moving.empty() || step.parts.empty()) {
    c.require(false, at_step(step) + " joins nothing");
    return;
  }
  const std::vector<work::PartId>& moving = step.motion->moving;
  std::vector<work::PartId> staying;
  std::copy_if(step.parts.begin(), step.parts.end(), std::back_inserter(staying),
               [&](work::PartId p) { return !is_in(p, moving); });
  c.require(!staying.empty(), at_step(step) + " moves parts to nothing");
  for (work::PartId part : step.parts) {
    const std::vector<work::PartId>& side = is_in(part, moving) ? moving : staying;
    for (work::PartId other : blocks.block_of(part)) {
      c.require(is_in(other, side), at_step(step) + " tears " + c.job.parts[other].name + " off");
    }
  }
  if (step.motion->fold) {
    verify_fold(c, step, moving, staying);
  } else {
    verify_straight(c, step, moving, staying);
    verify_wiping(c, step, moving, staying);
  }
  for (work::PartId part : step.parts) {
    blocks.join(step.parts.front(), part);
  }
}

// When each joint of a stage is spread, closed, and its clamps are snug and tight, read off the
// steps.
struct JointTimes {
  double spread = -1, closed = -1, snug = -1, tight = -1, pressed = -1;  // pressed: without clamps
};

// Where the larger face's own fit presses it, the clamp that closes the joint holds it.
bool presses_main_face(const VerifyContext& c, const plan::PlannedClamp& clamp,
                       work::JointId joint) {
  const auto face = main_face(c.joints[joint]);
  const bool along = !clamp.round.empty() || !face ||
                     std::abs(dot(c.joints[joint].faces[*face].contact.normal, clamp.axis)) > 0.1;
  return along && std::find(clamp.joints.begin(), clamp.joints.end(), joint) != clamp.joints.end();
}

// A snug or tighten step holds a joint when one of its clamps presses the joint's larger face;
// where that is held by its own fit, when the step closes it, be it through the parts between.
bool holds(const VerifyContext& c, const plan::Stage& stage, const plan::Step& step,
           work::JointId joint) {
  if (!main_face(c.joints[joint]) && !work::wants_no_clamp(c.joints[joint].held_by) &&
      std::find(step.joints.begin(), step.joints.end(), joint) != step.joints.end()) {
    return true;
  }
  return std::any_of(
      stage.clamps.begin(), stage.clamps.end(), [&](const plan::PlannedClamp& clamp) {
        return std::find(step.clamps.begin(), step.clamps.end(), clamp.n) != step.clamps.end() &&
               presses_main_face(c, clamp, joint);
      });
}

std::map<work::JointId, JointTimes> read_times(const VerifyContext& c, const plan::Stage& stage) {
  std::map<work::JointId, JointTimes> times;
  for (const plan::Step& step : stage.steps) {
    for (work::JointId joint : step.joints) {
      JointTimes& t = times[joint];
      if (step.kind == plan::StepKind::spread && (t.spread < 0 || step.start_s < t.spread)) {
        t.spread = step.start_s;
      } else if (step.kind == plan::StepKind::join) {
        t.closed = step.end_s;
      } else if (step.kind == plan::StepKind::snug && holds(c, stage, step, joint)) {
        t.snug = std::max(t.snug, step.end_s);
      } else if (step.kind == plan::StepKind::fasten || step.kind == plan::StepKind::load) {
        t.pressed = std::max(t.pressed, step.end_s);
      } else if ((step.kind == plan::StepKind::tighten || step.kind == plan::StepKind::ease) &&
                 holds(c, stage, step, joint)) {
        t.tight = std::max(t.tight, step.end_s);
      }
    }
  }
  return times;
}

constexpr double kWeakestHand = 0.6;  // share of what is planned: docs/method.md

// What its clamps press when snug is the share of their force that they have then, and weak hands
// give less still: on the mean that must do.
bool snug_presses(const VerifyContext& c, const plan::Stage& stage, work::JointId joint) {
  double snug_N = 0, force_N = 0;
  for (const plan::PlannedClamp& clamp : stage.clamps) {
    if (std::ranges::find(clamp.joints, joint) != clamp.joints.end()) {
      snug_N += clamp.snug_N;
      force_N += clamp.force_N;
    }
  }
  return c.plan.glue.glue.min_wait_s == 0 &&
         std::ranges::all_of(c.plan.pressure, [&](const plan::LinePressure& line) {
           return line.joint != joint || line.face != 0 || line.level == plan::Level::seat ||
                  line.mean_MPa * kWeakestHand * snug_N >= line.hold_MPa * force_N;
         });
}

// Pressure, not closing, ends a joint's total: its clamps tight, or snug where that is all the joint
// asks (its own fit presses it, its glue wants contact only, or so much is pressed already) and
// nothing moves it afterwards.
std::optional<double> held_s(VerifyContext& c, const plan::Stage& stage, work::JointId joint,
                             const JointTimes& t) {
  const auto limit =
      std::find_if(stage.limits.begin(), stage.limits.end(),
                   [&](const plan::FaceLimit& l) { return l.joint == joint && l.face == 0; });
  if (limit == stage.limits.end()) {
    return std::nullopt;
  }
  const tables::GlueFamily* family = tables::find_glue_family(c.plan.glue.glue.family);
  const bool contact = family != nullptr && family->chemistry == tables::Chemistry::epoxy;
  const work::HeldBy by = c.joints[joint].held_by;
  switch (limit->pressed_by) {
    case plan::PressedBy::fasteners:
      c.require(work::fastens(by), joint_name(c.joints[joint], c.job) + " has no fasteners");
      return t.pressed;
    case plan::PressedBy::weights:
    case plan::PressedBy::vacuum:
      c.require(by == work::HeldBy::weights || by == work::HeldBy::vacuum,
                joint_name(c.joints[joint], c.job) + " has nothing laid on it");
      return t.pressed;
    case plan::PressedBy::tape:
      c.require(by == work::HeldBy::tape, joint_name(c.joints[joint], c.job) + " has no tape");
      return t.closed;
    case plan::PressedBy::hand:
    case plan::PressedBy::fit:
      c.require(t.snug < 0 && t.tight < 0,
                "joint " + joint_name(c.joints[joint], c.job) + " has clamps after all");
      return t.closed;
    case plan::PressedBy::snug:
    case plan::PressedBy::home: {
      c.require(contact || !main_face(c.joints[joint]) || snug_presses(c, stage, joint),
                "joint " + joint_name(c.joints[joint], c.job) + " wants more than snug clamps");
      const bool moved =
          std::any_of(stage.steps.begin(), stage.steps.end(), [&](const plan::Step& s) {
            return s.kind == plan::StepKind::check && s.start_s >= t.snug - 1e-6 &&
                   s.end_s <= t.tight + 1e-6;
          });
      return moved ? t.tight : t.snug;
    }
    case plan::PressedBy::tighten:
      break;
  }
  return t.tight;
}

void verify_limits(VerifyContext& c, const plan::Stage& stage) {
  const auto times = read_times(c, stage);
  for (work::JointId joint : stage.joints) {
    if (!c.joints[joint].glued) {
      continue;
    }
    const std::string name = joint_name(c.joints[joint], c.job);
    const auto found = times.find(joint);
    if (found == times.end() || found->second.spread < 0 || found->second.closed < 0) {
      c.require(false, "joint " + name + " is never spread and closed");
      continue;
    }
    const JointTimes& t = found->second;
    c.require(t.spread <= t.closed, "joint " + name + " is closed before it is spread");
    const double open = t.closed - t.spread;
    const double total = held_s(c, stage, joint, t).value_or(-1) - t.spread;
    const bool told =
        std::any_of(stage.limits.begin(), stage.limits.end(), [&](const plan::FaceLimit& l) {
          return l.joint == joint && l.face == 0 && std::abs(l.used_open_s - open) <= 1 &&
                 std::abs(l.used_total_s - total) <= 1;
        });
    c.require(told, "joint " + name + ": open " + shown(open) + " s and total " + shown(total) +
                        " s are not what the plan tells");
    c.require(stage.slack_s <=
                  std::min(c.plan.glue.glue.open_s - open, c.plan.glue.glue.total_s - total) + 1,
              "joint " + name + " has less time to spare than the stage tells");
  }
}

// Nobody does two things at once, and nobody works who isn't there.
void verify_people(VerifyContext& c, const plan::Stage& stage) {
  for (const plan::Step& a : stage.steps) {
    for (int person : a.people) {
      c.require(person >= 1 && person <= c.plan.people,
                at_step(a) + " needs a person who isn't there");
      for (const plan::Step& b : stage.steps) {
        const bool shared = std::find(b.people.begin(), b.people.end(), person) != b.people.end();
        c.require(
            a.n >= b.n || !shared || a.end_s <= b.start_s + 1e-6 || b.end_s <= a.start_s + 1e-6,
            at_step(a) + " and " + at_step(b) + " need one person at once");
      }
    }
  }
}

// The steps whose clamps press a joint of the ring.
bool presses_ring(const VerifyContext& c, const plan::Stage& stage, const plan::Step& step,
                  const work::Ring& ring) {
  return std::any_of(
      stage.clamps.begin(), stage.clamps.end(), [&](const plan::PlannedClamp& clamp) {
        return std::find(step.clamps.begin(), step.clamps.end(), clamp.n) != step.clamps.end() &&
               std::any_of(clamp.joints.begin(), clamp.joints.end(),
                           [&](work::JointId id) { return in_ring(c.joints[id], ring); });
      });
}

bool measures(const plan::Step& step, std::size_t ring) {
  return step.check == plan::Check::outside_diagonals &&
         std::ranges::count(step.rings, ring) > 0;
}

// A clamp is tightened once it is snug; those of a ring once all of them are, and diagonals are
// checked between, where the stage checks any.
void verify_tightening(VerifyContext& c, const plan::Stage& stage) {
  const std::vector<work::Ring> rings = find_rings(c.joints, work::bounds_of(c.solids));
  for (const plan::Step& tighten : stage.steps) {
    if (tighten.kind != plan::StepKind::tighten) {
      continue;
    }
    for (const plan::Step& other : stage.steps) {
      bool before = other.kind == plan::StepKind::snug &&
                    std::find_first_of(other.clamps.begin(), other.clamps.end(),
                                       tighten.clamps.begin(),
                                       tighten.clamps.end()) != other.clamps.end();
      for (std::size_t r = 0; r < rings.size(); ++r) {
        // Only a ring that is measured in this stage is closed in it.
        const bool here = std::ranges::any_of(
            stage.steps, [&](const plan::Step& step) { return measures(step, r); });
        before = before || (here && presses_ring(c, stage, tighten, rings[r]) &&
                            (measures(other, r) || (other.kind == plan::StepKind::snug &&
                                                    presses_ring(c, stage, other, rings[r]))));
      }
      c.require(!before || other.end_s <= tighten.start_s + 1e-6,
                at_step(tighten) + " tightens before " + at_step(other) + " is done");
    }
  }
}

// The diagonals of every ring are measured once, in whichever stage closes it.
void verify_every_ring(VerifyContext& c) {
  std::vector<geometry::Box> boxes;
  for (const geometry::Solid& solid : c.solids) {
    boxes.push_back(bounds(solid));
  }
  const std::size_t rings = find_rings(c.joints, boxes).size();
  c.require(c.plan.rings.size() == rings, "not every ring is told");
  for (std::size_t r = 0; r < rings; ++r) {
    std::ptrdiff_t times = 0;
    for (const plan::Stage& stage : c.plan.stages) {
      times += std::ranges::count_if(stage.steps,
                                     [&](const plan::Step& step) { return measures(step, r); });
    }
    c.require(times == 1, "the diagonals of ring " + std::to_string(r) + " are measured " +
                              std::to_string(times) + " times");
  }
}

void verify_rounds(VerifyContext& c, const plan::Stage& stage) {
  verify_tightening(c, stage);
  const auto times = read_times(c, stage);
  for (const plan::Step& snug : stage.steps) {
    for (work::JointId joint : snug.joints) {
      const auto t = times.find(joint);
      c.require(snug.kind != plan::StepKind::snug || t == times.end() ||
                    t->second.closed <= snug.start_s + 1e-6,
                at_step(snug) + " clamps a joint that is still open");
    }
  }
}

// Locked parts have no steps, only the reason in the verdict.
bool has_no_order(const plan::Stage& stage) {
  return stage.status == plan::Proof::impossible && stage.steps.empty();
}

}  // namespace

void verify_steps(VerifyContext& c) {
  Blocks blocks(c.job.parts.size());
  int last = 0;
  for (const plan::Stage& stage : c.plan.stages) {
    for (const plan::Step& step : stage.steps) {
      c.require(step.n == last + 1, at_step(step) + " is out of turn");
      last = step.n;
      c.require(step.end_s >= step.start_s, at_step(step) + " ends before it starts");
      if (step.kind == plan::StepKind::join) {
        verify_join(c, step, blocks);
      }
    }
    verify_people(c, stage);
    verify_rounds(c, stage);
    if (has_no_order(stage)) {
      c.require(!c.plan.verdict.ok, "a stage that has no order is told to work");
    } else {
      verify_limits(c, stage);
    }
  }
  if (std::none_of(c.plan.stages.begin(), c.plan.stages.end(), has_no_order) &&
      !c.plan.stages.empty()) {
    c.require(blocks.one_block(), "not every part is in the assembly at the end");
    verify_every_ring(c);
  }
}

}  // namespace planner::verify
