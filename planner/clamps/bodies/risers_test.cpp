#include "planner/clamps/bodies/risers.h"

#include <doctest/doctest.h>

using namespace planner;
using namespace planner::clamps::bodies;

namespace {

// A board 40 thick on the bench, and a heavy F clamp of the rack: throat 120, bar 30 deep, jaws 32
// square, fixed jaw 30 (planner/tables/clamps.csv).
struct OnBench {
  std::vector<plan::PlanPart> parts{1};
  work::Shop shop;
  plan::Stage stage;
  plan::PlannedClamp clamp;

  OnBench() {
    parts[0].bounds = {{0, 0, 0}, {600, 200, 40}};
    work::OwnedClamp row;
    row.kind = "f_heavy";
    row.throat = geometry::Length::nm(120'000'000);
    row.opening = geometry::Length::nm(600'000'000);
    shop.clamps = {row};
    stage.parts = {0};
    clamp.kind = "f_heavy";
    clamp.owned = 0;
    clamp.pad = {75, 40, 19};
    clamp.axis = {0, 1, 0};
    clamp.at = {300, 0, 20};
    clamp.span_mm = 200;
  }
  double risers(base::Units units = base::Units::mm) {
    stage.clamps = {clamp};
    return clamps::bodies::risers_mm(stage, parts, shop, units);
  }
};

}  // namespace

TEST_SUITE("planner/risers") {
  TEST_CASE("a bar under a panel: its throat and its depth, less half the board") {
    OnBench panel;
    panel.clamp.bar_side = {0, 0, -1};
    CHECK(panel.risers() == doctest::Approx(120 + 30 - 20));
  }
  TEST_CASE("a bar above leaves the work on the bench") {
    OnBench panel;
    panel.clamp.bar_side = {0, 0, 1};
    CHECK(panel.risers() == 0);
  }
  TEST_CASE("a clamp from top to bottom has its pad and jaw below") {
    OnBench box;
    box.clamp.axis = {0, 0, 1};
    box.clamp.at = {300, 10, 0};
    box.clamp.span_mm = 40;
    box.clamp.bar_side = {0, -1, 0};
    CHECK(box.risers() == doctest::Approx(50));  // 19 + 30 = 49, in steps of 5
    CHECK(box.risers(base::Units::inch) == doctest::Approx(50.8));
    box.stage.bench_face = {1, false};  // on its front: the bar hangs below
    CHECK(box.risers() == doctest::Approx(120 + 30 - 10));
  }
}
