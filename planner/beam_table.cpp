#include "planner/beam_table.h"

namespace planner {

BeamConstants beam_constants(BeamCase which) {
  switch (which) {
    case BeamCase::uniform_simple:
      return {5.0 / 384, 1.0 / 8};
    case BeamCase::uniform_clamped:
      return {1.0 / 384, 1.0 / 8};
    case BeamCase::midspan_force_simple:
      return {1.0 / 48, 1.0 / 4};
    case BeamCase::midspan_force_clamped:
      return {1.0 / 192, 1.0 / 4};
    case BeamCase::quarter_forces_simple:
      return {11.0 / 768, 1.0 / 8};
    case BeamCase::quarter_forces_simple_there:
      return {1.0 / 96, 1.0 / 8};
    case BeamCase::uniform_cantilever:
      return {1.0 / 8, 1.0 / 2};
    case BeamCase::end_force_cantilever:
      break;
  }
  return {1.0 / 3, 1.0};
}

double beam_deflection_mm(BeamCase which, const BeamLayer& beam, double span_mm,
                          double total_load_N) {
  const BeamConstants k = beam_constants(which);
  return k.bending * total_load_N * span_mm * span_mm * span_mm / beam.bending_Nmm2 +
         k.shear * total_load_N * span_mm / beam.shear_N;
}

double caul_camber_mm(const Caul& caul, double span_mm, double force_N) {
  return beam_deflection_mm(BeamCase::uniform_simple,
                            rectangle(caul.width_mm, caul.height_mm, caul.moduli), span_mm,
                            force_N);
}

}  // namespace planner
