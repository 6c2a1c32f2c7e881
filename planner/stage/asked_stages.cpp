#include "planner/stage/asked_stages.h"

#include <algorithm>
#include <map>

namespace planner::stage {
namespace {

using Unit = std::vector<work::PartId>;

// Glued joints between parts of different units.
std::vector<work::JointId> joints_of(const std::vector<Unit>& units,
                                     std::span<const work::Joint> joints) {
  const auto unit_of = [&](work::PartId part) {
    return std::ranges::find_if(units, [&](const Unit& unit) {
      return std::ranges::find(unit, part) != unit.end();
    });
  };
  std::vector<work::JointId> out;
  for (work::JointId joint = 0; joint < joints.size(); ++joint) {
    const auto a = unit_of(joints[joint].parts[0]), b = unit_of(joints[joint].parts[1]);
    if (joints[joint].glued && a != units.end() && b != units.end() && a != b) {
      out.push_back(joint);
    }
  }
  return out;
}

StageWork work_of(std::vector<Unit> units, std::span<const work::Joint> joints) {
  std::ranges::sort(units);
  std::vector<work::JointId> its = joints_of(units, joints);
  return {std::move(units), std::move(its)};
}

}  // namespace

AskedStages asked_stages(const work::Job& job, std::span<const work::Joint> joints) {
  // What there is to be joined, by name: parts, then stages in place of what they took.
  std::map<std::string, Unit> there;
  for (work::PartId part = 0; part < job.parts.size(); ++part) {
    there[job.parts[part].name] = {part};
  }
  AskedStages out;
  for (const work::AskedStage& asked : job.stages) {
    std::vector<Unit> units;
    Unit all;
    for (const std::string& name : asked.parts) {
      units.push_back(there.at(name));
      all.insert(all.end(), units.back().begin(), units.back().end());
      there.erase(name);
    }
    std::ranges::sort(all);
    there[asked.name] = std::move(all);
    out.works.push_back(work_of(std::move(units), joints));
    out.names.push_back(asked.name);
  }
  if (!job.stages.empty() && there.size() > 1) {
    std::vector<Unit> left;
    for (const auto& [name, unit] : there) {
      left.push_back(unit);
    }
    out.works.push_back(work_of(std::move(left), joints));
    out.names.emplace_back();
  }
  return out;
}

}  // namespace planner::stage
