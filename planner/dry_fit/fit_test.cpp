#include "planner/dry_fit/fit.h"

#include <cmath>
#include <numbers>

#include <doctest/doctest.h>

#include "planner/files/job_file.h"

using namespace planner;
using namespace planner::dry_fit;

namespace {

// Front and back run the whole length; left and right stand in their rabbets, bottom and top too.
const std::string kBox =
    "units = 'mm'\n[box]\noutside = [640, 440, 200]\nstock = 20\ncorners = 'rabbet'\n"
    "species = 'cherry'\n";

dry_fit::Fit fit_of(const std::string& dry_fit, const std::string& more = "") {
  const files::JobReading read = files::read_job("job.toml", kBox + more + "[dry_fit]\n" + dry_fit);
  for (const base::Diagnostic& d : read.diagnostics) {
    MESSAGE(to_text(d));
  }
  REQUIRE(read.job.has_value());
  const dry_fit::FitAnswer answer = dry_fit::judge_fit(*read.job);
  for (const base::Diagnostic& d : answer.diagnostics) {
    MESSAGE(to_text(d));
  }
  REQUIRE(answer.fit.has_value());
  return *answer.fit;
}

std::string said(const std::string& dry_fit) {
  const files::JobReading read = files::read_job("job.toml", kBox + "[dry_fit]\n" + dry_fit);
  std::string all;
  for (const base::Diagnostic& d : read.diagnostics) {
    all += d.message + "; ";
  }
  if (read.job) {
    for (const base::Diagnostic& d : dry_fit::judge_fit(*read.job).diagnostics) {
      all += d.message + "; ";
    }
  }
  return all;
}

}  // namespace

