#include "planner/clamp_assignment.h"

#include <doctest/doctest.h>

#include "planner/clamp_work_test.h"

namespace planner {

TEST_SUITE("planner/clamp_assignment") {
  TEST_CASE("long clamps are kept for long spans") {
    const std::vector<OwnedClamp> rack{some("f_heavy", 2, 1000), some("f_heavy", 2, 450)};
    const std::vector<ClampWanted> wanted{
        {900, 10, 500, 32}, {300, 10, 500, 32}, {400, 10, 500, 32}};
    const auto got = assign_clamps(wanted, rack);
    CHECK(got[0] == 0);
    CHECK(got[1] == 1);
    CHECK(got[2] == 1);
  }
  TEST_CASE("as many places as possible are served, though some clamp is longer than it need be") {
    const std::vector<OwnedClamp> rack{some("f_heavy", 1, 450), some("f_heavy", 1, 800)};
    const auto got =
        assign_clamps(std::vector<ClampWanted>{{300, 10, 500, 32}, {300, 10, 500, 32}}, rack);
    CHECK(got[0].has_value());
    CHECK(got[1].has_value());
    CHECK(got[0] != got[1]);
  }
  TEST_CASE("too short, too weak, too shallow: such a clamp doesn't serve") {
    const OwnedClamp light = some("f_light", 1, 300);  // 1,500 N, 50 mm throat
    CHECK(serves(light, {290, 20, 1000, 25}));
    CHECK(!serves(light, {310, 20, 1000, 25}));
    CHECK(!serves(light, {290, 60, 1000, 25}));
    CHECK(!serves(light, {290, 20, 2000, 25}));
    CHECK(!serves(light, {290, 20, 1000, 38}));  // its jaw is shorter than the pad was cut for
  }
  TEST_CASE("straps and spring clamps press nothing flat") {
    CHECK(!serves(some("band", 1, 4000), {300, 0, 100, 20}));
    CHECK(!serves(some("spring", 1, 75), {50, 0, 50, 20}));
  }
  TEST_CASE("when there are too few, shoulders go without before joints that must be held") {
    const std::vector<OwnedClamp> rack{some("f_heavy", 1, 450)};
    const std::vector<ClampWanted> wanted{{300, 10, 500, 32, true}, {440, 10, 500, 32, false}};
    const auto got = assign_clamps(wanted, rack);
    CHECK(!got[0]);
    CHECK(got[1] == 0);
  }
}

}  // namespace planner
