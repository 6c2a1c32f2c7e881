#include "planner/work/folds.h"

#include <doctest/doctest.h>

#include "planner/files/shop_file.h"
#include "planner/make_plan.h"
#include "planner/verify/verify_plan.h"
#include "planner/work/built_job_test.h"
#include "planner/work/motion.h"

namespace planner::work {
namespace {

using doctest::Approx;

const std::string kMitredBox =
    "units = 'mm'\nspecies = 'beech'\n[box]\noutside = [400, 300, 90]\nstock = 12\ncorners = "
    "'mitre'\nbottom = 'groove'\nbottom_species = 'plywood_birch'\n";
const std::string kMitredFrame =
    "units = 'mm'\nspecies = 'beech'\n[frame]\noutside = [400, 300]\nthickness = 20\nmember = "
    "50\ncorners = 'mitre'\n";

// Six staves 100 wide over the outside and 120 high round a hexagon, each turned by 60 degrees
// more.
std::string hexagonal_box() {
  std::string text = "units = 'mm'\nspecies = 'beech'\n";
  const char* names[] = {"one", "two", "three", "four", "five", "six"};
  for (int i = 0; i < 6; ++i) {
    text += "[[part]]\nname = '" + std::string(names[i]) +
            "'\nlength = 100\nwidth = 120\nthickness = 12\nalong = 'x'\nface = 'y'\nat = [-50, "
            "-86.602540, 0]\nturn = { axis = 'z', angle = " +
            std::to_string(60 * i) + ", about = [0, 0, 0] }\n";
    for (const char* side : {"-x", "+x"}) {
      text += "[[part.cut]]\nkind = 'mitre'\nside = '" + std::string(side) +
              "'\nlong = '-y'\nangle = 30\n";
    }
  }
  return text;
}

struct Folded : BuiltJob {
  std::vector<Joint> joints;
  Motions motions;

  explicit Folded(const std::string& text)
      : BuiltJob(text),
        joints(classify_joints(job, contacts)),
        motions(find_motions(solids, joints)) {}
};

// The plan, checked, with the number of its joins that fold.
long folds_in(const std::string& text) {
  const files::JobReading read = files::read_job("job.toml", text);
  REQUIRE(read.job);
  const Shop shop = files::unlimited_shop();
  const Planned planned = make_plan(*read.job, shop, {});
  REQUIRE(planned.plan);
  for (const std::string& violation : verify::verify_plan(*read.job, shop, *planned.plan)) {
    FAIL_CHECK(violation);
  }
  const std::vector<plan::Step>& steps = planned.plan->stages.front().steps;
  return std::count_if(steps.begin(), steps.end(),
                       [](const plan::Step& step) { return step.motion && step.motion->fold; });
}

TEST_SUITE("planner/folds") {
  TEST_CASE("a taped box without a bottom, all of whose joints are taped, is folded shut") {
    CHECK(folds_in("units = 'mm'\nspecies = 'beech'\n[box]\noutside = [250, 150, 60]\nstock = 10\ncorners = 'mitre'\n"
                   "top = 'none'\nbottom = 'none'\n") == 3);
  }
  TEST_CASE("a mitred box folds at its four corners, through a quarter turn, about the outside") {
    const Folded box(kMitredBox);
    REQUIRE(box.mistakes == "");
    const std::vector<Fold>& folds = box.motions.folds();
    REQUIRE(folds.size() == 8);
    for (const Fold& fold : folds) {
      CHECK(fold.usual);
      CHECK(fold.angle_deg == Approx(90));
      CHECK(std::abs(fold.hinge.along.z) == 1);
      const bool at_x = fold.hinge.at.x == Approx(0) || fold.hinge.at.x == Approx(400);
      const bool at_y = fold.hinge.at.y == Approx(0) || fold.hinge.at.y == Approx(300);
      CHECK((at_x && at_y));
    }
  }

  TEST_CASE(
      "each wall folds off its neighbour, past the bottom in its groove and the wall opposite") {
    const Folded box(kMitredBox);
    for (std::size_t f = 0; f < box.motions.folds().size(); ++f) {
      const Fold& fold = box.motions.folds()[f];
      for (PartId other = 0; other < box.solids.size(); ++other) {
        if (other != fold.turns) {
          CAPTURE(box.job.parts[fold.turns].name);
          CAPTURE(box.job.parts[other].name);
          CHECK(box.motions.unfolds(f, fold.turns, other));
        }
      }
      CHECK_FALSE(box.motions.unfolds(f, fold.stays, fold.turns));
    }
  }

  TEST_CASE("a hexagonal box folds through sixty degrees at each stave") {
    const Folded box(hexagonal_box());
    REQUIRE(box.mistakes == "");
    REQUIRE(box.motions.folds().size() == 12);
    CHECK(box.motions.folds()[0].angle_deg == Approx(60));
    CHECK(box.motions.folds()[0].usual);
  }

  TEST_CASE("a flat frame may swing shut but isn't folded up, butted boards have no hinge") {
    const Folded frame(kMitredFrame);
    REQUIRE(frame.motions.folds().size() == 8);
    CHECK_FALSE(frame.motions.folds()[0].usual);
    CHECK(folds_in(kMitredFrame) == 0);
    std::string butted = kMitredBox;
    butted.replace(butted.find("'mitre'"), 7, "'butt'");
    CHECK(Folded(butted).motions.folds().empty());
  }

  TEST_CASE("a mitred box is folded up round its bottom, and the plan's own check follows it") {
    CHECK(folds_in(kMitredBox) >= 2);
    CHECK(folds_in(hexagonal_box()) == 5);
  }

  TEST_CASE("the mitre isn't wiped, the bottom's groove by an arc little longer than it is deep") {
    const Folded box(kMitredBox);
    for (const Fold& fold : box.motions.folds()) {
      for (const Joint& joint : box.joints) {
        const bool turned = joint.parts[0] == fold.turns || joint.parts[1] == fold.turns;
        if (joint.kind == JointKind::mitre) {
          CHECK(fold_wipe_mm(joint, fold) == 0);
        } else if (turned) {
          CHECK(fold_wipe_mm(joint, fold) > joint.depth_mm);
          CHECK(fold_wipe_mm(joint, fold) < 1.5 * joint.depth_mm);
        }
      }
    }
  }
}

}  // namespace
}  // namespace planner::work
