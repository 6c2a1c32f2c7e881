// Any bytes as names, and any number where one stands, written as JSON: it stays JSON. And any
// bytes as a file that --json is asked to overwrite.
#include <array>
#include <cstring>

#include "cli/sheet/json.h"
#include "tests/fuzz/fuzz_check.h"

namespace {

class Bytes {
 public:
  Bytes(const unsigned char* data, std::size_t size)
      : rest_(reinterpret_cast<const char*>(data), size) {}

  std::string text() {
    const std::size_t wanted = byte();
    const std::size_t n = std::min(rest_.size(), wanted);
    std::string taken(rest_.substr(0, n));
    rest_.remove_prefix(n);
    return taken;
  }
  double number() {
    double value = 0;
    if (rest_.size() >= sizeof value) {
      std::memcpy(&value, rest_.data(), sizeof value);
      rest_.remove_prefix(sizeof value);
    }
    return value;
  }

 private:
  unsigned char byte() {
    if (rest_.empty()) {
      return 0;
    }
    const auto b = static_cast<unsigned char>(rest_[0]);
    rest_.remove_prefix(1);
    return b;
  }
  std::string_view rest_;
};

planner::Plan plan_of(Bytes& bytes) {
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
  Bytes bytes(data, size);
  fuzz::require(cli::is_json(cli::json_sheet(plan_of(bytes))), "a plan as JSON is JSON");
  const planner::Diagnostic mistake{
      planner::Severity::error, {bytes.text(), 1, 1}, bytes.text(), bytes.text()};
  fuzz::require(cli::is_json(cli::json_failure({mistake})), "mistakes as JSON are JSON");
  cli::is_json(std::string(reinterpret_cast<const char*>(data), size));
  return 0;
}
