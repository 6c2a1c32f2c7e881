#include "planner/order/likeness.h"

#include <algorithm>
#include <map>

namespace planner::order {

AssemblyProblem with_likeness(const ScheduleProblem& problem) {
  AssemblyProblem assembly = problem.assembly;
  std::map<std::pair<JointTime, std::vector<std::size_t>>, int> kinds;
  assembly.joint_likeness.clear();
  for (std::size_t j = 0; j < problem.joints.size(); ++j) {
    std::vector<std::size_t> waiting;
    for (std::size_t g = 0; g < problem.groups.size(); ++g) {
      if (std::ranges::count(problem.groups[g].closed_first, static_cast<int>(j)) > 0) {
        waiting.push_back(g);
      }
    }
    const auto [it, fresh] =
        kinds.try_emplace({problem.joints[j], waiting}, static_cast<int>(kinds.size()));
    assembly.joint_likeness.push_back(it->second);
  }
  std::map<std::pair<int, int>, int> units;
  const std::vector<int> given = assembly.unit_likeness;
  assembly.unit_likeness.clear();
  for (int u = 0; u < assembly.units; ++u) {
    const auto i = static_cast<std::size_t>(u);
    // With the joins given, each unit has its own place in them.
    const bool apart = u == problem.closing_unit || !problem.given_joins.empty();
    const int weight = problem.weight_g.empty() ? 0 : problem.weight_g[i];
    const int kind = apart ? -1 - u : given.empty() ? 0 : given[i];
    assembly.unit_likeness.push_back(
        units.try_emplace({weight, kind}, static_cast<int>(units.size())).first->second);
  }
  return assembly;
}

}  // namespace planner::order
