// Order and clock: every solved instance of tests/reference/schedules.json, then jobs that need
// stages.
//   orders           one line an instance: slack, makespan, status, nodes, milliseconds
//   orders NAME N    the milliseconds of that instance with N people, for the ratio to another
//   solver
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

#include "planner/stages.h"
#include "tests/schedules/instances.h"

using namespace planner;

namespace {

constexpr const char* kStatus[] = {"proven", "bounded", "impossible"};

// Median of 21 runs.
template <typename Work>
double milliseconds(const Work& work) {
  std::vector<double> times;
  for (int run = 0; run < 21; ++run) {
    const auto from = std::chrono::steady_clock::now();
    work();
    times.push_back(
        std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - from).count());
  }
  std::ranges::nth_element(times, times.begin() + 10);
  return times[10];
}

// Two sides and shelves in dadoes, a clamp a dado.
StageProblem shelved_case(int shelves, int people) {
  StageProblem p;
  AssemblyProblem& a = p.whole.assembly;
  a.units = 2 + shelves;
  a.removals = {{{1, 0, 0}, false, 1}, {{-1, 0, 0}, false, 0}};
  const auto n = static_cast<std::size_t>(a.units);
  a.leaves.assign(2 * n * n, kRefused);
  a.touch.assign(n * n, false);
  const auto free = [&a](int d, int i, int j) {
    a.leaves[static_cast<std::size_t>((d * a.units + i) * a.units + j)] = 0;
    a.leaves[static_cast<std::size_t>(((1 - d) * a.units + j) * a.units + i)] = 0;
  };
  free(1, 0, 1);
  for (int s = 2; s < a.units; ++s) {
    free(1, 0, s);
    free(0, 1, s);
    for (int below = 2; below < s; ++below) {
      free(0, s, below);
      free(1, s, below);
    }
    for (const int side : {0, 1}) {
      a.joints.emplace_back(side, s);
      p.whole.joints.push_back({18, 300, 600, 0, 0, -1});
      a.touch[static_cast<std::size_t>(side * a.units + s)] = true;
      a.touch[static_cast<std::size_t>(s * a.units + side)] = true;
    }
  }
  p.whole.people = people;
  p.whole.check_s = 45;
  p.clamps = [](std::span<const int> joints) {
    StageClamps clamps;
    clamps.groups = {{"across", static_cast<int>(joints.size()), 30, 10, {}}};
    clamps.group_of.assign(joints.size(), 0);
    return clamps;
  };
  return p;
}

void print_stages(int shelves, int people) {
  const StageProblem problem = shelved_case(shelves, people);
  const StageOrders orders = solve_stages(problem);
  const double ms = milliseconds([&] { solve_stages(problem); });
  std::printf("case of %2d parts, people %d: ", shelves + 2, people);
  if (orders.unavoidable) {
    std::printf("one join of %zu joints is short by %d s", orders.unavoidable->joints.size(),
                orders.unavoidable->short_by_s);
  } else {
    std::printf("%zu stages (%s, at least %d), slack %d s", orders.stages.size(),
                kStatus[static_cast<int>(orders.status)], orders.fewest, orders.slack_s);
  }
  std::printf(", %.2f ms\n", ms);
}

}  // namespace

int main(int argc, char** argv) {
  for (const tests::SolvedInstance& i : tests::solved_instances()) {
    if (argc == 3) {
      if (i.name == argv[1] && i.people == std::atoi(argv[2])) {
        std::printf("%.3f\n", milliseconds([&] { solve_schedule(i.problem); }));
      }
      continue;
    }
    const Schedule s = solve_schedule(i.problem);
    std::printf("%-20s people %d: slack %4d s, makespan %4d s, %s, %4lld nodes, %.3f ms\n",
                i.name.c_str(), i.people, s.slack_s, s.makespan_s,
                kStatus[static_cast<int>(s.status)], static_cast<long long>(s.nodes),
                milliseconds([&] { solve_schedule(i.problem); }));
  }
  for (const int shelves : {8, 38}) {
    for (int people = 1; people <= 4 && argc == 1; ++people) {
      print_stages(shelves, people);
    }
  }
  return 0;
}
