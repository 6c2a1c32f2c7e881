#include "scenes/beams.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <tuple>

namespace scenes {

using geometry::Direction;
using geometry::Point;

namespace {

constexpr double kQuarter = std::numbers::pi / 2;
constexpr int kAcross = 12;  // quads from side to side on the fillet of a notch

// Faces from corners, each corner once.
class Builder {
 public:
  // Turned to look along `outward`.
  void face(std::vector<Point> corners, const Direction& outward) {
    Direction normal;
    for (std::size_t i = 1; i + 1 < corners.size(); ++i) {
      normal = normal + cross(corners[i] - corners[0], corners[i + 1] - corners[0]);
    }
    std::vector<std::size_t> face;
    for (const Point& p : corners) {
      face.push_back(place(p));
    }
    if (dot(normal, outward) < 0) {
      std::reverse(face.begin() + 1, face.end());  // a fan keeps its tip
    }
    mesh.faces.push_back(std::move(face));
  }

  Mesh mesh;

 private:
  std::size_t place(const Point& p) {
    const auto [it, fresh] = names_.try_emplace({p.x, p.y, p.z}, mesh.points.size());
    if (fresh) {
      mesh.points.push_back(p);
    }
    return it->second;
  }
  std::map<std::tuple<double, double, double>, std::size_t> names_;
};

struct Flat {
  double x, z;
};

// Points of a quarter round from `from` to `to` about a centre, both included.
std::vector<Flat> quarter(const Flat& centre, double radius, double from, int flats) {
  std::vector<Flat> arc;
  for (int i = 0; i <= flats; ++i) {
    const double a = from + kQuarter * i / flats;
    arc.push_back({centre.x + radius * std::cos(a), centre.z + radius * std::sin(a)});
  }
  return arc;
}

// Of a corner rounded in flats: what the round takes off a square corner, and its length.
double corner_area(const Beam& b) {
  return b.radius * b.radius * (1 - b.flats * std::sin(kQuarter / b.flats) / 2);
}
double corner_length(const Beam& b) {
  return 2 * b.radius * b.flats * std::sin(kQuarter / b.flats / 2);
}

void plain_stretch(const Beam& b, double x0, double x1, Builder& builder) {
  const double w = b.wide, h = b.high;
  builder.face({{x0, 0, 0}, {x1, 0, 0}, {x1, w, 0}, {x0, w, 0}}, {0, 0, -1});
  builder.face({{x0, 0, h}, {x1, 0, h}, {x1, w, h}, {x0, w, h}}, {0, 0, 1});
  builder.face({{x0, 0, 0}, {x1, 0, 0}, {x1, 0, h}, {x0, 0, h}}, {0, -1, 0});
  builder.face({{x0, w, 0}, {x1, w, 0}, {x1, w, h}, {x0, w, h}}, {0, 1, 0});
}

// The beam's sides and underside below a notch's floor, from fillet to fillet.
void below_notch(const Beam& b, const std::vector<Flat>& floor, double x0, double x1,
                 Builder& builder) {
  const auto column = [&](const std::vector<Flat>& corners, double from, double to) {
    for (const double y : {0.0, b.wide}) {
      std::vector<Point> side;
      for (const Flat& p : corners) {
        side.push_back({p.x, y, p.z});
      }
      builder.face(side, {0, y > 0 ? 1.0 : -1.0, 0});
    }
    builder.face({{from, 0, 0}, {to, 0, 0}, {to, b.wide, 0}, {from, b.wide, 0}}, {0, 0, -1});
  };
  const Flat first = floor.front(), last = floor.back();
  column({{x0, 0}, {first.x, 0}, first, {first.x, b.high}, {x0, b.high}}, x0, first.x);
  for (std::size_t i = 0; i + 1 < floor.size(); ++i) {
    const Flat &p = floor[i], &q = floor[i + 1];
    column({{p.x, 0}, {q.x, 0}, q, p}, p.x, q.x);
  }
  column({{x1, 0}, {x1, b.high}, {last.x, b.high}, last, {last.x, 0}}, last.x, x1);
}

// A notch and half a millimetre on both sides of it.
void notch(const Beam& b, const TopCut& cut, Measured& sum, Builder& builder) {
  const double x0 = cut.from - 0.5, x1 = cut.to + 0.5, z = b.high - cut.deep, r = b.radius;
  std::vector<Flat> floor = quarter({cut.from + r, z + r}, r, 2 * kQuarter, b.flats);
  const std::vector<Flat> right = quarter({cut.to - r, z + r}, r, 3 * kQuarter, b.flats);
  floor.insert(floor.end(), right.begin(), right.end());
  below_notch(b, floor, x0, x1, builder);
  const auto across = [&](const Flat& p, int i) { return Point{p.x, b.wide * i / kAcross, p.z}; };
  for (std::size_t i = 0; i + 1 < floor.size(); ++i) {
    const Flat &p = floor[i], &q = floor[i + 1];
    for (int j = 0; j < kAcross; ++j) {
      builder.face({across(p, j), across(q, j), across(q, j + 1), across(p, j + 1)},
                   {p.z - q.z, 0, q.x - p.x});
    }
  }
  for (const Flat& end : {floor.front(), floor.back()}) {
    const bool left = end.x < (x0 + x1) / 2;
    std::vector<Point> wall = {{end.x, 0, b.high}};
    for (int j = 0; j <= kAcross; ++j) {
      wall.push_back(across(end, j));
    }
    wall.push_back({end.x, b.wide, b.high});
    builder.face(wall, {left ? 1.0 : -1.0, 0, 0});
    const double edge = left ? x0 : x1;
    builder.face({{edge, 0, b.high}, wall.front(), wall.back(), {edge, b.wide, b.high}}, {0, 0, 1});
  }
  const double wide = cut.to - cut.from, section = wide * cut.deep - 2 * corner_area(b);
  sum.volume_mm3 -= section * b.wide;
  sum.area_mm2 += b.wide * (2 * (cut.deep - r) + wide - 2 * r + 2 * corner_length(b)) -
                  wide * b.wide - 2 * section;
}

// The outline of a mortise at a height: a rectangle between the centres of its corners, widened.
struct Ring {
  double z, radius;
};

class Mortise {
 public:
  Mortise(const Beam& b, const TopCut& cut)
      : beam_(b),
        lo_{cut.from + 2 * b.radius, cut.rim + 2 * b.radius},
        hi_{cut.to - 2 * b.radius, b.wide - cut.rim - 2 * b.radius} {
    const double floor = b.high - cut.deep;
    rings_ = {{b.high, 2 * b.radius}};
    for (int i = 0; i <= b.flats; ++i) {
      const double a = kQuarter * i / b.flats;
      rings_.push_back({floor + b.radius * (1 - std::sin(a)), b.radius * (1 + std::cos(a))});
    }
  }

