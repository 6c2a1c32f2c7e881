// What the exact geometry of an assembly costs, step by step.
//   solids               a table of assemblies, least of several runs, milliseconds
//   solids NAME N        one assembly once, for counting instructions: chest, fingers, carcass,
//                        turned (a carcass off every axis), frame (of N mitred rails)
#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <cstring>

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

struct Cost {
  double solids = 0, contacts = 0, overlaps = 0, blocking = 0, bearing = 0;  // ms
  std::size_t parts = 0, cells = 0, found = 0;
};

class Watch {
 public:
  double lap() {
    const Clock::time_point now = Clock::now();
    const std::chrono::duration<double, std::milli> took = now - from_;
    from_ = now;
    return took.count();
  }

 private:
  using Clock = std::chrono::steady_clock;
  Clock::time_point from_ = Clock::now();
};

Cost run(const scenes::Assembly& assembly) {
  Cost cost;
  Watch watch;
  const std::vector<Solid> solids = scenes::make(assembly);
  cost.solids = watch.lap();
  const auto contacts = find_contacts(solids, {});
  cost.contacts = watch.lap();
  find_overlaps(solids, {});
  cost.overlaps = watch.lap();
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
  find_blocking(solids, ways, {});
  cost.blocking = watch.lap();
  for (const Direction& axis : geometry::kAxis) {
    find_bearing_faces(solids, axis, {});
  }
  cost.bearing = watch.lap();
  cost.parts = solids.size();
  cost.found = contacts.size();
  for (const Solid& solid : solids) {
    cost.cells += cell_points(solid).size();
  }
  return cost;
}

Cost least_of(int runs, const scenes::Assembly& assembly) {
  Cost least = run(assembly);
  for (int i = 1; i < runs; ++i) {
    const Cost one = run(assembly);
    least.solids = std::min(least.solids, one.solids);
    least.contacts = std::min(least.contacts, one.contacts);
    least.overlaps = std::min(least.overlaps, one.overlaps);
    least.blocking = std::min(least.blocking, one.blocking);
    least.bearing = std::min(least.bearing, one.bearing);
  }
  return least;
}

void print(const char* name, const Cost& c) {
  std::printf("%-14s %5zu %5zu %8zu %8.2f %8.2f %8.2f %8.2f %8.2f\n", name, c.parts, c.cells,
              c.found, c.solids, c.contacts, c.overlaps, c.blocking, c.bearing);
}

// The power of the number of parts that a cost grows with.
double exponent(const Cost& from, const Cost& to, double Cost::*cost) {
  return std::log(to.*cost / (from.*cost)) /
         std::log(static_cast<double>(to.parts) / static_cast<double>(from.parts));
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
    print(argv[1], run(named(argv[1], argc > 2 ? std::atoi(argv[2]) : 0)));
    return 0;
  }
  constexpr int kRuns = 5;
  std::printf("%-14s %5s %5s %8s %8s %8s %8s %8s %8s\n", "ms", "parts", "cells", "contacts",
              "solids", "contacts", "overlap", "blocking", "bearing");
  print("chest", least_of(kRuns, scenes::chest()));
  print("fingers", least_of(kRuns, scenes::finger_box()));
  std::vector<Cost> carcasses;
  for (const int parts : {10, 30, 40, 100, 300}) {
    carcasses.push_back(least_of(kRuns, scenes::carcass(parts)));
    print("carcass", carcasses.back());
  }
  print("chest turned", least_of(kRuns, scenes::turned(scenes::chest(), 17)));
  print("fingers turned", least_of(kRuns, scenes::turned(scenes::finger_box(), 17)));
  for (const int parts : {10, 30, 100}) {
    print("carcass turned", least_of(1, scenes::turned(scenes::carcass(parts), 17)));
  }
  const Cost &from = carcasses[1], &to = carcasses.back();
  std::printf("growth from %zu to %zu parts: contacts n^%.2f, blocking n^%.2f\n", from.parts,
              to.parts, exponent(from, to, &Cost::contacts), exponent(from, to, &Cost::blocking));
  print("hexagon", least_of(kRuns, scenes::polygon_frame(6)));
  print("frame of 24", least_of(kRuns, scenes::polygon_frame(24)));
}
