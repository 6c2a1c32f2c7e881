#include "planner/work/sizing.h"

#include <algorithm>

namespace planner::work {

int sized_sides(const Joint& joint, std::size_t face, const GlueInUse& glue) {
  const tables::GlueFamily* family = tables::find_glue_family(glue.family);
  const bool sizes = family == nullptr || (family->chemistry != tables::Chemistry::polyurethane &&
                                           family->chemistry != tables::Chemistry::epoxy);
  const bool pressed = joint.kind == JointKind::butt || joint.kind == JointKind::rabbet ||
                       joint.kind == JointKind::mitre;
  if (!joint.glued || joint.seated || !sizes || !pressed) {
    return 0;
  }
  const auto& grain = joint.faces[face].grain;
  return static_cast<int>(std::count(grain.begin(), grain.end(), GrainClass::end_grain));
}

bool is_sized(const Joint& joint, const GlueInUse& glue) {
  for (std::size_t face = 0; face < joint.faces.size(); ++face) {
    if (sized_sides(joint, face, glue) > 0) {
      return true;
    }
  }
  return false;
}

}  // namespace planner::work
