#include "cli/pictures/strip_key.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/pictures/drawing.h"
#include "cli/pictures/labels.h"
#include "cli/pictures/turning.h"
#include "geometry/elementary.h"

namespace cli::pictures {
namespace {

using geometry::Direction;
using model::Point2;
using planner::plan::Plan;

// How squarely the worst of the lines is looked at.
double in_front(const model::EdgeStrip& strip, const Stance& stance) {
  const Direction eye = bench_view(stance).eye;
  double least = 1;
  for (const model::StripLine& line : strip.lines) {
    least = std::min(least, dot(line.outward, eye));
  }
  return least;
}

// As near the usual view as has all lines in front: turned about, or else turned upside down.
Stance stance_for(const model::EdgeStrip& strip) {
  constexpr double kSeen = 0.2;
  const Direction usual = bench_view({}).eye;
  Stance best;
  for (const bool over : {false, true}) {
    double nearest = -2;
    for (const Stance& stance : turned_about(stance_on({2, over}))) {
      const double near = dot(bench_view(stance).eye, usual);
      if (in_front(strip, stance) > kSeen && near > nearest) {
        nearest = near;
        best = stance;
      }
    }
    if (nearest > -2) {
      break;
    }
  }
  return best;
}

void write_line(const Canvas& canvas, const model::StripLine& line, Labels& labels, Markup& svg) {
  const Point2 a = canvas.at(line.from), b = canvas.at(line.to);
  svg.lone("path", {{"class", "rule"}, {"d", fmt::format("M{:.0f} {:.0f}L{:.0f} {:.0f}", a.u, a.v, b.u, b.v)}});
  svg.lone("circle", {{"class", "zero"}, {"cx", fmt::format("{:.0f}", a.u)}, {"cy", fmt::format("{:.0f}", a.v)}, {"r", "13"}});
  // Beyond its end.
  constexpr double kBeyond = 44, kTall = 56, kRoom = 40;  // half the room of a figure so tall
  const double run = std::max(1.0, geometry::hypotenuse(b.u - a.u, b.v - a.v));
  const Point2 at{std::clamp(a.u - kBeyond * (b.u - a.u) / run, kRoom, kWide - kRoom),
                  std::clamp(a.v - kBeyond * (b.v - a.v) / run, kRoom, kHigh - kRoom)};
  svg.element("text", {{"class", "nought"}, {"x", fmt::format("{:.0f}", at.u)},
                       {"y", fmt::format("{:.0f}", at.v + 0.36 * kTall)}, {"text-anchor", "middle"}}, "0");
  for (const Point2& p : {a, b, at}) {
    Area area;
    area.take_in(p, kRoom);
    labels.keep_clear(area);
  }
}

}  // namespace

std::string strip_key(const Plan& plan, const planner::plan::Stage& stage, const model::EdgeStrip& strip) {
  Drawing drawing;
  drawing.stance = stance_for(strip);
  drawing.tells_hidden = false;
  for (const planner::work::PartId part : stage.parts) {
    const bool under = std::any_of(strip.lines.begin(), strip.lines.end(),
                                   [&](const model::StripLine& line) { return line.part == part; });
    drawing.actors.push_back({plan.parts[part].facets, under ? Fill::wood : Fill::still, under, part});
  }
  const Painted painted(drawing);
  Markup svg;
  painted.write(svg);
  Labels labels(painted.canvas(), painted.scene());
  for (const model::StripLine& line : strip.lines) {
    write_line(painted.canvas(), line, labels, svg);
  }
  constexpr double kTall = 56;  // 2 mm at 26 mm
  const geometry::Box box = box_of(plan, stage.parts);
  const geometry::Point middle = box.lo + 0.5 * (box.hi - box.lo);
  labels.write_side(middle, {0, -1, 0}, painted.area(), "FRONT", svg, kTall);
  labels.write_side(middle, {0, 0, 1}, painted.area(), "TOP", svg, kTall);
  return framed("Where it lies", colour_class(plan.parts[strip.lines.front().part].species), painted.area(),
                labels.used(), svg);
}

}  // namespace cli::pictures
