#include "planner/clamps/bodies/clamp_bodies.h"

#include <doctest/doctest.h>

namespace planner::clamps::bodies {
namespace {

using geometry::Direction;

// A clamp of 100 mm between its pads, whose bar may be on any side square to it.
StandingClamp clamp_at(const char* kind, const Direction& axis, const geometry::Point& low,
                       std::vector<Direction> sides) {
  StandingClamp c;
  c.kind = tables::find_clamp_kind(kind);
  c.axis = axis;
  c.low = low;
  c.between_mm = 100;
  c.throat_mm = c.kind->throat_mm->lo;
  c.bar_mm = 300;
  for (const Direction& side : sides) {
    c.sides[static_cast<std::size_t>(c.side_count++)] = side;
  }
  return c;
}

constexpr Direction kRight{1, 0, 0}, kLeft{-1, 0, 0}, kBack{0, 1, 0}, kUp{0, 0, 1};

}  // namespace

TEST_SUITE("planner/clamp_bodies") {
  TEST_CASE("a bar stands a throat off its line of action, jaws reach from one to the other") {
    const StandingClamp c = clamp_at("sash", kUp, {0, 0, 0}, {kRight});
    const auto body = body_of(c, kRight);
    CHECK(body[0].lo.x == doctest::Approx(c.throat_mm));
    CHECK(body[0].hi.x == doctest::Approx(c.throat_mm + c.kind->bar_depth_mm));
    CHECK(body[0].hi.z >= 300);  // what isn't used stands out
    CHECK(body[1].hi.z == doctest::Approx(0));
    CHECK(body[2].lo.z == doctest::Approx(100));
  }
  TEST_CASE("bar and jaws are as wide as the table says, half to either side of the line of action") {
    const StandingClamp c = clamp_at("sash", kUp, {0, 0, 0}, {kRight});
    const auto body = body_of(c, kRight);
    const double wide[] = {c.kind->bar_width_mm, c.kind->pad_width_mm, c.kind->pad_width_mm};
    for (std::size_t i = 0; i < body.size(); ++i) {
      CHECK(body[i].lo.y == doctest::Approx(-wide[i] / 2));
      CHECK(body[i].hi.y == doctest::Approx(wide[i] / 2));
    }
  }
  TEST_CASE("two bars of one throat that cross beside a wall are in each other's way") {
    const StandingClamp down = clamp_at("sash", kUp, {0, 50, 0}, {kRight});
    const StandingClamp across = clamp_at("sash", kBack, {0, 0, 50}, {kRight});
    CHECK(bodies_clash(body_of(down, kRight), body_of(across, kRight)));
    const BarSides stuck = choose_bar_sides(std::vector{down, across});
    CHECK(stuck.clashes == 1);
    CHECK(stuck.in_the_way[0] == 1);
  }
  TEST_CASE("a bar that may go to the other side does") {
    const StandingClamp down = clamp_at("sash", kUp, {0, 50, 0}, {kRight, kLeft});
    const StandingClamp across = clamp_at("sash", kBack, {0, 0, 50}, {kRight});
    const BarSides sides = choose_bar_sides(std::vector{down, across});
    CHECK(sides.clashes == 0);
    CHECK(sides.side[0] == 1);
    CHECK(sides.in_the_way[0] == 0);
  }
  TEST_CASE("a deep clamp's bar passes outside a shallow one's") {
    const StandingClamp down = clamp_at("f_heavy", kUp, {0, 50, 0}, {kRight});   // 100 mm
    const StandingClamp across = clamp_at("sash", kBack, {0, 0, 50}, {kRight});  // 45 mm
    CHECK(choose_bar_sides(std::vector{down, across}).clashes == 0);
  }
}

}  // namespace planner::clamps::bodies
