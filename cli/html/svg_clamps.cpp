#include "cli/html/svg_clamps.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include "cli/html/picture.h"
#include "cli/words/sentences.h"
#include "cli/words/spoken.h"
#include "cli/words/trade_words.h"
#include "geometry/elementary.h"
#include "planner/tables/clamp.h"

namespace cli::html {
namespace {

using geometry::Direction;
using geometry::Point;
using planner::plan::Plan;
using planner::plan::PlannedClamp;
using planner::plan::Stage;

// A rectangle in the picture's plane: its middle, its half sides along two directions of space.
struct Shape {
  const char* what;  // its class in the picture
  std::array<Point, 4> corners;
};
Shape rectangle(const char* what, const Point& middle, const Direction& half_a,
                const Direction& half_b) {
  return {what,
          {middle + (half_a + half_b), middle + (half_a - half_b), middle + (-half_a - half_b),
           middle + (half_b - half_a)}};
}

Shape pad_shape(const char* what, const planner::plan::PadSize& pad, const PlannedClamp& clamp,
                double shift_mm) {
  return rectangle(what, clamp.at + shift_mm * clamp.pad_along,
                   (pad.along_mm / 2) * clamp.pad_along,
                   (pad.across_mm / 2) * cross(clamp.axis, clamp.pad_along));
}

// A side that a strap lies along, from corner to corner, and the way out of the work there.
struct StrapSide {
  Point from, to;
  Direction along, out;
};
std::vector<StrapSide> strap_sides(const PlannedClamp& clamp) {
  std::vector<StrapSide> sides;
  for (std::size_t i = 0; i < clamp.round.size(); ++i) {
    const Point &from = clamp.round[i], &to = clamp.round[(i + 1) % clamp.round.size()];
    const Direction way = to - from;
    const Direction along = (1 / length(way)) * way;
    sides.push_back({from, to, along, cross(along, clamp.axis)});
  }
  return sides;
}

// Seen end on: arm and bar, where a hand or another clamp can't be; caul; pad or bare jaw.
std::vector<Shape> shapes_of(const PlannedClamp& clamp) {
  std::vector<Shape> shapes;
  const planner::tables::ClampKind* kind = planner::tables::find_clamp_kind(clamp.kind);
  if (kind != nullptr && kind->throat_mm && length(clamp.bar_side) > 0.5) {
    const Direction half_width = (kind->bar_width_mm / 2) * cross(clamp.axis, clamp.bar_side);
    const double reach = kind->throat_mm->lo, deep = kind->bar_depth_mm;
    shapes.push_back(rectangle("arm", clamp.at + (reach / 2) * clamp.bar_side,
                               (reach / 2) * clamp.bar_side, half_width));
    shapes.push_back(rectangle("bar", clamp.at + (reach + deep / 2) * clamp.bar_side,
                               (deep / 2) * clamp.bar_side, half_width));
  }
  if (clamp.caul) {
    shapes.push_back(pad_shape("caul", *clamp.caul, clamp, clamp.caul_shift_mm));
  }
  const planner::plan::PadSize& pad = clamp.pad;
  for (const StrapSide& side : strap_sides(clamp)) {
    const Direction half = (pad.along_mm / 2) * side.along, deep = (pad.thick_mm / 2) * side.out;
    shapes.push_back(rectangle("pad", side.from + half + deep, half, deep));
    shapes.push_back(rectangle("pad", side.to + (-half) + deep, half, deep));
  }
  if (pad.along_mm > 0 && clamp.round.empty()) {
    shapes.push_back(pad_shape(pad.thick_mm > 0 ? "pad" : "jaw", pad, clamp, 0));
  }
  return shapes;
}

void draw_clamp(const PlannedClamp& clamp, const model::View& view, const Frame& frame,
                Markup& svg) {
  svg.open("g", {{"class", clamp.level == planner::plan::Level::seat ? "clamp home" : "clamp"}});
  std::string strap;  // over its pads
  for (const StrapSide& side : strap_sides(clamp)) {
    for (const Point& end : {side.from, side.to}) {
      const model::Point2 p = frame.at(view.at(end + clamp.pad.thick_mm * side.out));
      strap += (strap.empty() ? "M" : "L") + coordinate(p.u) + " " + coordinate(p.v);
    }
  }
  if (!strap.empty()) {
    svg.lone("path", {{"class", "strap"}, {"d", strap + "Z"}});
  }
  for (const Shape& shape : shapes_of(clamp)) {
    std::string d;
    for (const Point& corner : shape.corners) {
      const model::Point2 p = frame.at(view.at(corner));
      d += (d.empty() ? "M" : "L") + coordinate(p.u) + " " + coordinate(p.v);
    }
    svg.lone("path", {{"class", shape.what}, {"d", d + "Z"}});
  }
  svg.close();
}

// A distance from the corner, each once: where it stands along its side of the picture, and how far
// away the nearest clamp is that it belongs to.
struct Measure {
  double mm = 0, at = 0, from = 0;
  std::string text;
};
std::vector<Measure> each_once(std::vector<Measure> all, bool nearest_is_greatest) {
  std::sort(all.begin(), all.end(), [](const Measure& a, const Measure& b) { return a.mm < b.mm; });
  std::vector<Measure> once;
  for (const Measure& m : all) {
    if (once.empty() || once.back().text != m.text) {
      once.push_back(m);
    } else {
      double& from = once.back().from;
      from = nearest_is_greatest ? std::max(from, m.from) : std::min(from, m.from);
    }
  }
  return once;
}

constexpr double kRow = 14;
constexpr std::size_t kRows = 3;

// Each text's row, counted from the work: as few as keep them apart. Nothing for one that finds no
// room.
std::vector<std::optional<std::size_t>> rows_of(const std::vector<Measure>& all) {
  std::array<double, kRows> free_from;  // where each row's last text ends
  free_from.fill(-1e300);
  std::vector<std::optional<std::size_t>> rows;
  for (const Measure& m : all) {
    const double half = 0.3 * kSmallText * static_cast<double>(m.text.size()) + 3;
    std::size_t row = 0;
    while (row < kRows && free_from[row] > m.at - half) {
      ++row;
    }
    if (row == kRows) {
      rows.emplace_back();
      continue;
    }
    free_from[row] = m.at + half;
    rows.emplace_back(row);
  }
  return rows;
}

void measure_below(const std::vector<Measure>& all, double floor, Markup& svg) {
  const std::vector<std::optional<std::size_t>> rows = rows_of(all);
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (!rows[i]) {
      continue;
    }
    const Measure& m = all[i];
    const double y = floor + kRow * (static_cast<double>(*rows[i]) + 1);
    svg.lone("path", {{"class", "measure"},
                      {"d", fmt::format("M{} {}V{}", coordinate(m.at), coordinate(m.from + kBadge),
                                        coordinate(y - kSmallText + 1))}});
    label(svg, {m.at, y}, "middle", m.text);
  }
}

void measure_left(const std::vector<Measure>& all, double wall, Markup& svg) {
  double last = 1e300;
  // From the bottom up; a text that would touch the one below it is nudged up, but not far.
  constexpr double kFar = 1.4 * kSmallText;
  for (const Measure& m : all) {
    const double y = std::min(m.at, last - kSmallText);
    if (m.at - y > kFar || y < kSmallText / 2) {
      continue;
    }
    last = y;
    svg.lone("path",
             {{"class", "measure"},
              {"d", fmt::format("M{} {}H{}L{} {}", coordinate(m.from - kBadge), coordinate(m.at),
                                coordinate(wall), coordinate(wall - 6), coordinate(y))}});
    label(svg, {wall - 8, y + kSmallText * 0.36}, "end", m.text);
  }
}

// Everything that a picture along a way shows of the stage's clamps.
struct ClampView {
  model::View view;
  std::vector<const PlannedClamp*> clamps;
};

std::vector<model::Segment2> drawn_work(const Plan& plan, const Stage& stage,
                                        const model::View& view) {
  std::vector<model::Body> bodies;
  std::vector<model::Segment3> edges;
  for (const planner::work::PartId id : stage.parts) {
    bodies.push_back({plan.parts[id].facets, {}});
    const std::vector<model::Segment3> own = edges_of(bodies.back(), view);
    edges.insert(edges.end(), own.begin(), own.end());
  }
  return model::Scene(bodies, view).visible(edges);
}

// How far each clamp stands to the right of the corner, and the corner's own nought.
std::vector<Measure> to_the_right(const ClampView& of, const Frame& frame,
                                  const model::Point2& corner, const words::Wording& wording) {
  const model::Point2 zero = frame.at(corner);
  std::vector<Measure> all = {{0, zero.u, zero.v - kBadge, "0"}};
  for (const PlannedClamp* clamp : of.clamps) {
    const model::Point2 mm = of.view.at(clamp->at), spot = frame.at(mm);
    const double u = mm.u - corner.u;
    all.push_back({u, spot.u, spot.v, length_number(u, wording)});
  }
  return each_once(all, true);
}

// Smaller where neighbours would cover each other.
double badge_radius(const ClampView& of, const Frame& frame) {
  constexpr double kLeast = 7;
  double radius = kBadge;
  for (std::size_t i = 0; i < of.clamps.size(); ++i) {
    const model::Point2 a = frame.at(of.view.at(of.clamps[i]->at));
    for (std::size_t j = 0; j < i; ++j) {
      const model::Point2 b = frame.at(of.view.at(of.clamps[j]->at));
      radius = std::min(radius, geometry::hypotenuse(b.u - a.u, b.v - a.v) / 2 - 0.5);
    }
  }
  return std::max(radius, kLeast);
}

constexpr double kSideRow = 18;  // room for a word of the work's sides

// On which edge of the picture a direction of the work is told.
enum class Edge { up, down, left, right, faces_you };
Edge edge_of(const model::View& view, const Direction& way) {
  const double u = dot(way, view.right), v = dot(way, view.up), near = dot(way, view.eye);
  return near > std::abs(u) && near > std::abs(v) ? Edge::faces_you
         : std::abs(v) > std::abs(u)              ? (v > 0 ? Edge::up : Edge::down)
                                                  : (u < 0 ? Edge::left : Edge::right);
}
const std::pair<Direction, const char*> kSides[] = {{{0, -1, 0}, "FRONT"}, {{0, 0, 1}, "TOP"}};
bool any_on(const model::View& view, Edge edge) {
  return edge_of(view, kSides[0].first) == edge || edge_of(view, kSides[1].first) == edge;
}

void write_sides(const model::View& view, const Frame& frame, Markup& svg) {
  const double middle = (frame.wall() + frame.width()) / 2;
  for (const auto& [way, word] : kSides) {
    const Edge edge = edge_of(view, way);
    if (edge == Edge::left || edge == Edge::right) {
      const double u = edge == Edge::left ? kSideRow / 2 : frame.width() - kSideRow / 2;
      svg.element("text",
                  {{"class", "side"},
                   {"transform", fmt::format("translate({} {}) rotate(-90)", coordinate(u),
                                             coordinate((kSideRow + frame.floor()) / 2))},
                   {"text-anchor", "middle"}},
                  word);
      continue;
    }
    const bool faces = edge == Edge::faces_you;
    svg.element("text",
                {{"class", "side"},
                 {"x", coordinate(faces ? 2 : middle)},
                 {"y", coordinate(edge == Edge::down ? frame.height() - kSideRow / 2 : kSideRow / 2)},
                 {"text-anchor", faces ? "start" : "middle"}},
                faces ? word + std::string(" faces you") : word);
  }
}

// The frame holds the clamps as well as the work, and as many rows of measures as there are.
Frame frame_of(const std::vector<model::Segment2>& work, const ClampView& of,
               const model::Point2& corner, const words::Wording& wording) {
  std::vector<model::Segment2> all = work;
  std::vector<double> across;
  for (const PlannedClamp* clamp : of.clamps) {
    for (const Shape& shape : shapes_of(*clamp)) {
      for (std::size_t i = 0; i < 2; ++i) {
        all.push_back({of.view.at(shape.corners[i]), of.view.at(shape.corners[i + 2])});
      }
    }
  }
  constexpr double kMargin = 12;
  const double left = any_on(of.view, Edge::left) ? 48 + kSideRow : 48;
  const double below = any_on(of.view, Edge::down) ? kSideRow : 0;
  const Frame bare = Frame::around(all, kPictureWidth, kMargin, left);
  std::size_t most = 0;
  for (const std::optional<std::size_t>& row : rows_of(to_the_right(of, bare, corner, wording))) {
    most = std::max(most, row ? *row + 1 : 0);
  }
  return Frame::around(all, kPictureWidth, kMargin, left, kRow * static_cast<double>(most) + below, kSideRow);
}

}  // namespace

