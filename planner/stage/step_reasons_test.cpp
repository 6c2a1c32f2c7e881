#include "planner/stage/step_reasons.h"

#include <doctest/doctest.h>

using namespace planner;
using namespace planner::stage;

namespace {

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
  TEST_CASE("glue is spread as late as it can be, and the step says how long it stays open") {
    const plan::Stage stage = stage_of({step(plan::StepKind::spread, {0})});
    const plan::StepReason why = step_reason(stage, 0);
    REQUIRE(std::holds_alternative<plan::OpenFor>(why));
    CHECK(std::get<plan::OpenFor>(why).used_s == 95);
    CHECK(std::get<plan::OpenFor>(why).limit_s == 300);
  }

  TEST_CASE("a movement names the joints it closes, or that it goes in dry") {
    const plan::Stage stage =
        stage_of({step(plan::StepKind::join, {0, 1}), step(plan::StepKind::join)});
    CHECK(std::get<plan::Closes>(step_reason(stage, 0)).joints == std::vector<work::JointId>{0, 1});
    CHECK(std::get<plan::Closes>(step_reason(stage, 1)).joints.empty());
  }

  TEST_CASE("the inside is checked before the part that hides it") {
    plan::Step check = step(plan::StepKind::check), lid = step(plan::StepKind::join, {1});
    check.check = plan::Check::inside_diagonals;
    lid.motion = plan::Motion{{2}, {0, 0, -1}};
    const plan::Stage stage = stage_of({check, lid, step(plan::StepKind::check)});
    CHECK(std::get<plan::InsideStillOpen>(step_reason(stage, 0)).next ==
          std::vector<work::PartId>{2});
    CHECK(std::holds_alternative<plan::StillMoves>(step_reason(stage, 2)));
  }
}
