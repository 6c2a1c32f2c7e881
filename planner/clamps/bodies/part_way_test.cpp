#include "planner/clamps/bodies/part_way.h"

#include <doctest/doctest.h>

#include "planner/files/shop_file.h"

using namespace planner;
using namespace planner::clamps::bodies;

namespace {

// Along x over a box of 300 x 200 x 100 mm, near the top of its front wall, its bar on the given side.
plan::PlannedClamp clamp_with_bar(const geometry::Direction& side) {
  plan::PlannedClamp clamp;
  clamp.axis = {1, 0, 0};
  clamp.at = {0, 10, 95};
  clamp.span_mm = 300;
  clamp.kind = "sash";
  clamp.size_mm = 900;
  clamp.opening_mm = 330;
  clamp.pad = {60, 40, 19};
  clamp.bar_side = side;
  return clamp;
}

const geometry::Box kLid = {{0, 0, 100}, {300, 200, 112}};
const geometry::Direction kDown = {0, 0, -1};

}  // namespace

TEST_SUITE("planner/part_way") {
  TEST_CASE("a bar over the box bars its lid the way, one beside it doesn't") {
    const work::Shop shop = files::unlimited_shop();
    CHECK(bars_the_way(clamp_with_bar({0, 0, 1}), shop, kLid, kDown));
    CHECK_FALSE(bars_the_way(clamp_with_bar({0, -1, 0}), shop, kLid, kDown));
    CHECK_FALSE(bars_the_way(clamp_with_bar({0, 0, -1}), shop, kLid, kDown));
  }
  TEST_CASE("a lid slid in from the back passes under a bar in front of it") {
    const work::Shop shop = files::unlimited_shop();
    plan::PlannedClamp in_front = clamp_with_bar({0, -1, 0});
    CHECK_FALSE(bars_the_way(in_front, shop, kLid, {0, -1, 0}));
  }
  TEST_CASE("a strap bars nothing, nor is anything told of a slanting way") {
    const work::Shop shop = files::unlimited_shop();
    plan::PlannedClamp strap = clamp_with_bar({0, 0, 1});
    strap.round = {{0, 0, 50}, {300, 0, 50}, {300, 200, 50}, {0, 200, 50}};
    CHECK_FALSE(bars_the_way(strap, shop, kLid, kDown));
    CHECK_FALSE(bars_the_way(clamp_with_bar({0, 0, 1}), shop, kLid, {0.6, 0, -0.8}));
  }
}
