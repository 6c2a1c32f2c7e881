#include "cli/html/svg_parts.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "cli/html/picture.h"
#include "cli/model/line_drawing.h"
#include "cli/words/trade_words.h"
#include "geometry/elementary.h"

namespace cli::html {
namespace {

using geometry::Direction;
using geometry::Point;
using planner::plan::Plan;
using planner::plan::PlanPart;
using planner::plan::Stage;
using planner::work::Joint;
using planner::work::JointId;
using planner::work::PartId;

// A side of the board as it lies when its sides are folded out round its wide face.
struct Side {
  model::View view;
  model::Point2 shift;  // from the view to the sheet, mm
};

// Outward from the part.
Direction outward(const Joint& joint, PartId part, const planner::work::GlueFace& face) {
  return joint.parts[0] == part ? face.contact.normal : -face.contact.normal;
}

// Across the grain, out of the wide face that gets more glue.
Direction wide_face(const Plan& plan, const Stage& stage, PartId id) {
  const PlanPart& part = plan.parts[id];
  Direction wide = std::abs(part.grain.z) < 0.9 ? cross(part.grain, Direction{0, 0, 1})
                                                : cross(part.grain, Direction{1, 0, 0});
  double most = 0;
  for (const geometry::Facet& facet : part.facets) {
    if (std::abs(dot(facet.normal, part.grain)) < 0.1 && facet.area_mm2 > most + 1e-6) {
      most = facet.area_mm2;
      wide = facet.normal;
    }
  }
  wide = wide - dot(wide, part.grain) * part.grain;
  wide = (1 / length(wide)) * wide;
  double front = 0;
  for (const JointId joint : stage.joints) {
    for (const planner::work::GlueFace& face : plan.joints[joint].faces) {
      const auto& parts = plan.joints[joint].parts;
      if (parts[0] == id || parts[1] == id) {
        front += face.contact.area_mm2 * dot(outward(plan.joints[joint], id, face), wide);
      }
    }
  }
  return front < -1e-6 ? -wide : wide;
}

// The wide face first: above, below, left and right of it the edges and ends, and below all the
// back.
std::array<Side, 6> fold_out(const PlanPart& part, const Direction& wide) {
  const Direction e1 = part.grain, e3 = wide, e2 = cross(e3, e1);
  const geometry::Extent l = model::reach_of(part.facets, e1), w = model::reach_of(part.facets, e2),
                         t = model::reach_of(part.facets, e3);
  const double gap = std::max(8.0, 0.04 * l.size());
  return {{{{e1, e2, e3}, {0, 0}},
           {{e1, -e3, e2}, {0, w.hi + gap + t.hi}},
           {{e1, e3, -e2}, {0, w.lo - gap - t.hi}},
           {{-e3, e2, e1}, {l.hi + gap + t.hi, 0}},
           {{e3, e2, -e1}, {l.lo - gap - t.hi, 0}},
           {{e1, -e2, -e3}, {0, w.lo - 2 * gap - t.size() + w.lo}}}};
}

struct FaceOnSheet {
  JointId joint = 0;
  bool spread = false, first = false;  // first: of its joint to be seen, which carries the marks
  std::size_t side = 0;                // of the six
  std::vector<model::Segment2> lines, outline;  // hatching; rim
  std::array<model::Point2, 2> ends;            // of the glue line
};

std::vector<model::Segment2> moved(std::vector<model::Segment2> lines, model::Point2 by) {
  for (model::Segment2& line : lines) {
    for (model::Point2* p : {&line.a, &line.b}) {
      *p = {p->u + by.u, p->v + by.v};
    }
  }
  return lines;
}

model::Point2 on_sheet(const Side& side, const Point& p) {
  const model::Point2 at = side.view.at(p);
  return {at.u + side.shift.u, at.v + side.shift.v};
}

std::vector<model::Segment3> rim_of(const std::vector<geometry::Polygon>& regions,
                                    const Direction& offset) {
  std::vector<model::Segment3> rim;
  for (const geometry::Polygon& region : regions) {
    for (std::size_t i = 0; i < region.outer.size(); ++i) {
      rim.push_back(
          {region.outer[i] + offset, region.outer[(i + 1) % region.outer.size()] + offset});
    }
  }
  return rim;
}

// The side that looks most nearly the face's way.
std::size_t side_of(const Direction& normal, const std::array<Side, 6>& sides) {
  std::size_t best = 0;
  for (std::size_t s = 1; s < sides.size(); ++s) {
    if (dot(normal, sides[s].view.eye) > dot(normal, sides[best].view.eye) + 1e-6) {
      best = s;
    }
  }
  return best;
}

FaceOnSheet face_on(const Joint& joint, PartId id, const planner::work::GlueFace& glue_face,
                    const std::array<Side, 6>& sides, const std::vector<model::Scene>& scenes,
                    double spacing_mm) {
  const geometry::Contact& contact = glue_face.contact;
  const std::size_t own = joint.parts[0] == id ? 0 : 1;
  FaceOnSheet face;
  face.spread = joint.spread[own];
  face.side = side_of(outward(joint, id, glue_face), sides);
  const Side& side = sides[face.side];
  // The contact lies in the first part's plane; the second's is a gap farther.
  const Direction gap = own == 0 ? Direction{} : contact.gap_mm * contact.normal;
  face.outline = moved(scenes[face.side].visible(rim_of(contact.regions, gap)), side.shift);
  if (face.outline.empty()) {
    return face;  // a wall in the depth of a cut
  }
  std::vector<model::Segment3> hatching =
      model::hatching_of(contact.regions, contact.normal, contact.along, spacing_mm);
  for (model::Segment3& line : hatching) {
    line = {line.a + gap, line.b + gap};
  }
  face.lines = moved(scenes[face.side].visible(hatching), side.shift);
  // The marks are made a little in from the ends, where neighbours don't crowd them.
  constexpr double kFromMiddle = 0.42;
  const Direction half = (kFromMiddle * contact.length_mm) * contact.along;
  face.ends = {on_sheet(side, contact.centroid + (-half)), on_sheet(side, contact.centroid + half)};
  return face;
}

// Faces of the stage's joints as the folded-out part shows them; walls in the depth of a cut,
// which no side shows, are left out.
std::vector<FaceOnSheet> faces_on(const Plan& plan, const Stage& stage, PartId id,
                                  const std::array<Side, 6>& sides, double spacing_mm) {
  const model::Body body{plan.parts[id].facets, {}};
  std::vector<model::Scene> scenes;
  scenes.reserve(sides.size());
  for (const Side& side : sides) {
    scenes.emplace_back(std::span(&body, 1), side.view);
  }
  std::vector<FaceOnSheet> out;
  for (const JointId joint_id : stage.joints) {
    const Joint& joint = plan.joints[joint_id];
    if (!joint.glued || (joint.parts[0] != id && joint.parts[1] != id)) {
      continue;
    }
    for (std::size_t f = 0; f < joint.faces.size(); ++f) {
      FaceOnSheet face = face_on(joint, id, joint.faces[f], sides, scenes, spacing_mm);
      face.joint = joint_id;
      face.first = out.empty() || out.back().joint != joint_id;
      if (!face.lines.empty()) {
        out.push_back(std::move(face));
      }
    }
  }
  return out;
}

void mark(Markup& svg, model::Point2 at, const char* anchor, const std::string& text) {
  constexpr double kHalf = 13;  // of three bold letters: no mark leaves the picture
  svg.element("text",
              {{"class", "on mark"},
               {"x", coordinate(std::clamp(at.u, kHalf, kPictureWidth - kHalf))},
               {"y", coordinate(at.v + kSmallText * 0.36)},
               {"text-anchor", anchor}},
              text);
}

// Marks made before, which the next keeps clear of.
class Marks {
 public:
  // The first of the spots that has room, else the first of all; it is taken from then on.
  model::Point2 take(const std::vector<model::Point2>& spots, double wide) {
    const auto free = std::find_if(spots.begin(), spots.end(), [&](model::Point2 spot) {
      return std::none_of(taken_.begin(), taken_.end(), [&](model::Point2 p) {
        return std::abs(p.u - spot.u) < wide && std::abs(p.v - spot.v) < 0.85 * kSmallText;
      });
    });
    taken_.push_back(free == spots.end() ? spots.front() : *free);
    return taken_.back();
  }

