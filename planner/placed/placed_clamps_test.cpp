#include "planner/placed/placed_clamps.h"

#include <algorithm>
#include <cmath>

#include <doctest/doctest.h>

#include "planner/files/shop_file.h"
#include "planner/make_plan.h"
#include "planner/work/built_job_test.h"

namespace planner::placed {
namespace {

// Two boards of cherry, 100 x 20 mm and 900 long, edge to edge along y.
std::string boards(const std::string& placed) {
  return "title = 'Board'\nunits = 'mm'\n[panel]\nlength = 900\nboards = [100, 100]\nthickness = "
         "20\n"
         "species = 'black_cherry'\n[glue]\nuse = 'pva_type1'\n" +
         placed;
}

std::string clamp(double x, double force_N, const std::string& more = "") {
  return "[[my_clamp]]\naxis = 'y'\nat = [" + std::to_string(x) + ", 0, 10]\nforce = '" +
         std::to_string(force_N) + " N'\n" + more;
}

plan::PlacedTrial tried(const std::string& text) {
  const files::JobReading reading = files::read_job("job.toml", text);
  REQUIRE(reading.job);
  const Planned planned = make_plan(*reading.job, files::unlimited_shop(), {});
  REQUIRE(planned.plan);
  REQUIRE(planned.plan->placed);
  return *planned.plan->placed;
}

// The findings of one kind.
template <class Finding>
std::vector<Finding> found(const plan::PlacedTrial& trial) {
  std::vector<Finding> out;
  for (const plan::PlacedFinding& finding : trial.findings) {
    if (const auto* one = std::get_if<Finding>(&finding)) {
      out.push_back(*one);
    }
  }
  return out;
}

// The changes of one kind, of all mends.
template <class Change>
std::vector<Change> offered(const plan::PlacedTrial& trial) {
  std::vector<Change> out;
  for (const plan::PlacedMend& mend : trial.mends) {
    for (const plan::PlacedChange& change : mend.changes) {
      if (const auto* one = std::get_if<Change>(&change)) {
        out.push_back(*one);
      }
    }
  }
  return out;
}

using How = plan::StarvedJoint::How;

TEST_SUITE("planner/placed_clamps") {
  TEST_CASE("six clamps spread along two boards hold the joint, and nothing is to be mended") {
    std::string placed;
    for (int i = 0; i < 6; ++i) {
      placed += clamp(900.0 * (i + 0.45) / 5.9, 3500, "pad = [80, 20]\n");
    }
    const plan::PlacedTrial trial = tried(boards(placed));
    CHECK(trial.holds);
    CHECK(trial.findings.empty());
    CHECK(trial.mends.empty());
    REQUIRE(trial.pressure.size() == 1);
    // Force in is force out: 6 x 3500 N over 900 x 20 mm.
    CHECK(trial.pressure[0].mean_MPa == doctest::Approx(21000.0 / 18000).epsilon(1e-6));
  }

  TEST_CASE("one clamp alone in the middle leaves the ends of a long joint open") {
    const plan::PlacedTrial trial = tried(boards(clamp(450, 3000)));
    CHECK_FALSE(trial.holds);
    CHECK(trial.pressure[0].min_MPa == 0);
    const auto starved = found<plan::StarvedJoint>(trial);
    REQUIRE(starved.size() == 1);
    CHECK(starved[0].from_end_mm == 0);
    CHECK_FALSE(trial.mends.empty());
  }

  // Spread evenly (184 mm apart) five of 3000 N hold; here the third stands 90 mm off its place.
  std::string five(double fourth_mm) {
    std::string placed;
    for (const double x : {70.0, 260.0, 360.0, fourth_mm, 830.0}) {
      placed += clamp(x, 3000, "pad = [80, 20]\n");
    }
    return boards(placed);
  }

  TEST_CASE("a gap between clamps is mended by moving one, and what is offered holds when done") {
    const plan::PlacedTrial before = tried(five(640));
    CHECK_FALSE(before.holds);
    const auto starved = found<plan::StarvedJoint>(before);
    REQUIRE(starved.size() == 1);
    CHECK(starved[0].how == How::weak);
    const auto moves = offered<plan::MoveClamp>(before);
    REQUIRE(moves.size() == 1);
    CHECK(moves[0].clamp == 4);
    CHECK(moves[0].by_mm == doctest::Approx(10));
    CHECK(moves[0].towards.x == doctest::Approx(-1));
    CHECK_FALSE(tried(five(635)).holds);
    CHECK(tried(five(630)).holds);
  }

  TEST_CASE("a jaw finds a free face on the edge of a thin board") {
    const files::JobReading reading = files::read_job(
        "job.toml",
        "units = 'mm'\n[panel]\nlength = 300\nboards = [60, 60]\nthickness = 2.5\nspecies = 'black_cherry'\n[glue]\n"
        "use = 'pva_type1'\n[[my_clamp]]\naxis = 'y'\nat = [150, 0, 1.25]\nforce = '200 N'\n");
    REQUIRE(reading.job);
    for (const base::Diagnostic& said : make_plan(*reading.job, files::unlimited_shop(), {}).diagnostics) {
      CHECK(to_text(said).find("no flat free face") == std::string::npos);
    }
  }

  TEST_CASE("more clamps are offered where the joint has none, out to its far end") {
    const auto more = offered<plan::SetMore>(tried(boards(clamp(100, 2500) + clamp(300, 2500))));
    REQUIRE(!more.empty());
    for (const plan::SetMore& set : more) {
      double farthest = 0;
      for (const geometry::Point& at : set.at) {
        farthest = std::max(farthest, at.x);
      }
      CHECK(farthest > 700);
    }
  }

  TEST_CASE("clamps that are drawn too lightly are to be drawn harder") {
    std::string placed;
    for (const double x : {104.0, 335.0, 565.0, 796.0}) {
      placed += clamp(x, 1700, "pad = [80, 20]\n");
    }
    const plan::PlacedTrial before = tried(boards(placed));
    CHECK_FALSE(before.holds);
    CHECK(offered<plan::DrawHarder>(before).size() == 1);
  }

  TEST_CASE("a jaw that presses more than half the wood's crushing strength dents it") {
    std::string placed;
    for (int i = 0; i < 6; ++i) {
      placed += clamp(900.0 * (i + 0.45) / 5.9, 4500, "pad = [25, 20]\n");
    }
    const plan::PlacedTrial trial = tried(boards(placed));
    // 4500 N on 25 x 20 mm: 9 MPa; cherry bears half of 4.8 (table).
    CHECK(trial.clamps[0].bearing_MPa == doctest::Approx(9));
    CHECK(found<plan::DentingClamp>(trial).size() == 6);
    CHECK_FALSE(offered<plan::PutBlocks>(trial).empty());
  }

  TEST_CASE("clamps all above the middle of a board open its joint below") {
    std::string placed;
    for (int i = 0; i < 6; ++i) {
      placed += "[[my_clamp]]\naxis = 'y'\nat = [" + std::to_string(900.0 * (i + 0.45) / 5.9) +
                ", 0, 15]\nforce = '1500 N'\npad = [80, 10]\n";
    }
    const plan::PlacedTrial trial = tried(boards(placed));
    // 5 mm beside the middle of 20: beyond a sixth, 3.3 (the middle third: textbook statics).
    const auto beside = found<plan::OffMiddle>(trial);
    REQUIRE(beside.size() == 1);
    CHECK(beside[0].off_mm == doctest::Approx(5));
    CHECK(beside[0].towards.z == doctest::Approx(1));
    CHECK_FALSE(trial.holds);
  }

  TEST_CASE("clamps on one axis of a box leave the other's joints loose") {
    const std::string box =
        "title = 'Box'\nunits = 'mm'\n[box]\noutside = [300, 200, 120]\nstock = 18\n"
        "corners = 'rabbet'\ntop = 'none'\nbottom = 'rabbet'\nspecies = 'black_cherry'\n"
        "[[my_clamp]]\naxis = 'y'\nat = [9, 0, 60]\nkind = 'parallel'\n"
        "[[my_clamp]]\naxis = 'y'\nat = [291, 0, 60]\nkind = 'parallel'\n";
    const plan::PlacedTrial trial = tried(box);
    CHECK_FALSE(trial.holds);
    const auto loose = found<plan::UntouchedAxis>(trial);
    CHECK(std::any_of(loose.begin(), loose.end(),
                      [](const plan::UntouchedAxis& axis) { return std::abs(axis.axis.z) > 0.9; }));
    CHECK(trial.clamps.size() == 2);
  }

  TEST_CASE("each joint that fares alike is a finding of its own") {
    const std::string shelves =
        "title = 'Case'\nunits = 'mm'\n[carcass]\noutside = [500, 260, 900]\nstock = 18\n"
        "shelves = 4\nspecies = 'black_cherry'\n"
        "[[my_clamp]]\naxis = 'x'\nat = [0, 130, 891]\nkind = 'parallel'\n";
    const plan::PlacedTrial trial = tried(shelves);
    const auto starved = found<plan::StarvedJoint>(trial);
    CHECK(std::count_if(starved.begin(), starved.end(), [](const plan::StarvedJoint& joint) {
            return joint.how == How::no_pressure;
          }) == 2);
    // The shelves' dadoes only come home, and none of them does.
    const auto loose = found<plan::UntouchedAxis>(trial);
    CHECK(std::ranges::any_of(loose, [](const plan::UntouchedAxis& axis) {
      return std::abs(axis.axis.x) > 0.9 && axis.joints.size() == 8;
    }));
  }
}

}  // namespace
}  // namespace planner::placed
