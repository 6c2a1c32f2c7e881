#include "planner/clamps/layout/clamp_assignment.h"

#include <algorithm>

#include <doctest/doctest.h>

#include "planner/clamps/layout/clamp_work_test.h"

namespace planner::clamps::layout {

TEST_SUITE("planner/clamp_assignment") {
  TEST_CASE("long clamps are kept for long spans") {
    const std::vector<work::OwnedClamp> rack{some("f_heavy", 2, 1000), some("f_heavy", 2, 450)};
    const std::vector<ClampWanted> wanted{
        {900, 10, 500, 32}, {300, 10, 500, 32}, {400, 10, 500, 32}};
    const auto got = assign_clamps(wanted, rack);
    CHECK(got[0] == 0);
    CHECK(got[1] == 1);
    CHECK(got[2] == 1);
  }
  TEST_CASE("as many places as possible are served, though some clamp is longer than it need be") {
    const std::vector<work::OwnedClamp> rack{some("f_heavy", 1, 450), some("f_heavy", 1, 800)};
    const auto got =
        assign_clamps(std::vector<ClampWanted>{{300, 10, 500, 32}, {300, 10, 500, 32}}, rack);
    CHECK(got[0].has_value());
    CHECK(got[1].has_value());
    CHECK(got[0] != got[1]);
  }
  TEST_CASE("too short, too weak, too shallow: such a clamp doesn't serve") {
    const work::OwnedClamp light = some("f_light", 1, 300);  // 1,500 N, 50 mm throat
    CHECK(serves(light, {290, 20, 1000, 25}));
    CHECK(!serves(light, {310, 20, 1000, 25}));
    CHECK(!serves(light, {290, 60, 1000, 25}));
    CHECK(!serves(light, {290, 20, 2000, 25}));
    CHECK(!serves(light, {290, 20, 1000, 38}));  // its jaw is shorter than the pad was cut for
  }
  TEST_CASE(
      "straps and corner clamps press nothing flat, spring clamps only what little they can") {
    CHECK(!serves(some("band", 1, 4000), {300, 0, 100, 20}));
    CHECK(!serves(some("corner", 4, 70), {50, 0, 50, 20}));
    CHECK(serves(some("spring", 1, 75), {50, 0, 150, 20}));
    CHECK(!serves(some("spring", 1, 75), {50, 0, 160, 20}));  // 150 N by the table
  }
  TEST_CASE("only wooden jaws go without a pad") {
    ClampWanted bare{200, 10, 500, 32};
    bare.bare_jaws = true;
    CHECK(serves(some("hand_screw", 1, 250), bare));
    CHECK(!serves(some("pipe_3_4", 1, 600), bare));
  }
  TEST_CASE("when there are too few, shoulders go without before joints that must be held") {
    const std::vector<work::OwnedClamp> rack{some("f_heavy", 1, 450)};
    const std::vector<ClampWanted> wanted{{300, 10, 500, 32, true}, {440, 10, 500, 32, false}};
    const auto got = assign_clamps(wanted, rack);
    CHECK(!got[0]);
    CHECK(got[1] == 0);
  }
  TEST_CASE("the two sides of a frame get clamps of one kind and length") {
    // Least-cost alone takes the shortest four there are, and mixes each pair.
    const std::vector<work::OwnedClamp> rack{some("f_heavy", 3, 450), some("f_heavy", 3, 600)};
    const ClampWanted one{300, 10, 500, 32, false, "f_heavy", 1};
    const ClampWanted other{300, 10, 500, 32, false, "f_heavy", 2};
    const std::vector<ClampWanted> wanted{one, other, one, other};
    const auto got = assign_matched(wanted, rack);
    CHECK(got[0] == got[2]);
    CHECK(got[1] == got[3]);
    CHECK(got[0] != got[1]);
  }
  TEST_CASE("pairs are of one length rather than half of them of the kind planned on") {
    const std::vector<work::OwnedClamp> rack{some("f_heavy", 1, 450), some("parallel", 2, 600)};
    const ClampWanted one{300, 10, 500, 32, false, "f_heavy", 1};
    const std::vector<ClampWanted> wanted{one, one};
    CHECK(assign_clamps(wanted, rack)[0] != assign_clamps(wanted, rack)[1]);
    const auto got = assign_matched(wanted, rack);
    CHECK(got[0] == 1);
    CHECK(got[1] == 1);
  }
  TEST_CASE("no place goes without for the sake of a pair") {
    // The long one is wanted for the long span: the short span's pair stays unlike.
    const std::vector<work::OwnedClamp> rack{some("f_heavy", 1, 450), some("f_heavy", 2, 1000)};
    const ClampWanted pair{300, 10, 500, 32, false, "f_heavy", 1};
    const std::vector<ClampWanted> wanted{pair, pair, {900, 10, 500, 32, false, "f_heavy", 2}};
    const auto got = assign_matched(wanted, rack);
    CHECK(got[0] != got[1]);
    CHECK(got[2] == 1);
    CHECK(std::count(got.begin(), got.end(), std::nullopt) == 0);
  }
}

}  // namespace planner::clamps::layout
