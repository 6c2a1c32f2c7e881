#include "scenes/cad_shapes.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace scenes {

using geometry::Point;

namespace {

constexpr double kTurn = 2 * std::numbers::pi;

// Of regular polygons and frusta: area is this times the radius squared, edges are so many radii.
double area_per_r2(int sides) {
  return sides / 2.0 * std::sin(kTurn / sides);
}
double edge_per_r(int sides) {
  return 2 * std::sin(kTurn / 2 / sides);
}
double frustum_mm3(double a, double b, double high, int sides) {
  return high / 3 * area_per_r2(sides) * (a * a + a * b + b * b);
}
double mantle_mm2(double a, double b, double high, int sides) {
  const double in = (a - b) * std::cos(kTurn / 2 / sides);
  return sides * edge_per_r(sides) * (a + b) / 2 * std::hypot(high, in);
}

// Rings of `sides` corners each: quads between ring and next, looking to the right of the way up.
void mantle(std::size_t ring, std::size_t next, std::size_t sides, Mesh& mesh) {
  for (std::size_t i = 0; i < sides; ++i) {
    const std::size_t j = (i + 1) % sides;
    mesh.faces.push_back({ring + i, ring + j, next + j});
    mesh.faces.push_back({ring + i, next + j, next + i});
  }
}

// The block's own side at a height, met by rays from the middle.
std::size_t add_square(double half, double z, std::size_t sides, Mesh& mesh) {
  const std::size_t first = mesh.points.size();
  for (std::size_t i = 0; i < sides; ++i) {
    const double a = kTurn * static_cast<double>(i) / static_cast<double>(sides);
    const double c = std::cos(a), s = std::sin(a), out = half / std::max(std::abs(c), std::abs(s));
    mesh.points.push_back({out * c, out * s, z});
  }
  return first;
}

template <class Radius>
Mesh bored(double side, double high, std::size_t levels, std::size_t sides, Radius radius) {
  Mesh mesh;
  const auto level = [&](std::size_t k) {
    return high * static_cast<double>(k) / static_cast<double>(levels);
  };
  const std::size_t low = add_square(side / 2, 0, sides, mesh);
  const std::size_t top = add_square(side / 2, high, sides, mesh);
  const std::size_t hole = mesh.points.size();
  for (std::size_t k = 0; k <= levels; ++k) {
    for (std::size_t i = 0; i < sides; ++i) {
      const double a = kTurn * static_cast<double>(i) / static_cast<double>(sides);
      const double r = radius(level(k), a);
      mesh.points.push_back({r * std::cos(a), r * std::sin(a), level(k)});
    }
  }
  mantle(low, top, sides, mesh);
  mantle(top, hole + levels * sides, sides, mesh);
  for (std::size_t k = levels; k > 0; --k) {
    mantle(hole + k * sides, hole + (k - 1) * sides, sides, mesh);
  }
  mantle(hole, low, sides, mesh);
  return mesh;
}

}  // namespace

Measured prism(const std::vector<std::pair<double, double>>& outline, double along_y) {
  Measured result;
  std::vector<std::size_t> front, back;
  const std::size_t n = outline.size();
  double twice = 0, round = 0;
  for (std::size_t i = 0; i < n; ++i) {
    const auto [x, z] = outline[i];
    const auto [next_x, next_z] = outline[(i + 1) % n];
    twice += x * next_z - next_x * z;
    round += std::hypot(next_x - x, next_z - z);
    result.mesh.points.push_back({x, 0, z});
    result.mesh.points.push_back({x, along_y, z});
    front.push_back(2 * i);
    back.push_back(2 * (n - 1 - i) + 1);
    const std::size_t j = (i + 1) % n;
    result.mesh.faces.push_back({2 * i, 2 * i + 1, 2 * j + 1, 2 * j});
  }
  result.mesh.faces.push_back(front);
  result.mesh.faces.push_back(back);
  result.volume_mm3 = twice / 2 * along_y;
  result.area_mm2 = twice + round * along_y;
  return result;
}

std::vector<std::pair<double, double>> tail_outline(double wide, double high, double deep,
                                                    int tails, double slope) {
  std::vector<std::pair<double, double>> outline = {{0, 0}, {wide, 0}, {wide, high - deep}};
  const double each = wide / tails, spread = deep / slope;
  for (int i = tails - 1; i >= 0; --i) {
    const double middle = (i + 0.5) * each, foot = each / 4;
    outline.insert(outline.end(), {{middle + foot, high - deep},
                                   {middle + foot + spread, high},
                                   {middle - foot - spread, high},
                                   {middle - foot, high - deep}});
  }
  outline.emplace_back(0, high - deep);
  return outline;
}

