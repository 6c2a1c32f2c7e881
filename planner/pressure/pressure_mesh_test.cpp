#include "planner/pressure/pressure_mesh.h"

#include <vector>

#include <doctest/doctest.h>

TEST_SUITE_BEGIN("planner/pressure_mesh");

namespace planner::pressure {
namespace {

const BeamLayer kBoard{1e9, 1e6};

TEST_CASE("nodes fall on the line's ends and wherever they must, with even steps between") {
  StackLine line;
  line.length_mm = 100;
  line.step_mm = 30;
  line.layers = {kBoard};
  CHECK(beam_nodes(line, {40, 40, 0}) == std::vector<double>{0, 20, 40, 70, 100});
}

TEST_CASE("a stiff bed makes the steps shorter") {
  StackLine line;
  line.length_mm = 100;
  line.step_mm = 30;
  line.layers = {{1e6}};
  line.beds.push_back({.stiffness_MPa = 400, .width_mm = 1, .gaps = {}});
  CHECK(spread_length_mm(line.layers[0], 400) == doctest::Approx(10));
  CHECK(beam_nodes(line, {}).size() == 68);  // steps of at most 0.15 of 10 mm
}

}  // namespace
}  // namespace planner::pressure

TEST_SUITE_END();
