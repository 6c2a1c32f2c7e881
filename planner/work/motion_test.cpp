// Who can leave whom, of joints as they are cut.
#include "planner/work/motion.h"

#include <algorithm>

#include <doctest/doctest.h>

#include "planner/files/shop_file.h"
#include "planner/make_plan.h"
#include "planner/order/schedule.h"
#include "planner/stage/stage_problem.h"
#include "planner/verify/verify_plan.h"
#include "planner/work/built_job_test.h"

namespace planner::work {
namespace {

struct Moved : BuiltJob {
  std::vector<Joint> joints;
  Motions motions;

  explicit Moved(const std::string& text)
      : BuiltJob(text),
        joints(classify_joints(job, contacts)),
        motions(find_motions(solids, joints)) {}

  // Whether one part leaves another along a direction, wet faces considered.
  bool leaves(const std::string& a, const std::string& b, const geometry::Direction& way) const {
    for (std::size_t d = 0; d < motions.directions().size(); ++d) {
      if (dot(motions.directions()[d], unit(way)) > 1 - 1e-9) {
        return motions.leaves(d, index(a), index(b));
      }
    }
    FAIL("no such direction is tried");
    return false;
  }
  // The ways on which one part leaves another.
  std::size_t ways(const std::string& a, const std::string& b) const {
    std::size_t free = 0;
    for (std::size_t d = 0; d < motions.directions().size(); ++d) {
      free += motions.leaves(d, index(a), index(b)) ? 1 : 0;
    }
    return free;
  }
  order::AssemblyGraph graph() const {
    const Shop shop;
    const GlueInUse glue;
    return order::AssemblyGraph(schedule_problem(stage::one_go(joints, job.parts.size()), joints,
                                                 motions, {}, {.shop = shop, .glue = glue})
                                    .assembly);
  }
};

std::string part(const std::string& name, const std::string& sizes, const std::string& lies,
                 const std::string& at) {
  return "[[part]]\nname = '" + name + "'\n" + sizes + "\n" + lies + "\nat = " + at + "\n";
}
std::string size(int length, int width, int thickness) {
  return "length = " + std::to_string(length) + "\nwidth = " + std::to_string(width) +
         "\nthickness = " + std::to_string(thickness);
}
std::string cut(const std::string& kind, const std::string& keys) {
  return "[[part.cut]]\nkind = '" + kind + "'\n" + keys + "\n";
}
const std::string kHead = "units = 'mm'\nspecies = 'beech'\n";
const std::string kAlongX = "along = 'x'\nface = 'z'", kAlongY = "along = 'y'\nface = 'z'";

// A rail 200 long with a tenon through a post 40 wide, its end flush with the post's far side.
std::string through_tenon() {
  return kHead + part("post", size(300, 40, 30), kAlongY, "[200, 0, 0]") +
         cut("mortise", "on = '-x'\nfrom = [130, 10]\nsize = [40, 10]\ndepth = 40") +
         part("rail", size(240, 60, 30), kAlongX, "[0, 120, 0]") +
         cut("tenon", "on = '+x'\nlength = 40\nfrom = [10, 10]\nsize = [40, 10]");
}

// A batten with leaning sides in the back of a board, across its grain.
std::string dovetailed_batten() {
  return kHead + part("board", size(300, 120, 25), kAlongX, "[0, 0, 0]") +
         cut("dado", "on = '+z'\nruns = 'y'\noffset = 130\nwidth = 40\ndepth = 10\nlean = 10") +
         part("batten", size(120, 40, 20), kAlongY, "[130, 0, 15]") +
         cut("miter", "side = '-x'\nlong = '-z'\nangle = 10") +
         cut("miter", "side = '+x'\nlong = '-z'\nangle = 10");
}

// A frame whose corners go together along x, up, and along y at both ends of one stile: each keeps
// the next in.
std::string keyed_ring() {
  return kHead + part("bottom rail", size(280, 40, 18), kAlongX, "[0, 0, 0]") +
         cut("tenon", "on = '+x'\nlength = 20\nfrom = [10, 6]\nsize = [20, 6]") +
         cut("mortise", "on = '+y'\nfrom = [10, 6]\nsize = [20, 6]\ndepth = 15") +
         part("right stile", size(400, 40, 18), kAlongY, "[260, 0, 0]") +
         cut("mortise", "on = '-x'\nfrom = [10, 6]\nsize = [20, 6]\ndepth = 20") +
         cut("mortise", "on = '+z'\nfrom = [0, 370]\nsize = [15, 15]\ndepth = 9") +
         cut("mortise", "on = '+z'\nfrom = [15, 365]\nsize = [15, 25]\ndepth = 9") +
         part("top rail", size(290, 40, 18), kAlongX, "[0, 360, 0]") +
         cut("notch", "from = [260, 0, 0]\nsize = [30, 40, 9]") +
         cut("notch", "from = [260, 0, 0]\nsize = [15, 10, 18]") +
         cut("notch", "from = [260, 25, 0]\nsize = [15, 15, 18]") +
         cut("notch", "from = [275, 0, 0]\nsize = [15, 5, 18]") +
         cut("notch", "from = [275, 30, 0]\nsize = [15, 10, 18]") +
         cut("mortise", "on = '-y'\nfrom = [10, 6]\nsize = [20, 6]\ndepth = 15") +
         part("left stile", size(350, 40, 18), kAlongY, "[0, 25, 0]") +
         cut("tenon", "on = '+y'\nlength = 15\nfrom = [10, 6]\nsize = [20, 6]") +
         cut("tenon", "on = '-y'\nlength = 15\nfrom = [10, 6]\nsize = [20, 6]");
}

TEST_SUITE("planner/motion") {
  TEST_CASE("a through tenon has four cheeks and a shoulder, and goes in along its rail alone") {
    const Moved frame(through_tenon());
    REQUIRE(frame.mistakes == "");
    REQUIRE(frame.joints.size() == 1);
    CHECK(frame.joints[0].kind == JointKind::mortise_and_tenon);
    // Cheeks 2 x 40 x 40, edges 2 x 40 x 10, shoulder 60 x 30 less 40 x 10.
    CHECK(frame.total_mm2() == 3200 + 800 + 1400);
    CHECK(frame.joints[0].depth_mm == 40);
    CHECK(frame.ways("rail", "post") == 1);
    CHECK(frame.leaves("rail", "post", {-1, 0, 0}));
  }

  TEST_CASE("a dovetailed batten slides in from either edge of its board, wiping all its length") {
    const Moved board(dovetailed_batten());
    REQUIRE(board.mistakes == "");
    REQUIRE(board.joints.size() == 1);
    CHECK(board.joints[0].depth_mm == doctest::Approx(120));
    CHECK(board.ways("batten", "board") == 2);
    CHECK(board.leaves("batten", "board", {0, 1, 0}));
    CHECK(board.leaves("batten", "board", {0, -1, 0}));
    CHECK_FALSE(board.leaves("batten", "board", {0, 0, 1}));
  }

  TEST_CASE("a ring of keyed corners cannot be put together, and what locks each corner is told") {
    const Moved ring(keyed_ring());
    REQUIRE(ring.mistakes == "");
    REQUIRE(ring.joints.size() == 4);
    CHECK(ring.ways("bottom rail", "right stile") == 1);
    CHECK(ring.ways("top rail", "right stile") == 1);
    CHECK(ring.leaves("top rail", "right stile", {0, 0, 1}));
    CHECK(ring.leaves("left stile", "top rail", {0, -1, 0}));
    CHECK(ring.leaves("left stile", "bottom rail", {0, 1, 0}));
    order::AssemblyGraph graph = ring.graph();
    CHECK_FALSE(graph.comes_apart(graph.whole()));
    const std::vector<int> locked = graph.locked_group();
    CHECK(locked == std::vector<int>{0, 1, 2, 3});
    const Planned planned = make_plan(ring.job, files::unlimited_shop(), {});
    REQUIRE(planned.plan);
    CHECK_FALSE(planned.plan->verdict.ok);
    const auto& why = std::get<plan::Locked>(planned.plan->verdict.reasons.front());
    CHECK(why.parts.size() == 4);
    REQUIRE(why.pairs.size() == 4);  // each leaves its neighbour one way only, no two alike
    for (const plan::WaysApart& pair : why.pairs) {
      CHECK(pair.ways.size() == 1);
    }
    CHECK(ring.job.parts[why.pairs[2].leaves.front()].name == "top rail");
    CHECK(ring.job.parts[why.pairs[2].stays.front()].name == "right stile");
    CHECK(why.pairs[2].ways.front().z == 1);
  }
}

}  // namespace
}  // namespace planner::work
