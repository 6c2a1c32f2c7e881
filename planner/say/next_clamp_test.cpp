#include "planner/say/next_clamp.h"

#include <doctest/doctest.h>

#include "planner/files/shop_file.h"
#include "planner/tables/clamp.h"

using namespace planner;
using namespace planner::say;

namespace {

// A job that lacks `short_by` clamps of a kind and size, which is all that these tests need of it.
plan::Plan lacking(const std::string& kind, double opening_mm, int short_by) {
  plan::Plan plan;
  plan.inventory.push_back({kind, opening_mm, 0, 0, short_by});
  return plan;
}

int clamps_that_open(const work::Shop& shop, double opening_mm) {
  int n = 0;
  for (const work::OwnedClamp& clamp : shop.clamps) {
    n += clamp.opening.mm() >= opening_mm - 1 ? clamp.count : 0;
  }
  return n;
}

}  // namespace

TEST_SUITE("planner/next_clamp") {
  TEST_CASE("what turns most jobs from no to yes is bought first, and as many as it takes") {
    // A box that wants four of 300 mm, a door two of 600, a carcass two of 600: long clamps serve
    // all three.
    const std::vector<plan::Plan> plans = {lacking("f_heavy", 300, 4), lacking("f_heavy", 600, 2),
                                           lacking("f_heavy", 600, 2)};
    const std::vector<std::pair<double, int>> wants = {{300, 4}, {600, 2}, {600, 2}};
    const auto works = [&](std::size_t job, const work::Shop& shop) {
      return clamps_that_open(shop, wants[job].first) >= wants[job].second;
    };
    const auto buy = say::clamps_to_buy(plans, work::Shop{}, works);
    REQUIRE(buy.size() == 2);
    CHECK(buy[0].kind == "f_heavy");
    CHECK(buy[0].opening_mm == 600);
    CHECK(buy[0].count == 4);
    CHECK(buy[0].mends == std::vector<std::size_t>{0, 1, 2});
    CHECK(buy[1].mends == std::vector<std::size_t>{0});
  }

  TEST_CASE("one is enough where one is enough") {
    const std::vector<plan::Plan> plans = {lacking("f_heavy", 600, 3)};
    const auto buy = say::clamps_to_buy(
        plans, work::Shop{},
        [](std::size_t, const work::Shop& shop) { return clamps_that_open(shop, 600) >= 1; });
    REQUIRE(buy.size() == 1);
    CHECK(buy[0].count == 1);
  }

  TEST_CASE("a job that no clamp mends asks for none") {
    const std::vector<plan::Plan> plans = {lacking("f_heavy", 600, 2), plan::Plan{}};
    CHECK(say::clamps_to_buy(plans, work::Shop{}, [](std::size_t, const work::Shop&) {
            return false;
          }).empty());
  }

  TEST_CASE("a bought clamp has its kind's jaw and force") {
    const work::Shop shop = say::with_more(work::Shop{}, "f_heavy", 600, 2);
    REQUIRE(shop.clamps.size() == 1);
    CHECK(shop.clamps[0].count == 2);
    CHECK(shop.clamps[0].force_N == tables::find_clamp_kind("f_heavy")->force_typ_N);
  }
}
