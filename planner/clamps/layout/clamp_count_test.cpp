#include "planner/clamps/layout/clamp_count.h"

#include <doctest/doctest.h>

TEST_SUITE_BEGIN("planner/clamp_count");

namespace planner::clamps::layout {
namespace {

constexpr double kInch_mm = 25.4, kPound_N = 4.4482216152605;

TEST_CASE(
    "published (Wood magazine, 2021): 25 in2 at 150 psi is 3750 lbf, 9 clamps of 420, 8 of 470") {
  const double needed = 25 * 150 * kPound_N;
  CHECK(clamps_for_force(needed, 420 * kPound_N) == 9);
  CHECK(clamps_for_force(needed, 470 * kPound_N) == 8);
}

TEST_CASE("published (Clamping Up): two 2 in boards 48 in long take 8 clamps, with wide pads 4") {
  CHECK(clamps_at_45_degrees(48 * kInch_mm, kInch_mm, (2 + 0.5) * kInch_mm) == 8);
  CHECK(clamps_at_45_degrees(48 * kInch_mm, kInch_mm, (2 + 3.5) * kInch_mm) == 4);
}

}  // namespace
}  // namespace planner::clamps::layout

TEST_SUITE_END();
