#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "cli/sentences.h"
#include "cli/sheet/picture.h"
#include "cli/sheet/svg.h"
#include "cli/trade_words.h"
#include "planner/tables/clamp.h"

namespace cli {
namespace {

using geometry::Direction;
using geometry::Point;
using planner::Plan;
using planner::PlannedClamp;
using planner::Stage;

bool runs_along(const PlannedClamp& clamp, int axis) {
  return std::abs(clamp.axis[static_cast<std::size_t>(axis)]) > 0.999;
}

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

Shape pad_shape(const char* what, const planner::PadSize& pad, const PlannedClamp& clamp,
                double shift_mm) {
  return rectangle(what, clamp.at + shift_mm * clamp.pad_along,
                   (pad.along_mm / 2) * clamp.pad_along,
                   (pad.across_mm / 2) * cross(clamp.axis, clamp.pad_along));
}

// Seen end on: arm and bar, where a hand or another clamp can't be; caul and pad.
std::vector<Shape> shapes_of(const PlannedClamp& clamp) {
  std::vector<Shape> shapes;
  const planner::ClampKind* kind = planner::find_clamp_kind(clamp.kind);
  if (kind != nullptr && kind->throat_mm) {
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
  if (clamp.pad.thick_mm > 0) {
    shapes.push_back(pad_shape("pad", clamp.pad, clamp, 0));
  }
  return shapes;
}

void draw_clamp(const PlannedClamp& clamp, const View& view, const Frame& frame, Markup& svg) {
  svg.open("g", {{"class", "clamp " + clamp_level_word(clamp.level)},
                 {"data-clamp", std::to_string(clamp.n)}});
  for (const Shape& shape : shapes_of(clamp)) {
    std::string d;
    for (const Point& corner : shape.corners) {
      const Point2 p = frame.at(view.at(corner));
      d += (d.empty() ? "M" : "L") + coordinate(p.u) + " " + coordinate(p.v);
    }
    svg.lone("path", {{"class", shape.what}, {"d", d + "Z"}});
  }
  badge(svg, frame.at(view.at(clamp.at)), std::to_string(clamp.n), "clamp");
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

// In as many rows as keep the texts apart.
void measure_below(const std::vector<Measure>& all, double floor, Markup& svg) {
  std::array<double, kRows> free_from;  // where each row's last text ends
  free_from.fill(-1e300);
  for (const Measure& m : all) {
    const double half = 0.3 * kSmallText * static_cast<double>(m.text.size()) + 3;
    std::size_t row = 0;
    while (row + 1 < kRows && free_from[row] > m.at - half) {
      ++row;
    }
    free_from[row] = m.at + half;
    const double y = floor + kRow * (static_cast<double>(row) + 1);
    svg.lone("path", {{"class", "measure"},
                      {"d", fmt::format("M{} {}V{}", coordinate(m.at), coordinate(m.from + kBadge),
                                        coordinate(y - kSmallText + 1))}});
    label(svg, {m.at, y}, "middle", m.text);
  }
}

void measure_left(const std::vector<Measure>& all, double wall, Markup& svg) {
  double last = 1e300;
  // From the bottom up; a text that would touch the one below it is nudged up.
  for (const Measure& m : all) {
    const double y = std::min(m.at, last - kSmallText);
    last = y;
    svg.lone("path",
             {{"class", "measure"},
              {"d", fmt::format("M{} {}H{}L{} {}", coordinate(m.from - kBadge), coordinate(m.at),
                                coordinate(wall), coordinate(wall - 6), coordinate(y))}});
    label(svg, {wall - 8, y + kSmallText * 0.36}, "end", m.text);
  }
}

const char* looking(int axis) {
  return axis == 0 ? "from the right" : axis == 1 ? "from the front" : "from above";
}

}  // namespace

bool has_clamps_along(const Stage& stage, int axis) {
  return std::any_of(stage.clamps.begin(), stage.clamps.end(),
                     [axis](const PlannedClamp& clamp) { return runs_along(clamp, axis); });
}

std::string clamp_view_svg(const Plan& plan, const Stage& stage, int axis, const Wording& wording) {
  const View view = axis_view(axis);
  std::vector<Body> bodies;
  std::vector<Segment3> edges;
  for (const planner::PartId id : stage.parts) {
    bodies.push_back({plan.parts[id].facets, {}});
    const std::vector<Segment3> own = edges_of(bodies.back(), view);
    edges.insert(edges.end(), own.begin(), own.end());
  }
  const std::vector<Segment2> seen = Scene(bodies, view).visible(edges);
  // The frame holds the clamps as well as the work.
  std::vector<Segment2> all = seen;
  for (const PlannedClamp& clamp : stage.clamps) {
    for (const Shape& shape : runs_along(clamp, axis) ? shapes_of(clamp) : std::vector<Shape>{}) {
      all.push_back({view.at(shape.corners[0]), view.at(shape.corners[2])});
    }
  }
  constexpr double kMargin = 12, kLeft = 44;
  const Frame frame = Frame::around(all, kPictureWidth, kMargin, kLeft, kRow * kRows);
  const Point2 corner = view.at(stage_corner(plan, stage));

  Markup svg;
  open_picture(svg, frame,
               fmt::format("Clamps {}, seen {}", axis_word(geometry::kAxis[axis]), looking(axis)));
  svg.lone("path", {{"class", "edge"}, {"d", path_of(seen, frame)}});
  std::vector<Measure> right, up;
  for (const PlannedClamp& clamp : stage.clamps) {
    if (!runs_along(clamp, axis)) {
      continue;
    }
    draw_clamp(clamp, view, frame, svg);
    const Point2 mm = view.at(clamp.at), spot = frame.at(mm);
    const double u = mm.u - corner.u, v = mm.v - corner.v;
    right.push_back({u, spot.u, spot.v, length_number(u, wording)});
    up.push_back({v, spot.v, spot.u, length_number(v, wording)});
  }
  measure_below(each_once(right, true), frame.floor(), svg);
  measure_left(each_once(up, false), frame.wall(), svg);
  const Point2 zero = frame.at(corner);
  svg.lone(
      "circle",
      {{"class", "corner"}, {"cx", coordinate(zero.u)}, {"cy", coordinate(zero.v)}, {"r", "3"}});
  label(svg, {zero.u - 6, zero.v + kSmallText}, "end", "0");
  svg.close();
  return svg.str();
}

}  // namespace cli
