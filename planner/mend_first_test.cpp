#include "planner/mend_first.h"

#include <doctest/doctest.h>

using namespace planner;

namespace {

Joint glued_with_gap(double gap_mm) {
  Joint joint;
  joint.glued = true;
  joint.faces.emplace_back();
  joint.faces.back().contact.gap_mm = gap_mm;
  return joint;
}

}  // namespace

TEST_SUITE("planner/mend_first") {
  TEST_CASE("a drawing without fault has nothing to mend, whatever the shop lacks") {
    Plan plan;
    plan.verdict.reasons = {"the clamps don't hold front - left all along"};
    plan.joints = {glued_with_gap(0)};
    CHECK(mend_first(plan).empty());
  }

  TEST_CASE("what is locked comes first, then wood across its grain, then the widest gap") {
    Plan plan;
    plan.joints = {glued_with_gap(0.05), glued_with_gap(0.1), glued_with_gap(0.05)};
    plan.locked = {2, 3};
    plan.cross_grain.resize(3);
    plan.cross_grain[0].joint = 1;
    plan.cross_grain[0].warning = true;
    plan.cross_grain[1].joint = 2;  // it moves, but bears it
    plan.cross_grain[2] = plan.cross_grain[0];
    const std::vector<Mend> mends = mend_first(plan);
    REQUIRE(mends.size() == 4);
    CHECK(mends[0].kind == MendKind::locked);
    CHECK(mends[0].parts == std::vector<PartId>{2, 3});
    CHECK(mends[1].kind == MendKind::across_grain);
    CHECK(mends[1].joints == std::vector<JointId>{1});
    CHECK(mends[2].gap_mm == 0.1);
    CHECK(mends[3].joints == std::vector<JointId>{0, 2});
  }

  TEST_CASE("a gap in a dry joint, and what rounding leaves, are no gaps to mend") {
    Plan plan;
    plan.joints = {glued_with_gap(0.1), glued_with_gap(0.001)};
    plan.joints[0].glued = false;
    CHECK(mend_first(plan).empty());
    CHECK(drawn_gap_mm(plan.joints[1]) == 0);
  }
}
