// The order of every fixture of up to seven parts against all orders there are.
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>

#include <doctest/doctest.h>

#include "planner/files/job_file.h"
#include "planner/files/mesh_parts.h"
#include "planner/files/shop_file.h"
#include "planner/stage/plan_stage.h"
#include "planner/work/part_solid.h"
#include "tests/schedules/every_order.h"
#include "tests/schedules/rules.h"
#include "tests/source_dir.h"

using namespace planner;

namespace {

std::string text_of(const std::filesystem::path& file) {
  std::ifstream in(file);
  std::stringstream text;
  text << in.rdbuf();
  return text.str();
}

work::Job read(const std::filesystem::path& folder) {
  files::JobReading reading = files::read_job("job.toml", text_of(folder / "job.toml"));
  REQUIRE(reading.job);
  if (reading.job->mesh) {
    std::vector<files::MeshBytes> meshes;
    for (const std::string& file : reading.job->mesh->files) {
      meshes.push_back({file, text_of(folder / file)});
    }
    CHECK(add_mesh_parts(*reading.job, meshes).empty());
  }
  return *reading.job;
}

// The job in one go, planned with the clamps that it takes.
stage::PlannedStage one_go_of(const work::Job& job, const work::Shop& shop) {
  const auto solids = work::make_solids(job.parts);
  const work::GlueChoice glue = choose_glue(job, shop);
  REQUIRE(glue.glue);
  geometry::Tolerance tolerance;
  tolerance.max_gap_mm = glue.glue->max_gap_mm;
  const auto joints = classify_joints(job, find_contacts(solids, tolerance));
  const work::Motions motions = find_motions(solids, joints);
  const work::Standing standing(job, solids, joints);
  const stage::StageInput input{job, shop, *glue.glue, solids, joints, motions, standing, work::bounds_of(solids), {}, {}};
  return plan_stage(input, stage::one_go(joints, job.parts.size()), {}, 1, 1);
}

int in_steps(int slack_s, int step_s) {
  return slack_s / step_s - (slack_s % step_s < 0 ? 1 : 0);
}

}  // namespace

TEST_SUITE("tests/schedules") {
  TEST_CASE("of every order of every fixture of up to seven parts none has more slack") {
    int compared = 0;
    for (const auto& entry : std::filesystem::directory_iterator(source_dir() + "/fixtures")) {
      if (!std::filesystem::exists(entry.path() / "job.toml")) {
        continue;
      }
      const work::Job job = read(entry.path());
      if (job.parts.size() > 7) {
        continue;
      }
      CAPTURE(entry.path().string());
      const stage::PlannedStage planned = one_go_of(job, files::unlimited_shop());
      REQUIRE(planned.schedule.status == plan::Proof::proven);
      const tests::EveryOrder all(planned.problem);
      CHECK(all.orders() > 0);
      CHECK(in_steps(planned.schedule.slack_s, planned.problem.step_s) ==
            in_steps(all.best_slack_s(), planned.problem.step_s));
      for (const std::string& rule : tests::broken_rules(planned.problem, planned.schedule)) {
        FAIL_CHECK(rule);
      }
      ++compared;
    }
    CHECK(compared >= 9);
  }
}
