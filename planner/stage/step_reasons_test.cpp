#include "planner/stage/step_reasons.h"

#include <doctest/doctest.h>

using namespace planner;
using namespace planner::stage;

namespace {

work::Job three_boards() {
  work::Job job;
  for (const char* name : {"left", "right", "lid"}) {
    work::Part part;
    part.name = name;
    job.parts.push_back(part);
  }
  return job;
}

plan::Step step(plan::StepKind kind, std::vector<work::JointId> joints = {}) {
  plan::Step s;
  s.kind = kind;
  s.joints = std::move(joints);
  return s;
}

plan::Stage stage_of(std::vector<plan::Step> steps) {
  plan::Stage stage;
  stage.steps = std::move(steps);
  stage.limits = {{0, 0, 300, 40, 600, 200}, {0, 1, 300, 95, 600, 200}};
  return stage;
}

}  // namespace

TEST_SUITE("planner/step_reasons") {
  const work::Job job = three_boards();
  std::vector<work::Joint> joints(2);

  TEST_CASE("glue is spread as late as it can be, and the step says how long it stays open") {
    const plan::Stage stage = stage_of({step(plan::StepKind::spread, {0})});
    CHECK(stage::step_reason(stage, 0, joints, job) ==
          "open for 1 min 35 s of 5 min until it is brought together");
  }

  TEST_CASE("a movement names the joints it closes, or that it goes in dry") {
    joints[0].parts = {0, 1};
    joints[1].parts = {0, 2};
    const plan::Stage stage =
        stage_of({step(plan::StepKind::join, {0, 1}), step(plan::StepKind::join)});
    CHECK(stage::step_reason(stage, 0, joints, job) ==
          "closes left - right and left - lid; nothing still to come is shut out");
    CHECK(stage::step_reason(stage, 1, joints, job).rfind("goes in dry", 0) == 0);
  }

  TEST_CASE("the inside is checked before the part that hides it") {
    plan::Step check = step(plan::StepKind::check), lid = step(plan::StepKind::join, {1});
    check.inside_check = true;
    lid.motion = plan::Motion{{2}, {0, 0, -1}};
    const plan::Stage stage = stage_of({check, lid, step(plan::StepKind::check)});
    CHECK(stage::step_reason(stage, 0, joints, job) ==
          "once lid is on, the inside can't be measured");
    CHECK(stage::step_reason(stage, 2, joints, job) ==
          "all is snug and the glue still moves");
  }
}
