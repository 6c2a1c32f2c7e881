#include "planner/clamps/layout/clamp_ways_out.h"

#include <algorithm>

#include <doctest/doctest.h>

#include "planner/clamps/layout/clamp_work_test.h"

namespace planner::clamps::layout {
namespace {

const plan::WayOut* way_with(const ClampLayout& layout, const std::string& words) {
  const auto it =
      std::find_if(layout.ways_out.begin(), layout.ways_out.end(),
                   [&](const plan::WayOut& w) { return w.what.find(words) != std::string::npos; });
  return it == layout.ways_out.end() ? nullptr : &*it;
}

// Four walls 400 x 250 x 120 mm.
TestWork walls(const std::string& corners) {
  return work_of_text(
      "title = 'walls'\nunits = 'mm'\n[box]\noutside = [400, 250, 120]\nstock = 18\ncorners = '" +
      corners +
      "'\ntop = 'none'\nbottom = 'none'\nspecies = 'black_cherry'\n[glue]\nuse = 'pva_type2'\n");
}

}  // namespace

TEST_SUITE("planner/clamp_ways_out") {
  TEST_CASE("a few clamps short, deeper stock under the jaws makes the rack do") {
    const TestWork chest = hive_tool_chest();
    const auto held = [&](int clamps) {
      return lay_out_clamps(chest.problem(shop_with({some("f_heavy", clamps, 450)})),
                            plan::Level::hold);
    };
    const ClampLayout tight = held(14);
    CHECK(tight.missing == 0);
    CHECK(tight.ways_out.empty());
    const auto deepest = [](const ClampLayout& layout) {
      double thick = 0;
      for (const PressingAxis& round : layout.rounds) {
        for (const plan::PlannedClamp& clamp : round.clamps) {
          thick = std::max(thick, clamp.caul ? clamp.caul->thick_mm : clamp.pad.thick_mm);
        }
      }
      return thick;
    };
    CHECK(deepest(tight) > 20);
  }
  TEST_CASE("borrowing what is missing always mends, and says how far the clamps must open") {
    const TestWork chest = hive_tool_chest();
    const work::Shop shop = shop_with({some("f_heavy", 8, 450)});
    const ClampLayout short_of = lay_out_clamps(chest.problem(shop), plan::Level::hold);
    const plan::WayOut* borrow = way_with(short_of, "borrow");
    REQUIRE(borrow != nullptr);
    CHECK(borrow->mends);
    CHECK(borrow->what.find(std::to_string(short_of.missing) + " heavy F clamps") !=
          std::string::npos);
    CHECK(borrow->what.find("mm or more") != std::string::npos);
    const work::Shop helped = shop_with({some("f_heavy", 8 + short_of.missing, 450)});
    const ClampLayout with = lay_out_clamps(chest.problem(helped), plan::Level::hold);
    CHECK(with.missing == 0);
  }
  TEST_CASE("a rack that has enough for each axis, not for both, may glue in two goes") {
    const TestWork chest = hive_tool_chest();
    const ClampLayout layout =
        lay_out_clamps(chest.problem(shop_with({some("f_heavy", 9, 450)})), plan::Level::hold);
    REQUIRE(layout.missing > 0);
    const plan::WayOut* goes = way_with(layout, "2 goes: first back, left, right and front");
    REQUIRE(goes != nullptr);
    CHECK(goes->mends);
    std::size_t most = 0;
    for (const PressingAxis& round : layout.rounds) {
      most = std::max(most, round.clamps.size());
    }
    CHECK(goes->gain.find(std::to_string(most) + " clamps at a time") != std::string::npos);
  }
  TEST_CASE("a mitre wants both axes at once, so a box of mitres isn't glued an axis at a time") {
    const TestWork box = walls("mitre");
    const ClampLayout layout =
        lay_out_clamps(box.problem(shop_with({some("parallel", 4, 600)})), plan::Level::hold);
    REQUIRE(layout.missing == 4);
    CHECK(way_with(layout, "goes") == nullptr);
    CHECK(way_with(layout, "borrow 4 parallel-jaw") != nullptr);
  }
  TEST_CASE("straps to borrow are those that the rack lacks, against as many bars") {
    const TestWork box = walls("rabbet");
    const work::Shop shop = shop_with({some("band", 2, 4000)});
    const ClampLayout layout = lay_out_clamps(box.problem(shop), plan::Level::hold);
    const plan::WayOut* straps = way_with(layout, "band clamps, 1600 mm of strap");
    REQUIRE(straps != nullptr);
    CHECK(straps->what.find("borrow 2 band") == 0);
    CHECK(straps->what.find("with the 2 on the rack") != std::string::npos);
    CHECK(straps->gain.find("4 straps in place of 4 clamps") != std::string::npos);
    // With those the straps hold, and no bar is asked for.
    const work::Shop helped = shop_with({some("band", 4, 4000)});
    const ClampLayout held = lay_out_clamps(box.problem(helped), plan::Level::hold);
    CHECK(held.missing == 0);
    REQUIRE(held.rounds.back().clamps.size() == 4);
    CHECK(held.rounds.back().clamps.front().kind == "band");
  }
  TEST_CASE("straps that were tried in place of bars, and don't hold, are told of") {
    const TestWork box = walls("rabbet");
    const work::Shop shop = shop_with({some("band", 2, 4000)});
    const ClampLayout layout = lay_out_clamps(box.problem(shop), plan::Level::hold);
    REQUIRE(layout.tried.size() == 1);
    CHECK(layout.tried[0] ==
          "2 band clamps round it in place of bars leave part of a corner without pressure");
  }
  TEST_CASE("a rack of spring clamps is told what to borrow") {
    const TestWork chest = hive_tool_chest();
    const work::Shop shop = shop_with({some("spring", 12, 75)});
    const ClampLayout layout = lay_out_clamps(chest.problem(shop), plan::Level::hold);
    CHECK(layout.missing > 0);
    CHECK(way_with(layout, "borrow") != nullptr);
    CHECK(layout.rounds.front().level == plan::Level::short_of_hold);
  }
  TEST_CASE("with too few for everything the shoulders are left to hands, not the joints") {
    const TestWork chest = hive_tool_chest();
    const ClampLayout enough =
        lay_out_clamps(chest.problem(shop_with({some("f_heavy", 30, 450)})), plan::Level::hold);
    int held = 0;
    for (const PressingAxis& round : enough.rounds) {
      held += round.seat ? 0 : static_cast<int>(round.clamps.size());
    }
    const ClampLayout tight = lay_out_clamps(
        chest.problem(shop_with({some("f_heavy", held + 1, 450)})), plan::Level::hold);
    CHECK(tight.missing == 0);
    CHECK(tight.rounds.back().seat);
    CHECK(tight.rounds.back().clamps.empty());
    REQUIRE(tight.rounds.back().by_hand);
    CHECK(tight.rounds.back().by_hand->clamps == 2);
    CHECK(tight.rounds.back().by_hand->opening_mm == doctest::Approx(16 * 25.4));
  }
}

}  // namespace planner::clamps::layout
