#include "planner/pressure/pressure_beam.h"

#include <cmath>

namespace planner::pressure {

double shear_ratio(const BeamLayer& layer, double length_mm) {
  return 12 * layer.bending_Nmm2 / (layer.shear_N * length_mm * length_mm);
}

BeamMatrix beam_stiffness(const BeamLayer& layer, double length_mm) {
  const double l = length_mm, phi = shear_ratio(layer, l);
  const double c = layer.bending_Nmm2 / (l * l * l * (1 + phi));
  const double shear = 12 * c, cross = 6 * l * c;
  const double own = (4 + phi) * l * l * c, other = (2 - phi) * l * l * c;
  return {{{shear, cross, -shear, cross},
           {cross, own, -cross, other},
           {-shear, -cross, shear, -cross},
           {cross, other, -cross, own}}};
}

BeamVector beam_forces(const BeamLayer& layer, double length_mm, const BeamVector& displacement) {
  const double l = length_mm, phi = shear_ratio(layer, l);
  const double chord = (displacement[2] - displacement[0]) / l;
  const double a = displacement[1] - chord, b = displacement[3] - chord;
  const double c = layer.bending_Nmm2 / (l * (1 + phi));
  const double m1 = c * ((4 + phi) * a + (2 - phi) * b), m2 = c * ((2 - phi) * a + (4 + phi) * b);
  const double shear = (m1 + m2) / l;
  return {shear, m1, -shear, m2};
}

BeamVector beam_shape(const BeamLayer& layer, double length_mm, double at) {
  const double l = length_mm, phi = shear_ratio(layer, l), s = at;
  const double s2 = s * s, s3 = s2 * s, d = 1 + phi;
  return {(1 - 3 * s2 + 2 * s3 + phi * (1 - s)) / d, l * (s - 2 * s2 + s3 + phi * (s - s2) / 2) / d,
          (3 * s2 - 2 * s3 + phi * s) / d, l * (s3 - s2 - phi * (s - s2) / 2) / d};
}

double spread_length_mm(const BeamLayer& layer, double stiffness_MPa) {
  return std::sqrt(std::sqrt(4 * layer.bending_Nmm2 / stiffness_MPa));
}

}  // namespace planner::pressure
