#include "scenes/scenes.h"

#include <cmath>
#include <numbers>

namespace scenes {

using geometry::HalfSpace;
using geometry::LatticeBox;
using geometry::Length;
using geometry::Solid;

namespace {

LatticeBox box_nm(double scale, const std::array<double, 6>& c) {
  const auto at = [&](std::size_t i) { return Length::nm(std::llround(c[i] * scale)); };
  return {{at(0), at(1), at(2)}, {at(3), at(4), at(5)}};
}
LatticeBox mm(double x0, double y0, double z0, double x1, double y1, double z1) {
  return box_nm(1e6, {x0, y0, z0, x1, y1, z1});
}
LatticeBox inches(double x0, double y0, double z0, double x1, double y1, double z1) {
  return box_nm(25.4e6, {x0, y0, z0, x1, y1, z1});
}

Recipe rabbeted_all_round(double z0, double from, double to) {
  return {inches(0, 0, z0, 14, 9, z0 + 0.75),
          {},
          {inches(0, 0, z0 + from, 0.75, 9, z0 + to), inches(13.25, 0, z0 + from, 14, 9, z0 + to),
           inches(0, 0, z0 + from, 14, 0.75, z0 + to), inches(0, 8.25, z0 + from, 14, 9, z0 + to)},
          {}};
}

Recipe end_rabbeted(double y0, double y1, double from, double to) {
  return {inches(0, y0, 0.375, 14, y1, 7.625),
          {},
          {inches(0, from, 0.375, 0.75, to, 7.625), inches(13.25, from, 0.375, 14, to, 7.625)},
          {}};
}

}  // namespace

Solid make(const Recipe& recipe) {
  Solid solid = geometry::board(recipe.board);
  for (const HalfSpace& keep : recipe.keep) {
    solid = clip(solid, keep);
  }
  solid = cut(solid, recipe.cuts);
  for (const geometry::Turn& turn : recipe.turns) {
    solid = geometry::turned(solid, turn);
  }
  return solid;
}

std::vector<Solid> make(const Assembly& assembly) {
  std::vector<Solid> solids;
  for (const Recipe& recipe : assembly) {
    solids.push_back(make(recipe));
  }
  return solids;
}

Assembly chest() {
  return {rabbeted_all_round(0, 0.375, 0.75),
          end_rabbeted(8.25, 9, 8.25, 8.625),
          {inches(0, 0.375, 0.375, 0.75, 8.625, 7.625), {}, {}, {}},
          {inches(13.25, 0.375, 0.375, 14, 8.625, 7.625), {}, {}, {}},
          end_rabbeted(0, 0.75, 0.375, 0.75),
          rabbeted_all_round(7.25, 0, 0.375)};
}

Assembly carcass(int parts) {
  constexpr double kStock = 18, kDado = 6, kDeep = 300, kOpening = 200;
  // Columns and rows of openings: (columns - 1) dividers, columns x (rows - 1) shelves, 4 outside.
  const int columns = std::max(1, static_cast<int>(std::lround(std::sqrt(parts - 3.0))));
  const int inside = parts - 4 - (columns - 1);
  const double width = columns * kOpening + (columns + 1) * kStock;
  const int rows = inside / columns + 2;
  const double height = rows * kOpening + (rows + 1) * kStock;
  const auto upright = [&](int i) { return i * (kOpening + kStock); };  // its left face
  const auto level = [&](int j) { return j * (kOpening + kStock); };    // its lower face

  Assembly assembly;
  Recipe bottom{mm(0, 0, 0, width, kDeep, kStock), {}, {}, {}};
  Recipe top{mm(0, 0, height - kStock, width, kDeep, height), {}, {}, {}};
  for (int i = 0; i <= columns; ++i) {
    const double x = upright(i);
    bottom.cuts.push_back(mm(x, 0, kStock - kDado, x + kStock, kDeep, kStock));
    top.cuts.push_back(mm(x, 0, height - kStock, x + kStock, kDeep, height - kStock + kDado));
    assembly.push_back(
        {mm(x, 0, kStock - kDado, x + kStock, kDeep, height - kStock + kDado), {}, {}, {}});
  }
  for (int n = 0; n < inside; ++n) {
    const int i = n % columns, j = n / columns + 1;
    const double x0 = upright(i) + kStock - kDado / 2, x1 = upright(i + 1) + kDado / 2;
    const double z = level(j);
    assembly.push_back({mm(x0, 0, z, x1, kDeep, z + kStock), {}, {}, {}});
    auto& left = assembly[static_cast<std::size_t>(i)].cuts;
    auto& right = assembly[static_cast<std::size_t>(i) + 1].cuts;
    left.push_back(mm(x0, 0, z, upright(i) + kStock, kDeep, z + kStock));
    right.push_back(mm(upright(i + 1), 0, z, x1, kDeep, z + kStock));
  }
  assembly.push_back(bottom);
  assembly.push_back(top);
  return assembly;
}

Assembly finger_box() {
  constexpr double kLong = 400, kWide = 300, kHigh = 220, kStock = 20;
  constexpr int kFingers = 11;
  Assembly assembly;
  for (const int side : {0, 1}) {
    const double y = side * (kWide - kStock), x = side * (kLong - kStock);
    Recipe front{mm(0, y, 0, kLong, y + kStock, kHigh), {}, {}, {}};
    Recipe end{mm(x, 0, 0, x + kStock, kWide, kHigh), {}, {}, {}};
    for (int finger = 0; finger < kFingers; ++finger) {
      const double z0 = kHigh / kFingers * finger, z1 = kHigh / kFingers * (finger + 1);
      if (finger % 2 == 1) {
        front.cuts.push_back(mm(0, y, z0, kStock, y + kStock, z1));
        front.cuts.push_back(mm(kLong - kStock, y, z0, kLong, y + kStock, z1));
      } else {
        end.cuts.push_back(mm(x, 0, z0, x + kStock, kStock, z1));
        end.cuts.push_back(mm(x, kWide - kStock, z0, x + kStock, kWide, z1));
      }
    }
    assembly.push_back(front);
    assembly.push_back(end);
  }
  return assembly;
}

Assembly polygon_frame(int sides) {
  constexpr double kSide = 200, kWide = 40, kThick = 20;
  const double half_angle = std::numbers::pi / sides;
  const std::int64_t tangent = std::llround(1e9 * std::tan(half_angle));
  const Length apothem = Length::nm(std::llround(kSide * 1e6 / 2 / std::tan(half_angle)));
  Assembly assembly;
  for (int i = 0; i < sides; ++i) {
    Recipe rail{mm(0, 0, 0, kSide, kWide, kThick), {}, {}, {}};
    rail.keep.push_back({{-1'000'000'000, tangent, 0}, {}});
    rail.keep.push_back({{1'000'000'000, tangent, 0}, {Length::whole_mm(200), {}, {}}});
    rail.turns.push_back({2, 360.0 / sides * i, {Length::whole_mm(100), apothem, {}}});
    assembly.push_back(rail);
  }
  return assembly;
}

Assembly turned(Assembly assembly, double degrees) {
  for (Recipe& recipe : assembly) {
    recipe.turns.push_back({2, degrees, {}});
  }
  return assembly;
}

}  // namespace scenes
