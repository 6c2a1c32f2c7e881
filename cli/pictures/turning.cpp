#include "cli/pictures/turning.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include <fmt/format.h>

#include "cli/model/line_drawing.h"
#include "cli/pictures/clamp_solids.h"
#include "cli/pictures/sides.h"
#include "cli/pictures/stance.h"
#include "planner/plan/plan_parts.h"

namespace cli::pictures {
namespace {

using geometry::Direction;
using geometry::Facet;
using geometry::Point;
using planner::plan::Plan;

// Points, each once, and what is made of them by their numbers.
class Mesh {
 public:
  void add(const std::vector<Facet>& facets, double lift_mm) {
    for (const Facet& facet : facets) {
      for (const geometry::Polygon& region : facet.regions) {
        for (const Point& p : triangles_of(region, facet.normal)) {
          put(triangles_, p + lift_mm * facet.normal);
        }
      }
    }
  }
  void add_inside(const Facet& facet) {
    for (const geometry::Polygon& region : facet.regions) {
      for (const Point& p : triangles_of(region, facet.normal)) {
        put(inside_, p);
      }
    }
  }
  void add_mark(const std::vector<Point>& triangles) {
    for (const Point& p : triangles) {
      put(marks_, p);
    }
  }
  // Every edge once, whichever side it is seen from.
  void add_edges(const std::vector<Facet>& facets) {
    const auto round = [&](const geometry::Ring& ring) {
      for (std::size_t i = 0; i < ring.size(); ++i) {
        const Point &a = ring[i], &b = ring[(i + 1) % ring.size()];
        // The face on its other side has it the other way round.
        if (std::array{a.x, a.y, a.z} < std::array{b.x, b.y, b.z}) {
          put(edges_, a);
          put(edges_, b);
        }
      }
    };
    for (const Facet& facet : facets) {
      for (const geometry::Polygon& region : facet.regions) {
        round(region.outer);
        std::for_each(region.holes.begin(), region.holes.end(), round);
      }
    }
  }
  std::string text() const {
    return fmt::format("{{\"p\":[{}],\"t\":[{}],\"e\":[{}],\"i\":[{}],\"s\":[{}]}}", points_, triangles_, edges_, inside_,
                       marks_);
  }

 private:
  void put(std::string& into, const Point& p) {
    const std::array<long, 3> key{std::lround(10 * p.x), std::lround(10 * p.y), std::lround(10 * p.z)};
    const auto [at, is_new] = known_.try_emplace(key, known_.size());
    if (is_new) {
      points_ += fmt::format("{}{},{},{}", points_.empty() ? "" : ",", key[0], key[1], key[2]);
    }
    into += fmt::format("{}{}", into.empty() ? "" : ",", at->second);
  }
  std::map<std::array<long, 3>, std::size_t> known_;
  std::string points_, triangles_, edges_, inside_, marks_;
};

std::vector<Facet> glue_on(const Plan& plan, planner::work::PartId part) {
  std::vector<Facet> out;
  for (const planner::work::Joint& joint : plan.joints) {
    for (std::size_t side = 0; side < 2; ++side) {
      if (joint.parts[side] != part || !joint.glued || !joint.spread[side]) {
        continue;
      }
      for (const planner::work::GlueFace& face : joint.faces) {
        const geometry::Contact& contact = face.contact;
        out.push_back({side == 0 ? contact.normal : -contact.normal, 0, contact.regions, contact.area_mm2});
      }
    }
  }
  return out;
}

std::string clamps_text(const Plan& plan, Stuff stuff) {
  Mesh mesh;
  std::vector<const planner::plan::PlannedClamp*> clamps;
  if (!plan.stages.empty()) {
    for (const planner::plan::PlannedClamp& clamp : plan.stages.back().clamps) {
      clamps.push_back(&clamp);
    }
  }
  for (const ClampSolid& solid : clamp_solids(clamps, bench_view({}).eye, true)) {
    for (const Piece& piece : solid.pieces) {
      if (piece.stuff == stuff) {
        mesh.add(piece.facets, 0);
      }
    }
  }
  return mesh.text();
}

std::string part_text(const planner::plan::PlanPart& part, const Direction& pulled_mm,
                      const std::vector<Facet>& glued, const std::vector<Facet>& outside,
                      const std::vector<Facet>& inside) {
  Mesh wood, glue;
  wood.add(outside, 0);
  std::for_each(inside.begin(), inside.end(), [&](const Facet& facet) { wood.add_inside(facet); });
  wood.add_edges(part.facets);
  wood.add_mark(show_marks(part));
  glue.add(glued, 0.3);
  return fmt::format("{{\"c\":\"{}\",\"x\":[{},{},{}],\"m\":{},\"g\":{}}}", colour_class(part.species),
                     std::lround(10 * pulled_mm.x), std::lround(10 * pulled_mm.y),
                     std::lround(10 * pulled_mm.z), wood.text(), glue.text());
}

// As the work lies when the last stage ends.
Stance stance_at_last(const Plan& plan) {
  if (plan.stages.empty()) {
    return {};
  }
  const planner::plan::Stage& last = plan.stages.back();
  return stance_on(last.steps.empty() ? last.bench_face : bench_face_after(last, last.steps.back()));
}

}  // namespace

std::vector<Point> triangles_of(const geometry::Polygon& region, const Direction& normal) {
  const Direction u_way = geometry::unit(region.outer[1] - region.outer[0]);
  const model::View plane{u_way, cross(normal, u_way), normal};
  const double w = plane.nearness(region.outer[0]);
  struct Side {
    model::Point2 low, high;
    double u_at(double v) const {
      return low.u + (v - low.v) / (high.v - low.v) * (high.u - low.u);
    }
  };
  std::vector<Side> sides;
  std::vector<double> cuts;
  constexpr double kFlat_mm = 1e-6;
  const auto take = [&](const geometry::Ring& ring) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const model::Point2 a = plane.at(ring[i]), b = plane.at(ring[(i + 1) % ring.size()]);
      cuts.push_back(a.v);
      if (std::abs(a.v - b.v) > kFlat_mm) {
        sides.push_back(a.v < b.v ? Side{a, b} : Side{b, a});
      }
    }
  };
  take(region.outer);
  std::for_each(region.holes.begin(), region.holes.end(), take);
  std::sort(cuts.begin(), cuts.end());
  std::vector<Point> out;
  const auto put = [&](double u, double v) {
    out.push_back(Point{} + u * plane.right + v * plane.up + w * plane.eye);
  };
  for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
    const double lo = cuts[i], hi = cuts[i + 1], middle = (lo + hi) / 2;
    if (hi - lo < kFlat_mm) {
      continue;
    }
    std::vector<const Side*> across;
    for (const Side& side : sides) {
      if (side.low.v < middle && side.high.v > middle) {
        across.push_back(&side);
      }
    }
    std::sort(across.begin(), across.end(),
              [&](const Side* a, const Side* b) { return a->u_at(middle) < b->u_at(middle); });
    // Inside between the first and the second, the third and the fourth ...
    for (std::size_t k = 0; k + 1 < across.size(); k += 2) {
      const double a = across[k]->u_at(lo), b = across[k + 1]->u_at(lo);
      const double c = across[k + 1]->u_at(hi), d = across[k]->u_at(hi);
      put(a, lo), put(b, lo), put(c, hi);
      put(a, lo), put(c, hi), put(d, hi);
    }
  }
  return out;
}

