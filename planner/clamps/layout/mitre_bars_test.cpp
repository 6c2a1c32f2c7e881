#include "planner/clamps/layout/mitre_bars.h"

#include <map>

#include <doctest/doctest.h>

#include "planner/clamps/layout/clamp_work_test.h"

namespace planner::clamps::layout {
namespace {

TestWork mitred_frame() {
  return work_of_text(
      "title = \"frame\"\nunits = \"mm\"\n[frame]\noutside = [600, 300]\nthickness = 20\n"
      "member = 40\ncorners = \"mitre\"\nspecies = \"red_oak\"\n[glue]\nuse = \"pva_yellow\"\n");
}

}  // namespace

TEST_SUITE("planner/mitre_bars") {
  TEST_CASE("bars draw a mitred frame as hard along one axis as along the other") {
    const TestWork frame = mitred_frame();
    const work::Shop bars = shop_with({some("f_heavy", 8, 800)});
    const ClampLayout layout = lay_out_clamps(frame.problem(bars), plan::Level::hold);
    std::map<work::JointId, std::vector<double>> mean;
    for (const PressingAxis& round : layout.rounds) {
      for (const plan::LinePressure& line : round.lines) {
        mean[line.joint].push_back(line.mean_MPa);
        CHECK(line.level != plan::Level::short_of_hold);
      }
    }
    CHECK(mean.size() == 4);
    for (const auto& [joint, along] : mean) {
      REQUIRE(along.size() == 2);
      CHECK(along[0] == doctest::Approx(along[1]).epsilon(0.02));
    }
  }
  TEST_CASE("a mitre pressed along one axis alone is not held, however hard") {
    const TestWork frame = mitred_frame();
    const ClampProblem problem = frame.problem(work::Shop{});
    std::vector<PressingAxis> rounds(1);
    plan::LinePressure line;
    line.joint = problem.stage_joints.front();
    line.axis = geometry::kAxis[0];
    line.level = plan::Level::full;
    line.mean_MPa = 2;
    rounds[0].lines = {line};
    refuse_sliding(problem, rounds);
    CHECK(rounds[0].level == plan::Level::short_of_hold);

    line.axis = geometry::kAxis[1];
    line.mean_MPa = 1.7;  // within a fifth
    rounds.resize(2);
    rounds[1].lines = {line};
    rounds[0].lines[0].level = plan::Level::full;
    refuse_sliding(problem, rounds);
    CHECK(rounds[0].lines[0].level == plan::Level::full);
    rounds[1].lines[0].mean_MPa = 1.5;
    refuse_sliding(problem, rounds);
    CHECK(rounds[1].lines[0].level == plan::Level::short_of_hold);
  }
}

}  // namespace planner::clamps::layout
