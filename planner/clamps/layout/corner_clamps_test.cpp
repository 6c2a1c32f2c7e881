#include "planner/clamps/layout/corner_clamps.h"

#include <algorithm>
#include <set>

#include <doctest/doctest.h>

#include "planner/clamps/layout/clamp_work_test.h"
#include "planner/make_plan.h"
#include "planner/verify/verify_plan.h"

namespace planner::clamps::layout {
namespace {

TestWork box(const std::string& corners, const std::string& top = "none") {
  return work_of_text(
      "title = 'box'\nunits = 'mm'\n[box]\noutside = [400, 250, 200]\nstock = 18\ncorners = '" +
      corners + "'\ntop = '" + top +
      "'\nbottom = 'groove'\nspecies = 'black_cherry'\n[glue]\nuse = 'pva_type1'\n");
}

// Eight parallel-jaw clamps, and so many corner clamps.
work::Shop shop_of(int corner_clamps) {
  return shop_with({some("parallel", 12, 600), some("corner", corner_clamps, 70)});
}

plan::Plan plan_of(const TestWork& work, const work::Shop& shop) {
  const Planned planned = make_plan(work.job, shop, {});
  REQUIRE(planned.plan);
  for (const std::string& violation : verify::verify_plan(work.job, shop, *planned.plan)) {
    FAIL_CHECK(violation);
  }
  return *planned.plan;
}

bool noted(const plan::Plan& plan, plan::CornerClampsNote::Why why) {
  return std::any_of(plan.spare_notes.begin(), plan.spare_notes.end(),
                     [&](const plan::SpareNote& note) {
                       const auto* corners = std::get_if<plan::CornerClampsNote>(&note);
                       return corners != nullptr && corners->why == why;
                     });
}

}  // namespace

TEST_SUITE("planner/corner_clamps") {
  TEST_CASE("four corner clamps go on the four corners, near the open end, and press nothing") {
    const TestWork work = box("miter");
    const plan::Plan with = plan_of(work, shop_of(4)), without = plan_of(work, shop_of(0));
    const plan::Stage& stage = with.stages.front();
    REQUIRE(stage.corner_clamps.size() == 4);
    std::set<work::JointId> corners;
    for (const plan::CornerClamp& corner : stage.corner_clamps) {
      corners.insert(corner.joint);
    }
    CHECK(corners.size() == 4);
    for (const plan::CornerClamp& corner : stage.corner_clamps) {
      // 40 mm high by the table: their middle 20 mm under the rim.
      CHECK(corner.at.z == doctest::Approx(200 - 20));
      CHECK((corner.at.x == doctest::Approx(0) || corner.at.x == doctest::Approx(400)));
      CHECK((corner.at.y == doctest::Approx(0) || corner.at.y == doctest::Approx(250)));
      CHECK_FALSE(corner.stays);  // cauls as high as the box want their place
    }
    REQUIRE(with.pressure.size() == without.pressure.size());
    for (std::size_t i = 0; i < with.pressure.size(); ++i) {
      CHECK(with.pressure[i].min_MPa == without.pressure[i].min_MPa);
      CHECK(with.pressure[i].mean_MPa == without.pressure[i].mean_MPa);
    }
    CHECK(stage.clamps.size() == without.stages.front().clamps.size());
    // Twenty seconds each by the table.
    CHECK(stage.makespan_s >= without.stages.front().makespan_s + 4 * 20);
    const auto row = std::find_if(with.inventory.begin(), with.inventory.end(),
                                  [](const plan::InventoryRow& r) { return r.kind == "corner"; });
    REQUIRE(row != with.inventory.end());
    CHECK(row->used == 4);
  }
  TEST_CASE("two go across from one another, one alone stays on the rack") {
    const TestWork work = box("miter");
    const plan::Plan two = plan_of(work, shop_of(2));
    const auto& corners = two.stages.front().corner_clamps;
    REQUIRE(corners.size() == 2);
    CHECK(std::abs(corners[0].at.x - corners[1].at.x) == doctest::Approx(400));
    CHECK(std::abs(corners[0].at.y - corners[1].at.y) == doctest::Approx(250));
    const plan::Plan one = plan_of(work, shop_of(1));
    CHECK(one.stages.front().corner_clamps.empty());
    CHECK(noted(one, plan::CornerClampsNote::Why::one_alone));
  }
  TEST_CASE("where no clamp wants its place a corner clamp stays on") {
    const TestWork work = box("miter");
    const work::Shop shop = shop_of(4);
    const ClampProblem problem = work.problem(shop);
    std::vector<geometry::Box> boxes;
    for (const geometry::Solid& solid : work.solids) {
      boxes.push_back(geometry::bounds(solid));
    }
    const auto ring = find_ring(work.joints, boxes);
    REQUIRE(ring);
    const CornerClamps alone = corner_clamps(problem, *ring, ClampLayout{});
    REQUIRE(alone.set.size() == 4);
    for (const plan::CornerClamp& corner : alone.set) {
      CHECK(corner.stays);
    }
  }
  TEST_CASE("where sides run on past a shelf there is no corner, so that none is set there") {
    std::string text = "title = 'rack'\nunits = 'mm'\nspecies = 'black_cherry'\n[glue]\nuse = 'pva_type1'\n";
    for (const char* at : {"0", "500"}) {
      text += "[[part]]\nname = 'side at " + std::string(at) +
              "'\nlength = 500\nwidth = 200\nthickness = 18\nalong = 'z'\nface = 'x'\nat = [" + at + ", 0, 0]\n";
    }
    for (const char* at : {"0", "340"}) {
      text += "[[part]]\nname = 'shelf at " + std::string(at) +
              "'\nlength = 482\nwidth = 200\nthickness = 18\nalong = 'x'\nface = 'z'\nat = [18, 0, " + at + "]\n";
    }
    const plan::Plan plan = plan_of(work_of_text(text), shop_of(4));
    // Two corners below, none above, and two side by side don't square a ring.
    CHECK(plan.stages.front().corner_clamps.empty());
    CHECK(noted(plan, plan::CornerClampsNote::Why::no_room));
  }
  TEST_CASE("corner clamps alone hold nothing") {
    const TestWork work = box("miter");
    const plan::Plan plan = plan_of(work, shop_with({some("corner", 8, 70)}));
    CHECK_FALSE(plan.verdict.ok);
    CHECK(plan.verdict.pressure == plan::Level::short_of_hold);
    for (const plan::Stage& stage : plan.stages) {
      CHECK(stage.corner_clamps.empty());
      for (const plan::PlannedClamp& clamp : stage.clamps) {
        CHECK(clamp.kind != "corner");
      }
    }
  }
}

}  // namespace planner::clamps::layout
