#include "planner/clamps/axis/press_backing.h"

#include <algorithm>

#include "planner/pressure/pressure_wood.h"
#include "planner/tables/wood.h"
#include "planner/work/joint_means.h"

namespace planner::clamps::axis {

PressBacking press_backing(const work::Job& job, std::span<const work::Joint> joints,
                           std::span<const FaceRef> held) {
  PressBacking backing;
  if (job.bend && !held.empty()) {
    backing.form_mm = kForm_mm;
    backing.widest_apart_mm = kFormApart_mm;
    const tables::Wood* wood = wood_of(job.parts.front());  // of the first ply
    backing.moment_Nmm = job.bend->moment_Nmm(elastic_of(*wood).e_length_MPa);
  } else if (std::ranges::any_of(held, [&](const FaceRef& face) {
               return work::is_veneer(joints[face.joint], job);
             })) {
    backing.platen_mm = kPlaten_mm;
    backing.widest_apart_mm = kBearersApart_mm;
  }
  return backing;
}

pressure::LineModuli platen_moduli() {
  return moduli_in(pressure::stiffness_of(*tables::find_wood("mdf")), pressure::kPanelGrainAlongLine);
}

}  // namespace planner::clamps::axis
