#include "planner/stage/stage_rings.h"

#include <doctest/doctest.h>

namespace planner::stage {
namespace {

// Joints 0 to 3 go round the ring of parts 0 to 3; joints 4 and 5 join part 4 (a lid) to it.
struct Box {
  std::vector<work::Joint> joints;
  std::vector<work::Ring> rings;
  std::vector<std::size_t> closed = {0};

  Box() {
    rings.push_back({{0, 1, 2, 3}, 2, {300, 300}, {340, 340}});
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

// With these demands, a look at flush beside the diagonals where `flush`.
std::vector<StageRing> rings_of(const Box& box, std::vector<StageDemand>& demands,
                                const char* family = "pva_type2", bool flush = false) {
  work::GlueInUse glue;
  glue.family = family;
  std::vector<StageCheck> checks;
  if (flush) {
    checks.push_back({plan::Check::flush, 20});
  }
  return stage_rings(box.joints, {box.rings, box.closed}, checks, work::Pace{}, glue, demands);
}

std::vector<plan::Check> kinds(const StageRing& ring) {
  std::vector<plan::Check> all;
  for (const StageCheck& check : ring.checks) {
    all.push_back(check.what);
  }
  return all;
}

TEST_SUITE("stage/rings") {
  using enum plan::Check;

  TEST_CASE("the ring's rounds are tightened together, the lid's by itself") {
    const Box box;
    std::vector<StageDemand> demands = {demand({0, 2}, {0, 2}), demand({1, 3}, {1, 3, 4, 5}),
                                        demand({4, 5}, {4, 5})};
    const auto rings = rings_of(box, demands, "pva_type2", true);
    REQUIRE(rings.size() == 2);
    CHECK(kinds(rings[0]) == std::vector{flush, outside_diagonals});
    CHECK(rings[0].checks[1].seconds == 20);
    CHECK(rings[0].checks[1].rings == std::vector<std::size_t>{0});
    CHECK(rings[1].checks.empty());
    CHECK(demands[0].ring == 0);
    CHECK(demands[1].ring == 0);
    CHECK(demands[2].ring == 1);
  }

  TEST_CASE("clamps that only close shoulders don't wait for the lid") {
    const Box box;
    std::vector<StageDemand> demands = {demand({0, 2}, {0, 2}), demand({}, {1, 3, 4, 5})};
    static_cast<void>(rings_of(box, demands));
    CHECK(demands[1].closed_first == std::vector<work::JointId>{1, 3});
  }

  TEST_CASE("where no ring closes all rounds are tightened together") {
    Box box;
    box.closed.clear();
    std::vector<StageDemand> demands = {demand({0}, {0}), demand({4}, {4})};
    const auto rings = rings_of(box, demands, "pva_type2", true);
    CHECK(rings.size() == 1);
    CHECK(kinds(rings[0]) == std::vector{flush});
    CHECK(demands[0].ring == 0);
    CHECK(demands[1].ring == 0);
  }

  TEST_CASE("checks go to the last round where none presses the ring") {
    const Box box;
    std::vector<StageDemand> demands = {demand({4}, {4}), demand({5}, {5})};
    const auto rings = rings_of(box, demands);
    REQUIRE(rings.size() == 2);
    CHECK(rings[1].checks.size() == 1);
    CHECK(demands[0].ring == 0);
    CHECK(demands[1].ring == 1);
  }

  TEST_CASE("two rings that share no round are tightened one after the other, sharing one together") {
    Box box;
    // A second ring of parts 5 to 8, round joints 6 to 9.
    for (const auto& parts : {std::array<work::PartId, 2>{5, 6}, {6, 7}, {7, 8}, {5, 8}}) {
      box.joints.push_back(box.joints[0]);
      box.joints.back().parts = parts;
    }
    box.rings.push_back({{5, 6, 7, 8}, 2, {300, 300}, {340, 340}});
    box.closed = {0, 1};
    std::vector<StageDemand> apart = {demand({6, 8}, {6, 8}), demand({0, 2}, {0, 2}),
                                      demand({1, 3}, {1, 3}), demand({7, 9}, {7, 9})};
    const auto two = rings_of(box, apart);
    REQUIRE(two.size() == 2);
    CHECK(apart[1].ring == 0);
    CHECK(apart[2].ring == 0);
    CHECK(apart[0].ring == 1);
    CHECK(apart[3].ring == 1);
    CHECK(two[1].checks[0].rings == std::vector<std::size_t>{1});
    std::vector<StageDemand> shared = {demand({0, 2, 6, 8}, {}), demand({1, 3}, {1, 3}),
                                       demand({7, 9}, {7, 9})};
    const auto one = rings_of(box, shared);
    REQUIRE(one.size() == 1);
    // Alike, they are measured in one step.
    REQUIRE(one[0].checks.size() == 1);
    CHECK(one[0].checks[0].seconds == 40);
    CHECK(one[0].checks[0].rings == std::vector<std::size_t>{0, 1});
  }

  TEST_CASE("snug is enough for epoxy, unless a check may still move the work") {
    Box box;
    std::vector<StageDemand> checked = {demand({0, 2}, {0, 2})}, unchecked = checked;
    static_cast<void>(rings_of(box, checked, "epoxy_slow"));
    CHECK(checked[0].held_snug.empty());
    box.closed.clear();
    static_cast<void>(rings_of(box, unchecked, "epoxy_slow"));
    CHECK(unchecked[0].held_snug == std::vector<work::JointId>{0, 2});
  }
}

}  // namespace
}  // namespace planner::stage
