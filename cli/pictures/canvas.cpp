#include "cli/pictures/canvas.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace cli::pictures {
namespace {

struct Spot {
  long u = 0, v = 0;
  bool operator==(const Spot&) const = default;
};
Spot spot(model::Point2 p) {
  return {std::lround(p.u), std::lround(p.v)};
}

// "12-3": a minus sign parts numbers as well as a blank does.
void add_step(std::string& d, Spot step, bool first) {
  d += fmt::format("{}{}{}{}", first || step.u < 0 ? "" : " ", step.u, step.v < 0 ? "" : " ", step.v);
}

}  // namespace

void Area::take_in(model::Point2 p, double round) {
  u0 = std::min(u0, p.u - round);
  u1 = std::max(u1, p.u + round);
  v0 = std::min(v0, p.v - round);
  v1 = std::max(v1, p.v + round);
}

Canvas::Canvas(const Area& mm, const model::View& view) : view_(view) {
  const double wide = std::max(1.0, mm.u1 - mm.u0), high = std::max(1.0, mm.v1 - mm.v0);
  scale_ = std::min((kWide - 2 * kMargin) / wide, (kHigh - 2 * kMargin) / high);
  u_ = kWide / 2 - scale_ * (mm.u0 + mm.u1) / 2;
  v_ = kHigh / 2 + scale_ * (mm.v0 + mm.v1) / 2;
}

std::string lines_path(const std::vector<model::Segment2>& pieces, const Canvas& canvas) {
  std::string d;
  Spot last{-1, -1};
  bool line = false;
  for (const model::Segment2& piece : pieces) {
    const Spot a = spot(canvas.at(piece.a)), b = spot(canvas.at(piece.b));
    if (a == b) {
      continue;
    }
    if (!(a == last)) {
      d += fmt::format("M{} {}", a.u, a.v);
      line = false;
    }
    d += line ? "" : "l";
    add_step(d, {b.u - a.u, b.v - a.v}, !line);
    line = true;
    last = b;
  }
  return d;
}

std::string closed_path(const std::vector<geometry::Ring>& rings, const Canvas& canvas) {
  std::string d;
  for (const geometry::Ring& ring : rings) {
    Spot last = spot(canvas.at(ring.front()));
    d += fmt::format("M{} {}l", last.u, last.v);
    bool first = true;
    for (std::size_t i = 1; i < ring.size(); ++i) {
      const Spot next = spot(canvas.at(ring[i]));
      if (!(next == last)) {
        add_step(d, {next.u - last.u, next.v - last.v}, first);
        first = false;
        last = next;
      }
    }
    d += first ? "0 0z" : "z";
  }
  return d;
}

}  // namespace cli::pictures
