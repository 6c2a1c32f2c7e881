#include "planner/pressure/racking.h"

#include <vector>

#include <doctest/doctest.h>

TEST_SUITE_BEGIN("planner/racking");

namespace planner::pressure {
namespace {

TEST_CASE("a force within a sixth of the middle is good, beyond a third too far") {
  CHECK(judge_offset(3, 18) == OffsetVerdict::good);
  CHECK(judge_offset(-4, 18) == OffsetVerdict::edge_opens);
  CHECK(judge_offset(6, 18) == OffsetVerdict::edge_opens);
  CHECK(judge_offset(-6.5, 18) == OffsetVerdict::too_far);
}

TEST_CASE("clamps all under a panel are mended by putting every other one above it") {
  const std::vector<OffsetForce> under(4, {3000, -15});
  CHECK(resultant_offset_mm(under) == doctest::Approx(-15));
  const OffsetRemedy remedy = mend_offset(under, 20);
  CHECK(remedy.swap.size() == 2);
  CHECK(remedy.shift_mm == 0);
}

TEST_CASE("one clamp alone off the middle can only be shifted") {
  const OffsetRemedy remedy = mend_offset(std::vector<OffsetForce>{{2000, 9}}, 18);
  CHECK(remedy.swap.empty());
  CHECK(remedy.shift_mm == doctest::Approx(-9));
  CHECK(mend_offset(std::vector<OffsetForce>{{2000, 3}}, 18).shift_mm == 0);
}

TEST_CASE("three clamps can't balance by sides alone: they are swapped and shifted") {
  const std::vector<OffsetForce> three(3, {2000, 15});
  const OffsetRemedy remedy = mend_offset(three, 18);
  CHECK(remedy.swap.size() == 1);
  CHECK(remedy.shift_mm == doctest::Approx(-5));
}

// Outside, closed form: moment of two slanted forces
TEST_CASE("slanted clamps rack a frame, and moving their heads back squares it") {
  const std::vector<SlantedForce> slanted{{2000, 100, 110}, {2000, 500, 506}};
  CHECK(racking_moment_Nmm(slanted) == doctest::Approx(-32000));
  std::vector<SlantedForce> moved = slanted;
  for (SlantedForce& each : moved)
    each.high_mm -= 8;
  CHECK(racking_moment_Nmm(moved) == doctest::Approx(0));
}

}  // namespace
}  // namespace planner::pressure

TEST_SUITE_END();
