#include "planner/clamps/layout/strap_clamps.h"

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <numbers>

#include <doctest/doctest.h>

#include "geometry/contact.h"
#include "planner/clamps/layout/clamp_work_test.h"
#include "planner/tables/clamp.h"
#include "planner/work/part_solid.h"

namespace planner::clamps::layout {
namespace {

constexpr double kTurn60 = std::numbers::pi / 3, kTurn90 = std::numbers::pi / 2;

// Six sides 200 x 40 x 18 mm, mitred at 30 degrees, as fixtures/hexagon_frame.
TestWork hexagon() {
  std::string text = "title = \"rim\"\nunits = \"mm\"\nspecies = \"western_redcedar\"\n";
  for (int side = 0; side < 6; ++side) {
    text += "[[part]]\nname = \"side " + std::to_string(side) +
            "\"\nlength = 200\nwidth = 40\nthickness = 18\nalong = \"x\"\nface = \"z\"\n"
            "at = [0, 0, 0]\nturn = { axis = \"z\", angle = " +
            std::to_string(60 * side) + ", about = [100, 173.205081, 0] }\n";
    for (const char* end : {"-x", "+x"}) {
      text += std::string("[[part.cut]]\nkind = \"mitre\"\nside = \"") + end +
              "\"\nlong = \"-y\"\nangle = 30\n";
    }
  }
  return work_of_text(text + "[glue]\nuse = \"pva_type1\"\n");
}

TestWork walls(const std::string& corners) {
  return work_of_text(
      "title = \"walls\"\nunits = \"mm\"\n[box]\noutside = [400, 300, 120]\nstock = 18\n"
      "corners = \"" +
      corners +
      "\"\ntop = \"none\"\nbottom = \"none\"\nspecies = \"black_cherry\"\n"
      "[glue]\nuse = \"pva_type1\"\n");
}

std::optional<StrapLoop> ring_of(const TestWork& work) {
  const ClampProblem problem = work.problem(work::Shop{});
  return find_band_ring(problem.job, problem.joints, problem.stage_joints,
                        pressure::work_of(problem.parts, problem.solids), geometry::kAxis[2]);
}

}  // namespace

TEST_SUITE("planner/strap_clamps") {
  // Outside, closed form: equilibrium of a strap's side, T cos(turn / 2)
  TEST_CASE("a strap squeezes every side of a hexagon alike: T cos(turn / 2) square to a mitre") {
    const auto ring = ring_of(hexagon());
    REQUIRE(ring);
    CHECK(ring->girth_mm == doctest::Approx(1200).epsilon(1e-6));
    REQUIRE(ring->corners.size() == 6);
    for (const StrapCorner& corner : ring->corners) {
      CHECK(corner.turn == doctest::Approx(kTurn60).epsilon(1e-6));
      // By hand: each side takes half of the corner's 2 T sin 30 = T along the corner's middle, and
      // T from its other end; what is left for the mitre is T cos 30.
      CHECK(corner.share == doctest::Approx(std::sqrt(3) / 2).epsilon(1e-6));
    }
  }
  // Outside, closed form: a regular octagon's girth, 8 x across x tan 22.5
  TEST_CASE("staves are strapped as sides are, upright ones and those that lean") {
    for (const int slope : {0, 8, -8}) {
      CAPTURE(slope);
      const TestWork tub = work_of_text(
          "units = \"mm\"\nspecies = \"western_redcedar\"\n[ring]\nsides = 8\nacross = 300\nheight = 200\n"
          "thickness = 18\nslope = " +
          std::to_string(slope) + "\n[glue]\nuse = \"pva_type1\"\n");
      const auto ring = ring_of(tub);
      REQUIRE(ring);
      CHECK(ring->girth_mm == doctest::Approx(8 * 300 * std::tan(std::numbers::pi / 8)).epsilon(1e-4));
      CHECK(ring->height.size() == doctest::Approx(200).epsilon(1e-6));
      REQUIRE(ring->corners.size() == 8);
      for (const StrapCorner& corner : ring->corners) {
        CHECK(corner.share == doctest::Approx(std::cos(std::numbers::pi / 8)).epsilon(1e-4));
      }
      const ClampLayout layout = lay_out_clamps(tub.problem(work::Shop{}), plan::Level::hold);
      REQUIRE(layout.rounds.size() == 1);
      REQUIRE(!layout.rounds[0].clamps.empty());
      for (const plan::PlannedClamp& strap : layout.rounds[0].clamps) {
        const double from_wide = slope > 0 ? 200 - strap.at.z : strap.at.z;
        const double inradius = 150 - from_wide * std::tan(std::abs(slope) * std::numbers::pi / 180);
        CHECK(strap.span_mm == doctest::Approx(16 * inradius * std::tan(std::numbers::pi / 8)).epsilon(1e-3));
      }
    }
  }
  TEST_CASE("a strap serves 3 in of height, a taller corner gets a caul as tall as it is") {
    for (const int high : {75, 80}) {
      CAPTURE(high);
      const TestWork rim = work_of_text(
          "units = 'mm'\nspecies = 'western_redcedar'\n[ring]\nsides = 6\nacross = 300\nheight = " + std::to_string(high) +
          "\nthickness = 12\n[glue]\nuse = 'pva_type1'\n");
      const ClampLayout layout = lay_out_clamps(rim.problem(work::Shop{}), plan::Level::hold);
      REQUIRE(layout.rounds.size() == 1);
      REQUIRE(layout.rounds[0].clamps.size() == 1);
      const plan::PlannedClamp& strap = layout.rounds[0].clamps[0];
      CHECK(strap.pad.across_mm == doctest::Approx(high > 3 * 25.4 ? high : tables::find_clamp_kind("band")->pad_width_mm));
    }
  }
  TEST_CASE("no strap goes round where a part beside the ring stands out of its outline") {
    const auto with_lug = [](const char* up) {
      return work_of_text("units = 'mm'\nspecies = 'black_cherry'\n[box]\noutside = [400, 300, 120]\nstock = 18\n"
                          "corners = 'mitre'\ntop = 'none'\nbottom = 'none'\n[[part]]\nname = 'lug'\nlength = 60\n"
                          "width = 40\nthickness = 20\nalong = 'x'\nface = 'z'\nat = [170, -40, " +
                          std::string(up) + "]\n[glue]\nuse = 'pva_type1'\n");
    };
    // Of the corners; the lug was glued on before.
    const auto ring_beside = [](const TestWork& work, double up_mm) {
      ClampProblem problem = work.problem(work::Shop{});
      const work::PartId lug = work.job.parts.size() - 1;
      std::erase_if(problem.stage_joints, [&](work::JointId id) { return std::ranges::count(work.joints[id].parts, lug) > 0; });
      std::vector<geometry::Solid> solids = work.solids;
      work::Part part = work.job.parts[lug];
      part.at[2] += geometry::Length::whole_mm(static_cast<int>(up_mm));
      solids[lug] = work::make_solid(part);
      return find_band_ring(problem.job, problem.joints, problem.stage_joints,
                            pressure::work_of(problem.parts, solids), geometry::kAxis[2]);
    };
    const TestWork work = with_lug("50");
    CHECK_FALSE(ring_beside(work, 0));
    CHECK(ring_beside(work, 70));    // on its rim
    CHECK(ring_beside(work, -70));
  }
  // Outside, closed form: a corner of n sides that lean by s goes out by tan s / cos(180 / n) a height
  TEST_CASE("corners of staves that lean go out as they do, wherever the tub stands") {
    for (const int up : {0, 1000}) {
      CAPTURE(up);
      TestWork tub = work_of_text(
          "units = 'mm'\nspecies = 'western_redcedar'\n[ring]\nsides = 8\nacross = 300\nheight = 200\nthickness = 18\n"
          "slope = 8\n[glue]\nuse = 'pva_type1'\n");
      for (work::Part& part : tub.job.parts) {
        part.at[2] += geometry::Length::whole_mm(up);
        for (geometry::Turn& turn : part.turns) {
          turn.about[2] += geometry::Length::whole_mm(up);
        }
      }
      tub.solids = work::make_solids(tub.job.parts);
      tub.joints = classify_joints(tub.job, geometry::find_contacts(tub.solids, {}));
      const auto ring = ring_of(tub);
      REQUIRE(ring);
      const double out = std::tan(8 * std::numbers::pi / 180) / std::cos(std::numbers::pi / 8);
      for (const geometry::Direction& rise : ring->rise) {
        CHECK(std::hypot(rise.x, rise.y) == doctest::Approx(out).epsilon(1e-4));
      }
    }
  }
  // Outside, closed form: capstan equation, e^(-mu x turn)
  TEST_CASE("friction leaves the corners far from the buckle least: 0.3 a radian") {
    const auto ring = ring_of(hexagon());
    REQUIRE(ring);
    std::vector<double> tension;
    for (const StrapCorner& corner : ring->corners) {
      tension.push_back(corner.tension);
    }
    std::sort(tension.begin(), tension.end());
    for (const int k : {1, 2, 3}) {  // corners away from the buckle, on either hand
      // The mean of its two legs.
      const double left =
          (std::exp(-0.3 * (k - 1) * kTurn60) + std::exp(-0.3 * k * kTurn60)) / 2;
      CHECK(tension[static_cast<std::size_t>(6 - 2 * k)] == doctest::Approx(left).epsilon(1e-6));
      CHECK(tension[static_cast<std::size_t>(7 - 2 * k)] == doctest::Approx(left).epsilon(1e-6));
    }
  }
  // Outside, closed form: capstan equation and equilibrium of a side
  TEST_CASE("a six-sided frame, which no bars hold, is held by one strap") {
    const TestWork rim = hexagon();
    const ClampLayout layout = lay_out_clamps(rim.problem(work::Shop{}), plan::Level::hold);
    REQUIRE(layout.rounds.size() == 1);
    const PressingAxis& round = layout.rounds[0];
    REQUIRE(round.clamps.size() == 1);
    const plan::PlannedClamp& strap = round.clamps[0];
    CHECK(strap.kind == "band");
    CHECK(strap.at.z == doctest::Approx(9));
    CHECK(strap.round.size() == 6);
    CHECK(round.level == plan::Level::hold);
    REQUIRE(round.lines.size() == 6);
    double least = 1e300;
    for (const plan::LinePressure& line : round.lines) {
      least = std::min(least, line.mean_MPa);
      CHECK(line.min_MPa > 0.95 * line.mean_MPa);
    }
    // Nobody is pressed harder than those at the buckle.
    const auto from_buckle = [&](const plan::LinePressure& line) {
      return length(rim.joints[line.joint].faces[0].contact.centroid - strap.at);
    };
    const auto nearest = std::ranges::min_element(round.lines, {}, from_buckle);
    CHECK(nearest->mean_MPa == doctest::Approx(std::ranges::max(round.lines, {}, &plan::LinePressure::mean_MPa).mean_MPa));
    const double area = 40 / std::cos(kTurn60 / 2) * 18;
    const double legs = (std::exp(-0.3 * 2 * kTurn60) + std::exp(-0.3 * 3 * kTurn60)) / 2;
    CHECK(least == doctest::Approx(strap.force_N * legs * std::cos(kTurn60 / 2) / area)
                       .epsilon(1e-4));
    // Its pull on the pads at either side of a corner dents nothing.
    CHECK(strap.force_N <= strap.bearing_limit_MPa * strap.pad.along_mm * strap.pad.across_mm);
  }
  // Outside, closed form: equilibrium of a strap's side
  TEST_CASE("a strap presses what laps the ends of a box's walls, with all of its pull") {
    for (const char* corners : {"butt", "rabbet"}) {
      const auto ring = ring_of(walls(corners));
      REQUIRE(ring);
      CHECK(ring->girth_mm == doctest::Approx(1400));
      for (const StrapCorner& corner : ring->corners) {
        CHECK(corner.turn == doctest::Approx(kTurn90));
        CHECK(corner.share == doctest::Approx(1));
      }
    }
    const auto mitred = ring_of(walls("miter"));
    REQUIRE(mitred);
    for (const StrapCorner& corner : mitred->corners) {
      CHECK(corner.share == doctest::Approx(std::sqrt(0.5)).epsilon(1e-6));
    }
  }
  // Outside, closed form: capstan equation and equilibrium of a notched caul
  TEST_CASE("mitres get the strap though bars are there too; a wall higher than 3 in a notched caul") {
    const TestWork box = walls("miter");
    const work::Shop both = shop_with({some("f_heavy", 12, 600), some("band", 1, 4000)});
    const ClampLayout layout = lay_out_clamps(box.problem(both), plan::Level::hold);
    REQUIRE(layout.rounds.size() == 1);
    REQUIRE(layout.rounds[0].clamps.size() == 1);
    const plan::PlannedClamp& strap = layout.rounds[0].clamps[0];
    CHECK(strap.kind == "band");
    CHECK(strap.pad.across_mm == doctest::Approx(120));
    double least = 1e300;
    for (const plan::LinePressure& line : layout.rounds[0].lines) {
      least = std::min(least, line.mean_MPa);
    }
    // By hand: past one square corner the strap keeps e^-0.47 of its pull; of a corner's two legs the
    // mean, and that over cos 45 as the caul clears the arris, on 120 x 18 root 2 of mitre.
    const double kept = std::exp(-0.3 * kTurn90);
    CHECK(least == doctest::Approx(strap.force_N * kept * (1 + kept) / 2 * std::sqrt(2.0) /
                                   (120 * 18 * std::sqrt(2.0)))
                       .epsilon(1e-4));
  }
  TEST_CASE("a second strap has its buckle across from the first one's") {
    const TestWork box = walls("miter");
    const auto ring = ring_of(box);
    REQUIRE(ring);
    CHECK(length(ring->buckle - ring->opposed) == doctest::Approx(300));
    for (const StrapCorner& corner : ring->corners) {
      CHECK(corner.mitre);
    }
  }
  TEST_CASE("nothing on flat sides: a shelf between two sides makes no ring") {
    CHECK(!ring_of(shelf_case(2)));
    CHECK(!ring_of(bench_panel()));
  }
  TEST_CASE("a rack with straps long enough, and too few bars, draws them round the walls") {
    const TestWork box = walls("rabbet");
    const work::Shop few = shop_with({some("f_heavy", 1, 600), some("band", 4, 4000)});
    const ClampLayout layout = lay_out_clamps(box.problem(few), plan::Level::hold);
    CHECK(layout.missing == 0);
    bool strapped = false;
    for (const PressingAxis& round : layout.rounds) {
      strapped |= !round.clamps.empty() && round.clamps[0].kind == "band";
      CHECK(round.level != plan::Level::short_of_hold);
    }
    CHECK(strapped);
    const work::Shop shorter = shop_with({some("f_heavy", 1, 600), some("band", 4, 1500)});
    const ClampLayout without = lay_out_clamps(box.problem(shorter), plan::Level::hold);
    CHECK(without.missing > 0);
  }
  TEST_CASE("where there is no strap, borrowing one is a way out, and says how long") {
    const TestWork rim = hexagon();
    const work::Shop bars = shop_with({some("f_heavy", 12, 600)});
    const ClampLayout layout = lay_out_clamps(rim.problem(bars), plan::Level::hold);
    REQUIRE(!layout.ways_out.empty());
    const auto* straps = std::get_if<plan::StrapsWay>(&layout.ways_out[0].change);
    REQUIRE(straps != nullptr);
    CHECK(straps->straps == 1);
    CHECK(straps->owned == 0);
    CHECK(std::ceil(straps->strap_mm - 1e-3) == 1500);
    CHECK(layout.ways_out[0].mends);
  }
}

}  // namespace planner::clamps::layout
