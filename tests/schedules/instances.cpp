#include "tests/schedules/instances.h"

#include <cmath>
#include <fstream>

#include <nlohmann/json.hpp>

#include "tests/source_dir.h"

namespace tests {
namespace {

using nlohmann::json;
using namespace planner;

// Directions 1..10 of the file: +x -x +y -y +z -z +x-y -x+y +x+y -x-y.
std::vector<order::Removal> removals() {
  const double s = std::sqrt(0.5);
  const std::vector<geometry::Direction> d{{1, 0, 0}, {-1, 0, 0}, {0, 1, 0},  {0, -1, 0},
                                           {0, 0, 1}, {0, 0, -1}, {s, -s, 0}, {-s, s, 0},
                                           {s, s, 0}, {-s, -s, 0}};
  std::vector<order::Removal> result;
  for (std::size_t i = 0; i < d.size(); ++i) {
    result.push_back({d[i], false, static_cast<int>(i ^ 1u)});
  }
  return result;
}

order::AssemblyProblem assembly_of(const json& a) {
  order::AssemblyProblem p;
  p.units = a["n"];
  p.removals = removals();
  p.leaves.assign(p.removals.size() * static_cast<std::size_t>(p.units * p.units), order::kRefused);
  for (int i = 0; i < p.units; ++i) {
    for (int j = 0; j < p.units; ++j) {
      p.touch.push_back(a["touch"][static_cast<std::size_t>(i)][static_cast<std::size_t>(j)] == 1);
      // D[i][j]: the directions in which j leaves i.
      for (const int k : a["D"][static_cast<std::size_t>(i)][static_cast<std::size_t>(j)]) {
        p.leaves[static_cast<std::size_t>(((k - 1) * p.units + j) * p.units + i)] = 0;
      }
    }
  }
  return p;
}

order::ScheduleProblem problem_of(const json& a, int people) {
  order::ScheduleProblem p;
  p.assembly = assembly_of(a);
  for (const json& f : a["faces"]) {
    p.assembly.joints.emplace_back(f["u"].get<int>() - 1, f["v"].get<int>() - 1);
    order::JointTime joint;
    joint.spread_s = f["dur"];
    joint.open_s = f["O"];
    joint.total_s = f["T"];
    joint.group = f["g"].get<int>() - 1;
    joint.held_snug = f.value("held", "tight") == "snug";
    p.joints.push_back(joint);
  }
  for (const json& g : a["groups"]) {
    p.groups.push_back({g["clamps"], a["snug"], a["tight"], g["ring"].get<int>() - 1, {}, {}});
  }
  for (const json& ring : a["rings"]) {
    p.rings.push_back({ring["tack"], ring["check"]});
  }
  p.people = people;
  p.join_s = a["jdur"];
  for (order::JointTime& joint : p.joints) {
    joint.join_s = p.join_s;
  }
  p.closing_unit = a["lid"].get<int>() - 1;
  p.inside_check_s = a["indur"];
  p.snug_before_inside_check = false;
  p.step_s = 1;
  p.ties = order::Ties::shortest;
  return p;
}

}  // namespace

std::vector<SolvedInstance> solved_instances() {
  std::ifstream in(source_dir() + "/tests/reference/schedules.json");
  const json file = json::parse(in);
  std::vector<SolvedInstance> result;
  for (const json& entry : file["instances"]) {
    for (const int people : {1, 2}) {
      const json& optimum = entry["optimum"]["people" + std::to_string(people)];
      result.push_back({entry["instance"]["name"], people, problem_of(entry["instance"], people),
                        optimum["min_slack_s"], optimum["makespan_s"], optimum["proven"]});
    }
  }
  return result;
}

}  // namespace tests
