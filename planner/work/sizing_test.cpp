#include "planner/work/sizing.h"

#include <doctest/doctest.h>

namespace planner::work {
namespace {

Joint joint_of(JointKind kind, GrainClass a, GrainClass b) {
  Joint joint;
  joint.kind = kind;
  joint.faces.push_back({{}, {a, b}, false});
  return joint;
}

GlueInUse glue_of(const char* family) {
  GlueInUse glue;
  glue.family = family;
  return glue;
}

TEST_SUITE("work/sizing") {
  TEST_CASE("end grain that clamps press is sized, each side that shows it") {
    const GlueInUse pva = glue_of("pva_type2");
    CHECK(sized_sides(joint_of(JointKind::butt, GrainClass::end_grain, GrainClass::long_grain), 0,
                      pva) == 1);
    CHECK(sized_sides(joint_of(JointKind::mitre, GrainClass::end_grain, GrainClass::end_grain), 0,
                      pva) == 2);
    CHECK(
        is_sized(joint_of(JointKind::rabbet, GrainClass::long_grain, GrainClass::end_grain), pva));
    // A staves' mitre runs along the grain.
    CHECK_FALSE(
        is_sized(joint_of(JointKind::mitre, GrainClass::long_grain, GrainClass::long_grain), pva));
  }

  TEST_CASE("what slides into a tight fit never is, nor under glues that want it otherwise") {
    for (const JointKind kind : {JointKind::dado, JointKind::mortise_and_tenon, JointKind::fingers,
                                 JointKind::dowel, JointKind::groove, JointKind::half_lap}) {
      CHECK_FALSE(is_sized(joint_of(kind, GrainClass::end_grain, GrainClass::long_grain),
                           glue_of("pva_type2")));
    }
    const Joint butt = joint_of(JointKind::butt, GrainClass::end_grain, GrainClass::long_grain);
    CHECK_FALSE(is_sized(butt, glue_of("polyurethane")));
    CHECK_FALSE(is_sized(butt, glue_of("epoxy_slow")));
    Joint dry = butt;
    dry.glued = false;
    CHECK_FALSE(is_sized(dry, glue_of("pva_type2")));
  }
}

}  // namespace
}  // namespace planner::work