  void draw(double x0, double x1, Builder& builder) const {
    const double h = beam_.high, w = beam_.wide;
    plain_sides(x0, x1, builder);
    const std::vector<Point> top = points(rings_.front());
    const Point corners[] = {{x1, w, h}, {x0, w, h}, {x0, 0, h}, {x1, 0, h}};
    const auto n = static_cast<std::size_t>(beam_.flats) + 1;
    for (std::size_t c = 0; c < 4; ++c) {
      for (std::size_t i = c * n; i + 1 < (c + 1) * n; ++i) {
        builder.face({corners[c], top[i], top[i + 1]}, {0, 0, 1});
      }
      const std::size_t next = (c + 1) % 4;
      builder.face({corners[c], corners[next], top[next * n], top[c * n + n - 1]}, {0, 0, 1});
    }
    const Point middle{(lo_[0] + hi_[0]) / 2, (lo_[1] + hi_[1]) / 2, h};
    for (std::size_t r = 0; r + 1 < rings_.size(); ++r) {
      const std::vector<Point> upper = points(rings_[r]), lower = points(rings_[r + 1]);
      for (std::size_t i = 0; i < upper.size(); ++i) {
        const std::size_t j = (i + 1) % upper.size();
        builder.face({upper[i], upper[j], lower[j], lower[i]},
                     (middle - upper[i]) + (middle - upper[j]));
      }
    }
    builder.face(points(rings_.back()), {0, 0, 1});
  }

