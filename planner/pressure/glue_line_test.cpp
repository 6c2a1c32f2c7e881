#include "planner/pressure/glue_line.h"

#include <doctest/doctest.h>

#include "planner/clamps/layout/clamp_work_test.h"

namespace planner::pressure {
namespace {

struct Bench {
  clamps::layout::TestWork work;
  Work all;

  explicit Bench(clamps::layout::TestWork w) : work(std::move(w)) {
    all = work_of(work.problem(work::Shop{}).parts, work.solids);
  }
  work::PartId part(const std::string& name) const {
    work::PartId i = 0;
    while (work.job.parts[i].name != name) {
      ++i;
    }
    return i;
  }
  // The larger face of the joint between two parts, pressed along an axis.
  GlueLine line(const std::string& a, const std::string& b, std::size_t axis) const {
    work::JointId j = 0;
    while (joint_name(work.joints[j], work.job) != a + " - " + b) {
      ++j;
    }
    return glue_line(work.job, work.joints, all, j, 0, geometry::kAxis[axis]);
  }
};

}  // namespace

TEST_SUITE("planner/glue_line") {
  TEST_CASE("a lid is thinner over the wall it is rabbeted for than beside it") {
    const Bench chest(clamps::layout::hive_tool_chest());
    const GlueLine line = chest.line("back", "lid", 2);
    CHECK(line.over == chest.part("lid"));
    CHECK(!line.from_low);
    CHECK(line.shape == LineShape::strip);
    CHECK(line.strip.lip_thickness_mm == doctest::Approx(0.375 * 25.4));
    CHECK(line.strip.panel_thickness_mm == doctest::Approx(0.75 * 25.4));
    CHECK(line.length_mm == doctest::Approx(14 * 25.4));
    // Lid and bottom press the wall from both sides: its middle stays.
    CHECK(line.strip.mating_depth_mm == doctest::Approx(7.25 / 2 * 25.4));
    CHECK(!line.estimated);
  }
  TEST_CASE("a line carries its glued area, corners cut away") {
    // 14 in of 3/4 in, less two corners of 3/4 x 3/8 in: 9.9375 in2.
    const Bench chest(clamps::layout::hive_tool_chest());
    const GlueLine line = chest.line("back", "lid", 2);
    CHECK(line.length_mm * line.width_mm == doctest::Approx(9.9375 * 645.16));
    CHECK(line.across_mm == doctest::Approx(0.75 * 25.4));
  }
  TEST_CASE("its middle runs over the middle of the wall behind") {
    const Bench chest(clamps::layout::hive_tool_chest());
    const geometry::Point middle = point_at(chest.line("left", "lid", 2), 50);
    CHECK(middle.x == doctest::Approx(0.375 * 25.4));
  }
  TEST_CASE("front over end: grain across the line, end grain under it") {
    const Bench chest(clamps::layout::hive_tool_chest());
    const GlueLine line = chest.line("left", "front", 1);
    CHECK(line.over == chest.part("front"));
    CHECK(line.from_low);
    CHECK(line.strip.panel.E_y_MPa > 5 * line.strip.panel.E_x_MPa);
    CHECK(line.strip.mating.E_z_MPa > 5 * line.strip.mating.E_x_MPa);
    CHECK(line.offcut.E_x_MPa > 5 * line.offcut.E_z_MPa);  // a caul is cut along the grain
  }
  TEST_CASE("boards edge to edge are pressed across their widths") {
    const Bench panel(clamps::layout::bench_panel());
    const GlueLine line = panel.line("board 2", "board 3", 1);
    CHECK(line.shape == LineShape::edge);
    CHECK(line.over_board.width_mm == doctest::Approx(3 * 25.4));
    CHECK(line.over_board.thickness_mm == doctest::Approx(0.875 * 25.4));
    CHECK(line.length_mm == doctest::Approx(48 * 25.4));
  }
  TEST_CASE("glue in the middle only makes the line as long as that") {
    Bench panel(clamps::layout::bench_panel());
    panel.work.joints[0].middle_mm = 100;
    const GlueLine line = panel.line("board 1", "board 2", 1);
    CHECK(line.length_mm == doctest::Approx(100));
    CHECK(point_at(line, 50).x == doctest::Approx(24 * 25.4));
  }
  TEST_CASE("a bow that is hollow towards its mate stands off in the middle") {
    Bench panel(clamps::layout::bench_panel());
    work::Part& board = panel.work.job.parts[0];
    board.bow = geometry::Length::whole_mm(2);
    board.hollow = work::Face{1, true};
    CHECK(panel.line("board 1", "board 2", 1).bow_mm == doctest::Approx(2));
    board.hollow = work::Face{1, false};
    CHECK(panel.line("board 1", "board 2", 1).bow_mm == doctest::Approx(-2));
    board.hollow = work::Face{2, true};  // bowed the other way: bends flat under the clamps
    CHECK(panel.line("board 1", "board 2", 1).bow_mm == 0);
  }
}

}  // namespace planner::pressure