 private:
  std::vector<model::Point2> taken_;
};

// Beside the face, towards the picture's middle, where a number does not hide it.
void mark_beside(const FaceOnSheet& face, const Frame& frame, const std::string& text, Marks& marks,
                 Markup& svg) {
  double left = 1e300, right = -1e300, low = 1e300, high = -1e300;
  for (const model::Segment2& line : face.outline) {
    for (const model::Point2 p : {frame.at(line.a), frame.at(line.b)}) {
      left = std::min(left, p.u);
      right = std::max(right, p.u);
      low = std::min(low, p.v);
      high = std::max(high, p.v);
    }
  }
  constexpr double kApart = 4;
  const bool on_left = left + right < kPictureWidth;
  const double u = on_left ? right + kApart : left - kApart, v = (low + high) / 2;
  const model::Point2 at =
      marks.take({{u, v}, {u, low + kSmallText / 2}, {u, high - kSmallText / 2}}, kSmallText * 1.4);
  mark(svg, at, on_left ? "start" : "end", text);
}

// From `end` towards `other`, ever farther.
std::vector<model::Point2> spots_between(model::Point2 end, model::Point2 other) {
  std::vector<model::Point2> spots;
  for (int i = 0; i <= 20; ++i) {
    const double t = 0.02 * i;
    spots.push_back({end.u + t * (other.u - end.u), end.v + t * (other.v - end.v)});
  }
  return spots;
}

void draw_marks(const FaceOnSheet& face, const Frame& frame, Marks& marks, Markup& svg) {
  const std::string n = std::to_string(face.joint + 1);
  const model::Point2 a = frame.at(face.ends[0]), b = frame.at(face.ends[1]);
  constexpr double kRoom = 34, kWide = 20;
  if (geometry::hypotenuse(b.u - a.u, b.v - a.v) < kRoom) {
    mark_beside(face, frame, n, marks, svg);
    return;
  }
  mark(svg, marks.take(spots_between(a, b), kWide), "middle", n + "A");
  mark(svg, marks.take(spots_between(b, a), kWide), "middle", n + "B");
}

}  // namespace

std::vector<PartId> spread_parts(const Plan& plan, const Stage& stage) {
  std::vector<PartId> parts;
  for (const PartId id : stage.parts) {
    const bool spread =
        std::any_of(stage.joints.begin(), stage.joints.end(), [&](JointId joint_id) {
          const Joint& joint = plan.joints[joint_id];
          return joint.glued && ((joint.parts[0] == id && joint.spread[0]) ||
                                 (joint.parts[1] == id && joint.spread[1]));
        });
    if (spread) {
      parts.push_back(id);
    }
  }
  return parts;
}

std::string opened_part_svg(const Plan& plan, const Stage& stage, PartId id) {
  const PlanPart& part = plan.parts[id];
  const std::array<Side, 6> sides = fold_out(part, wide_face(plan, stage, id));
  const double spacing_mm =
      std::max({part.size_mm[0], part.size_mm[1], part.size_mm[2]}) / kPictureWidth * 5;
  const std::vector<FaceOnSheet> faces = faces_on(plan, stage, id, sides, spacing_mm);

  const model::Body body{part.facets, {}};
  std::vector<model::Segment2> edges;
  for (std::size_t s = 0; s < sides.size(); ++s) {
    const bool wanted = s == 0 || std::any_of(faces.begin(), faces.end(),
                                              [s](const FaceOnSheet& f) { return f.side == s; });
    if (wanted) {
      const auto seen = moved(
          model::Scene(std::span(&body, 1), sides[s].view).visible(edges_of(body, sides[s].view)),
          sides[s].shift);
      edges.insert(edges.end(), seen.begin(), seen.end());
    }
  }
  const Frame frame = Frame::around(edges, kPictureWidth, 8);
  Markup svg;
  open_picture(svg, frame,
               words::part_name(plan, id) + ", its sides opened out: where the glue goes");
  for (const FaceOnSheet& face : faces) {
    svg.lone("path", {{"class", face.spread ? "glue" : "dry"},
                      {"d", path_of(face.spread ? face.lines : face.outline, frame)}});
  }
  svg.lone("path", {{"class", "edge"}, {"d", path_of(edges, frame)}});
  Marks marks;
  for (const FaceOnSheet& face : faces) {
    if (face.first) {
      draw_marks(face, frame, marks, svg);
    }
  }
  svg.close();
  return svg.str();
}

}  // namespace cli::html
