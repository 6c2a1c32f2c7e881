#include "planner/dry_fit/cut_fit.h"

#include <doctest/doctest.h>

#include "planner/dry_fit/fit.h"
#include "planner/files/job_file.h"

using namespace planner;
using namespace planner::dry_fit;

namespace {

// 640 x 440 x 200, stock 20: left and right stand 10 deep in rabbets of front and back, so they are
// 440 - 2 x 10 = 420 long.
const std::string kBox =
    "units = 'mm'\n[box]\noutside = [640, 440, 200]\nstock = 20\ncorners = 'rabbet'\n"
    "species = 'cherry'\n";

// Grooves a third of 12 deep, so 4; the panel goes in 2.5 and has 1.5 of room to swell at each end:
// front to back it is 450 - 2 x 12 + 2 x 2.5 = 431.
const std::string kTray =
    "units = 'mm'\n[box]\noutside = [400, 450, 120]\nstock = 12\ncorners = 'rabbet'\n"
    "bottom = 'groove'\nbottom_thickness = 6\nspecies = 'cherry'\n";

dry_fit::Fit fit_of(const std::string& job, const std::string& cuts) {
  const files::JobReading read = files::read_job("job.toml", job + cuts);
  for (const base::Diagnostic& d : read.diagnostics) {
    MESSAGE(to_text(d));
  }
  REQUIRE(read.job.has_value());
  const dry_fit::FitAnswer answer = dry_fit::judge_fit(*read.job);
  REQUIRE(answer.fit.has_value());
  return *answer.fit;
}

std::string cut(const std::string& a, const std::string& b, const std::string& sizes) {
  return "[[dry_fit.cut]]\nbetween = ['" + a + "', '" + b + "']\n" + sizes + "\n";
}

}  // namespace

