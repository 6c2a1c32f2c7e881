#include "planner/say/drawing_faults.h"

#include <doctest/doctest.h>

using namespace planner;
using namespace planner::say;

namespace {

work::Joint glued_with_gap(double gap_mm) {
  work::Joint joint;
  joint.glued = true;
  joint.faces.emplace_back();
  joint.faces.back().contact.gap_mm = gap_mm;
  return joint;
}

}  // namespace

TEST_SUITE("planner/drawing_faults") {
  TEST_CASE("a drawing without fault has nothing to mend, whatever the shop lacks") {
    plan::Plan plan;
    plan.verdict.reasons = {"the clamps don't hold front - left all along"};
    plan.joints = {glued_with_gap(0)};
    CHECK(say::drawing_faults(plan).empty());
  }

  TEST_CASE("what is locked comes first, then wood across its grain, then the widest gap") {
    plan::Plan plan;
    plan.joints = {glued_with_gap(0.05), glued_with_gap(0.1), glued_with_gap(0.05)};
    plan.locked = {2, 3};
    plan.cross_grain.resize(3);
    plan.cross_grain[0].joint = 1;
    plan.cross_grain[0].warning = true;
    plan.cross_grain[1].joint = 2;  // it moves, but bears it
    plan.cross_grain[2] = plan.cross_grain[0];
    const std::vector<say::DrawingFault> mends = say::drawing_faults(plan);
    REQUIRE(mends.size() == 4);
    CHECK(mends[0].kind == say::FaultKind::locked);
    CHECK(mends[0].parts == std::vector<work::PartId>{2, 3});
    CHECK(mends[1].kind == say::FaultKind::across_grain);
    CHECK(mends[1].joints == std::vector<work::JointId>{1});
    CHECK(mends[2].gap_mm == 0.1);
    CHECK(mends[3].joints == std::vector<work::JointId>{0, 2});
  }

  TEST_CASE("a gap in a dry joint, and what rounding leaves, are no gaps to mend") {
    plan::Plan plan;
    plan.joints = {glued_with_gap(0.1), glued_with_gap(0.001)};
    plan.joints[0].glued = false;
    CHECK(say::drawing_faults(plan).empty());
    CHECK(say::drawn_gap_mm(plan.joints[1]) == 0);
  }
}