bool presses_along(const PlannedClamp& clamp, const Direction& way) {
  return std::abs(dot(clamp.axis, way)) > 0.999;
}

std::vector<Direction> clamp_ways(const Stage& stage) {
  std::vector<Direction> ways(std::begin(geometry::kAxis), std::end(geometry::kAxis));
  for (const PlannedClamp& clamp : stage.clamps) {
    if (std::none_of(ways.begin(), ways.end(),
                     [&](const Direction& way) { return presses_along(clamp, way); })) {
      ways.push_back(clamp.axis);
    }
  }
  std::erase_if(ways, [&](const Direction& way) {
    return std::none_of(stage.clamps.begin(), stage.clamps.end(),
                        [&](const PlannedClamp& clamp) { return presses_along(clamp, way); });
  });
  return ways;
}

std::string seen_text(const Direction& way) {
  constexpr double kOnAxis = 0.999;
  const auto axis = static_cast<std::size_t>(words::side_towards(way).axis);
  constexpr const char* kFrom[] = {"from the right", "from the front", "from above"};
  return std::abs(way[axis]) > kOnAxis ? kFrom[axis] : "the way they press";
}

std::string clamp_view_svg(const Plan& plan, const Stage& stage, const Direction& way,
                           const words::Wording& wording) {
  ClampView of{model::view_along(way), {}};
  for (const PlannedClamp& clamp : stage.clamps) {
    if (presses_along(clamp, way)) {
      of.clamps.push_back(&clamp);
    }
  }
  const std::vector<model::Segment2> seen = drawn_work(plan, stage, of.view);
  const model::Point2 corner = of.view.at(words::stage_corner(plan, stage));
  const Frame frame = frame_of(seen, of, corner, wording);

  Markup svg;
  open_picture(svg, frame,
               words::spoken(wording, "Clamps that press {}, seen {}", words::axis_word(way), seen_text(way)));
  svg.lone("path", {{"class", "edge"}, {"d", path_of(seen, frame)}});
  std::vector<Measure> up;
  for (const PlannedClamp* clamp : of.clamps) {
    draw_clamp(*clamp, of.view, frame, svg);
  }
  write_sides(of.view, frame, svg);
  const double radius = badge_radius(of, frame);
  // The numbers last: a caul under several clamps must not strike them out.
  for (const PlannedClamp* clamp : of.clamps) {
    const model::Point2 mm = of.view.at(clamp->at), spot = frame.at(mm);
    svg.open("g", {{"data-clamp", std::to_string(clamp->n)}});
    badge(svg, spot, std::to_string(clamp->n), "clamp", radius);
    svg.close();
    const double v = mm.v - corner.v;
    up.push_back({v, spot.v, spot.u, length_number(v, wording)});
  }
  measure_below(to_the_right(of, frame, corner, wording), frame.floor(), svg);
  measure_left(each_once(up, false), frame.wall(), svg);
  const model::Point2 zero = frame.at(corner);
  svg.lone(
      "circle",
      {{"class", "corner"}, {"cx", coordinate(zero.u)}, {"cy", coordinate(zero.v)}, {"r", "3"}});
  svg.close();
  return svg.str();
}

}  // namespace cli::html