TEST_SUITE("planner/fit") {
  // A textbook parallelogram worked by hand: a 600, b 400, diagonals 722.11 and 720.11 lean by
  // 0.17215 degrees, 1.202 mm over the 400 side and 1.803 mm over the 600 side.
  // Outside, closed form: a parallelogram's diagonals, d1^2 - d2^2 = 4 a b sin
  TEST_CASE("two diagonals 2 mm apart on 600 x 400 lean by 0.172 degrees") {
    const double theta = *dry_fit::lean_of(722.11, 720.11, 600, 400);
    CHECK(theta * 180 / std::numbers::pi == doctest::Approx(0.17215).epsilon(1e-4));
    CHECK(400 * std::sin(theta) == doctest::Approx(1.202).epsilon(1e-3));
    CHECK(600 * std::sin(theta) == doctest::Approx(1.803).epsilon(1e-3));
  }

  // Outside, closed form: a parallelogram drawn by its corners
  TEST_CASE("the lean found is the lean a parallelogram was drawn with, at any angle") {
    for (const double degrees : {-40.0, -3.0, 0.0, 0.01, 12.0, 75.0}) {
      const double t = degrees * std::numbers::pi / 180, a = 600, b = 400;
      // Corners (0, 0), (a, 0), (a + b sin t, b cos t), (b sin t, b cos t).
      const double d1 = std::hypot(a + b * std::sin(t), b * std::cos(t));
      const double d2 = std::hypot(a - b * std::sin(t), b * std::cos(t));
      CHECK(*dry_fit::lean_of(d1, d2, a, b) == doctest::Approx(t));
    }
    CHECK_FALSE(dry_fit::lean_of(2000, 100, 600, 400).has_value());
  }

  // Outside, closed form: a parallelogram's diagonals, d1^2 + d2^2 = 2 (a^2 + b^2)
  TEST_CASE("a box 600 x 400 inside: where the clamp goes and what to draw it up to") {
    const dry_fit::Fit fit = fit_of("diagonals = [722.11, 720.11]\n");
    REQUIRE(fit.square);
    CHECK(fit.square->inside);
    CHECK(fit.square->sides_mm == std::array<double, 2>{600, 400});
    CHECK(fit.square->offset_mm[0] == doctest::Approx(1.803).epsilon(1e-3));
    CHECK(fit.square->wanted_mm == doctest::Approx(721.11).epsilon(1e-5));
    CHECK_FALSE(fit.square->square);  // over 1/16 in
    CHECK_FALSE(fit.good());
    // The first diagonal, front left to back right, is the long one.
    CHECK(fit.square->long_corners[0] == dry_fit::RingCorner{false, false});
    CHECK(fit.square->long_corners[1] == dry_fit::RingCorner{true, true});
    CHECK(fit.square->panels.empty());
    CHECK_FALSE(fit.square->other_sides);
    CHECK(fit_of("diagonals = [720.11, 722.11]\n").square->long_corners[0] ==
          dry_fit::RingCorner{true, false});
  }

  TEST_CASE("1/16 in on a carcass will do, a hair over it won't") {
    CHECK(fit_of("diagonals = [721.9, 720.32]\n").good());
    CHECK_FALSE(fit_of("diagonals = [721.9, 720.3]\n").good());
  }

  TEST_CASE("outside diagonals are known by their size, or by the word") {
    const double outside = std::hypot(640.0, 440.0);  // 776.66
    CHECK(outside == doctest::Approx(776.66).epsilon(1e-4));
    CHECK_FALSE(fit_of("diagonals = [776.6, 776.7]\n").square->inside);
    CHECK(fit_of("diagonals = [776.6, 776.7]\naround = 'inside'\n").square->other_sides);
  }

  TEST_CASE("a box whose bottom sits in rabbets can't be squeezed square") {
    const dry_fit::Fit fit = fit_of("diagonals = [724, 720]\n", "bottom = 'rabbet'\n");
    REQUIRE(fit.square);
    CHECK(fit.square->panels.size() == 1);
  }

  TEST_CASE("openings 203.4, 203.1, 203.8, 203.5: both ends to 203.1, and look at the neighbours") {
    const dry_fit::Fit fit =
        fit_of("openings = [203.4, 203.1, 203.8, 203.5]\ncloses = ['left', 'right']\n");
    REQUIRE(fit.opening);
    CHECK(fit.opening->cut_mm() == doctest::Approx(203.1));
    CHECK(fit.opening->parts == std::vector<work::PartId>{2, 3});
    CHECK(fit.opening->spread_mm == doctest::Approx(0.7));
    CHECK(fit.opening->uneven());
    CHECK(fit.opening->neighbours == std::vector<work::PartId>{0, 1});  // front and back
    // Means 203.25 at the left, 203.65 at the right: 0.4 wider; heights differ by 0.3 only.
    CHECK(fit.opening->pattern == dry_fit::OpeningFit::Pattern::between_parts);
    CHECK(fit.opening->pattern_mm == doctest::Approx(0.4));
    CHECK_FALSE(fit.good());
  }

  TEST_CASE("readings half a millimetre apart are even, and need no names") {
    const dry_fit::Fit fit = fit_of("openings = [203.5, 203.0, 203.2]\n");
    CHECK_FALSE(fit.opening->uneven());
    CHECK(fit.opening->cut_mm() == 203);
    CHECK(fit.opening->smallest == 1);
    CHECK(fit.good());
  }

  TEST_CASE("a twisted opening isn't taken for a leaning one") {
    const dry_fit::Fit fit =
        fit_of("openings = [300, 301, 301, 300]\ncloses = ['left', 'right']\n");
    CHECK(fit.opening->pattern == dry_fit::OpeningFit::Pattern::twist);
    CHECK(
        fit_of("openings = [300, 301, 300, 301]\ncloses = ['left', 'right']\n").opening->pattern ==
        dry_fit::OpeningFit::Pattern::low_to_high);
  }

  TEST_CASE("the parts that close an opening are known without being named") {
    const dry_fit::Fit fit = fit_of("openings = [399.5, 399.7]\n");
    CHECK(fit.opening->parts == std::vector<work::PartId>{2, 3});
    CHECK(fit.opening->cut_mm() == doctest::Approx(399.5));
    CHECK(fit.opening->drawn_mm == doctest::Approx(420));
  }

  // Rails 336 between shoulders, with a tenon of 38 at each end: 336.3 + 76 = 412.3.
  TEST_CASE("tenons come on top of an opening that is measured between the shoulders") {
    const files::JobReading read = files::read_job(
        "job.toml",
        "units = 'mm'\n[frame]\noutside = [450, 750]\nthickness = 20\nmember = 57\n"
        "corners = 'mortise'\ntenon_length = 38\npanel = 'float'\nspecies = 'white_oak'\n"
        "[dry_fit]\nopenings = [336.5, 336.3]\n");
    REQUIRE(read.job);
    const dry_fit::Fit fit = *dry_fit::judge_fit(*read.job).fit;
    CHECK(fit.closing_mm == doctest::Approx(336));
    CHECK(fit.opening->tenons_mm == doctest::Approx(76));
    CHECK(fit.opening->cut_mm() == doctest::Approx(412.3));
    CHECK(fit.good());
  }

  // Sticks 500 long that differ by 1 mm over work 640 wide: 1 x 640 / 500.
  TEST_CASE("winding sticks show how far a corner stands off") {
    const dry_fit::Fit fit = fit_of("wind = 1\nsticks = 500\nhigh = 'left'\n");
    REQUIRE(fit.wind);
    CHECK(fit.wind->rise_mm == doctest::Approx(1.28));
    CHECK(fit.wind->high == dry_fit::RingCorner{false, true});  // left, at the far side
    CHECK(fit.wind->flat);                                      // within 1/16 in
    CHECK_FALSE(fit_of("wind = 2\nsticks = 500\n").wind->flat);
  }

  // A plane through three corners of 640 x 440, the fourth lifted by h: along the near edge the
  // height is 0, along the far one it climbs by h over 640, and over sticks 500 long by h 500/640.
  TEST_CASE(
      "the reading of sticks laid on a lifted corner gives the lift back, whatever their length") {
    for (const double lift : {0.8, 1.6, 5.0}) {
      for (const double sticks : {320.0, 500.0, 900.0}) {
        const double reading = lift * sticks / 640;
        const dry_fit::Fit fit =
            fit_of("wind = " + std::to_string(reading) + "\nsticks = " + std::to_string(sticks) +
                   "\nhigh = 'right'\n");
        CHECK(fit.wind->rise_mm == doctest::Approx(lift).epsilon(1e-4));
        CHECK(fit.wind->high == dry_fit::RingCorner{true, true});
        CHECK(fit.wind->flat == (lift < 25.4 / 16 + 1e-9));
        CHECK(fit.good() == fit.wind->flat);
      }
    }
  }

  TEST_CASE("without measurements it knows what to measure") {
    const files::JobReading read = files::read_job("job.toml", kBox);
    const dry_fit::Fit fit = *dry_fit::judge_fit(*read.job).fit;
    CHECK_FALSE(fit.opening.has_value());
    CHECK(fit.closing == std::vector<work::PartId>{2, 3});
    CHECK(fit.ring->inside_mm == std::array<double, 2>{600, 400});
  }

  TEST_CASE("readings that nothing can be made of are refused") {
    CHECK(said("diagonals = [1, 2, 3]\n").find("3 values, not 2") != std::string::npos);
    CHECK(said("wind = 1\n").find("length of the sticks") != std::string::npos);
    CHECK(said("closes = ['lefft']\n").find("no part is named") != std::string::npos);
    CHECK(said("diagonals = [3000, 10]\n").find("no four-sided work") != std::string::npos);
    // Drawn 721.1 inside and 776.7 outside: a tenth off is something else.
    CHECK(said("diagonals = [640, 641]\n").find("no four-sided work") != std::string::npos);
    CHECK(said("diagonals = [660, 661]\n").empty());
    CHECK(said("[[dry_fit.cut]]\nbetween = ['left', 'right']\ndepth = 9\n")
              .find("no rabbet, dado or groove") != std::string::npos);
  }
}
