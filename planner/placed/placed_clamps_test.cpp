#include "planner/placed/placed_clamps.h"

#include <algorithm>

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
  return "[[placed]]\naxis = 'y'\nat = [" + std::to_string(x) + ", 0, 10]\nforce = '" +
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

std::string all_findings(const plan::PlacedTrial& trial) {
  std::string text;
  for (const std::string& finding : trial.findings) {
    text += finding + "\n";
  }
  return text;
}

bool told(const std::vector<plan::WayOut>& ways, const std::string& words) {
  return std::any_of(ways.begin(), ways.end(), [&](const plan::WayOut& way) {
    return way.what.find(words) != std::string::npos;
  });
}

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
    CHECK(all_findings(trial).find("end") != std::string::npos);
    CHECK_FALSE(trial.mends.empty());
    for (const plan::WayOut& way : trial.mends) {
      CHECK(way.mends);
    }
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
    CHECK(all_findings(before).find("of what holds") != std::string::npos);
    CHECK(told(before.mends, "move no. 4 10 mm to the left"));
    CHECK_FALSE(tried(five(635)).holds);
    CHECK(tried(five(630)).holds);
  }

  TEST_CASE("clamps that are drawn too lightly are to be drawn harder") {
    std::string placed;
    for (const double x : {104.0, 335.0, 565.0, 796.0}) {
      placed += clamp(x, 1700, "pad = [80, 20]\n");
    }
    const plan::PlacedTrial before = tried(boards(placed));
    CHECK_FALSE(before.holds);
    CHECK(told(before.mends, "harder"));
  }

  TEST_CASE("a jaw that presses more than half the wood's crushing strength dents it") {
    std::string placed;
    for (int i = 0; i < 6; ++i) {
      placed += clamp(900.0 * (i + 0.45) / 5.9, 4500, "pad = [25, 20]\n");
    }
    const plan::PlacedTrial trial = tried(boards(placed));
    // 4500 N on 25 x 20 mm: 9 MPa; cherry bears half of 4.8 (table).
    CHECK(trial.clamps[0].bearing_MPa == doctest::Approx(9));
    CHECK(all_findings(trial).find("dents") != std::string::npos);
    CHECK(told(trial.mends, "put blocks"));
  }

  TEST_CASE("clamps all above the middle of a board open its joint below") {
    std::string placed;
    for (int i = 0; i < 6; ++i) {
      placed += "[[placed]]\naxis = 'y'\nat = [" + std::to_string(900.0 * (i + 0.45) / 5.9) +
                ", 0, 15]\nforce = '1500 N'\npad = [80, 10]\n";
    }
    const plan::PlacedTrial trial = tried(boards(placed));
    // 5 mm beside the middle of 20: beyond a sixth, 3.3 (the middle third: textbook statics).
    CHECK(all_findings(trial).find("5 mm beside the middle, up") != std::string::npos);
    CHECK_FALSE(trial.holds);
  }

  TEST_CASE("clamps on one axis of a box leave the other's joints loose") {
    const std::string box =
        "title = 'Box'\nunits = 'mm'\n[box]\noutside = [300, 200, 120]\nstock = 18\n"
        "corners = 'rabbet'\ntop = 'none'\nbottom = 'rabbet'\nspecies = 'black_cherry'\n"
        "[[placed]]\naxis = 'y'\nat = [9, 0, 60]\nkind = 'parallel'\n"
        "[[placed]]\naxis = 'y'\nat = [291, 0, 60]\nkind = 'parallel'\n";
    const plan::PlacedTrial trial = tried(box);
    CHECK_FALSE(trial.holds);
    CHECK(all_findings(trial).find("nothing presses from bottom to top") != std::string::npos);
    CHECK(trial.clamps.size() == 2);
  }

  TEST_CASE("of many joints that fare alike their number is told, not each name") {
    const std::string shelves =
        "title = 'Case'\nunits = 'mm'\n[carcass]\noutside = [500, 260, 900]\nstock = 18\n"
        "shelves = 4\nspecies = 'black_cherry'\n"
        "[[placed]]\naxis = 'x'\nat = [0, 130, 891]\nkind = 'parallel'\n";
    const std::string told = all_findings(tried(shelves));
    CHECK(told.find("the 10 joints marked SHORT below: no pressure at all") != std::string::npos);
    CHECK(told.find("shelf 3") == std::string::npos);
  }
}

}  // namespace
}  // namespace planner::placed
