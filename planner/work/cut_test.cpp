#include "planner/work/cut.h"

#include <cmath>
#include <numbers>
#include <string>

#include <doctest/doctest.h>

#include "planner/files/job_text.h"
#include "planner/work/built_job_test.h"

namespace planner::work {
namespace {

const std::string kMm = "units = 'mm'\nspecies = 'beech'\n";

std::string board(const std::string& name, const std::string& size, const std::string& axes,
                  const std::string& at, const std::string& cuts = "") {
  return "[[part]]\nname = '" + name + "'\n" + size + "\n" + axes + "\nat = " + at + "\n" + cuts;
}

constexpr double kRad = std::numbers::pi / 180;

TEST_SUITE("planner/cut") {
  // A dowel of 8 mm in a hole 30 deep: pi x 8 x 28 in one board and pi x 8 x 20 in the other.
  // Outside, closed form: a cylinder's mantle
  TEST_CASE("a dowel touches its holes over all its round, and not their floors") {
    const std::string hole = "[[part.cut]]\nkind = 'hole'\ndiameter = 8\n";
    const BuiltJob job(
        kMm +
        board("rail", "length = 200\nwidth = 60\nthickness = 20", "along = 'x'\nface = 'y'",
              "[0, 0, 0]", hole + "on = '+x'\nat = [10, 30]\ndepth = 30\n") +
        board("stile", "length = 300\nwidth = 20\nthickness = 60", "along = 'z'\nface = 'x'",
              "[200, 0, -100]", hole + "on = '-x'\nat = [10, 130]\ndepth = 22\n") +
        "[[part]]\nkind = 'dowel'\nname = 'dowel'\nlength = 48\ndiameter = 8\nalong = 'x'\nat = "
        "[172, 10, 30]\n");
    CHECK(job.mistakes == "");
    CHECK(job.area_mm2("rail", "dowel") ==
          doctest::Approx(std::numbers::pi * 8 * 28).epsilon(1e-6));
    CHECK(job.area_mm2("stile", "dowel") ==
          doctest::Approx(std::numbers::pi * 8 * 20).epsilon(1e-6));
    CHECK(job.faces("dowel", "rail", 0).empty());
    // The end of the rail, less the mouth of its hole: the 12-sided prism of the same surface.
    const double apothem = std::numbers::pi * 8 / (24 * std::tan(15 * kRad));
    CHECK(job.area_mm2("rail", "stile") ==
          doctest::Approx(20 * 60 - 12 * apothem * apothem * std::tan(15 * kRad)).epsilon(1e-6));
    CHECK(grain_of(job.job.parts[2]).x == 1);
    const BuiltJob again(files::job_text(job.job));
    CHECK(again.total_mm2() == job.total_mm2());
  }

  // Floor 40 wide, sides 12 deep that lean 10 degrees, over a board 200 wide.
  // Outside, closed form: a trapezium's sides, depth / cos
  TEST_CASE("a batten with bevelled edges fills its dovetailed housing") {
    const BuiltJob job(
        kMm +
        board("panel", "length = 500\nwidth = 200\nthickness = 25", "along = 'x'\nface = 'z'",
              "[0, 0, 0]",
              "[[part.cut]]\nkind = 'housing'\non = '+z'\nruns = 'y'\noffset = 230\nwidth = "
              "40\ndepth = 12\n"
              "lean = '10 deg'\n") +
        board("batten", "length = 200\nwidth = 40\nthickness = 30", "along = 'y'\nface = 'z'",
              "[230, 0, 13]",
              "[[part.cut]]\nkind = 'mitre'\nside = '-x'\nlong = '-z'\nangle = 10\n"
              "[[part.cut]]\nkind = 'mitre'\nside = '+x'\nlong = '-z'\nangle = 10\n"));
    CHECK(job.mistakes == "");
    CHECK(job.contacts.size() == 3);
    CHECK(job.faces("panel", "batten", 2).at(0) == doctest::Approx(40 * 200).epsilon(1e-9));
    CHECK(job.total_mm2() ==
          doctest::Approx(40 * 200 + 2 * 200 * 12 / std::cos(10 * kRad)).epsilon(1e-9));
    const BuiltJob again(files::job_text(job.job));
    CHECK(again.total_mm2() == job.total_mm2());
  }

  // Two legs splayed by 10 degrees, and a rail between them whose ends are cut to match: its end is
  // 60 / cos 10 high and 40 wide.
  // Outside, closed form: an oblique section, width x height / cos
  TEST_CASE("a rail with mitred ends meets two splayed legs over its whole ends") {
    const auto leg = [](const std::string& name, const std::string& x, const std::string& turn) {
      return board(name, "length = 500\nwidth = 40\nthickness = 30", "along = 'z'\nface = 'x'",
                   "[" + x + ", 0, 0]") +
             "turn = { axis = 'y', angle = " + turn + ", 0, 300] }\n";
    };
    const BuiltJob stand(
        kMm + leg("left leg", "0", "10, about = [30") +
        leg("right leg", "330", "-10, about = [330") +
        board("rail", "length = 300\nwidth = 60\nthickness = 40", "along = 'x'\nface = 'y'",
              "[30, 0, 300]",
              "[[part.cut]]\nkind = 'mitre'\nside = '-x'\nlong = '-z'\nangle = 10\n"
              "[[part.cut]]\nkind = 'mitre'\nside = '+x'\nlong = '-z'\nangle = 10\n"));
    CHECK(stand.mistakes == "");
    CHECK(stand.contacts.size() == 2);
    CHECK(stand.area_mm2("left leg", "rail") ==
          doctest::Approx(40 * 60 / std::cos(10 * kRad)).epsilon(1e-7));
    CHECK(stand.area_mm2("right leg", "rail") ==
          doctest::Approx(40 * 60 / std::cos(10 * kRad)).epsilon(1e-7));
  }

  // Outside, closed form: a prism less a wedge
  TEST_CASE("a leg tapered on one edge keeps its full width at the long end") {
    const BuiltJob job(
        kMm +
        board("leg", "length = 400\nwidth = 40\nthickness = 40", "along = 'z'\nface = 'x'",
              "[0, 0, 0]", "[[part.cut]]\nkind = 'mitre'\nside = '+y'\nlong = '+z'\nangle = 3\n") +
        board("block", "length = 40\nwidth = 40\nthickness = 20", "along = 'x'\nface = 'z'",
              "[0, 0, 400]"));
    CHECK(job.mistakes == "");
    CHECK(job.total_mm2() == doctest::Approx(1600));
    CHECK(job.volume_mm3("leg") ==
          doctest::Approx(40 * 40 * 400 - 40 * 400 * 400 * std::tan(3 * kRad) / 2).epsilon(1e-8));
  }

  TEST_CASE("holes and leaning sides that cannot be are refused") {
    const auto said = [](const std::string& cut) {
      return BuiltJob(kMm +
                      board("a", "length = 200\nwidth = 60\nthickness = 20",
                            "along = 'x'\nface = 'z'", "[0, 0, 0]", "[[part.cut]]\n" + cut) +
                      board("b", "length = 200\nwidth = 60\nthickness = 20",
                            "along = 'x'\nface = 'z'", "[0, 60, 0]"))
          .mistakes;
    };
    CHECK(said("kind='hole'\non='+z'\nat=[3, 30]\ndiameter=8\ndepth=10\n")
              .find("lies off the part along x: -1 mm to 7 mm") != std::string::npos);
    CHECK(said("kind='hole'\non='+z'\nat=[30, 30]\ndiameter=8\ndepth=21\n")
              .find("more than the 20 mm") != std::string::npos);
    CHECK(said("kind='hole'\non='+z'\nat=[30, 30]\ndiameter=8\ndepth=20\n").empty());
    const std::string groove = "kind='groove'\non='+z'\nruns='x'\noffset=10\nwidth=6\ndepth=6\n";
    CHECK(said(groove + "lean=40\n").find("meet before they reach the face") != std::string::npos);
    CHECK(said(groove + "lean=-3\n").find("lean by no angle") != std::string::npos);
  }
}

}  // namespace
}  // namespace planner::work
