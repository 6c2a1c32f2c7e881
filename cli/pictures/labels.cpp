#include "cli/pictures/labels.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "geometry/elementary.h"

namespace cli::pictures {
namespace {

using geometry::Direction;
using geometry::Facet;
using geometry::Point;

constexpr double kLetter = 36, kName = 27, kNumber = 26;  // heights of type
constexpr double kLetterWide = 0.68, kNameWide = 0.56;  // widths to them, of a sans serif on the average
constexpr double kRing = 21;

std::string whole(double value) {
  return std::to_string(std::lround(value));
}

// Letters run along the grain where the face shows it, else along its longer side, and never stand
// on their heads: left to right, or from the bottom up where they would be steep.
struct Writing {
  Direction along, upward;
};
Writing writing_on(const Facet& facet, const Direction& grain, const model::View& view) {
  Direction along = grain - dot(grain, facet.normal) * facet.normal;
  if (length(along) < 0.5) {
    const Point& a = facet.regions.front().outer[0];
    double longest = 0;
    for (const Point& b : facet.regions.front().outer) {
      if (length(b - a) > longest && longest == 0) {
        along = b - a;
        longest = length(b - a);
      }
    }
  }
  along = geometry::unit(along);
  const double right = dot(along, view.right), up = dot(along, view.up);
  if (right < -0.05 || (right < 0.05 && up < 0)) {
    along = -along;
  }
  return {along, cross(facet.normal, along)};
}

}  // namespace

Area Labels::used() const {
  Area all;
  for (const Area& area : taken_) {
    all.take_in({area.u0, area.v0});
    all.take_in({area.u1, area.v1});
  }
  return all;
}

bool Labels::is_untaken(const Area& area) const {
  return std::none_of(taken_.begin(), taken_.end(), [&](const Area& other) { return area.meets(other); });
}

bool Labels::is_free(const Area& area) const {
  return area.within({4, 4, kWide - 4, kHigh - 4}) && is_untaken(area);
}

// Nothing is drawn there: a line far behind everything is seen all along.
bool Labels::is_blank(const Area& area) const {
  const model::View& view = canvas_.view();
  const auto behind = [&](double u, double v) {
    const model::Point2 origin = canvas_.at(Point{});
    constexpr double kFar_mm = 1e6;
    return Point{} + ((u - origin.u) / canvas_.scale()) * view.right +
           ((origin.v - v) / canvas_.scale()) * view.up + (-kFar_mm) * view.eye;
  };
  const std::array<model::Segment3, 4> lines{{{behind(area.u0, area.v0), behind(area.u1, area.v1)},
                                              {behind(area.u0, area.v1), behind(area.u1, area.v0)},
                                              {behind(area.u0, area.v0), behind(area.u1, area.v0)},
                                              {behind(area.u0, area.v1), behind(area.u1, area.v1)}}};
  double asked = 0, seen = 0;
  for (const model::Segment3& line : lines) {
    asked += length(line.b - line.a);
  }
  for (const model::Segment2& piece : scene_.visible(lines)) {
    seen += geometry::hypotenuse(piece.b.u - piece.a.u, piece.b.v - piece.a.v);
  }
  return seen > 0.999 * asked;
}

bool Labels::in_view(const Spot& spot, std::size_t body) const {
  const Direction run = spot.long_mm * spot.along, rise = spot.high_mm * spot.upward;
  const Point a = spot.at + 0.05 * spot.normal;
  const std::array<model::Segment3, 4> lines{{{a, a + (run + rise)},
                                              {a + run, a + rise},
                                              {a, a + run},
                                              {a + rise, a + (run + rise)}}};
  double asked = 0, seen = 0;
  for (const model::Segment3& line : lines) {
    const model::Point2 p = canvas_.view().at(line.a), q = canvas_.view().at(line.b);
    asked += geometry::hypotenuse(q.u - p.u, q.v - p.v);
  }
  for (const model::Segment2& piece : scene_.visible(lines, body)) {
    seen += geometry::hypotenuse(piece.b.u - piece.a.u, piece.b.v - piece.a.v);
  }
  return seen > 0.98 * asked;
}

bool Labels::on_dark(const Spot& spot) const {
  const Point middle = spot.at + (spot.long_mm / 2) * spot.along + (spot.high_mm / 2) * spot.upward;
  return std::any_of(dark_.begin(), dark_.end(), [&](const Facet* facet) {
    constexpr double kSame_mm = 0.5;
    return dot(facet->normal, spot.normal) > 0.999 &&
           std::abs(dot(middle, facet->normal) - facet->offset_mm) < kSame_mm &&
           std::any_of(facet->regions.begin(), facet->regions.end(), [&](const geometry::Polygon& region) {
             return contains(region, middle, spot.high_mm);
           });
  });
}

std::optional<Labels::Spot> Labels::spot_on(const std::vector<Facet>& facets, std::size_t body,
                                            const Direction& grain, double long_units,
                                            double high_units) const {
  const model::View& view = canvas_.view();
  std::vector<const Facet*> faces;
  for (const Facet& facet : facets) {
    if (dot(facet.normal, view.eye) > 0.15) {
      faces.push_back(&facet);
    }
  }
  std::stable_sort(faces.begin(), faces.end(), [&](const Facet* a, const Facet* b) {
    return a->area_mm2 * dot(a->normal, view.eye) > b->area_mm2 * dot(b->normal, view.eye);
  });
  constexpr std::size_t kTriedFaces = 6;
  faces.resize(std::min(faces.size(), kTriedFaces));
  for (const Facet* facet : faces) {
    const Writing writing = writing_on(*facet, grain, view);
    Spot spot{{}, writing.along, writing.upward, facet->normal, long_units / canvas_.scale(),
              high_units / canvas_.scale(), {}};
    for (const geometry::Polygon& region : facet->regions) {
      const geometry::Extent u = extent_along(region, spot.along), v = extent_along(region, spot.upward);
      if (u.size() < spot.long_mm * 1.05 || v.size() < spot.high_mm * 1.05) {
        continue;
      }
      // The middle first, then outwards.
      for (const double tu : {0.5, 0.3, 0.7, 0.12, 0.88, 0.0, 1.0}) {
        for (const double tv : {0.5, 0.25, 0.75, 0.02, 0.98}) {
          const double at_u = u.lo + tu * (u.size() - spot.long_mm);
          const double at_v = v.lo + tv * (v.size() - spot.high_mm);
          spot.at = Point{} + at_u * spot.along + at_v * spot.upward + facet->offset_mm * facet->normal;
          const Direction run = spot.long_mm * spot.along, rise = spot.high_mm * spot.upward;
          spot.area = {};
          bool inside = true;
          for (const Direction& corner : {Direction{}, run, rise, run + rise}) {
            inside = inside && contains(region, spot.at + corner, 0);
            spot.area.take_in(canvas_.at(spot.at + corner));
          }
          if (inside && is_free(spot.area) && in_view(spot, body)) {
            return spot;
          }
        }
      }
    }
  }
  return std::nullopt;
}

void Labels::write_part(const std::vector<Facet>& facets, std::size_t body, const Direction& grain,
                        const std::string& letter, const std::string& name, Markup& svg) {
  const double letter_long = kLetterWide * kLetter * static_cast<double>(letter.size());
  const double name_long = kNameWide * kName * static_cast<double>(name.size());
  const double gap = name.empty() ? 0 : 0.35 * kLetter;
  std::optional<Spot> spot = spot_on(facets, body, grain, letter_long + gap + name_long, kLetter);
  const bool named = spot.has_value();
  if (!spot) {
    spot = spot_on(facets, body, grain, letter_long, 0.8 * kLetter);
  }
  if (!spot) {
    write_beside(facets, letter, svg);
    return;
  }
  keep_clear(spot->area);
  const model::Point2 at = canvas_.at(spot->at + (0.15 * spot->high_mm) * spot->upward);
  const model::Point2 right = canvas_.way(spot->along), up = canvas_.way(spot->upward);
  const double k = canvas_.scale();
  svg.open("text",
           {{"class", on_dark(*spot) ? "on-part rim" : "on-part"},
            {"transform", fmt::format("matrix({} {} {} {} {} {})", coordinate(right.u / k),
                                      coordinate(right.v / k), coordinate(-up.u / k),
                                      coordinate(-up.v / k), whole(at.u), whole(at.v))}});
  svg.element("tspan", {{"class", "letter"}}, letter);
  if (named && !name.empty()) {
    svg.element("tspan", {{"class", "name"}}, " " + name);
  }
  svg.close();
}

void Labels::write_beside(const std::vector<Facet>& facets, const std::string& letter, Markup& svg) {
  // From where the most of an edge is in view.
  std::vector<model::Segment3> edges =
      edges_of({std::span<const Facet>(facets), {}}, canvas_.view());
  const std::vector<model::Segment2> seen = scene_.visible(edges);
  if (seen.empty()) {
    return;
  }
  const auto longest = std::max_element(
      seen.begin(), seen.end(), [](const model::Segment2& a, const model::Segment2& b) {
        return geometry::hypotenuse(a.b.u - a.a.u, a.b.v - a.a.v) < geometry::hypotenuse(b.b.u - b.a.u, b.b.v - b.a.v);
      });
  const model::Point2 from =
      canvas_.at(model::Point2{(longest->a.u + longest->b.u) / 2, (longest->a.v + longest->b.v) / 2});
  const double half = 0.5 * kLetterWide * kLetter * static_cast<double>(letter.size());
  std::optional<model::Point2> to;
  for (const bool blank : {true, false}) {
    for (double radius = 40; radius < 260 && !to; radius += 22) {
      for (int i = 0; i < 16 && !to; ++i) {
        const double angle = (i % 2 == 0 ? 1 : -1) * (i + 1) / 2 * std::numbers::pi / 8 + 1.2;
        const model::Point2 at{from.u + radius * geometry::cosine(angle), from.v - radius * geometry::sine(angle)};
        Area area;
        area.take_in({at.u - half, at.v - kLetter / 2});
        area.take_in({at.u + half, at.v + kLetter / 2});
        if (is_free(area) && (!blank || is_blank(area))) {
          to = at;
          keep_clear(area);
        }
      }
    }
  }
  if (!to) {
    return;
  }
  const double run = geometry::hypotenuse(to->u - from.u, to->v - from.v), short_of = std::min(run, kLetter * 0.6);
  svg.lone("path", {{"class", "leader"},
                    {"d", fmt::format("M{} {}L{} {}", whole(from.u), whole(from.v),
                                      whole(to->u - short_of * (to->u - from.u) / run),
                                      whole(to->v - short_of * (to->v - from.v) / run))}});
  svg.element("text",
              {{"class", "letter beside"},
               {"x", whole(to->u)},
               {"y", whole(to->v + 0.36 * kLetter)}},
              letter);
}

model::Point2 Labels::write_clamp(const Point& handle, int n, bool its_turn, Markup& svg) {
  const model::Point2 end = canvas_.at(handle);
  model::Point2 to = end;
  for (double radius = 0; radius < 160; radius += 14) {
    bool found = false;
    for (int i = 0; i < (radius > 0 ? 16 : 1) && !found; ++i) {
      const double angle = i * std::numbers::pi / 8 + std::numbers::pi / 2;
      const model::Point2 at{std::clamp(end.u + radius * geometry::cosine(angle), kRing + 5, kWide - kRing - 5),
                             std::clamp(end.v - radius * geometry::sine(angle), kRing + 5, kHigh - kRing - 5)};
      Area area;
      area.take_in(at, kRing);
      if (is_free(area)) {
        keep_clear(area);
        to = at;
        found = true;
      }
    }
    if (found) {
      break;
    }
  }
  svg.open("g", {{"class", its_turn ? "number turn" : "number"}, {"data-no", std::to_string(n)}});
  if (geometry::hypotenuse(to.u - end.u, to.v - end.v) > kRing) {
    svg.lone("path", {{"class", "leader"},
                      {"d", fmt::format("M{} {}L{} {}", whole(end.u), whole(end.v), whole(to.u),
                                        whole(to.v))}});
  }
  svg.lone("circle", {{"cx", whole(to.u)}, {"cy", whole(to.v)}, {"r", whole(kRing)}});
  svg.element("text",
              {{"x", whole(to.u)}, {"y", whole(to.v + 0.36 * kNumber)}},
              std::to_string(n));
  svg.close();
  return to;
}

void Labels::write_side(const Point& middle, const Direction& way, const Area& drawing,
                        const std::string& word, Markup& svg, double tall) {
  const model::Point2 from = canvas_.at(middle), way_on_sheet = canvas_.way(way);
  const double run = geometry::hypotenuse(way_on_sheet.u, way_on_sheet.v);
  if (run < 0.1 * canvas_.scale()) {
    return;
  }
  const double du = way_on_sheet.u / run, dv = way_on_sheet.v / run;
  const double half_long = (kLetterWide * tall + 2) * static_cast<double>(word.size()) / 2 + 6;
  const double half_high = 0.55 * tall;
  const auto area_round = [&](double u, double v) {
    Area area;
    area.take_in({u - half_long, v - half_high});
    area.take_in({u + half_long, v + half_high});
    return area;
  };
  const auto on_sheet = [&](double r) {
    return area_round(std::clamp(from.u + r * du, half_long + 6, kWide - half_long - 6),
                      std::clamp(from.v + r * dv, half_high + 6, kHigh - half_high - 6));
  };
  const auto beyond = [&](double r) { return area_round(from.u + r * du, from.v + r * dv); };
  // From outside inwards, as near to the drawing as nothing is in the way.
  constexpr double kStep = 6;
  double r = 0;
  while (r < kWide && on_sheet(r).meets(drawing)) {
    r += kStep;
  }
  std::optional<Area> best;
  for (double out = r; !best && r < kWide && out < r + 20 * kStep; out += kStep) {
    best = is_free(on_sheet(out)) ? std::optional(on_sheet(out)) : std::nullopt;
  }
  for (double in = r - kStep; in > 0 && is_free(on_sheet(in)) && is_blank(on_sheet(in)); in -= kStep) {
    best = on_sheet(in);
  }
  if (!best) {
    double out = 0;
    while (beyond(out).meets(drawing) || !is_untaken(beyond(out))) {
      out += kStep;
    }
    for (best = beyond(out); out > 0 && is_untaken(beyond(out)) && is_blank(beyond(out)); out -= kStep) {
      best = beyond(out);
    }
  }
  keep_clear(*best);
  svg.element("text",
              {{"class", "side"},
               {"x", whole((best->u0 + best->u1) / 2)},
               {"y", whole((best->v0 + best->v1) / 2)}},
              word);
}

}  // namespace cli::pictures
