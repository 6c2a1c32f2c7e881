// What the exact geometry of an assembly costs, step by step.
//   solids               lines of the bench's table
//   solids NAME N        one assembly once, for counting instructions: chest, fingers, carcass,
//                        turned (a carcass off every axis), frame (of N mitred rails)
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <cstring>

#include "bench/table.h"
#include "geometry/bearing.h"
#include "geometry/blocking.h"
#include "geometry/contact.h"
#include "geometry/overlap.h"
#include "scenes/scenes.h"

namespace {

using geometry::Direction;
using geometry::Solid;

const std::vector<Direction> kSixWays = {{1, 0, 0},  {-1, 0, 0}, {0, 1, 0},
                                         {0, -1, 0}, {0, 0, 1},  {0, 0, -1}};

constexpr std::array<const char*, 5> kSteps = {"solids", "contacts", "overlaps", "blocking",
                                               "bearing faces"};
using Cost = std::array<double, kSteps.size()>;  // ms

std::vector<Direction> ways_of(const std::vector<geometry::Contact>& contacts) {
  std::vector<Direction> ways = kSixWays;
  for (const geometry::Contact& contact : contacts) {
    for (const Direction& way : {contact.normal, -contact.normal}) {
      const bool known = std::any_of(ways.begin(), ways.end(), [&](const Direction& other) {
        return length(other - way) < 1e-9;
      });
      if (!known) {
        ways.push_back(way);
      }
    }
  }
  return ways;
}

Cost run(const scenes::Assembly& assembly) {
  std::vector<Solid> solids;
  std::vector<geometry::Contact> contacts;
  return {bench::once_ms([&] { solids = scenes::make(assembly); }),
          bench::once_ms([&] { contacts = find_contacts(solids, {}); }),
          bench::once_ms([&] { find_overlaps(solids, {}); }),
          bench::once_ms([&] { find_blocking(solids, ways_of(contacts), {}); }),
          bench::once_ms([&] {
            for (const Direction& axis : geometry::kAxis) {
              find_bearing_faces(solids, axis, {});
            }
          })};
}

Cost least_of(int runs, const scenes::Assembly& assembly) {
  Cost least = run(assembly);
  for (int i = 1; i < runs; ++i) {
    const Cost one = run(assembly);
    std::transform(least.begin(), least.end(), one.begin(), least.begin(),
                   [](double a, double b) { return std::min(a, b); });
  }
  return least;
}

// A line a step that has a figure to reach (0: none).
Cost rows(const std::string& name, const scenes::Assembly& assembly, const Cost& reach_ms) {
  const Cost cost = least_of(5, assembly);
  for (std::size_t i = 0; i < kSteps.size(); ++i) {
    if (reach_ms[i] > 0) {
      bench::row(name + ": " + kSteps[i], bench::ms(reach_ms[i]), bench::ms(cost[i]));
    }
  }
  return cost;
}

void row_in_all(const std::string& name, const scenes::Assembly& assembly) {
  double sum = 0;
  for (const double ms : least_of(3, assembly)) {
    sum += ms;
  }
  bench::row(name + ": all steps", "", bench::ms(sum));
}

// The power of the number of parts that each step's cost grows with: least squares on logarithms.
void row_growth(const std::vector<int>& parts, const std::vector<Cost>& costs) {
  const std::array<const char*, kSteps.size()> reach = {"n^1", "n^1.3", "", "n^2", ""};
  for (std::size_t step = 0; step < kSteps.size(); ++step) {
    double n = 0, x = 0, y = 0, xx = 0, xy = 0;
    for (std::size_t i = 0; i < parts.size(); ++i) {
      const double log_parts = std::log(parts[i]), log_ms = std::log(costs[i][step]);
      n += 1, x += log_parts, y += log_ms;
      xx += log_parts * log_parts, xy += log_parts * log_ms;
    }
    char power[16];
    std::snprintf(power, sizeof power, "n^%.2f", (n * xy - x * y) / (n * xx - x * x));
    bench::row(std::string("growth from 10 to 300 parts: ") + kSteps[step], reach[step], power);
  }
}

scenes::Assembly named(const char* name, int n) {
  if (std::strcmp(name, "fingers") == 0) {
    return scenes::finger_box();
  }
  if (std::strcmp(name, "carcass") == 0) {
    return scenes::carcass(n);
  }
  if (std::strcmp(name, "turned") == 0) {
    return scenes::turned(scenes::carcass(n), 17);
  }
  if (std::strcmp(name, "frame") == 0) {
    return scenes::polygon_frame(n);
  }
  return scenes::chest();
}

}  // namespace

int main(int argc, char** argv) {
  if (argc > 1) {
    run(named(argv[1], argc > 2 ? std::atoi(argv[2]) : 0));
    return 0;
  }
  rows("rabbeted box, 6 parts", scenes::chest(), {.5, .5, .5, .5, 0});
  rows("box of 4 x 11 fingers", scenes::finger_box(), {5, 3, 3, 3, 0});
  rows("carcass of 40 parts", scenes::carcass(40), {5, 4, 4, 10, 0});
  rows("carcass of 100 parts", scenes::carcass(100), {15, 12, 12, 50, 0});
  const std::vector<int> parts = {10, 30, 100, 300};
  std::vector<Cost> costs;
  for (const int n : parts) {
    costs.push_back(least_of(n < 300 ? 5 : 2, scenes::carcass(n)));
  }
  row_growth(parts, costs);
  row_in_all("rabbeted box turned by 17 degrees", scenes::turned(scenes::chest(), 17));
  row_in_all("carcass of 100 parts turned by 17 degrees", scenes::turned(scenes::carcass(100), 17));
  row_in_all("mitred frame of 24 rails", scenes::polygon_frame(24));
}
