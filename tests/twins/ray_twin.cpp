#include "twins/ray_twin.h"

#include <algorithm>
#include <limits>

#include "twins/convex_sets.h"

namespace twins {
namespace {

using geometry::Direction;
using geometry::Point;

constexpr double kInfinity = std::numeric_limits<double>::infinity();

struct Span {
  double lo, hi;
};

// Half spaces in doubles, ready for many lines.
struct Plane {
  Direction n;
  double offset;
};
using Convex = std::vector<Plane>;

Convex in_doubles(const ConvexSet& set) {
  Convex planes;
  for (const geometry::HalfSpace& half : set) {
    const Direction n{static_cast<double>(half.normal[0]), static_cast<double>(half.normal[1]),
                      static_cast<double>(half.normal[2])};
    planes.push_back(
        {n, dot(Point{half.through[0].mm(), half.through[1].mm(), half.through[2].mm()}, n)});
  }
  return planes;
}

struct Part {
  Convex kept;
  std::vector<Convex> tools;

  explicit Part(const scenes::Recipe& recipe) : kept(in_doubles(twins::kept(recipe))) {
    for (const ConvexSet& tool : twins::tools(recipe)) {
      tools.push_back(in_doubles(tool));
    }
  }
};

// Where p + t d is inside the set.
Span inside(const Convex& set, const Point& p, const Direction& d) {
  Span span{-kInfinity, kInfinity};
  for (const Plane& plane : set) {
    const double slope = dot(plane.n, d), height = dot(p, plane.n) - plane.offset;
    if (slope == 0) {
      if (height > 0) {
        return {0, 0};
      }
    } else if (slope > 0) {
      span.hi = std::min(span.hi, -height / slope);
    } else {
      span.lo = std::max(span.lo, -height / slope);
    }
  }
  return span;
}

// Stretches of the line inside the part.
std::vector<Span> inside(const Part& part, const Point& p, const Direction& d) {
  const Span whole = inside(part.kept, p, d);
  if (whole.lo >= whole.hi) {
    return {};
  }
  std::vector<Span> spans = {whole};
  for (const Convex& tool : part.tools) {
    const Span out = inside(tool, p, d);
    std::vector<Span> left;
    for (const Span& s : spans) {
      if (out.lo >= out.hi || out.hi <= s.lo || out.lo >= s.hi) {
        left.push_back(s);
        continue;
      }
      left.push_back({s.lo, out.lo});
      left.push_back({out.hi, s.hi});
    }
    spans = std::move(left);
  }
  std::erase_if(spans, [](const Span& s) { return s.lo >= s.hi; });
  return spans;
}

// Along this line, the mover meets the other: some of its material has some of the other's ahead,
// both more than `thick` long.
bool hits(const Part& mover, const Part& other, const Point& p, const Direction& d, double thick) {
  const auto thin = [&](const Span& s) { return s.hi - s.lo <= thick; };
  std::vector<Span> own = inside(mover, p, d);
  std::erase_if(own, thin);
  if (own.empty()) {
    return false;
  }
  std::vector<Span> others = inside(other, p, d);
  std::erase_if(others, thin);
  return !others.empty() && others.back().hi - own.front().lo > thick;
}

// How far the board's shadow along d reaches in u.
Span shadow(const scenes::Recipe& recipe, const Direction& u) {
  Span span{0, 0};
  for (std::size_t k = 0; k < 3; ++k) {
    const double a = recipe.board.lo[k].mm() * u[k], b = recipe.board.hi[k].mm() * u[k];
    span.lo += std::min(a, b);
    span.hi += std::max(a, b);
  }
  return span;
}

Span shared(const Span& a, const Span& b) {
  return {std::max(a.lo, b.lo), std::min(a.hi, b.hi)};
}

}  // namespace

bool ray_hits(const scenes::Recipe& mover, const scenes::Recipe& other, const Direction& d,
              int rays, scenes::Dice& dice) {
  constexpr double kThickMm = 0.06;
  const Direction u = unit(cross(d, std::abs(d.x) < 0.9 ? geometry::kAxis[0] : geometry::kAxis[1]));
  const Direction v = cross(d, u);
  const Part part(mover), obstacle(other);
  const Span across = shared(shadow(mover, u), shadow(other, u));
  const Span up = shared(shadow(mover, v), shadow(other, v));
  const auto between = [&](const Span& s) {
    return s.lo + (s.hi - s.lo) * static_cast<double>(dice.from_to(0, 1'000'000)) / 1e6;
  };
  if (across.lo >= across.hi || up.lo >= up.hi) {
    return false;
  }
  for (int i = 0; i < rays; ++i) {
    const Point p = Point{} + (between(across) * u + between(up) * v);
    bool all = true;
    for (const double du : {-kThickMm / 2, kThickMm / 2}) {
      for (const double dv : {-kThickMm / 2, kThickMm / 2}) {
        all = all && hits(part, obstacle, p + (du * u + dv * v), d, kThickMm);
      }
    }
    if (all) {
      return true;
    }
  }
  return false;
}

bool grid_hits(const scenes::Recipe& mover, const scenes::Recipe& other, const Direction& axis) {
  std::vector<double> marks[3];
  for (const scenes::Recipe* recipe : {&mover, &other}) {
    std::vector<geometry::LatticeBox> boxes = recipe->cuts;
    boxes.push_back(recipe->board);
    for (const geometry::LatticeBox& box : boxes) {
      for (std::size_t k = 0; k < 3; ++k) {
        marks[k].push_back(box.lo[k].mm());
        marks[k].push_back(box.hi[k].mm());
      }
    }
  }
  for (std::vector<double>& m : marks) {
    std::sort(m.begin(), m.end());
  }
  const auto middles = [&](std::size_t k) {
    std::vector<double> all;
    for (std::size_t i = 0; i + 1 < marks[k].size(); ++i) {
      if (marks[k][i] < marks[k][i + 1]) {
        all.push_back((marks[k][i] + marks[k][i + 1]) / 2);
      }
    }
    return all;
  };
  const Part part(mover), obstacle(other);
  const std::size_t k = axis.x != 0 ? 0 : axis.y != 0 ? 1 : 2;
  const std::size_t u = (k + 1) % 3, v = (k + 2) % 3;
  for (const double a : middles(u)) {
    for (const double b : middles(v)) {
      if (hits(part, obstacle, Point{} + (a * geometry::kAxis[u] + b * geometry::kAxis[v]), axis,
               0)) {
        return true;
      }
    }
  }
  return false;
}

}  // namespace twins
