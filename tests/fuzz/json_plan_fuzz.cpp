// Any bytes as names in a plan, and any number where one stands: as JSON it stays JSON. A whole
// sheet each time, so slower than the rest.
#include "cli/json/json.h"
#include "tests/fuzz/bytes.h"
#include "tests/fuzz/fuzz_check.h"

namespace {

planner::Plan plan_of(fuzz::Bytes& bytes) {
  planner::Plan plan;
  plan.title = bytes.text();
  for (int i = 0; i < 2; ++i) {
    planner::PlanPart part;
    part.name = bytes.text();
    part.species = bytes.text();
    part.size_mm = {bytes.number(), bytes.number(), bytes.number()};
    part.mass_g = bytes.number();
    plan.parts.push_back(part);
  }
  planner::Stage stage;
  stage.slack_s = bytes.number();
  stage.parts = {0, 1};
  planner::PlannedClamp clamp;
  clamp.kind = bytes.text();
  clamp.force_N = bytes.number();
  clamp.at = {bytes.number(), 0, 0};
  stage.clamps.push_back(clamp);
  plan.stages.push_back(stage);
  plan.verdict.reasons = {bytes.text()};
  plan.notes = {bytes.text()};
  return plan;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
  fuzz::Bytes bytes(data, size);
  fuzz::require(cli::is_json(cli::json_sheet(plan_of(bytes))), "a plan as JSON is JSON");
  return 0;
}
