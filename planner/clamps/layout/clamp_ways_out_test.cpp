#include "planner/clamps/layout/clamp_ways_out.h"

#include <algorithm>
#include <cmath>

#include <doctest/doctest.h>

#include "planner/clamps/layout/clamp_work_test.h"

namespace planner::clamps::layout {
namespace {

// The way out of one kind that the layout offers.
template <class Way>
const Way* way_of(const ClampLayout& layout) {
  for (const plan::WayOut& way : layout.ways_out) {
    if (const Way* change = std::get_if<Way>(&way.change)) {
      CHECK(way.mends);
      return change;
    }
  }
  return nullptr;
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
    const auto* borrow = way_of<plan::BorrowWay>(short_of);
    REQUIRE(borrow != nullptr);
    REQUIRE(borrow->lacking.size() == 1);
    CHECK(borrow->lacking[0].kind == "f_heavy");
    CHECK(borrow->lacking[0].count == short_of.missing);
    CHECK(borrow->lacking[0].opening_mm > 0);
    const work::Shop helped = shop_with({some("f_heavy", 8 + short_of.missing, 450)});
    const ClampLayout with = lay_out_clamps(chest.problem(helped), plan::Level::hold);
    CHECK(with.missing == 0);
  }
  TEST_CASE("a rack that has enough for each axis, not for both, may glue in two goes") {
    const TestWork chest = hive_tool_chest();
    const ClampLayout layout =
        lay_out_clamps(chest.problem(shop_with({some("f_heavy", 9, 450)})), plan::Level::hold);
    REQUIRE(layout.missing > 0);
    const auto* goes = way_of<plan::GoesWay>(layout);
    REQUIRE(goes != nullptr);
    CHECK(goes->goes == 2);
    std::vector<std::string> first;
    for (const work::PartId part : goes->first) {
      first.push_back(chest.job.parts[part].name);
    }
    CHECK(first == std::vector<std::string>{"back", "left", "right", "front"});
    std::size_t most = 0;
    for (const PressingAxis& round : layout.rounds) {
      most = std::max(most, round.clamps.size());
    }
    CHECK(goes->clamps == static_cast<int>(most));
  }
  TEST_CASE("a mitre wants both axes at once, so a box of mitres isn't glued an axis at a time") {
    const TestWork box = walls("miter");
    const ClampLayout layout =
        lay_out_clamps(box.problem(shop_with({some("parallel", 4, 600)})), plan::Level::hold);
    REQUIRE(layout.missing == 4);
    CHECK(way_of<plan::GoesWay>(layout) == nullptr);
    const auto* borrow = way_of<plan::BorrowWay>(layout);
    REQUIRE(borrow != nullptr);
    CHECK(borrow->lacking[0].kind == "parallel");
    CHECK(borrow->lacking[0].count == 4);
  }
  TEST_CASE("straps to borrow are those that the rack lacks, against as many bars") {
    const TestWork box = walls("rabbet");
    const work::Shop shop = shop_with({some("band", 2, 1500)});  // too short
    const ClampLayout layout = lay_out_clamps(box.problem(shop), plan::Level::hold);
    const auto* straps = way_of<plan::StrapsWay>(layout);
    REQUIRE(straps != nullptr);
    CHECK(straps->straps == 1);
    CHECK(straps->owned == 0);
    CHECK(std::ceil(straps->strap_mm) == 1600);
    CHECK(straps->clamps == 4);
    // With those the straps hold, and no bar is asked for.
    const work::Shop helped = shop_with({some("band", 1, 4000)});
    const ClampLayout held = lay_out_clamps(box.problem(helped), plan::Level::hold);
    CHECK(held.missing == 0);
    REQUIRE(held.rounds.back().clamps.size() == 1);
    CHECK(held.rounds.back().clamps.front().kind == "band");
  }
  TEST_CASE("straps that were tried in place of bars, and don't hold, are told of") {
    const TestWork box = walls("rabbet");
    work::Shop shop = shop_with({some("band", 2, 4000)});
    shop.clamps[0].force_N = 60;
    const ClampLayout layout = lay_out_clamps(box.problem(shop), plan::Level::hold);
    REQUIRE(layout.tried.size() == 1);
    const auto* straps = std::get_if<plan::StrapShortNote>(&layout.tried[0]);
    REQUIRE(straps != nullptr);
    CHECK(straps->straps == 2);
    CHECK(straps->share < 0.5);
    CHECK(straps->share > 0);
  }
  TEST_CASE("a rack of spring clamps is told what to borrow") {
    const TestWork chest = hive_tool_chest();
    const work::Shop shop = shop_with({some("spring", 12, 75)});
    const ClampLayout layout = lay_out_clamps(chest.problem(shop), plan::Level::hold);
    CHECK(layout.missing > 0);
    CHECK(way_of<plan::BorrowWay>(layout) != nullptr);
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