const char* colour_class(const std::string& species) {
  struct Row {
    const char *piece, *colour;
  };
  static constexpr std::array<Row, 26> kRows{{
      {"walnut", "dark"},   {"wenge", "dark"},     {"ebony", "dark"},    {"rosewood", "dark"},
      {"cherry", "red"},    {"mahogany", "red"},   {"sapele", "red"},    {"padauk", "red"},
      {"bubinga", "red"},   {"redwood", "red"},    {"purple", "red"},    {"redcedar", "red"},
      {"oak", "tan"},       {"ash", "tan"},        {"teak", "tan"},      {"hickory", "tan"},
      {"beech", "tan"},     {"butternut", "tan"},  {"iroko", "tan"},     {"elm", "tan"},
      {"alder", "tan"},     {"mdf", "tan"},        {"particle", "tan"},  {"zebra", "tan"},
      {"larch", "tan"},     {"cypress", "tan"},
  }};
  for (const Row& row : kRows) {
    if (species.find(row.piece) != std::string::npos) {
      return row.colour;
    }
  }
  return "pale";
}

std::string turning_model(const Plan& plan, const std::vector<Direction>& pulled_mm) {
  std::string parts;
  const Insides insides(plan);
  for (planner::work::PartId id = 0; id < plan.parts.size(); ++id) {
    std::vector<Facet> inside, outside;
    for (const Facet& facet : plan.parts[id].facets) {
      (insides.looks_inward(id, facet) ? inside : outside).push_back(facet);
    }
    parts += (id == 0 ? "" : ",") + part_text(plan.parts[id], pulled_mm[id], glue_on(plan, id), outside, inside);
  }
  const Stance stance = stance_at_last(plan);
  const auto way = [](const Direction& d) {
    return fmt::format("{:.0f},{:.0f},{:.0f}", d.x + 0.0, d.y + 0.0, d.z + 0.0);  // no "-0"
  };
  return fmt::format("{{\"parts\":[{}],\"iron\":{},\"pads\":{},\"bench\":[{},{},{}]}}", parts,
                     clamps_text(plan, Stuff::iron), clamps_text(plan, Stuff::wood), way(stance.right),
                     way(stance.away), way(stance.up));
}

}  // namespace cli::pictures