TEST_SUITE("planner/cut_fit") {
  // The end stands on a floor 0.3 mm further out than drawn: 420 - 0.3.
  TEST_CASE("a rabbet 0.3 mm too shallow takes 0.3 mm off the end") {
    const dry_fit::Fit fit = fit_of(kBox, cut("left", "front", "depth = 9.7"));
    REQUIRE(fit.cuts.size() == 1);
    CHECK(fit.cuts[0].cut_in == 0);
    CHECK(fit.cuts[0].mate == 2);
    CHECK(fit.cuts[0].kind == work::JointKind::rabbet);
    CHECK(fit.cuts[0].drawn_depth_mm == doctest::Approx(10));
    CHECK(fit.cuts[0].goes_in_mm == doctest::Approx(10));
    CHECK(fit.cuts[0].longer_mm() == doctest::Approx(-0.3));
    REQUIRE(fit.sizes.size() == 1);
    CHECK(fit.sizes[0].part == 2);
    CHECK(fit.sizes[0].axis == 1);  // front to back, as the end's length runs
    CHECK(fit.sizes[0].drawn_mm == doctest::Approx(420));
    CHECK(fit.sizes[0].cut_mm == doctest::Approx(419.7));
    CHECK(fit.good());  // less than a spread that matters
  }

  // 420 - 1.5 + 0.5 = 419 at the left; 420 + 0.5 at the right.
  TEST_CASE("what was measured at both ends of a part adds up") {
    const dry_fit::Fit fit =
        fit_of(kBox, cut("left", "front", "depth = 8.5") + cut("left", "back", "depth = 10.5") +
                         cut("back", "right", "depth = 10.5"));
    REQUIRE(fit.sizes.size() == 2);
    CHECK(fit.sizes[0].cut_mm == doctest::Approx(419));
    CHECK(fit.sizes[1].part == 3);
    CHECK(fit.sizes[1].cut_mm == doctest::Approx(420.5));
    CHECK_FALSE(fit.good());
  }

  TEST_CASE("two cuts that are out by the same, the other way round, change nothing") {
    const dry_fit::Fit fit =
        fit_of(kBox, cut("left", "front", "depth = 9") + cut("left", "back", "depth = 11"));
    CHECK(fit.cuts.size() == 2);
    CHECK(fit.sizes.empty());
    CHECK(fit.good());
  }

  TEST_CASE("an opening measured for a part is its length; the cuts don't change it again") {
    const dry_fit::Fit fit =
        fit_of(kBox, "[dry_fit]\nopenings = [419, 419]\n" + cut("left", "front", "depth = 9"));
    CHECK(fit.opening->cut_mm() == doctest::Approx(419));
    CHECK(fit.sizes.empty());
  }

  TEST_CASE("a panel with room in its grooves minds only what uses the room up") {
    const auto longer = [](const std::string& depth) {
      const dry_fit::Fit fit = fit_of(kTray, cut("front", "bottom", "depth = " + depth));
      REQUIRE(fit.cuts.size() == 1);
      CHECK(fit.cuts[0].kind == work::JointKind::groove);
      CHECK(fit.cuts[0].mate_mm == doctest::Approx(6));
      return fit.cuts[0].longer_mm();
    };
    const dry_fit::CutFit drawn = fit_of(kTray, cut("front", "bottom", "depth = 4")).cuts[0];
    CHECK(drawn.drawn_depth_mm == doctest::Approx(4));
    CHECK(drawn.goes_in_mm == doctest::Approx(2.5));
    CHECK(longer("6") == 0);
    CHECK(longer("2.5") == doctest::Approx(0));
    CHECK(longer("1.75") == doctest::Approx(-0.75));
    const dry_fit::Fit shallow = fit_of(kTray, cut("front", "bottom", "depth = 1.75"));
    CHECK(shallow.sizes[0].drawn_mm == doctest::Approx(431));
    CHECK(shallow.sizes[0].cut_mm == doctest::Approx(430.25));
  }

  TEST_CASE("an end planed to 19.6 mm leaves a lip of 0.4 at rabbets 20 wide") {
    const dry_fit::Fit fit =
        fit_of(kBox, "[[part]]\nname = 'left'\nmeasured = { thickness = 19.6 }\n");
    REQUIRE(fit.cuts.size() == 2);  // front and back
    CHECK(fit.cuts[0].spare_mm() == doctest::Approx(0.4));
    CHECK(fit.cuts[0].open_sided());
    CHECK(fit.good());
  }

  TEST_CASE("a groove narrower than the panel must be mended, a rabbet is planed flush") {
    const dry_fit::Fit tight = fit_of(kTray, cut("front", "bottom", "width = 5.5"));
    CHECK(tight.cuts[0].spare_mm() == doctest::Approx(-0.5));
    CHECK_FALSE(tight.good());
    const dry_fit::Fit proud = fit_of(kBox, cut("front", "left", "width = 19"));
    CHECK(proud.cuts[0].spare_mm() == doctest::Approx(-1));
    CHECK(proud.good());
  }

  TEST_CASE("as drawn and unmeasured, no starter's cut is told of") {
    for (const char* job :
         {kBox.c_str(), kTray.c_str(),
          "units = 'mm'\n[drawer]\noutside = [400, 450, 120]\nstock = 12\ncorners = 'rabbet'\n"
          "bottom = 'captured'\nspecies = 'red_maple'\n",
          "units = 'mm'\n[carcass]\noutside = [760, 280, 900]\nstock = 18\ntop = 'rabbet'\n"
          "bottom = 'dado'\nshelves = 2\nback = 'rabbet'\nspecies = 'plywood_birch'\n",
          "units = 'mm'\n[frame]\noutside = [450, 750]\nthickness = 20\nmember = 57\n"
          "corners = 'mortise'\npanel = 'float'\nspecies = 'white_oak'\n"}) {
      CAPTURE(job);
      CHECK(fit_of(job, "").cuts.empty());
    }
  }

  TEST_CASE("a tenon that runs through a panel's groove is no panel") {
    const files::JobReading read =
        files::read_job("job.toml",
                        "units = 'mm'\n[frame]\noutside = [450, 750]\nthickness = 20\nmember = 57\n"
                        "corners = 'mortise'\npanel = 'float'\nspecies = 'white_oak'\n" +
                            cut("left stile", "top rail", "depth = 9"));
    REQUIRE(read.job);
    const dry_fit::FitAnswer answer = dry_fit::judge_fit(*read.job);
    CHECK_FALSE(answer.fit.has_value());
    CHECK(answer.diagnostics.front().message.find("no rabbet, dado or groove") !=
          std::string::npos);
  }
}
