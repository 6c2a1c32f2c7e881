#include "planner/pressure/pressure_plate_element.h"

#include <cmath>
#include <cstddef>

namespace planner::pressure {
namespace {

using Strain = std::array<double, 12>;

// matrix += factor * (u v^T + v u^T) / 2
void add_product(PlateMatrix& matrix, double factor, const Strain& u, const Strain& v) {
  for (std::size_t r = 0; r < 12; ++r)
    for (std::size_t c = 0; c < 12; ++c)
      matrix[r][c] += factor * (u[r] * v[c] + v[r] * u[c]) / 2;
}

// Slope of the edge from corner i to corner j less the mean slope of the sections on it. `slope` is
// 1 for beta_x, 2 for beta_y.
Strain edge_shear(std::size_t i, std::size_t j, double length_mm, std::size_t slope) {
  Strain shear{};
  shear[3 * i] = -1 / length_mm;
  shear[3 * j] = 1 / length_mm;
  shear[3 * i + slope] = shear[3 * j + slope] = -0.5;
  return shear;
}

void add_bending(PlateMatrix& matrix, const PlateSection& section, double a, double b) {
  constexpr std::array<double, 4> kCornerX{-1, 1, 1, -1}, kCornerY{-1, -1, 1, 1};
  const double point = 1 / std::sqrt(3.0);  // Gauss, 2 x 2
  for (const double x : {-point, point})
    for (const double y : {-point, point}) {
      Strain along{}, across{}, twist{};
      for (std::size_t i = 0; i < 4; ++i) {
        const double dx = kCornerX[i] * (1 + kCornerY[i] * y) / (2 * a);
        const double dy = kCornerY[i] * (1 + kCornerX[i] * x) / (2 * b);
        along[3 * i + 1] = dx;
        across[3 * i + 2] = dy;
        twist[3 * i + 1] = dy;
        twist[3 * i + 2] = dx;
      }
      const double area = a * b / 4;
      add_product(matrix, area * section.D_xx_Nmm, along, along);
      add_product(matrix, area * section.D_yy_Nmm, across, across);
      add_product(matrix, area * 2 * section.D_xy_Nmm, along, across);
      add_product(matrix, area * section.D_twist_Nmm, twist, twist);
    }
}

// The strain runs straight from one edge's value to the opposite one's.
void add_shear(PlateMatrix& matrix, double stiffness, const Strain& one, const Strain& opposite) {
  add_product(matrix, stiffness / 3, one, one);
  add_product(matrix, stiffness / 3, opposite, opposite);
  add_product(matrix, stiffness / 3, one, opposite);
}

}  // namespace

PlateSection plate_section(double thickness_mm, const LineModuli& m) {
  const double t = thickness_mm, cube = t * t * t / 12;
  const double nu_yx = m.nu_xy * m.E_y_MPa / m.E_x_MPa;
  const double held = 1 - m.nu_xy * nu_yx;
  constexpr double kShearFactor = 5.0 / 6;
  return {m.E_x_MPa * cube / held, m.E_y_MPa * cube / held,       nu_yx * m.E_x_MPa * cube / held,
          m.G_xy_MPa * cube,       kShearFactor * m.G_xz_MPa * t, kShearFactor * m.G_yz_MPa * t};
}

PlateMatrix plate_stiffness(const PlateSection& section, double a_mm, double b_mm) {
  PlateMatrix matrix{};
  add_bending(matrix, section, a_mm, b_mm);
  const double area = a_mm * b_mm;
  add_shear(matrix, section.S_x_N_mm * area, edge_shear(0, 1, a_mm, 1), edge_shear(3, 2, a_mm, 1));
  add_shear(matrix, section.S_y_N_mm * area, edge_shear(0, 3, b_mm, 2), edge_shear(1, 2, b_mm, 2));
  return matrix;
}

}  // namespace planner::pressure
