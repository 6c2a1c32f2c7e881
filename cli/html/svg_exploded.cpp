#include "cli/html/svg_exploded.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>

#include <fmt/format.h>

#include "cli/html/picture.h"
#include "cli/model/line_drawing.h"
#include "cli/pictures/markup.h"
#include "cli/pictures/situation.h"
#include "cli/words/sentences.h"
#include "cli/words/trade_words.h"
#include "geometry/elementary.h"

namespace cli::html {
namespace {

using geometry::Direction;
using geometry::Point;
using planner::plan::Plan;
using planner::plan::Stage;
using planner::plan::Step;
using planner::plan::StepKind;
using pictures::holds;
using planner::work::PartId;

double extent(const Plan& plan, const std::vector<PartId>& parts, const Direction& d) {
  double lo = 1e300, hi = -1e300;
  for (const PartId id : parts) {
    const geometry::Box& box = plan.parts[id].bounds;
    for (int corner = 0; corner < 8; ++corner) {
      const Point p{corner & 1 ? box.hi.x : box.lo.x, corner & 2 ? box.hi.y : box.lo.y,
                    corner & 4 ? box.hi.z : box.lo.z};
      lo = std::min(lo, dot(p, d));
      hi = std::max(hi, dot(p, d));
    }
  }
  return hi - lo;
}

// How far each part is pulled back from where it ends: against its own movement, beyond whatever
// was pulled back that way before it, so that every joint opens.
struct Explosion {
  std::vector<Direction> offset;  // by part id
  std::vector<std::pair<Point, Point>> arrows;
};

int joins_along(const Stage& stage, const Direction& d) {
  return static_cast<int>(
      std::count_if(stage.steps.begin(), stage.steps.end(), [&](const Step& step) {
        return step.motion && std::abs(dot(step.motion->direction, d)) > 0.7;
      }));
}

// Where an arrow for the moving parts starts: the middle of their leading side, less the way to go.
Point leading_middle(const Plan& plan, const std::vector<PartId>& moving,
                     const std::vector<Direction>& offset, const Direction& d) {
  geometry::Box all = plan.parts[moving.front()].bounds;
  for (const PartId id : moving) {
    const geometry::Box& box = plan.parts[id].bounds;
    all.lo = {std::min(all.lo.x, box.lo.x), std::min(all.lo.y, box.lo.y),
              std::min(all.lo.z, box.lo.z)};
    all.hi = {std::max(all.hi.x, box.hi.x), std::max(all.hi.y, box.hi.y),
              std::max(all.hi.z, box.hi.z)};
  }
  const Point middle{(all.lo.x + all.hi.x) / 2, (all.lo.y + all.hi.y) / 2,
                     (all.lo.z + all.hi.z) / 2};
  return middle + offset[moving.front()] + (extent(plan, moving, d) / 2) * d;
}

Explosion explode(const Plan& plan, const Stage& stage) {
  constexpr double kLeast_mm = 30, kShare = 0.7;
  Explosion out{std::vector<Direction>(plan.parts.size()), {}};
  std::vector<std::pair<const Step*, double>> joins;
  for (const Step& step : stage.steps) {
    if (!step.motion) {
      continue;
    }
    const Direction& d = step.motion->direction;
    double before = 0;
    for (const PartId id : step.parts) {
      if (!holds(step.motion->moving, id)) {
        before = std::max(before, -dot(out.offset[id], d));
      }
    }
    // The more joints open the same way, the less each, so that the picture stays in one piece.
    const double gap =
        std::max(kLeast_mm, kShare * extent(plan, stage.parts, d) / (1 + joins_along(stage, d)));
    for (const PartId id : step.motion->moving) {
      out.offset[id] = out.offset[id] - (before + gap) * d;
    }
    joins.emplace_back(&step, gap);
  }
  for (const auto& [step, gap] : joins) {
    const Direction& d = step->motion->direction;
    const Point from = leading_middle(plan, step->motion->moving, out.offset, d) + 0.1 * gap * d;
    out.arrows.emplace_back(from, from + 0.7 * gap * d);
  }
  return out;
}

// Whether a number at the point is in full view.
bool in_view(const model::Scene& scene, std::size_t own, const model::View& view, const Point& p,
             double radius_mm) {
  const std::array<model::Segment3, 2> cross{
      {{p + (-radius_mm) * view.right, p + radius_mm * view.right},
       {p + (-radius_mm) * view.up, p + radius_mm * view.up}}};
  double seen_mm = 0;
  for (const model::Segment2& s : scene.visible(cross, own)) {
    seen_mm += geometry::hypotenuse(s.b.u - s.a.u, s.b.v - s.a.v);
  }
  return seen_mm > 3.99 * radius_mm;
}

double distance(model::Point2 p, const model::Segment2& s) {
  const double du = s.b.u - s.a.u, dv = s.b.v - s.a.v;
  const double along = ((p.u - s.a.u) * du + (p.v - s.a.v) * dv) / (du * du + dv * dv);
  const double t = std::clamp(along, 0.0, 1.0);
  return geometry::hypotenuse(s.a.u + t * du - p.u, s.a.v + t * dv - p.v);
}

// What a number keeps clear of.
struct Crowd {
  std::vector<model::Segment2> arrows;
  std::vector<model::Point2> numbers;  // placed before

