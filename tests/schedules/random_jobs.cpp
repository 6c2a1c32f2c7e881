#include "tests/schedules/random_jobs.h"

#include <algorithm>
#include <random>

namespace tests {

using namespace planner;

namespace {

// std::uniform_int_distribution differs between libraries; this doesn't.
class Dice {
 public:
  explicit Dice(unsigned seed) : bits_(seed) {}
  int up_to(int most) { return static_cast<int>(bits_() % static_cast<unsigned>(most + 1)); }
  int between(int least, int most) { return least + up_to(most - least); }
  bool one_in(int n) { return up_to(n - 1) == 0; }

 private:
  std::mt19937 bits_;
};

void put(order::AssemblyProblem& a, int d, int i, int j, bool free) {
  const std::int16_t cost = free ? 0 : order::kRefused;
  a.leaves[static_cast<std::size_t>((d * a.units + i) * a.units + j)] = cost;
  const int back = a.removals[static_cast<std::size_t>(d)].opposite;
  a.leaves[static_cast<std::size_t>((back * a.units + j) * a.units + i)] = cost;
}

order::AssemblyProblem random_assembly(Dice& dice, const RandomJobSize& most) {
  order::AssemblyProblem a;
  a.units = dice.between(2, most.units);
  for (int axis = 0; axis < 3; ++axis) {
    a.removals.push_back({geometry::kAxis[axis], false, 2 * axis + 1});
    a.removals.push_back({-geometry::kAxis[axis], false, 2 * axis});
  }
  const auto n = static_cast<std::size_t>(a.units);
  a.leaves.assign(6 * n * n, 0);
  a.touch.assign(n * n, false);
  const auto touch = [&a](int i, int j) {
    a.touch[static_cast<std::size_t>(i * a.units + j)] = true;
    a.touch[static_cast<std::size_t>(j * a.units + i)] = true;
  };
  for (int i = 1; i < a.units; ++i) {
    const int j = dice.up_to(i - 1);
    touch(i, j);
    if (!dice.one_in(5) && static_cast<int>(a.joints.size()) < most.joints) {
      a.joints.emplace_back(j, i);
    }
  }
  for (int i = 0; i < a.units; ++i) {
    for (int j = i + 1; j < a.units; ++j) {
      if (!a.touching(i, j) && dice.one_in(2)) {
        touch(i, j);
        if (static_cast<int>(a.joints.size()) < most.joints) {
          a.joints.emplace_back(i, j);
        }
      }
      for (const int d : {0, 2, 4}) {
        // Seldom free both ways where they touch; seldom in the way where they do not.
        const int refuse = a.touching(i, j) ? 2 : 6;
        put(a, d, i, j, !dice.one_in(refuse));
        put(a, d + 1, i, j, !dice.one_in(refuse));
      }
    }
  }
  return a;
}

}  // namespace

order::ScheduleProblem random_job(unsigned number, const RandomJobSize& most) {
  Dice dice(number);
  order::ScheduleProblem p;
  p.assembly = random_assembly(dice, most);
  p.people = dice.between(1, most.people);
  const int groups = dice.between(0, 3);
  const int kinds = dice.between(1, 2);
  const int open[] = {dice.between(60, 300), dice.between(60, 300)};
  const int total[] = {open[0] + dice.up_to(300), open[1] + dice.up_to(300)};
  const int closed[] = {dice.one_in(4) ? total[0] : 0, 0};
  for (std::size_t j = 0; j < p.assembly.joints.size(); ++j) {
    const int k = dice.up_to(kinds - 1);
    p.joints.push_back({dice.between(1, 5) * dice.between(2, 12), open[k], total[k], closed[k], 0,
                        dice.between(-1, groups - 1), dice.one_in(3)});
  }
  const int rings = groups == 0 ? 0 : dice.between(1, groups);
  for (int r = 0; r < rings; ++r) {
    p.rings.push_back({dice.one_in(3) ? 60 : 0, dice.one_in(3) ? 0 : dice.between(20, 45)});
  }
  const int first = dice.up_to(2);
  for (int g = 0; g < groups; ++g) {
    order::SnugRound round{dice.between(1, 4), 30, 10, 0, {}, {}};
    round.ring = g < rings ? (g + first) % rings : dice.up_to(rings - 1);
    for (int j = 0; j < static_cast<int>(p.joints.size()); ++j) {
      if (dice.one_in(4)) {
        round.closed_first.push_back(j);
      }
    }
    p.groups.push_back(round);
  }
  p.join_s = 25;
  for (order::JointTime& joint : p.joints) {
    joint.join_s = dice.one_in(3) ? 40 : 20;
    joint.next_s = dice.one_in(2) ? 10 : 0;
  }
  if (p.assembly.units > 2 && dice.one_in(4)) {
    p.closing_unit = p.assembly.units - 1;
    p.inside_check_s = 45;
    p.snug_before_inside_check = dice.one_in(2);
  }
  if (groups > 1 && dice.one_in(2)) {
    p.groups[1].after = {0};
  }
  p.step_s = 1;
  p.ties = order::Ties::shortest;
  return p;
}

}  // namespace tests
