#include "planner/work/standing.h"

#include <algorithm>
#include <cmath>
#include <random>
#include <utility>
#include <vector>

#include <doctest/doctest.h>

#include "planner/files/shop_file.h"
#include "planner/make_plan.h"
#include "planner/plan/plan_parts.h"
#include "planner/stage/bench_side.h"
#include "planner/work/built_job_test.h"
#include "planner/work/force_balance.h"

namespace planner::work {
namespace {

using geometry::Direction;

const Direction kUp{0, 0, 1}, kBack{0, 1, 0}, kRight{1, 0, 0};

struct Placed : BuiltJob {
  std::vector<Joint> joints;
  Standing standing;

  explicit Placed(const std::string& text)
      : BuiltJob(text), joints(classify_joints(job, contacts)), standing(job, solids, joints) {}
  bool stands(const std::vector<std::string>& names, const Direction& up) const {
    return standing.stands(ids(names), up);
  }
  bool stays(const std::vector<std::string>& moving, const std::vector<std::string>& staying,
             const Direction& up) const {
    return standing.stays(ids(moving), ids(staying), up);
  }

 private:
  std::vector<PartId> ids(const std::vector<std::string>& names) const {
    std::vector<PartId> out;
    for (const std::string& name : names) {
      out.push_back(index(name));
    }
    return out;
  }
};

const std::string kFrame =
    "units = 'mm'\nspecies = 'beech'\n[frame]\noutside = [600, 400]\nthickness = 20\nmember = 50\n"
    "corners = 'mortise'\n";
const std::string kCase =
    "units = 'mm'\nspecies = 'beech'\n[carcass]\noutside = [700, 220, 900]\nstock = 18\nshelves = "
    "2\n";
const std::string kBox =
    "units = 'mm'\nspecies = 'beech'\n[box]\noutside = [400, 300, 200]\nstock = 18\ncorners = "
    "'rabbet'\nbottom = 'rabbet'\n";

plan::Stage only_stage(const std::string& text) {
  const files::JobReading read = files::read_job("job.toml", text);
  REQUIRE(read.job);
  stage::PlanOptions options;
  options.explain = true;
  options.stages = 1;
  const Planned planned = make_plan(*read.job, files::unlimited_shop(), options);
  REQUIRE(planned.plan);
  return planned.plan->stages.front();
}

long hands(const plan::Stage& stage) {
  return std::count_if(stage.steps.begin(), stage.steps.end(),
                       [](const plan::Step& step) { return step.wants_hand; });
}

TEST_SUITE("planner/standing") {
  TEST_CASE("pushes add up to a weight between them, and to none beside them") {
    // At x = 0, and at x = 1 with an effort.
    const std::array<PointForce, 2> feet{{{{0, 0, 1, 0, 0, 0}, 0}, {{0, 0, 1, 0, -1, 0}, 1}}};
    CHECK(can_add_up(feet, {0, 0, 1, 0, -0.25, 0}, 5));
    CHECK(can_add_up(feet, {0, 0, 2, 0, 0, 0}, 5));
    CHECK_FALSE(can_add_up(feet, {0, 0, 1, 0, -1.25, 0}, 5));
    CHECK_FALSE(can_add_up(feet, {0, 0, -1, 0, 0, 0}, 5));
    CHECK_FALSE(can_add_up(feet, {0.1, 0, 1, 0, -0.25, 0}, 5));
    CHECK_FALSE(can_add_up(feet, {0, 0, 1, 0, -0.25, 0}, 0.2));
  }

  // As under a shelf with a groove: rows of corners in line, each with its cone of friction, so
  // that many sets of pushes add up to the same.
  TEST_CASE("pushes in rows add up to any sum of theirs, and to nothing beyond their cones") {
    constexpr double kFriction = 0.25;
    std::vector<PointForce> rows;
    for (int i = 0; i <= 40; ++i) {
      for (const double y : {-1.0, -0.9, 0.9, 1.0}) {
        const double x = 0.1 * i - 2;
        for (const auto& [fx, fy] : {std::pair{1, 0}, {-1, 0}, {0, 1}, {0, -1}}) {
          const double a = kFriction * fx, b = kFriction * fy;
          rows.push_back({{a, b, 1, y, -x, x * b - y * a}, 1});
        }
      }
    }
    std::mt19937 dice(7);
    for (int trial = 0; trial < 200; ++trial) {
      Wrench sum{};
      for (int k = 0; k < 5; ++k) {
        const PointForce& push = rows[dice() % rows.size()];
        for (std::size_t r = 0; r < sum.size(); ++r) {
          sum[r] += push.wrench[r] / 5;
        }
      }
      CHECK(can_add_up(rows, sum, 1.001));
      CHECK_FALSE(can_add_up(rows, sum, 0.999));
      Wrench steeper = sum;
      steeper[0] = (trial % 2 == 0 ? 1 : -1) * (1.01 * kFriction - std::abs(sum[1]));
      CHECK_FALSE(can_add_up(rows, steeper, 5));
    }
  }

  TEST_CASE("a board lies flat, and falls off an edge thinner than a seventh of its height") {
    const Placed box(kBox);
    REQUIRE(box.mistakes == "");
    CHECK(box.stands({"front"}, kBack));
    CHECK_FALSE(box.stands({"front"}, kUp));  // 18 thick, 191 high
    CHECK(box.stands({"front", "left"}, kUp));
    CHECK(box.stands({"bottom"}, kUp));
    // 18 high on 191.
    CHECK_FALSE(box.stays({"left"}, {"front"}, kUp));
    CHECK(box.stays({"front", "back", "left", "right"}, {"bottom"}, kUp));
  }

  TEST_CASE("a triangle lies on its three corners") {
    const Placed triangle(
        "units = 'mm'\nspecies = 'beech'\n[[part]]\nname = 'gusset'\nlength = 200\nwidth = 200\nthickness = 20\n"
        "along = 'x'\nface = 'z'\nat = [0, 0, 0]\n[[part.cut]]\nkind = 'mitre'\nside = '+x'\nlong = '-y'\nangle = 45\n"
        "[[part]]\nname = 'board'\nlength = 200\nwidth = 200\nthickness = 20\nalong = 'x'\nface = 'z'\nat = [0, 0, 20]\n");
    REQUIRE(triangle.mistakes == "");
    CHECK(triangle.stands({"gusset"}, kUp));
  }

  TEST_CASE("a frame's rail lies beside its stile, and stands in its mortise") {
    const Placed frame(kFrame);
    REQUIRE(frame.mistakes == "");
    CHECK(frame.stays({"top rail"}, {"left stile"}, kUp));
    // The stile lies on the bench by its outer edge, the rail stands in it.
    CHECK(frame.stays({"top rail"}, {"left stile"}, kRight));
  }

  TEST_CASE("a shelf stands in the dado of a side that lies down, and falls from one that stands") {
    const Placed work(kCase);
    REQUIRE(work.mistakes == "");
    CHECK(work.stays({"shelf 1"}, {"left side"}, kRight));
    CHECK(work.stands({"shelf 1", "left side"}, kRight));
    CHECK_FALSE(work.stays({"shelf 1"}, {"left side"}, kUp));
  }

  TEST_CASE("a frame is put together lying flat, and no part of it wants a hand") {
    const plan::Stage stage = only_stage(kFrame);
    CHECK(stage.bench_face == Face{2, false});
    CHECK(hands(stage) == 0);
    const auto& why = std::get<plan::BenchSideChosen>(stage.why.back());
    CHECK(why.down.z == -1);
    CHECK(why.hands == 0);
  }

  // On its back or on a side, its shelves standing in their dadoes.
  TEST_CASE("a case is put together lying down, and wants a hand at most") {
    const plan::Stage stage = only_stage(kCase);
    CHECK(stage.bench_face.axis != 2);
    CHECK(hands(stage) <= 1);
    // Front and back are alike, and so are its sides: on its back, or on the left one.
    CHECK((stage.bench_face == Face{1, true} || stage.bench_face == Face{0, false}));
  }

  // Its clamped ring gets the bottom from above, and is turned over for the lid.
  TEST_CASE("a chest with a lid ends lid up, its first walls held by hand") {
    const plan::Stage stage = only_stage(kBox + "top = 'rabbet'\n");
    const auto turns = std::ranges::count(stage.steps, plan::StepKind::turn, &plan::Step::kind);
    CHECK(stage.bench_face == Face{2, turns == 1});
    CHECK(bench_face_after(stage, stage.steps.back()) == Face{2, false});
    CHECK(hands(stage) > 0);
    // Turning takes time that no order was searched for: this one is no longer known to be the best.
    CHECK((turns == 0 || stage.status != plan::Proof::proven));
    CHECK_FALSE(std::find_if(stage.steps.rbegin(), stage.steps.rend(), [](const plan::Step& step) {
                  return step.kind == plan::StepKind::join;
                })->wants_hand);
  }
}

}  // namespace
}  // namespace planner::work
