#include "planner/pressure/beam_table.h"

#include <array>
#include <cstddef>

namespace planner::pressure {

BeamConstants beam_constants(BeamCase which) {
  // In the order of BeamCase.
  static constexpr std::array<BeamConstants, 8> kTable{{{5.0 / 384, 1.0 / 8},
                                                        {1.0 / 384, 1.0 / 8},
                                                        {1.0 / 48, 1.0 / 4},
                                                        {1.0 / 192, 1.0 / 4},
                                                        {11.0 / 768, 1.0 / 8},
                                                        {1.0 / 96, 1.0 / 8},
                                                        {1.0 / 8, 1.0 / 2},
                                                        {1.0 / 3, 1.0}}};
  return kTable[static_cast<std::size_t>(which)];
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

}  // namespace planner::pressure
