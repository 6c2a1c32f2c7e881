#include "planner/order/layer_stages.h"

#include <algorithm>
#include <array>
#include <cstdlib>

#include <doctest/doctest.h>

#include "planner/order/stages.h"

using namespace planner;
using namespace planner::order;

namespace {

constexpr std::array<geometry::Direction, 4> kWays{{{1, 0, 0}, {-1, 0, 0}, {0, 1, 0}, {0, -1, 0}}};

// So many blocks to the right and to the back, glued to their neighbours. Blocks of one row or
// column only come apart along it; others slide past one another if they do not touch.
order::StageProblem grid(int right, int back, int spread_s) {
  order::StageProblem p;
  order::AssemblyProblem& a = p.whole.assembly;
  a.units = right * back;
  for (int d = 0; d < 4; ++d) {
    a.removals.push_back({kWays[static_cast<std::size_t>(d)], false, d ^ 1});
  }
  const auto n = static_cast<std::size_t>(a.units);
  a.leaves.assign(4 * n * n, order::kRefused);
  a.touch.assign(n * n, false);
  for (int i = 0; i < a.units; ++i) {
    for (int j = 0; j < a.units; ++j) {
      const int dx = i % right - j % right, dy = i / right - j / right;
      for (int d = 0; i != j && d < 4; ++d) {
        const int ahead = d < 2 ? (d == 0 ? dx : -dx) : (d == 2 ? dy : -dy);
        const int aside = d < 2 ? dy : dx;
        const bool wipes = std::abs(aside) == 1 && std::abs(d < 2 ? dx : dy) == 0;
        if (!wipes && (aside != 0 || ahead > 0)) {
          a.leaves[(static_cast<std::size_t>(d) * n + static_cast<std::size_t>(i)) * n +
                   static_cast<std::size_t>(j)] = 0;
        }
      }
      if (std::abs(dx) + std::abs(dy) == 1) {
        a.touch[static_cast<std::size_t>(i) * n + static_cast<std::size_t>(j)] = true;
        if (i < j) {
          a.joints.emplace_back(i, j);
          p.whole.joints.push_back({spread_s, 300, 600, 0, 0, -1});
        }
      }
    }
  }
  p.clamps = [](std::span<const int> joints) {
    order::StageClamps clamps;
    clamps.groups = {{4, 10, 10, 0, {}, {}}};
    clamps.rings = {{}};
    clamps.group_of.assign(joints.size(), 0);
    return clamps;
  };
  return p;
}

std::vector<base::UnitSet> single_boards(const order::StageProblem& p) {
  std::vector<base::UnitSet> boards;
  for (int u = 0; u < p.whole.assembly.units; ++u) {
    boards.push_back(base::UnitSet::of(u));
  }
  return boards;
}

base::UnitSet of(std::initializer_list<int> units) {
  base::UnitSet s;
  for (const int u : units) {
    s.insert(u);
  }
  return s;
}

}  // namespace

TEST_SUITE("planner/layer_stages") {
  TEST_CASE("the rows and columns of a grid, and runs of them") {
    const order::StageProblem p = grid(3, 2, 10);  // 0 1 2 in front, 3 4 5 behind
    const std::vector<base::UnitSet> found = slabs(p.whole.assembly, single_boards(p));
    const std::vector<base::UnitSet> wanted{
        of({0, 3}),    of({1, 4}),       of({2, 5}),       of({0, 1, 2}),
        of({3, 4, 5}), of({0, 1, 3, 4}), of({1, 2, 4, 5}), of({0, 1, 2, 3, 4, 5})};
    CHECK(found == wanted);
  }

  TEST_CASE("boards that are glued already count as one") {
    const order::StageProblem p = grid(3, 2, 10);
    const std::vector<base::UnitSet> boards{of({0, 1, 2}), of({3}), of({4}), of({5})};
    const std::vector<base::UnitSet> found = slabs(p.whole.assembly, boards);
    CHECK(std::ranges::find(found, of({1, 2, 3})) != found.end());  // the row behind
    CHECK(std::ranges::find(found, of({0, 1})) == found.end());     // no part of a row, and a row
  }

  TEST_CASE("forty-nine blocks are glued up in rows") {
    const order::StageOrders orders = solve_stages(grid(7, 7, 9));
    REQUIRE(orders.in_time());
    CHECK(orders.stages.size() > 1);
    for (std::size_t i = 0; i + 1 < orders.stages.size(); ++i) {
      base::UnitSet all;
      for (const base::UnitSet& board : orders.stages[i].boards) {
        all = all | board;
      }
      CHECK((all.count() % 7 == 0));
    }
  }
}
