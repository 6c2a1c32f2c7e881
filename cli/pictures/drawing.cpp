#include "cli/pictures/drawing.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include <fmt/format.h>

#include "cli/pictures/layers.h"
#include "cli/pictures/solids.h"
#include "geometry/elementary.h"

namespace cli::pictures {
namespace {

using geometry::Direction;
using geometry::Facet;
using geometry::Point;
using planner::plan::Plan;
using planner::plan::Stage;
using planner::plan::Step;
using planner::plan::StepKind;
using planner::work::PartId;

// Glue on one side of a joint's faces, as facets of that part.
void add_wet(const Plan& plan, const Situation& at, planner::work::JointId id, Drawing& out) {
  const planner::work::Joint& joint = plan.joints[id];
  for (std::size_t side = 0; side < 2; ++side) {
    const PartId part = joint.parts[side];
    if (!joint.glued || !joint.spread[side] || !(holds(at.still, part) || holds(at.moving, part))) {
      continue;
    }
    for (const planner::work::GlueFace& face : joint.faces) {
      const geometry::Contact& contact = face.contact;
      if (contact.regions.empty()) {
        continue;
      }
      const Direction normal = side == 0 ? contact.normal : -contact.normal;
      std::vector<Facet> facets{{normal, 0, contact.regions, contact.area_mm2}};
      if (side == 1) {
        facets = moved(std::move(facets), contact.gap_mm * contact.normal);
        // A ring that runs counter-clockwise seen from one side runs clockwise from the other.
        for (geometry::Polygon& region : facets.front().regions) {
          std::reverse(region.outer.begin(), region.outer.end());
          for (geometry::Ring& hole : region.holes) {
            std::reverse(hole.begin(), hole.end());
          }
        }
      } else {
        facets = moved(std::move(facets), {});
      }
      if (holds(at.moving, part)) {
        facets = at.fold ? turned(std::move(facets), at.fold->hinge, at.fold_rad)
                         : moved(std::move(facets), at.off);
      }
      out.wet.push_back({std::move(facets), Fill::glue, false, part});
    }
  }
}

void add_loading(const Plan& plan, const Stage& stage, const Situation& at, Drawing& out) {
  for (const planner::plan::Loading& load : stage.loadings) {
    const geometry::Box box = box_of(plan, at.still);
    const Direction size = box.hi - box.lo;
    const auto along = [&](const Direction& d) {
      return std::abs(size.x * d.x) + std::abs(size.y * d.y) + std::abs(size.z * d.z);
    };
    const double wide = along(at.stance.right), deep = along(at.stance.away), high = along(at.stance.up);
    const Point top = box.lo + 0.5 * size + (high / 2) * at.stance.up;
    if (load.by == planner::work::HeldBy::vacuum) {
      out.actors.push_back({block(top, {(wide / 2 + 40) * at.stance.right, (deep / 2 + 40) * at.stance.away,
                                        1.0 * at.stance.up}),
                            Fill::pad, false, {}});
      continue;
    }
    const int n = std::clamp(load.weights, 1, 12);
    const int columns = static_cast<int>(std::ceil(std::sqrt(n * wide / std::max(1.0, deep))));
    const int rows = (n + columns - 1) / columns;
    for (int i = 0; i < n; ++i) {
      const double u = ((i % columns) + 0.5) / columns - 0.5, v = ((i / columns) + 0.5) / rows - 0.5;
      const double half = 0.3 * std::min(wide / columns, deep / rows);
      const Point at_top = top + (u * wide) * at.stance.right + (v * deep) * at.stance.away +
                           (half * 0.5) * at.stance.up;
      out.actors.push_back({block(at_top, {half * at.stance.right, half * at.stance.away,
                                           (half * 0.5) * at.stance.up}),
                            Fill::weight, false, {}});
    }
  }
}

// Two straight sticks across the work, one at either end: from the near one's edge to the far one's.
void add_sighting_sticks(const Plan& plan, const Situation& at, Drawing& out) {
  const geometry::Box box = box_of(plan, at.still);
  const Direction half = 0.5 * (box.hi - box.lo);
  const auto along = [&](const Direction& d) {
    return std::abs(half.x * d.x) + std::abs(half.y * d.y) + std::abs(half.z * d.z);
  };
  const double wide = along(at.stance.right), deep = along(at.stance.away), high = along(at.stance.up);
  const double tall = 0.06 * (wide + deep);
  for (const double end : {-0.9, 0.9}) {
    const Point middle = box.lo + half + (end * deep) * at.stance.away + (high + tall / 2) * at.stance.up;
    out.actors.push_back({block(middle, {(1.15 * wide) * at.stance.right,
                                         (0.015 * (wide + deep)) * at.stance.away,
                                         (tall / 2) * at.stance.up}),
                          Fill::pad, false, {}});
  }
}

void add_pieces(const std::vector<Piece>& pieces, Fill iron, const Direction& off, Drawing& out) {
  for (const Piece& piece : pieces) {
    const Fill fill = piece.stuff == Stuff::wood ? Fill::pad : iron;
    out.actors.push_back({moved(piece.facets, off), fill, false, {}});
  }
}

void add_clamps(const Plan& plan, const Stage& stage, const Step& step, const Situation& at,
                Drawing& out) {
  const Direction eye = bench_view(at.stance).eye;
  const auto add = [&](const std::vector<ClampSolid>& clamps, Fill iron, bool bare, const Direction& off) {
    for (ClampSolid clamp : clamps) {
      if (bare) {
        std::erase_if(clamp.pieces, [](const Piece& piece) { return piece.stuff == Stuff::wood; });
      }
      add_pieces(clamp.pieces, iron, off, out);
    }
  };
  out.own = clamp_solids(at.own, eye, true);
  add(out.own, Fill::iron, at.bare_clamps, {});
  const auto& on = at.own.empty() ? at.earlier : at.own;
  if (!on.empty() && !at.bare_clamps) {
    add_pieces(backing_pieces(*on.front(), box_of(plan, at.still)), Fill::iron, {}, out);
  }
  add(clamp_solids(at.earlier, eye, false), Fill::iron_earlier, at.bare_earlier, {});
  add(clamp_solids(at.carried, eye, false), Fill::iron_earlier, at.bare_earlier, at.off);
  if (step.kind == StepKind::cauls) {
    add_pieces(cross_caul_pieces(stage, box_of(plan, at.still), at.stance.up), Fill::iron, {}, out);
  }
}

// Lines over a face and round it, to see how much of it is in view.
std::vector<model::Segment3> lines_over(const Facet& facet, double spacing_mm) {
  const geometry::Ring& outer = facet.regions.front().outer;
  std::vector<model::Segment3> lines = model::hatching_of(
      facet.regions, facet.normal, geometry::unit(outer[1] - outer[0]), std::max(0.5, spacing_mm));
  for (const geometry::Polygon& region : facet.regions) {
    for (std::size_t i = 0; i < region.outer.size(); ++i) {
      lines.push_back({region.outer[i], region.outer[(i + 1) % region.outer.size()]});
    }
  }
  return lines;
}

// The share of a face that is in view.
double share_in_view(const Facet& facet, const model::Scene& scene, const model::View& view) {
  if (dot(facet.normal, view.eye) < 0.05) {
    return 0;
  }
  const std::vector<model::Segment3> lines = lines_over(facet, std::sqrt(facet.area_mm2) / 6);
  double all = 0, seen = 0;
  for (const model::Segment3& line : lines) {
    const model::Point2 a = view.at(line.a), b = view.at(line.b);
    all += geometry::hypotenuse(b.u - a.u, b.v - a.v);
  }
  for (const model::Segment2& piece : scene.visible(lines)) {
    seen += geometry::hypotenuse(piece.b.u - piece.a.u, piece.b.v - piece.a.v);
  }
  return all > 0 ? seen / all : 0;
}

std::vector<model::Body> bodies_of(const Drawing& drawing) {
  std::vector<model::Body> bodies;
  for (const Actor& actor : drawing.actors) {
    bodies.push_back({actor.facets, {}});
  }
  return bodies;
}

// Of the ways to lay or turn it, the one that shows most of its glue; as it will stand, flat and
// lengthwise where that is as good.
Stance best_stance(const Plan& plan, const Situation& at, const Drawing& drawing) {
  const std::vector<model::Body> bodies = bodies_of(drawing);
  const auto worth = [&](const Stance& stance) {
    const model::View view = bench_view(stance);
    const model::Scene scene(bodies, view);
    double shown = 0;
    for (const Actor& glue : drawing.wet) {
      const Facet& facet = glue.facets.front();
      shown += std::sqrt(facet.area_mm2) * share_in_view(facet, scene, view) *
               (0.6 + 0.4 * dot(facet.normal, view.eye));
    }
    if (!at.lone) {
      return shown;
    }
    const auto size = reach(plan.parts[at.moving.front()].facets, {stance.right, stance.away, stance.up});
    const bool flat = size[2].size() <= size[0].size() && size[2].size() <= size[1].size();
    const bool lengthwise = size[0].size() >= size[1].size() && size[0].size() >= size[2].size();
    return shown * (1 + (flat ? 0.1 : 0) + (lengthwise ? 0.1 : 0));
  };
  const std::array<Stance, 4> round = turned_about(at.stance);
  const std::vector<Stance> all =
      at.lone ? stances_from(at.stance) : std::vector<Stance>(round.begin(), round.end());
  Stance best = at.stance;
  // Turning it has to be worth its while.
  double most = worth(best) * (at.lone ? 1.05 : 1.5);
  for (const Stance& stance : all) {
    if (const double now = worth(stance); now > most + 1e-9) {
      most = now;
      best = stance;
    }
  }
  return best;
}

// Where most of the pins go in on the far side, the work is seen from there.
Stance seen_for(const Stage& stage, const Step& step, const Situation& at, const Plan& plan) {
  if (step.kind != StepKind::fasten) {
    return at.stance;
  }
  const Direction eye = bench_view(at.stance).eye;
  const Direction level = eye - dot(eye, at.stance.up) * at.stance.up;
  const geometry::Box box = box_of(plan, at.still);
  const Point middle = box.lo + 0.5 * (box.hi - box.lo);
  double towards = 0;
  for (const planner::plan::Fastening& row : stage.fastenings) {
    for (const Point& p : row.at) {
      towards += dot(p - middle, level);
    }
  }
  return towards < 0 ? turned_about(at.stance).back() : at.stance;
}

int shade_of(const Direction& normal, const Stance& stance) {
  return dot(normal, stance.up) > 0.6 ? 0 : std::abs(dot(normal, stance.right)) > 0.6 ? 2 : 1;
}

constexpr const char* kFillWord[] = {"s", "w", "g", "i", "e", "p", "m"};

// An edge with the faces in view that it bounds.
using EdgeKey = std::tuple<long, long, long, long, long, long>;
EdgeKey key(const Point& a, const Point& b) {
  const auto whole = [](double v) { return std::lround(v * 50); };
  const auto p = std::tuple(whole(a.x), whole(a.y), whole(a.z));
  const auto q = std::tuple(whole(b.x), whole(b.y), whole(b.z));
  return p < q ? std::tuple_cat(p, q) : std::tuple_cat(q, p);
}
struct Edges {
  std::vector<model::Segment3> outline, inside;  // of one face in view; of two
};
Edges edges_in_view(const std::vector<Facet>& facets, const model::View& view) {
  std::map<EdgeKey, int> faces;
  const auto each = [&](const auto& act) {
    for (const Facet& facet : facets) {
      if (!(dot(facet.normal, view.eye) > 1e-6)) {
        continue;
      }
      for (const geometry::Polygon& region : facet.regions) {
        const auto round = [&](const geometry::Ring& ring) {
          for (std::size_t i = 0; i < ring.size(); ++i) {
            act(ring[i], ring[(i + 1) % ring.size()]);
          }
        };
        round(region.outer);
        std::for_each(region.holes.begin(), region.holes.end(), round);
      }
    }
  };
  each([&](const Point& a, const Point& b) { ++faces[key(a, b)]; });
  Edges out;
  each([&](const Point& a, const Point& b) {
    int& n = faces[key(a, b)];
    if (n > 0) {
      (n == 1 ? out.outline : out.inside).push_back({a, b});
      n = 0;  // each once
    }
  });
  return out;
}

}  // namespace

std::vector<Facet> drawn_part(const Plan& plan, const Situation& at, PartId part) {
  std::vector<Facet> facets = plan.parts[part].facets;
  if (!holds(at.moving, part)) {
    return facets;
  }
  return at.fold ? turned(std::move(facets), at.fold->hinge, at.fold_rad) : moved(std::move(facets), at.off);
}

Drawing drawing_of(const Plan& plan, const Stage& stage, const Step& step, const Situation& at) {
  Drawing out;
  out.stance = seen_for(stage, step, at, plan);
  for (const std::vector<PartId>* parts : {&at.still, &at.moving}) {
    for (const PartId part : *parts) {
      const bool mover = parts == &at.moving;
      out.actors.push_back({drawn_part(plan, at, part), mover ? Fill::wood : Fill::still, mover, part});
    }
  }
  for (const planner::work::JointId id : at.wet) {
    add_wet(plan, at, id, out);
  }
  if (step.kind == StepKind::spread) {
    // Only the part that gets its glue now.
    std::erase_if(out.wet, [&](const Actor& glue) { return !holds(step.parts, *glue.part); });
    std::for_each(out.wet.begin(), out.wet.end(), [](Actor& glue) { glue.bold = true; });
  }
  add_clamps(plan, stage, step, at, out);
  if (length(at.off) > 0) {
    const geometry::Point seat = seat_of(plan, at);
    out.more = {seat, seat + at.off};
  }
  if (at.turns_round && !out.wet.empty()) {
    out.stance = best_stance(plan, at, out);
  }
  if (step.kind == StepKind::load) {
    add_loading(plan, stage, at, out);
  }
  if (step.check == planner::plan::Check::wind) {
    add_sighting_sticks(plan, at, out);
  }
  return out;
}

Painted::Painted(const Drawing& drawing) : drawing_(drawing), view_(bench_view(drawing.stance)) {
  const std::vector<model::Body> bodies = bodies_of(drawing);
  Area mm;
  for (const Actor& actor : drawing.actors) {
    for (const Facet& facet : actor.facets) {
      for (const geometry::Polygon& region : facet.regions) {
        for (const Point& p : region.outer) {
          mm.take_in(view_.at(p));
        }
      }
    }
  }
  Area drawn = mm;
  for (const Point& p : drawing.more) {
    mm.take_in(view_.at(p));
  }
  scene_.emplace(bodies, view_);
  canvas_.emplace(mm, view_);
  area_.take_in(canvas_->at(model::Point2{drawn.u0, drawn.v0}));
  area_.take_in(canvas_->at(model::Point2{drawn.u1, drawn.v1}));
}

namespace {

// How wide a face is on the sheet, taken as a strip.
double width_of(const Facet& facet, const model::View& view, double scale) {
  double round = 0;
  for (const geometry::Polygon& region : facet.regions) {
    for (std::size_t i = 0; i < region.outer.size(); ++i) {
      const model::Point2 a = view.at(region.outer[i]), b = view.at(region.outer[(i + 1) % region.outer.size()]);
      round += geometry::hypotenuse(b.u - a.u, b.v - a.v);
    }
  }
  return round > 0 ? 2 * scale * facet.area_mm2 * dot(facet.normal, view.eye) / round : 0;
}

// A clamp's piece of which one side alone is wider than its outline is drawn by that side.
bool is_mere_rim(const Actor& actor, const Facet& facet, const model::View& view, double scale) {
  constexpr double kRim = 5;
  return !actor.part && width_of(facet, view, scale) < kRim &&
         std::count_if(actor.facets.begin(), actor.facets.end(), [&](const Facet& other) {
           return width_of(other, view, scale) >= kRim;
         }) == 1;
}

// Less of a face's hatching than this is in view where lines only graze it; units of the sheet.
constexpr double kGrazed = 12;

void add_faces(const Actor& actor, std::size_t body, const Stance& stance, const model::View& view,
               const model::Scene& scene, double scale, std::vector<Face>& faces) {
  for (const Facet& facet : actor.facets) {
    if (!(dot(facet.normal, view.eye) > 1e-6) || is_mere_rim(actor, facet, view, scale)) {
      continue;
    }
    double seen = 0;
    for (const model::Segment2& piece : scene.visible(lines_over(facet, std::sqrt(facet.area_mm2) / 6))) {
      seen += scale * geometry::hypotenuse(piece.b.u - piece.a.u, piece.b.v - piece.a.v);
    }
    if (seen < kGrazed) {
      continue;
    }
    for (const geometry::Polygon& region : facet.regions) {
      const int fill = 4 * static_cast<int>(actor.fill) + shade_of(facet.normal, stance);
      Face face{facet.normal, {region.outer}, fill, body};
      face.rings.insert(face.rings.end(), region.holes.begin(), region.holes.end());
      faces.push_back(std::move(face));
    }
  }
}

}  // namespace

void Painted::write(Markup& svg) const {
  write_lines(svg, write_fills(svg));
  write_unseen_glue(svg);
}

std::vector<bool> Painted::write_fills(Markup& svg) const {
  std::vector<Face> faces;
  std::size_t body = 0;
  for (const std::vector<Actor>* actors : {&drawing_.actors, &drawing_.wet}) {
    for (const Actor& actor : *actors) {
      add_faces(actor, body++, drawing_.stance, view_, *scene_, canvas_->scale(), faces);
    }
  }
  std::vector<bool> cut(body);
  for (const Layer& layer : painted_layers(std::move(faces), view_, 0.5 / canvas_->scale())) {
    std::vector<geometry::Ring> rings;
    for (const Face& face : layer.faces) {
      rings.insert(rings.end(), face.rings.begin(), face.rings.end());
      cut[face.body] = cut[face.body] || layer.cut;
    }
    const std::string d = closed_path(rings, *canvas_);
    if (!d.empty()) {
      const std::string word = kFillWord[layer.fill / 4] + std::to_string(layer.fill % 4);
      svg.lone("path", {{"class", layer.cut ? word + " cut" : word}, {"d", d}});
    }
  }
  return cut;
}

void Painted::write_lines(Markup& svg, const std::vector<bool>& cut) const {
  std::vector<model::Segment2> inner;
  for (std::size_t body = 0; body < drawing_.actors.size(); ++body) {
    const Actor& actor = drawing_.actors[body];
    const Edges edges = edges_in_view(actor.facets, view_);
    const std::vector<model::Segment2> outline = scene_->visible(edges.outline);
    const std::vector<model::Segment2> inside = scene_->visible(edges.inside);
    if (cut[body]) {
      inner.insert(inner.end(), inside.begin(), inside.end());
    }
    if (!actor.part) {
      if (cut[body]) {
        inner.insert(inner.end(), outline.begin(), outline.end());
      }
      continue;
    }
    std::string outer = lines_path(outline, *canvas_);
    const char* kind = actor.bold ? "out bold" : "out";
    if (outer.empty()) {
      outer = lines_path(inside, *canvas_);
    }
    if (outer.empty() && drawing_.tells_hidden) {
      // Wholly behind others: dashed through them, so that it isn't forgotten.
      std::vector<model::Segment2> through;
      for (const model::Segment3& edge : edges.outline) {
        through.push_back({view_.at(edge.a), view_.at(edge.b)});
      }
      outer = lines_path(through, *canvas_);
      kind = "out hidden";
    }
    svg.lone("path", {{"class", kind}, {"data-part", std::to_string(*actor.part)}, {"d", outer}});
  }
  if (const std::string d = lines_path(inner, *canvas_); !d.empty()) {
    svg.lone("path", {{"class", "in"}, {"d", d}});
  }
}

// Glue that can't be seen from here is dashed through what hides it.
void Painted::write_unseen_glue(Markup& svg) const {
  constexpr double kSeen = 0.12;  // share of a face in view that is enough
  std::vector<model::Segment2> unseen;
  for (const Actor& glue : drawing_.wet) {
    const Facet& facet = glue.facets.front();
    if (!glue.bold || share_in_view(facet, *scene_, view_) >= kSeen) {
      continue;
    }
    for (const geometry::Polygon& region : facet.regions) {
      const geometry::Ring& ring = region.outer;
      for (std::size_t i = 0; i < ring.size(); ++i) {
        unseen.push_back({view_.at(ring[i]), view_.at(ring[(i + 1) % ring.size()])});
      }
    }
  }
  if (const std::string d = lines_path(unseen, *canvas_); !d.empty()) {
    svg.lone("path", {{"class", "ghost"}, {"d", d}});
  }
}

std::string framed(const std::string& title, const char* colour, const Area& drawn, const Area& written,
                   const Markup& inside) {
  constexpr double kRim = 14;
  // Words may lie beyond the sheet, which then reaches round them.
  constexpr double kRound = 8;  // what a letter's box goes below its line too
  const double left = std::min(0.0, std::floor(written.u0 - kRound));
  const double right = std::max(kWide, std::ceil(written.u1 + kRound));
  const double top = std::min(std::max(0.0, std::floor(std::min(drawn.v0, written.v0) - kRim)),
                              std::floor(written.v0 - kRound));
  const double bottom = std::max(std::min(kHigh, std::ceil(std::max(drawn.v1, written.v1) + kRim)),
                                 std::ceil(written.v1 + kRound));
  Markup svg;
  svg.open("svg", {{"class", std::string("step ") + colour},
                   {"viewBox", fmt::format("{:.0f} {:.0f} {:.0f} {:.0f}", left, top, right - left, bottom - top)},
                   {"role", "img"}});
  svg.element("title", title).raw(inside.str()).close();
  return svg.str();
}

}  // namespace cli::pictures
