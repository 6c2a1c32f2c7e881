#include "fixture_plan.h"

#include <fstream>
#include <map>
#include <sstream>

#include <doctest/doctest.h>

#include "planner/files/job_file.h"
#include "planner/files/mesh_parts.h"
#include "planner/files/shop_file.h"
#include "tests/source_dir.h"

std::string read_fixture(const std::string& path) {
  std::ifstream in(source_dir() + "/fixtures/" + path);
  REQUIRE_MESSAGE(in, "no fixture ", path);
  std::stringstream text;
  text << in.rdbuf();
  return text.str();
}

planner::work::PartId FixturePlan::part(const std::string& name) const {
  for (planner::work::PartId p = 0; p < job.parts.size(); ++p) {
    if (job.parts[p].name == name) {
      return p;
    }
  }
  FAIL("no part called ", name);
  return 0;
}

std::vector<const planner::plan::PlannedClamp*> FixturePlan::along(int axis) const {
  std::vector<const planner::plan::PlannedClamp*> clamps;
  for (const planner::plan::Stage& stage : plan.stages) {
    for (const planner::plan::PlannedClamp& clamp : stage.clamps) {
      if (clamp.axis[static_cast<std::size_t>(axis)] > 0.99) {
        clamps.push_back(&clamp);
      }
    }
  }
  return clamps;
}

const FixturePlan& fixture_plan(const std::string& job, const std::string& shop) {
  static std::map<std::pair<std::string, std::string>, FixturePlan> planned;
  const auto known = planned.find({job, shop});
  if (known != planned.end()) {
    return known->second;
  }
  auto reading = planner::files::read_job("job.toml", read_fixture(job + "/job.toml"));
  REQUIRE(reading.job);
  if (reading.job->mesh) {
    std::vector<planner::files::MeshBytes> meshes;
    for (const std::string& file : reading.job->mesh->files) {
      meshes.push_back({file, read_fixture(job + "/" + file)});
    }
    CHECK(planner::files::add_mesh_parts(*reading.job, meshes).empty());
  }
  planner::work::Shop rack = planner::files::unlimited_shop();
  if (!shop.empty()) {
    const auto shop_reading = planner::files::read_shop(shop, read_fixture("shops/" + shop));
    REQUIRE(shop_reading.shop);
    rack = *shop_reading.shop;
  }
  const planner::Planned out = planner::make_plan(*reading.job, rack, {});
  for (const planner::base::Diagnostic& d : out.diagnostics) {
    CHECK_MESSAGE(d.severity == planner::base::Severity::warning, to_text(d));
  }
  REQUIRE(out.plan);
  return planned.emplace(std::pair(job, shop), FixturePlan{*reading.job, rack, *out.plan})
      .first->second;
}