std::vector<std::pair<double, double>> rounded_outline(double wide, double high, double radius,
                                                       int flats) {
  std::vector<std::pair<double, double>> outline;
  const double x[] = {wide - radius, radius, radius, wide - radius};
  const double z[] = {high - radius, high - radius, radius, radius};
  for (int corner = 0; corner < 4; ++corner) {
    for (int i = 0; i <= flats; ++i) {
      const double a = kTurn / 4 * (corner + static_cast<double>(i) / flats);
      outline.emplace_back(x[corner] + radius * std::cos(a), z[corner] + radius * std::sin(a));
    }
  }
  return outline;
}

Measured bored_block(double side, double high, const std::vector<double>& radii, int sides) {
  const std::size_t levels = radii.size() - 1;
  const double each = high / static_cast<double>(levels);
  Measured result;
  result.mesh = bored(side, high, levels, static_cast<std::size_t>(sides), [&](double z, double) {
    return radii[static_cast<std::size_t>(std::lround(z / each))];
  });
  const double first = radii.front(), last = radii.back();
  result.volume_mm3 = side * side * high;
  result.area_mm2 =
      4 * side * high + 2 * side * side - area_per_r2(sides) * (first * first + last * last);
  for (std::size_t k = 0; k < levels; ++k) {
    result.volume_mm3 -= frustum_mm3(radii[k], radii[k + 1], each, sides);
    result.area_mm2 += mantle_mm2(radii[k], radii[k + 1], each, sides);
  }
  return result;
}

Measured threaded_block(double side, double high, double radius, double deep, double pitch,
                        int sides, int steps) {
  const auto levels = static_cast<std::size_t>(std::lround(high / pitch * steps));
  Measured result;
  result.mesh = bored(side, high, levels, static_cast<std::size_t>(sides), [&](double z, double a) {
    const double turns = z / pitch - a / kTurn, part = turns - std::floor(turns);
    return radius + deep * (1 - std::abs(2 * part - 1));
  });
  return result;
}

Measured turned_measured(const std::vector<std::pair<double, double>>& profile, int sides) {
  Measured result;
  result.mesh = turned_body(profile, sides);
  const double low = profile.front().second, top = profile.back().second;
  result.area_mm2 = area_per_r2(sides) * (low * low + top * top);
  for (std::size_t i = 0; i + 1 < profile.size(); ++i) {
    const auto [z, r] = profile[i];
    const auto [next_z, next_r] = profile[i + 1];
    result.volume_mm3 += frustum_mm3(r, next_r, next_z - z, sides);
    result.area_mm2 += mantle_mm2(r, next_r, next_z - z, sides);
  }
  return result;
}

Measured hollow_board(const Point& size, double wall) {
  Measured outer = prism({{0, 0}, {size.x, 0}, {size.x, size.z}, {0, size.z}}, size.y);
  const double x = size.x - 2 * wall, y = size.y - 2 * wall, z = size.z - 2 * wall;
  Measured inner = prism({{0, 0}, {x, 0}, {x, z}, {0, z}}, y);
  const std::size_t first = outer.mesh.points.size();
  for (const Point& p : inner.mesh.points) {
    outer.mesh.points.push_back({p.x + wall, p.y + wall, p.z + wall});
  }
  for (std::vector<std::size_t> face : inner.mesh.faces) {
    std::reverse(face.begin(), face.end());
    for (std::size_t& corner : face) {
      corner += first;
    }
    outer.mesh.faces.push_back(std::move(face));
  }
  outer.volume_mm3 -= inner.volume_mm3;
  outer.area_mm2 += inner.area_mm2;
  return outer;
}

Mesh turned_about(Mesh mesh, double about_z, double about_x) {
  const double c = std::cos(about_z), s = std::sin(about_z);
  const double d = std::cos(about_x), t = std::sin(about_x);
  for (Point& p : mesh.points) {
    const Point q{c * p.x - s * p.y, s * p.x + c * p.y, p.z};
    p = {q.x, d * q.y - t * q.z, t * q.y + d * q.z};
  }
  return mesh;
}

Mesh unshared(const Mesh& mesh) {
  Mesh result;
  for (const std::vector<std::size_t>& face : mesh.faces) {
    result.faces.emplace_back();
    for (const std::size_t corner : face) {
      result.faces.back().push_back(result.points.size());
      result.points.push_back(mesh.points[corner]);
    }
  }
  return result;
}

Mesh flipped(Mesh mesh) {
  std::reverse(mesh.faces.front().begin(), mesh.faces.front().end());
  return mesh;
}

}  // namespace scenes