  bool leaves_room(model::Point2 spot, double radius_mm) const {
    return std::none_of(arrows.begin(), arrows.end(),
                        [&](const model::Segment2& arrow) {
                          return distance(spot, arrow) < 1.2 * radius_mm;
                        }) &&
           std::none_of(numbers.begin(), numbers.end(), [&](model::Point2 other) {
             return geometry::hypotenuse(other.u - spot.u, other.v - spot.v) < 2 * radius_mm;
           });
  }
};

// Spots of a body's faces to try a number at, the largest face that is turned to the viewer first.
std::vector<Point> spots_of(const model::Body& body, const model::View& view) {
  std::vector<const geometry::Facet*> faces;
  for (const geometry::Facet& facet : body.facets) {
    if (dot(facet.normal, view.eye) > 1e-6) {
      faces.push_back(&facet);
    }
  }
  std::stable_sort(faces.begin(), faces.end(),
                   [](const auto* a, const auto* b) { return a->area_mm2 > b->area_mm2; });
  std::vector<Point> spots;
  for (const geometry::Facet* facet : faces) {
    const geometry::Ring& ring = facet->regions.front().outer;
    // A comb of forty dadoes need not be tried at every tooth.
    constexpr std::size_t kTries = 8;
    const std::size_t stride = std::max<std::size_t>(1, ring.size() / kTries);
    for (std::size_t i = 0; i < ring.size(); i += stride) {
      // Between a corner and the one opposite in the list: inside for the shapes boards have.
      const Point &a = ring[i], &b = ring[(i + ring.size() / 2) % ring.size()];
      for (const double t : {0.5, 0.35, 0.65, 0.2, 0.8}) {
        spots.push_back(a + t * (b - a) + body.offset);
      }
    }
  }
  return spots;
}

// Where a body's number is in full view of the other bodies and has room; else where at least its
// middle is in view and it has room; else in full view; else on the largest face.
model::Point2 label_spot(const model::Scene& scene, const std::vector<model::Body>& bodies,
                         std::size_t own, const model::View& view, double radius_mm,
                         const Crowd& crowd) {
  const std::vector<Point> spots = spots_of(bodies[own], view);
  std::optional<model::Point2> crowded;
  for (const Point& spot : spots) {
    if (in_view(scene, own, view, spot, radius_mm)) {
      if (crowd.leaves_room(view.at(spot), radius_mm)) {
        return view.at(spot);
      }
      crowded = crowded.value_or(view.at(spot));
    }
  }
  for (const Point& spot : spots) {
    if (crowd.leaves_room(view.at(spot), radius_mm) &&
        in_view(scene, own, view, spot, 0.2 * radius_mm)) {
      return view.at(spot);
    }
  }
  return crowded.value_or(view.at(spots.front()));
}

std::vector<model::Segment3> glue_hatching(const Plan& plan, const Stage& stage,
                                           const Explosion& explosion, double spacing_mm) {
  std::vector<model::Segment3> lines;
  for (const planner::work::JointId id : stage.joints) {
    const planner::work::Joint& joint = plan.joints[id];
    for (std::size_t side = 0; side < 2 && joint.glued; ++side) {
      if (!joint.spread[side]) {
        continue;
      }
      const Direction& offset = explosion.offset[joint.parts[side]];
      for (const planner::work::GlueFace& face : joint.faces) {
        // The contact lies in the first part's plane; the second's is a gap farther.
        const Direction gap = side == 0 ? Direction{} : face.contact.gap_mm * face.contact.normal;
        for (model::Segment3 line : model::hatching_of(face.contact.regions, face.contact.normal,
                                                       face.contact.along, spacing_mm)) {
          lines.push_back({line.a + gap + offset, line.b + gap + offset});
        }
      }
    }
  }
  return lines;
}

// A word beside the drawing where a direction of the work points: from the frame's edge inwards, as near as no
// line is in the way.
void write_side(const std::vector<model::Segment2>& drawn, const Frame& frame, model::Point2 way,
                const std::string& word, Markup& svg) {
  constexpr double kTall = 17;  // 2 mm on paper too
  const double half_long = 0.36 * kTall * static_cast<double>(word.size()) + 3, half_high = 0.6 * kTall;
  const double run = geometry::hypotenuse(way.u, way.v);
  const auto middle_at = [&](double r) {
    return model::Point2{
        std::clamp(frame.width() / 2 + r * way.u / run, half_long, frame.width() - half_long),
        std::clamp(frame.height() / 2 - r * way.v / run, half_high, frame.height() - half_high)};
  };
  const auto is_free = [&](model::Point2 middle) {
    return std::none_of(drawn.begin(), drawn.end(), [&](const model::Segment2& line) {
      // Along the word's middle line, which is longer than it is high.
      for (const double share : {-1.0, -0.5, 0.0, 0.5, 1.0}) {
        if (distance({middle.u + share * (half_long - half_high), middle.v}, line) < half_high + 2) {
          return true;
        }
      }
      return false;
    });
  };
  constexpr double kStep = 3;
  double r = frame.width() + frame.height();
  while (r > kStep && is_free(middle_at(r - kStep))) {
    r -= kStep;
  }
  const model::Point2 at = middle_at(r);
  svg.element("text",
              {{"class", "side"}, {"x", coordinate(at.u)}, {"y", coordinate(at.v)}, {"text-anchor", "middle"}}, word);
}

void write_sides(const model::View& view, const Frame& frame, const std::vector<model::Segment2>& seen,
                 const std::vector<model::Segment2>& arrows, Markup& svg) {
  std::vector<model::Segment2> drawn;
  for (const std::vector<model::Segment2>* lines : {&seen, &arrows}) {
    for (const model::Segment2& line : *lines) {
      drawn.push_back({frame.at(line.a), frame.at(line.b)});
    }
  }
  const Direction front{0, -1, 0}, top{0, 0, 1};
  write_side(drawn, frame, {dot(front, view.right), dot(front, view.up)}, "FRONT", svg);
  write_side(drawn, frame, {dot(top, view.right), dot(top, view.up)}, "TOP", svg);
}

void draw(const Plan& plan, const Stage& stage, const Explosion& explosion, Markup& svg) {
  const model::View view = model::isometric_view();
  std::vector<model::Body> bodies;
  std::vector<model::Segment3> edges;
  for (const PartId id : stage.parts) {
    bodies.push_back({plan.parts[id].facets, explosion.offset[id]});
    const std::vector<model::Segment3> own = edges_of(bodies.back(), view);
    edges.insert(edges.end(), own.begin(), own.end());
  }
  const model::Scene scene(bodies, view);
  const std::vector<model::Segment2> seen = scene.visible(edges);
  Frame frame = Frame::around(seen, kPictureWidth, 22);
  const double units = frame.scale();
  const std::vector<model::Segment2> glue =
      scene.visible(glue_hatching(plan, stage, explosion, 4 / units));

  const std::string names = words::part_names(plan, placing_order(stage));
  open_picture(svg, frame, "Parts pulled apart, in the order they go: " + names);
  svg.lone("path", {{"class", "glue"}, {"d", path_of(glue, frame)}});
  svg.lone("path", {{"class", "edge"}, {"d", path_of(seen, frame)}});
  Crowd crowd;
  for (const auto& [from, to] : explosion.arrows) {
    crowd.arrows.push_back({view.at(from), view.at(to)});
    arrow(svg, frame.at(view.at(from)), frame.at(view.at(to)));
  }
  write_sides(view, frame, seen, crowd.arrows, svg);
  const std::vector<PartId> order = placing_order(stage);
  const std::map<PartId, std::string> letters = pictures::part_letters(plan);
  for (std::size_t i = 0; i < order.size(); ++i) {
    const auto body = static_cast<std::size_t>(
        std::find(stage.parts.begin(), stage.parts.end(), order[i]) - stage.parts.begin());
    crowd.numbers.push_back(label_spot(scene, bodies, body, view, kBadge / units, crowd));
    badge(svg, frame.at(crowd.numbers.back()), letters.at(order[i]), "part");
  }
  svg.close();
}

}  // namespace

std::vector<PartId> placing_order(const Stage& stage) {
  std::vector<PartId> order;
  for (const Step& step : stage.steps) {
    if (step.kind != StepKind::join) {
      continue;
    }
    for (const bool moving : {false, true}) {
      for (const PartId id : step.parts) {
        const bool moves = step.motion && holds(step.motion->moving, id);
        if (moves == moving && !holds(order, id)) {
          order.push_back(id);
        }
      }
    }
  }
  return order;
}

std::vector<Direction> pulled_apart(const Plan& plan) {
  std::vector<Direction> all(plan.parts.size());
  for (const Stage& stage : plan.stages) {
    const Explosion one = explode(plan, stage);
    for (PartId id = 0; id < all.size(); ++id) {
      all[id] = all[id] + one.offset[id];
    }
  }
  return all;
}

std::string exploded_svg(const Plan& plan, const Stage& stage) {
  Markup svg;
  draw(plan, stage, explode(plan, stage), svg);
  return svg.str();
}

}  // namespace cli::html
