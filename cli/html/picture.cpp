#include "cli/html/picture.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "geometry/elementary.h"

namespace cli::html {

Frame Frame::around(const std::vector<model::Segment2>& lines, double width, double margin,
                    double left, double below, double above) {
  Frame frame;
  double u1 = -1e300;
  frame.u0_ = frame.v0_ = 1e300;
  frame.v1_ = -1e300;
  for (const model::Segment2& line : lines) {
    for (const model::Point2 p : {line.a, line.b}) {
      frame.u0_ = std::min(frame.u0_, p.u);
      u1 = std::max(u1, p.u);
      frame.v0_ = std::min(frame.v0_, p.v);
      frame.v1_ = std::max(frame.v1_, p.v);
    }
  }
  if (lines.empty()) {
    frame.u0_ = frame.v0_ = frame.v1_ = 0;
    u1 = 1;
  }
  // A tall thing is drawn narrower, so that it stays on one phone screen.
  const double tallest = 1.25 * width;
  const double room = width - 2 * margin - left;
  frame.scale_ = room / std::max(1.0, u1 - frame.u0_);
  frame.scale_ = std::min(frame.scale_, tallest / std::max(1.0, frame.v1_ - frame.v0_));
  frame.left_ = margin + left + (room - (u1 - frame.u0_) * frame.scale_) / 2;
  frame.top_ = margin + above;
  frame.width_ = width;
  frame.height_ = frame.floor() + margin + below;
  return frame;
}

void open_picture(Markup& svg, double width, double height, const std::string& title) {
  svg.open("svg", {{"viewBox", fmt::format("0 0 {} {}", coordinate(width), coordinate(height))},
                   {"role", "img"}});
  svg.element("title", title);
}

void open_picture(Markup& svg, const Frame& frame, const std::string& title) {
  svg.open(
      "svg",
      {{"viewBox", fmt::format("0 0 {} {}", coordinate(frame.width()), coordinate(frame.height()))},
       {"role", "img"},
       {"data-scale", fmt::format("{:.6f}", frame.scale())}});
  svg.element("title", title);
}

std::string path_of(const std::vector<model::Segment2>& lines, const Frame& frame) {
  std::string d;
  for (const model::Segment2& line : lines) {
    const model::Point2 a = frame.at(line.a), b = frame.at(line.b);
    d += fmt::format("M{} {}L{} {}", coordinate(a.u), coordinate(a.v), coordinate(b.u),
                     coordinate(b.v));
  }
  return d;
}

void badge(Markup& svg, model::Point2 at, const std::string& text, const char* kind,
           double radius) {
  svg.open("g", {{"class", std::string("badge ") + kind}, {"data-n", text}});
  svg.lone("circle",
           {{"cx", coordinate(at.u)}, {"cy", coordinate(at.v)}, {"r", coordinate(radius)}});
  svg.element("text",
              {{"x", coordinate(at.u)},
               {"y", coordinate(at.v + kSmallText * 0.36)},
               {"text-anchor", "middle"}},
              text);
  svg.close();
}

void arrow(Markup& svg, model::Point2 from, model::Point2 to) {
  const double du = to.u - from.u, dv = to.v - from.v;
  const double length = geometry::hypotenuse(du, dv);
  if (length < 4) {
    return;
  }
  const double u = du / length, v = dv / length;
  constexpr double kHead = 7, kHalf = 3.5;
  const auto point = [](double a, double b) { return coordinate(a) + " " + coordinate(b); };
  svg.lone("path",
           {{"class", "arrow"}, {"d", "M" + point(from.u, from.v) + "L" + point(to.u, to.v)}});
  svg.lone("path",
           {{"class", "head"},
            {"d", "M" + point(to.u, to.v) + "L" +
                      point(to.u - kHead * u + kHalf * v, to.v - kHead * v - kHalf * u) + "L" +
                      point(to.u - kHead * u - kHalf * v, to.v - kHead * v + kHalf * u) + "Z"}});
}

void label(Markup& svg, model::Point2 at, const char* anchor, const std::string& text) {
  svg.element("text", {{"x", coordinate(at.u)}, {"y", coordinate(at.v)}, {"text-anchor", anchor}},
              text);
}

}  // namespace cli::html
