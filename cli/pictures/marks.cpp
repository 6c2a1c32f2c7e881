#include "cli/pictures/marks.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "cli/pictures/solids.h"
#include "cli/words/sentences.h"
#include "geometry/elementary.h"

namespace cli::pictures {
namespace {

using geometry::Direction;
using geometry::Point;
using model::Point2;
using planner::plan::Plan;
using planner::plan::Step;

std::string pair(double u, double v) {
  return fmt::format("{} {}", std::lround(u), std::lround(v));
}

// Both sides of a line at half a width, out and back.
std::string ribbon(const std::vector<Point2>& points, double half) {
  std::string out, back;
  for (std::size_t i = 0; i < points.size(); ++i) {
    const Point2 &a = points[i > 0 ? i - 1 : 0], &b = points[std::min(i + 1, points.size() - 1)];
    const double run = std::max(1e-9, geometry::hypotenuse(b.u - a.u, b.v - a.v));
    const double nu = -(b.v - a.v) / run * half, nv = (b.u - a.u) / run * half;
    out += (out.empty() ? "M" : "L") + pair(points[i].u + nu, points[i].v + nv);
    back = "L" + pair(points[i].u - nu, points[i].v - nv) + back;
  }
  return out + back + "Z";
}

Point middle_of(const geometry::Box& box) {
  return box.lo + 0.5 * (box.hi - box.lo);
}

double half_along(const geometry::Box& box, const Direction& d) {
  const Direction half = 0.5 * (box.hi - box.lo);
  return std::abs(half.x * d.x) + std::abs(half.y * d.y) + std::abs(half.z * d.z);
}

}  // namespace

void thick_arrow(const std::vector<Point2>& points, Labels& labels, Markup& svg) {
  constexpr double kHead = 34, kHalfHead = 22, kHalfShaft = 7;
  const Point2 tip = points.back();
  // The head lies along the line's end.
  std::vector<Point2> shaft = points;
  while (shaft.size() > 2 && geometry::hypotenuse(shaft.back().u - tip.u, shaft.back().v - tip.v) < kHead) {
    shaft.pop_back();
  }
  const Point2 from = geometry::hypotenuse(shaft.back().u - tip.u, shaft.back().v - tip.v) > 1
                          ? shaft.back()
                          : shaft[shaft.size() - 2];
  const double run = std::max(1.0, geometry::hypotenuse(tip.u - from.u, tip.v - from.v));
  const double u = (tip.u - from.u) / run, v = (tip.v - from.v) / run;
  const Point2 neck{tip.u - kHead * u, tip.v - kHead * v};
  if (shaft.back().u == tip.u && shaft.back().v == tip.v) {
    shaft.back() = neck;
  } else {
    shaft.push_back(neck);
  }
  const std::string head = "M" + pair(tip.u, tip.v) + "L" +
                           pair(neck.u - kHalfHead * v, neck.v + kHalfHead * u) + "L" +
                           pair(neck.u + kHalfHead * v, neck.v - kHalfHead * u) + "Z";
  svg.lone("path", {{"class", "go"}, {"d", ribbon(shaft, kHalfShaft) + head}});
  for (const Point2& p : points) {
    Area area;
    area.take_in(p, 16);
    labels.keep_clear(area);
  }
}

std::string pointer(Point2 from, Point2 to) {
  constexpr double kRim = 24, kTip = 44, kHalf = 12;
  const double run = geometry::hypotenuse(to.u - from.u, to.v - from.v);
  if (run < kTip) {
    return "";
  }
  const double u = (to.u - from.u) / run, v = (to.v - from.v) / run;
  return "M" + pair(from.u + kTip * u, from.v + kTip * v) + "L" +
         pair(from.u + kRim * u - kHalf * v, from.v + kRim * v + kHalf * u) + "L" +
         pair(from.u + kRim * u + kHalf * v, from.v + kRim * v - kHalf * u) + "Z";
}

void path_arrow(const Plan& plan, const Situation& at, const Canvas& canvas, Labels& labels, Markup& svg) {
  const geometry::Box box = box_of(plan, at.moving);
  std::vector<Point2> points;
  if (at.fold) {
    constexpr int kPieces = 12;
    for (int i = 0; i <= kPieces; ++i) {
      const double angle = at.fold_rad * (1 - static_cast<double>(i) / kPieces);
      points.push_back(canvas.at(turned(middle_of(box), at.fold->hinge, angle)));
    }
    thick_arrow(points, labels, svg);
    return;
  }
  if (length(at.off) < 1e-6) {
    return;
  }
  // From the middle of its leading side to where that comes to rest; longer on the sheet than its head.
  const Point seat = seat_of(plan, at);
  Point2 from = canvas.at(seat + at.off), to = canvas.at(seat);
  constexpr double kLeast = 64;
  const double drawn = geometry::hypotenuse(to.u - from.u, to.v - from.v);
  if (drawn > 1 && drawn < kLeast) {
    from = {to.u - (to.u - from.u) * kLeast / drawn, to.v - (to.v - from.v) * kLeast / drawn};
  }
  thick_arrow({from, {(from.u + to.u) / 2, (from.v + to.v) / 2}, to}, labels, svg);
}

void hand(Point2 at, Labels& labels, Markup& svg) {
  // Fingers up, thumb to the left, cuff below: 64 wide, 84 high, its palm's middle at 0 0.
  constexpr const char* kHand =
      "M-22 38V14L-34-2q-5-7 1-11t12 2l7 9V-34q0-7 6-7t6 7V-6-42q0-7 6.500-7t6.500 7V-6-36q0-7 "
      "6-7t6 7V-3-24q0-6 5.500-6t5.500 6V10q0 12-8 20v8z";
  svg.lone("path", {{"class", "hand"},
                    {"transform", fmt::format("translate({})", pair(at.u, at.v))},
                    {"d", kHand}});
  Area area;
  area.take_in(at, 42);
  labels.keep_clear(area);
}

void diagonals(const Plan& plan, const Step& step, const Canvas& canvas, const words::Wording& wording,
               Labels& labels, Markup& svg) {
  std::vector<std::size_t> rings = step.rings;
  if (rings.empty() && !plan.rings.empty()) {
    rings = {0};
  }
  for (const std::size_t index : rings) {
    const planner::work::Ring& ring = plan.rings[index];
    const bool inside = step.check == planner::plan::Check::inside_diagonals;
    const std::array<double, 2>& sides = inside ? ring.inside_mm : ring.outside_mm;
    const geometry::Box box = box_of(plan, ring.parts);
    const Direction normal = geometry::kAxis[ring.normal_axis];
    const double facing = dot(normal, canvas.view().eye) > 0 ? 1 : -1;
    const Point middle = middle_of(box) + (facing * half_along(box, normal)) * normal;
    const Direction a = geometry::kAxis[ring.normal_axis == 0 ? 1 : 0];
    const Direction b = geometry::kAxis[ring.normal_axis == 2 ? 1 : 2];
    for (const double turn : {1.0, -1.0}) {
      const Direction half = (sides[0] / 2) * a + (turn * sides[1] / 2) * b;
      const Point2 p = canvas.at(middle + (-half)), q = canvas.at(middle + half);
      svg.lone("path", {{"class", "diagonal"}, {"d", "M" + pair(p.u, p.v) + "L" + pair(q.u, q.v)}});
      for (const Point2& end : {p, q}) {
        svg.lone("circle", {{"class", "end"}, {"cx", std::to_string(std::lround(end.u))},
                            {"cy", std::to_string(std::lround(end.v))}, {"r", "7"}});
      }
    }
    if (index == rings.front()) {
      const Point2 at = canvas.at(middle);
      const std::string size = words::diagonal_text(sides, wording);
      const double half = 9.2 * static_cast<double>(size.size()) + 14;
      svg.lone("rect", {{"class", "plate"},
                        {"x", std::to_string(std::lround(at.u - half))},
                        {"y", std::to_string(std::lround(at.v - 20))},
                        {"width", std::to_string(std::lround(2 * half))},
                        {"height", "40"},
                        {"rx", "6"}});
      svg.element("text",
                  {{"class", "size"},
                   {"x", std::to_string(std::lround(at.u))},
                   {"y", std::to_string(std::lround(at.v + 10))}},
                  size);
      Area area;
      area.take_in({at.u - half, at.v - 20});
      area.take_in({at.u + half, at.v + 20});
      labels.keep_clear(area);
    }
  }
}

void try_square(const Plan& plan, const planner::plan::Stage& stage, const Situation& at, const Canvas& canvas,
                Labels& labels, Markup& svg) {
  const auto there = [&](planner::work::PartId part) {
    return std::find(at.still.begin(), at.still.end(), part) != at.still.end();
  };
  const auto level = [&](const Direction& d) { return d - dot(d, at.stance.up) * at.stance.up; };
  for (const planner::work::JointId id : stage.joints) {
    const auto& [a, b] = plan.joints[id].parts;
    const geometry::Contact& face = plan.joints[id].faces.front().contact;
    const Direction to_a = level(middle_of(plan.parts[a].bounds) - face.centroid);
    const Direction to_b = level(middle_of(plan.parts[b].bounds) - face.centroid);
    if (!there(a) || !there(b) || length(to_a) < 1 || length(to_b) < 1 ||
        std::abs(dot(geometry::unit(to_a), geometry::unit(to_b))) > 0.8) {
      continue;
    }
    // In the corner, on top: an arm along either part.
    const double top = reach_along(plan, {a, b}, at.stance.up).hi;
    const Point corner = face.centroid + (top - dot(face.centroid, at.stance.up)) * at.stance.up;
    const double arm = std::min(length(to_a), length(to_b)), thick = 0.2 * arm;
    const Direction u = geometry::unit(to_a), v = geometry::unit(to_b);
    const auto spot = [&](double along_u, double along_v) {
      const Point2 p = canvas.at(corner + along_u * u + along_v * v);
      return pair(p.u, p.v);
    };
    svg.lone("path", {{"class", "tool"},
                      {"d", "M" + spot(0, 0) + "L" + spot(arm, 0) + "L" + spot(arm, thick) + "L" +
                                spot(thick, thick) + "L" + spot(thick, arm) + "L" + spot(0, arm) + "Z"}});
    Area area;
    area.take_in(canvas.at(corner + (arm / 2) * u), 20);
    area.take_in(canvas.at(corner + (arm / 2) * v), 20);
    labels.keep_clear(area);
    return;
  }
}

void pins(const planner::plan::Stage& stage, const Step& step, const Painted& painted, Markup& svg) {
  const model::View& view = painted.canvas().view();
  std::string d;
  for (const planner::plan::Fastening& row : stage.fastenings) {
    if (std::find(step.joints.begin(), step.joints.end(), row.joint) == step.joints.end()) {
      continue;
    }
    for (const Point& p : row.at) {
      const std::array<model::Segment3, 1> dash{{{p + 1.0 * view.eye + (-0.5) * view.right,
                                                  p + 1.0 * view.eye + 0.5 * view.right}}};
      if (!painted.scene().visible(dash).empty()) {
        const Point2 at = painted.canvas().at(p);
        d += "M" + pair(at.u, at.v) + "h0";  // a round line end is the dot
      }
    }
  }
  svg.lone("path", {{"class", "pins"}, {"d", d.empty() ? "M0 0" : d}});
}

}  // namespace cli::pictures
