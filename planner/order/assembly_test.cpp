#include "planner/order/assembly.h"

#include <algorithm>

#include <doctest/doctest.h>

#include "planner/order/interchangeable_units.h"

using namespace planner;
using namespace planner::order;

namespace {

// Removals along the six axes, in the order +x -x +y -y +z -z.
order::AssemblyProblem loose(int units) {
  order::AssemblyProblem p;
  p.units = units;
  for (int axis = 0; axis < 3; ++axis) {
    const geometry::Direction d = geometry::kAxis[axis];
    p.removals.push_back({d, false, 2 * axis + 1});
    p.removals.push_back({-d, false, 2 * axis});
  }
  p.leaves.assign(static_cast<std::size_t>(6 * units * units), 0);
  p.touch.assign(static_cast<std::size_t>(units * units), false);
  return p;
}

void set_leave(order::AssemblyProblem& p, int d, int i, int j, int cost) {
  p.leaves[static_cast<std::size_t>((d * p.units + i) * p.units + j)] =
      static_cast<std::int16_t>(cost);
  const int back = p.removals[static_cast<std::size_t>(d)].opposite;
  p.leaves[static_cast<std::size_t>((back * p.units + j) * p.units + i)] =
      static_cast<std::int16_t>(cost);
}

// i leaves j along these removals only.
void allow(order::AssemblyProblem& p, int i, int j, const std::vector<int>& removals) {
  for (int d = 0; d < 6; ++d) {
    set_leave(p, d, i, j, std::ranges::count(removals, d) > 0 ? 0 : order::kRefused);
  }
}

void glue(order::AssemblyProblem& p, int i, int j) {
  p.joints.emplace_back(i, j);
  p.touch[static_cast<std::size_t>(i * p.units + j)] = true;
  p.touch[static_cast<std::size_t>(j * p.units + i)] = true;
}

constexpr int kPlusX = 0, kMinusX = 1, kPlusY = 2, kMinusY = 3, kPlusZ = 4;

// Front 0 and back 1 across y, ends 2 and 3 let into them across x, a panel 4 in grooves all round.
order::AssemblyProblem box_with_captured_panel() {
  order::AssemblyProblem p = loose(5);
  for (const int end : {2, 3}) {
    allow(p, 0, end, {kMinusY});
    allow(p, 1, end, {kPlusY});
    glue(p, 0, end);
    glue(p, 1, end);
  }
  allow(p, 0, 4, {kMinusY});
  allow(p, 1, 4, {kPlusY});
  allow(p, 2, 4, {kMinusX});
  allow(p, 3, 4, {kPlusX});
  allow(p, 0, 1, {kPlusX, kMinusX, kMinusY, kPlusZ});
  allow(p, 2, 3, {kMinusX, kPlusY, kMinusY, kPlusZ});
  for (int wall = 0; wall < 4; ++wall) {
    p.touch[static_cast<std::size_t>(wall * 5 + 4)] = true;
    p.touch[static_cast<std::size_t>(4 * 5 + wall)] = true;
  }
  return p;
}

// Two sides 0 and 1 with `shelves` shelves housed in both; each shelf stands in the next one's way
// straight up and down.
order::AssemblyProblem shelved_case(int shelves) {
  order::AssemblyProblem p = loose(2 + shelves);
  allow(p, 0, 1, {kMinusX, kPlusY, kMinusY, kPlusZ});
  for (int s = 2; s < p.units; ++s) {
    allow(p, 0, s, {kMinusX});
    allow(p, 1, s, {kPlusX});
    glue(p, 0, s);
    glue(p, 1, s);
    for (int below = 2; below < s; ++below) {
      allow(p, s, below, {kPlusX, kMinusX, kPlusY, kMinusY, kPlusZ});
    }
  }
  return p;
}

}  // namespace

TEST_SUITE("planner/assembly") {
  TEST_CASE("a panel held in grooves all round is never the last to go in") {
    order::AssemblyGraph graph(box_with_captured_panel());
    CHECK(graph.comes_apart(graph.whole()));
    const auto& splits = graph.splits(graph.whole());
    CHECK_FALSE(splits.empty());
    for (const order::Split& s : splits) {
      CHECK(s.first != base::UnitSet::of(4));
      CHECK(s.second != base::UnitSet::of(4));
    }
  }

  TEST_CASE("a ring whose four members each hold the next is locked, and named") {
    order::AssemblyProblem p = loose(5);
    for (int i = 0; i < 4; ++i) {
      allow(p, i, (i + 1) % 4, {});
      glue(p, i, (i + 1) % 4);
    }
    allow(p, 4, 0, {kPlusZ});
    glue(p, 4, 0);
    order::AssemblyGraph graph(p);
    CHECK_FALSE(graph.comes_apart(graph.whole()));
    const std::vector<int> locked = graph.locked_group();
    CHECK(locked == std::vector<int>{0, 1, 2, 3});
  }

  TEST_CASE("shelves that stand above one another are explored once") {
    order::AssemblyGraph graph(shelved_case(8));
    // One side leaves with 0 to 8 of the shelves.
    CHECK(graph.splits(graph.whole()).size() == 9);
    CHECK(interchangeable_units(graph.problem()) == std::vector<int>{0, 1, 2, 2, 2, 2, 2, 2, 2, 2});
    order::AssemblyProblem told_apart = shelved_case(8);
    for (int u = 0; u < told_apart.units; ++u) {
      told_apart.unit_likeness.push_back(u);
    }
    order::AssemblyGraph all(told_apart);
    CHECK(all.splits(all.whole()).size() == 256);
  }

  TEST_CASE("a lid comes down on the box and not the box up under the lid") {
    order::AssemblyProblem p = loose(3);
    allow(p, 2, 0, {kPlusZ});
    allow(p, 2, 1, {kPlusZ});
    allow(p, 0, 1, {kPlusX, kPlusZ});
    glue(p, 0, 1);
    glue(p, 0, 2);
    glue(p, 1, 2);
    order::AssemblyGraph graph(p);
    const auto& splits = graph.splits(graph.whole());
    const auto lid = std::ranges::find(splits, base::UnitSet::of(2), &order::Split::second);
    REQUIRE(lid != splits.end());
    CHECK(lid->moving == 1);
    CHECK(lid->removal == kPlusZ);
  }

  TEST_CASE("of two ways in, the one that wipes less glue is taken") {
    order::AssemblyProblem p = loose(2);
    allow(p, 1, 0, {kPlusX, kPlusZ});
    set_leave(p, kPlusZ, 1, 0, 12);
    glue(p, 0, 1);
    order::AssemblyGraph graph(p);
    CHECK(graph.splits(graph.whole())[0].removal == kPlusX);
    CHECK(graph.splits(graph.whole())[0].wiped_mm == 0);
  }
}
