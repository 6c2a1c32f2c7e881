#include "cli/pictures/step_picture.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/pictures/drawing.h"
#include "cli/pictures/labels.h"
#include "cli/pictures/marks.h"
#include "cli/pictures/turning.h"
#include "cli/words/sentences.h"
#include "cli/words/trade_words.h"

namespace cli::pictures {
namespace {

using geometry::Direction;
using planner::plan::Check;
using planner::plan::Plan;
using planner::plan::Stage;
using planner::plan::Step;
using planner::plan::StepKind;
using planner::work::PartId;

// Letters and names: what the step is about first, so that it has the room.
void write_parts(const Plan& plan, const Drawing& drawing, Labels& labels, Markup& svg) {
  const std::map<PartId, std::string> letters = part_letters(plan);
  for (const bool bold : {true, false}) {
    for (std::size_t i = 0; i < drawing.actors.size(); ++i) {
      const Actor& actor = drawing.actors[i];
      if (actor.part && actor.bold == bold) {
        labels.write_part(actor.facets, i, plan.parts[*actor.part].grain, letters.at(*actor.part),
                          words::part_name(plan, *actor.part), svg);
      }
    }
  }
}

void write_sides(const Plan& plan, const Situation& at, const Painted& painted, Labels& labels, Markup& svg) {
  std::vector<PartId> parts = at.still;
  parts.insert(parts.end(), at.moving.begin(), at.moving.end());
  const geometry::Box box = box_of(plan, parts);
  const geometry::Point middle = box.lo + 0.5 * (box.hi - box.lo);
  labels.write_side(middle, {0, -1, 0}, painted.area(), "FRONT", svg);
  labels.write_side(middle, {0, 0, 1}, painted.area(), "TOP", svg);
}

bool closes_with_tape(const Plan& plan, const Step& step) {
  return std::any_of(step.joints.begin(), step.joints.end(), [&](planner::work::JointId id) {
    return plan.joints[id].held_by == planner::work::HeldBy::tape;
  });
}

// Strips of tape round the outside of the corners that a join closes.
void write_tape(const Plan& plan, const Situation& at, const Step& step, const Canvas& canvas, Markup& svg) {
  for (const planner::work::JointId id : step.joints) {
    const planner::work::Joint& joint = plan.joints[id];
    if (joint.held_by != planner::work::HeldBy::tape) {
      continue;
    }
    const geometry::Contact& face = joint.faces.front().contact;
    const bool moves = std::find(at.moving.begin(), at.moving.end(), joint.parts[0]) != at.moving.end();
    const Direction off = moves ? at.off : Direction{};
    for (const double share : {-0.3, 0.0, 0.3}) {
      const geometry::Point p = face.centroid + (share * face.length_mm) * face.along + off;
      const model::Point2 a = canvas.at(p + 30.0 * face.normal), b = canvas.at(p + (-30.0) * face.normal);
      svg.lone("path", {{"class", "tape"},
                        {"d", fmt::format("M{:.0f} {:.0f}L{:.0f} {:.0f}", a.u, a.v, b.u, b.v)}});
    }
  }
}

// On top of a seam that is looked at: where a hand feels whether both sides are flush.
geometry::Point on_seam(const Plan& plan, const Stage& stage, const Step& step, const Situation& at) {
  const auto there = [&](PartId part) {
    return std::find(at.still.begin(), at.still.end(), part) != at.still.end();
  };
  const std::vector<planner::work::JointId>& joints = step.joints.empty() ? stage.joints : step.joints;
  for (const planner::work::JointId id : joints) {
    const planner::work::Joint& joint = plan.joints[id];
    if (there(joint.parts[0]) && there(joint.parts[1])) {
      const geometry::Point& seam = joint.faces.front().contact.centroid;
      const double top = reach_along(plan, {joint.parts[0], joint.parts[1]}, at.stance.up).hi;
      return seam + (top - dot(seam, at.stance.up)) * at.stance.up;
    }
  }
  const geometry::Box box = box_of(plan, at.still);
  return box.lo + 0.5 * (box.hi - box.lo);
}

void write_check(const Plan& plan, const Stage& stage, const Step& step, const Situation& at,
                 const Canvas& canvas, const words::Wording& wording, Labels& labels, Markup& svg) {
  switch (*step.check) {
    case Check::inside_diagonals:
    case Check::outside_diagonals:
      diagonals(plan, step, canvas, wording, labels, svg);
      break;
    case Check::square:
      if (words::ring_to_be_true(plan, stage) == nullptr && words::has_square_corners(plan, stage)) {
        try_square(plan, stage, at, canvas, labels, svg);
      }
      break;
    case Check::flush:
      hand(canvas.at(on_seam(plan, stage, step, at)), labels, svg);
      break;
    case Check::wind:
      break;
  }
}

// What goes over the drawing, by the kind of step.
void write_marks(const Plan& plan, const Stage& stage, const Step& step, const Situation& at,
                 const Painted& painted, const words::Wording& wording, Labels& labels, Markup& svg) {
  const Canvas& canvas = painted.canvas();
  if (step.kind == StepKind::join) {
    if (closes_with_tape(plan, step)) {
      write_tape(plan, at, step, canvas, svg);
    }
    path_arrow(plan, at, canvas, labels, svg);
    if (step.wants_hand) {
      // On its upper half, out of the arrow's way.
      const geometry::Box box = box_of(plan, at.moving);
      const Direction size = box.hi - box.lo;
      const double high = std::abs(dot(size, at.stance.up)), back = 0.25 * std::abs(dot(size, at.stance.away));
      hand(canvas.at(box.lo + 0.5 * size + at.off + (0.25 * high) * at.stance.up + back * at.stance.away),
           labels, svg);
    }
  }
  if (step.kind == StepKind::check) {
    write_check(plan, stage, step, at, canvas, wording, labels, svg);
  }
  if (step.kind == StepKind::fasten) {
    pins(stage, step, painted, svg);
  }
}

// Numbers; where they are tightened in an order, the first is dark and each points to the next.
void write_clamps(const Step& step, const Drawing& drawing, Labels& labels, Markup& svg) {
  const bool in_order = step.kind == StepKind::tighten && step.clamps.size() > 1;
  std::map<int, model::Point2> rings;
  for (const ClampSolid& clamp : drawing.own) {
    rings[clamp.n] = labels.write_clamp(clamp.handle, clamp.n, in_order && clamp.n == step.clamps.front(), svg);
  }
  std::string pointers;
  for (std::size_t i = 0; in_order && i + 1 < step.clamps.size(); ++i) {
    const auto from = rings.find(step.clamps[i]), to = rings.find(step.clamps[i + 1]);
    if (from != rings.end() && to != rings.end()) {
      pointers += pointer(from->second, to->second);
    }
  }
  if (!pointers.empty()) {
    svg.lone("path", {{"class", "then"}, {"d", pointers}});
  }
}

const char* colour_of(const Plan& plan, const Situation& at) {
  const std::vector<PartId>& parts = at.moving.empty() ? at.still : at.moving;
  return parts.empty() ? "pale" : colour_class(plan.parts[parts.front()].species);
}

}  // namespace

std::string step_picture(const Plan& plan, const Stage& stage, const std::vector<words::BenchStep>& steps,
                         std::size_t index, const words::Wording& wording) {
  const Step& step = steps[index].step;
  const Situation at = situation_at(plan, stage, steps, index);
  Drawing drawing = drawing_of(plan, stage, step, at);
  for (const ClampSolid& clamp : drawing.own) {
    drawing.more.push_back(clamp.handle);
  }
  const Painted painted(drawing);
  Markup svg;
  painted.write(svg);
  Labels labels(painted.canvas(), painted.scene());
  write_marks(plan, stage, step, at, painted, wording, labels, svg);
  write_clamps(step, drawing, labels, svg);
  for (const Actor& glue : drawing.wet) {
    labels.note_dark(glue.facets.front());
  }
  write_parts(plan, drawing, labels, svg);
  write_sides(plan, at, painted, labels, svg);
  return framed("Step " + number_text(steps[index]), colour_of(plan, at), painted.area(), labels.used(), svg);
}

std::string hero_picture(const Plan& plan, std::optional<planner::work::JointId> told) {
  Situation at;
  for (PartId part = 0; part < plan.parts.size(); ++part) {
    at.still.push_back(part);
  }
  Drawing drawing;
  drawing.tells_hidden = false;
  for (const PartId part : at.still) {
    const bool of_joint = told && holds(plan.joints[*told].parts, part);
    drawing.actors.push_back({plan.parts[part].facets, told && !of_joint ? Fill::still : Fill::wood, of_joint, part});
  }
  const Painted painted(drawing);
  Markup svg;
  painted.write(svg);
  Labels labels(painted.canvas(), painted.scene());
  write_parts(plan, drawing, labels, svg);
  write_sides(plan, at, painted, labels, svg);
  return framed("All of it", colour_of(plan, at), painted.area(), labels.used(), svg);
}

}  // namespace cli::pictures
