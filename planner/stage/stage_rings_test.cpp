#include "planner/stage/stage_rings.h"

#include <doctest/doctest.h>

namespace planner::stage {
namespace {

// Joints 0 to 3 go round the ring of parts 0 to 3; joints 4 and 5 join part 4 (a lid) to it.
struct Box {
  std::vector<work::Joint> joints;
  work::Ring ring;

  Box() {
    ring.parts = {0, 1, 2, 3};
    for (const auto& parts :
         {std::array<work::PartId, 2>{0, 1}, {1, 2}, {2, 3}, {0, 3}, {0, 4}, {2, 4}}) {
      work::Joint joint;
      joint.parts = parts;
      joint.kind = work::JointKind::butt;
      joint.faces.emplace_back();
      joints.push_back(joint);
    }
  }
};

StageDemand demand(std::vector<work::JointId> holds, std::vector<work::JointId> presses) {
  StageDemand d;
  d.clamps = 2;
  d.holds = std::move(holds);
  d.presses = std::move(presses);
  return d;
}

work::GlueInUse glue_of(const char* family) {
  work::GlueInUse glue;
  glue.family = family;
  return glue;
}

TEST_SUITE("stage/rings") {
  TEST_CASE("the ring's rounds are tightened together, the lid's by itself") {
    const Box box;
    std::vector<StageDemand> demands = {demand({0, 2}, {0, 2}), demand({1, 3}, {1, 3, 4, 5}),
                                        demand({4, 5}, {4, 5})};
    const auto rings = stage_rings(box.joints, &box.ring, {{plan::Check::outside_diagonals, 45}},
                                   glue_of("pva_type2"), demands);
    REQUIRE(rings.size() == 2);
    CHECK(rings[0].checks.size() == 1);
    CHECK(rings[1].checks.empty());
    CHECK(demands[0].ring == 0);
    CHECK(demands[1].ring == 0);
    CHECK(demands[2].ring == 1);
  }

  TEST_CASE("clamps that only close shoulders don't wait for the lid") {
    const Box box;
    std::vector<StageDemand> demands = {demand({0, 2}, {0, 2}), demand({}, {1, 3, 4, 5})};
    static_cast<void>(stage_rings(box.joints, &box.ring, {}, glue_of("pva_type2"), demands));
    CHECK(demands[1].closed_first == std::vector<work::JointId>{1, 3});
  }

  TEST_CASE("where no ring closes all rounds are tightened together") {
    const Box box;
    std::vector<StageDemand> demands = {demand({0}, {0}), demand({4}, {4})};
    const auto rings = stage_rings(box.joints, nullptr, {{plan::Check::square, 20}},
                                   glue_of("pva_type2"), demands);
    CHECK(rings.size() == 1);
    CHECK(demands[0].ring == 0);
    CHECK(demands[1].ring == 0);
  }

  TEST_CASE("checks go to the last round where none presses the ring") {
    const Box box;
    std::vector<StageDemand> demands = {demand({4}, {4}), demand({5}, {5})};
    const auto rings = stage_rings(box.joints, &box.ring, {{plan::Check::outside_diagonals, 45}},
                                   glue_of("pva_type2"), demands);
    REQUIRE(rings.size() == 2);
    CHECK(rings[1].checks.size() == 1);
    CHECK(demands[0].ring == 0);
    CHECK(demands[1].ring == 1);
  }

  TEST_CASE("snug is enough for epoxy, unless a check may still move the work") {
    const Box box;
    std::vector<StageDemand> checked = {demand({0, 2}, {0, 2})}, unchecked = checked;
    static_cast<void>(stage_rings(box.joints, &box.ring, {{plan::Check::outside_diagonals, 45}},
                                  glue_of("epoxy_slow"), checked));
    CHECK(checked[0].held_snug.empty());
    static_cast<void>(stage_rings(box.joints, &box.ring, {}, glue_of("epoxy_slow"), unchecked));
    CHECK(unchecked[0].held_snug == std::vector<work::JointId>{0, 2});
  }
}

}  // namespace
}  // namespace planner::stage