  void measure(Measured& sum) const {
    const double a = hi_[0] - lo_[0], b = hi_[1] - lo_[1], step = kQuarter / beam_.flats;
    const auto section = [&](double r) {
      return a * b + 2 * (a + b) * r + 2 * beam_.flats * r * r * std::sin(step);
    };
    for (std::size_t i = 0; i + 1 < rings_.size(); ++i) {
      const Ring &p = rings_[i], &q = rings_[i + 1];
      const double down = p.z - q.z, in = p.radius - q.radius, mean = (p.radius + q.radius) / 2;
      sum.volume_mm3 -= down / 6 * (section(p.radius) + 4 * section(mean) + section(q.radius));
      sum.area_mm2 +=
          2 * (a + b) * std::hypot(down, in) + 4 * beam_.flats * 2 * mean * std::sin(step / 2) *
                                                   std::hypot(down, in * std::cos(step / 2));
    }
    sum.area_mm2 += section(rings_.back().radius) - section(rings_.front().radius);
  }

 private:
  void plain_sides(double x0, double x1, Builder& builder) const {
    const double w = beam_.wide, h = beam_.high;
    builder.face({{x0, 0, 0}, {x1, 0, 0}, {x1, w, 0}, {x0, w, 0}}, {0, 0, -1});
    builder.face({{x0, 0, 0}, {x1, 0, 0}, {x1, 0, h}, {x0, 0, h}}, {0, -1, 0});
    builder.face({{x0, w, 0}, {x1, w, 0}, {x1, w, h}, {x0, w, h}}, {0, 1, 0});
  }

  // Counter-clockwise from above, from +x, a corner after the other.
  std::vector<Point> points(const Ring& ring) const {
    std::vector<Point> all;
    const double x[] = {hi_[0], lo_[0], lo_[0], hi_[0]}, y[] = {hi_[1], hi_[1], lo_[1], lo_[1]};
    for (int c = 0; c < 4; ++c) {
      for (const Flat& p : quarter({x[c], y[c]}, ring.radius, c * kQuarter, beam_.flats)) {
        all.push_back({p.x, p.z, ring.z});
      }
    }
    return all;
  }

  const Beam& beam_;
  double lo_[2], hi_[2];  // between the centres of its upright corners
  std::vector<Ring> rings_;
};

}  // namespace

Measured notched_beam(const Beam& b, const std::vector<TopCut>& cuts) {
  Builder builder;
  Measured sum;
  sum.volume_mm3 = b.length * b.wide * b.high;
  sum.area_mm2 = 2 * (b.length * b.wide + b.length * b.high + b.wide * b.high);
  double x = 0;
  for (const TopCut& cut : cuts) {
    plain_stretch(b, x, cut.from - 0.5, builder);
    if (cut.rim > 0) {
      const Mortise mortise(b, cut);
      mortise.draw(cut.from - 0.5, cut.to + 0.5, builder);
      mortise.measure(sum);
    } else {
      notch(b, cut, sum, builder);
    }
    x = cut.to + 0.5;
  }
  plain_stretch(b, x, b.length, builder);
  for (const double end : {0.0, b.length}) {
    builder.face({{end, 0, 0}, {end, b.wide, 0}, {end, b.wide, b.high}, {end, 0, b.high}},
                 {end > 0 ? 1.0 : -1.0, 0, 0});
  }
  sum.mesh = std::move(builder.mesh);
  return sum;
}

Measured rounded_batten(const Beam& b, const Point& from) {
  const double r = b.radius;
  std::vector<Flat> section = quarter({from.x + r, from.z + r}, r, 2 * kQuarter, b.flats);
  const std::vector<Flat> right =
      quarter({from.x + b.wide - r, from.z + r}, r, 3 * kQuarter, b.flats);
  section.insert(section.end(), right.begin(), right.end());
  section.push_back({from.x + b.wide, from.z + b.high});
  section.push_back({from.x, from.z + b.high});
  Builder builder;
  std::vector<Point> ends[2];
  const double y[] = {from.y, from.y + b.length};
  for (std::size_t i = 0; i < section.size(); ++i) {
    const Flat &p = section[i], &q = section[(i + 1) % section.size()];
    builder.face({{p.x, y[0], p.z}, {q.x, y[0], q.z}, {q.x, y[1], q.z}, {p.x, y[1], p.z}},
                 {q.z - p.z, 0, p.x - q.x});
    ends[0].push_back({p.x, y[0], p.z});
    ends[1].push_back({p.x, y[1], p.z});
  }
  builder.face(ends[0], {0, -1, 0});
  builder.face(ends[1], {0, 1, 0});
  const double area = b.wide * b.high - 2 * corner_area(b);
  const double round = 2 * (b.wide + b.high) - 4 * r + 2 * corner_length(b);
  return {std::move(builder.mesh), area * b.length, 2 * area + round * b.length};
}

}  // namespace scenes
