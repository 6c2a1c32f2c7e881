#include "planner/clamps/bodies/clamp_setting.h"

#include <random>

#include <doctest/doctest.h>

namespace planner::clamps::bodies {
namespace {

using geometry::Direction;
using geometry::Point;

const Direction kAlong{1, 0, 0}, kDown{0, 0, 1}, kFront{0, -1, 0};

StandingClamp clamp(const char* kind, const Direction& axis, const Point& low, double between_mm) {
  StandingClamp c;
  c.kind = tables::find_clamp_kind(kind);
  c.axis = axis;
  c.low = low;
  c.between_mm = between_mm;
  c.throat_mm = c.kind->throat_mm->lo;
  return c;
}

struct Rack {
  std::vector<StandingClamp> clamps;
  std::vector<Direction> sides;
  void add(const StandingClamp& c, const Direction& side = kFront) {
    clamps.push_back(c);
    sides.push_back(side);
  }
  ClampWays ways() const { return {clamps, sides}; }
};

using Body = std::array<geometry::Box, 3>;

Body moved(Body body, const Direction& by) {
  for (geometry::Box& box : body) {
    box.lo = box.lo + by;
    box.hi = box.hi + by;
  }
  return body;
}

// Brought from 3 m away in steps of 5 mm, and looked at after each.
bool meets_on_the_way(const Body& body, const Direction& from, const Body& other) {
  for (int mm = 0; mm <= 3000; mm += 5) {
    if (bodies_clash(moved(body, static_cast<double>(mm) * from), other)) {
      return true;
    }
  }
  return false;
}

std::vector<char> all_but(std::size_t one, std::size_t of) {
  std::vector<char> there(of, 1);
  there[one] = 0;
  return there;
}

}  // namespace

TEST_SUITE("planner/clamp_setting") {
  // A bar along a low wall, and two of longer reach across it, with their jaws above and below: the
  // first finds no way in past those.
  Rack fenced_in() {
    Rack rack;
    for (const double x : {50.0, 350.0}) {
      rack.add(clamp("f_heavy", kDown, {x, 0, 0}, 100));
    }
    rack.add(clamp("f_light", kAlong, {-20, 10, 50}, 440));
    return rack;
  }

  TEST_CASE("what the others leave no way to goes on first, whoever it comes after in the list") {
    const ClampWays ways = fenced_in().ways();
    CHECK(ways.behind(2, all_but(2, 3)));
    CHECK_FALSE(ways.behind(0, all_but(0, 3)));
    const std::vector<ClampIds> one_round{{0, 1, 2}};
    const SettingOrder order = setting_order(ways, one_round);
    CHECK(order.hemmed.empty());
    CHECK(order.rounds[0].back() == 1);
    CHECK(order.rounds[0][0] == 2);
    const std::vector<ClampIds> two_rounds{{0, 1}, {2}};
    const std::vector<EarlierRound> better = earlier_rounds(ways, two_rounds);
    REQUIRE(better.size() == 1);
    CHECK(better[0].round == 1);
    CHECK(better[0].before == 0);
    CHECK(better[0].hemmed == 0);
  }

  TEST_CASE("where the rounds must keep their order it is laid in its place before") {
    const ClampWays ways = fenced_in().ways();
    const std::vector<ClampIds> rounds{{0, 1}, {2}};
    const SettingOrder order = setting_order(ways, rounds);
    CHECK(order.hemmed.empty());
    CHECK(order.rounds == std::vector<ClampIds>{{0, 1}, {2}});
    REQUIRE(order.laid_before[2]);
    std::vector<char> there(3, 0);
    for (const std::size_t clamp : order.rounds[0]) {
      if (clamp == *order.laid_before[2]) {
        CHECK_FALSE(ways.behind(2, there));
      }
      there[clamp] = 1;
    }
  }

  TEST_CASE("clamps in a row leave one another free, and keep their order") {
    Rack row;
    for (int i = 0; i < 6; ++i) {
      row.add(clamp("sash", kAlong, {0, 0, 150.0 * i}, 600));
    }
    const std::vector<ClampIds> round{{3, 1, 2, 0, 4, 5}};
    const SettingOrder order = setting_order(row.ways(), round);
    CHECK(order.hemmed.empty());
    CHECK(order.rounds == round);
    CHECK(order.laid_before == std::vector<std::optional<std::size_t>>(6));
  }

  TEST_CASE("a strap is in nobody's way") {
    Rack rack = fenced_in();
    rack.sides[0] = rack.sides[1] = {};
    CHECK_FALSE(rack.ways().behind(2, all_but(2, 3)));
    CHECK_FALSE(rack.ways().behind(0, all_but(0, 3)));
  }

  // From its bar's side and to either hand, moved there step by step.
  TEST_CASE("a clamp said to be free has a way on which it meets none") {
    std::mt19937 dice(3);
    const auto within = [&](int lo, int hi) {
      return lo + static_cast<int>(dice() % static_cast<unsigned>(hi - lo + 1));
    };
    int straight = 0, hemmed = 0;
    for (int trial = 0; trial < 60; ++trial) {
      Rack rack;
      for (int i = 0; i < 6; ++i) {
        const bool along = dice() % 2 == 0;
        const Point low{10.0 * within(0, 40), 0, 10.0 * within(0, 40)};
        rack.add(clamp(dice() % 2 == 0 ? "f_heavy" : "sash", along ? kAlong : kDown, low,
                       10.0 * within(10, 60)));
      }
      const ClampWays ways = rack.ways();
      for (std::size_t i = 0; i < rack.clamps.size(); ++i) {
        const Direction sideways = cross(rack.clamps[i].axis, kFront);
        const Body body = body_of(rack.clamps[i], kFront);
        bool free = false;
        for (const Direction& from : {kFront, sideways, -sideways}) {
          bool meets = false;
          for (std::size_t j = 0; j < rack.clamps.size(); ++j) {
            const Body other = body_of(rack.clamps[j], kFront);
            meets = meets ||
                    (i != j && !bodies_clash(body, other) && meets_on_the_way(body, from, other));
          }
          free = free || !meets;
        }
        if (free) {
          ++straight;
          CHECK_FALSE(ways.behind(i, all_but(i, rack.clamps.size())));
        }
        hemmed += ways.behind(i, all_but(i, rack.clamps.size())) ? 1 : 0;
      }
    }
    CHECK(straight > 0);
    CHECK(hemmed > 0);
  }
}

}  // namespace planner::clamps::bodies
