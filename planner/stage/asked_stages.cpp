#include "planner/stage/asked_stages.h"

#include <algorithm>
#include <map>

namespace planner::stage {
namespace {

using Unit = std::vector<work::PartId>;

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
    out.works.push_back(stage_work(std::move(units), joints));
    out.names.push_back(asked.name);
  }
  if (!job.stages.empty() && there.size() > 1) {
    std::vector<Unit> left;
    for (const auto& [name, unit] : there) {
      left.push_back(unit);
    }
    out.works.push_back(stage_work(std::move(left), joints));
    out.names.emplace_back();
  }
  return out;
}

}  // namespace planner::stage
