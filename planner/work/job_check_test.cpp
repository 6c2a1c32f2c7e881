#include "planner/work/job_check.h"

#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "planner/files/job_file.h"
#include "planner/work/part_solid.h"
#include "tests/source_dir.h"

namespace planner::work {
namespace {

std::string said(const std::string& text) {
  const files::JobReading read = files::read_job("job.toml", text);
  for (const base::Diagnostic& d : read.diagnostics) {
    MESSAGE(to_text(d));
  }
  REQUIRE(read.job.has_value());
  const auto solids = make_solids(read.job->parts);
  base::Diagnostics found = check_solids(*read.job, solids);
  if (!has_errors(found)) {
    found = check_touching(*read.job, solids, geometry::find_contacts(solids, {}));
  }
  std::string all;
  for (const base::Diagnostic& d : found) {
    all += to_text(d) + "\n";
  }
  return all;
}

std::string board(const std::string& name, const std::string& at, const std::string& more = "") {
  return "[[part]]\nname = '" + name +
         "'\nspecies = 'cherry'\nlength = 400\nwidth = 100\nthickness = 20\nalong = 'x'\nface = "
         "'z'\nat = " +
         at + "\n" + more;
}

const std::string kMm = "units = 'mm'\n";

TEST_SUITE("planner/job_check") {
  TEST_CASE("boards in the same place are both named, with what they share, at the later one") {
    CHECK(said(kMm + board("left", "[0, 0, 0]") + board("right", "[0, 94, 0]")) ==
          "job.toml:11:1: \"left\" and \"right\" are in the same place: they share 400 mm x 6 mm x "
          "20 mm\n"
          "  move one of them or cut room for it at x 0 mm to 400 mm, y 94 mm to 100 mm, z 0 mm to "
          "20 mm\n");
    CHECK(said("units = 'in'\n" + board("left", "[0, 0, 0]") + board("right", "[0, '99 3/4', 0]"))
              .find("they share 400 in x 1/4 in x 20 in") != std::string::npos);
  }

  TEST_CASE("a board that stands off is named with its nearest neighbour and the gap") {
    CHECK(
        said(kMm + board("left", "[0, 0, 0]") + board("right", "[0, 100.5, 0]")) ==
        "job.toml:11:1: \"right\" touches no other part\n  the nearest is \"left\", 0.5 mm away\n");
    CHECK(said(kMm + board("left", "[0, 0, 0]") + board("right", "[0, 0, 500]"))
              .find("check where it lies") != std::string::npos);
  }

  TEST_CASE("a board far off is told beside two that are in the same place") {
    const std::string all = said(kMm + board("a", "[0, 0, 0]") + board("b", "[0, 94, 0]") +
                                 board("lost", "[0, 500, 0]"));
    CHECK(all.find("\"a\" and \"b\" are in the same place") != std::string::npos);
    CHECK(all.find("job.toml:20:1: \"lost\" touches no other part") != std::string::npos);
  }

  TEST_CASE("two pairs that do not meet are told apart from the work") {
    const std::string all = said(kMm + board("a", "[0, 0, 0]") + board("b", "[0, 100, 0]") +
                                 board("c", "[0, 0, 300]") + board("d", "[0, 100, 300]"));
    CHECK(all.find("job.toml:20:1: \"c\" and \"d\" touch no other part") == 0);
  }

  TEST_CASE("a bottom loose in its grooves is captured, not lost") {
    std::ifstream file(source_dir() + "/fixtures/captured_bottom_box/job.toml");
    std::stringstream text;
    text << file.rdbuf();
    std::string tray = text.str();
    // 5 mm of plywood in the middle of 6 mm grooves: it touches nothing, and cannot come out.
    tray.replace(tray.find("thickness = 6"), 13, "thickness = 5");
    tray.replace(tray.find("[10, 10, 10]"), 12, "[10, 10, 10.5]");
    const std::string all = said(tray);
    CHECK(all.find("touches no other") == std::string::npos);
    CHECK(all.find("warning: \"bottom\" and \"front\" do not touch") != std::string::npos);
    // Without the front it would fall out.
    tray.erase(tray.find("[[part]]"), tray.find("name = \"back\"") - 9 - tray.find("[[part]]"));
    tray.erase(tray.find("[[joint]]"),
               tray.find("[[joint]]", tray.find("[[joint]]") + 1) - tray.find("[[joint]]"));
    CHECK(said(tray).find("\"bottom\" touches no other part\n  the nearest is") !=
          std::string::npos);
  }

  TEST_CASE("cuts that eat a part, or part it in two, are told at its header") {
    const std::string notch = "[[part.cut]]\nkind = 'notch'\nfrom = [";
    CHECK(said(kMm + board("a", "[0, 0, 0]") +
               board("b", "[0, 100, 0]",
                     notch + "0, 0, 0]\nsize = [200, 100, 20]\n" + notch +
                         "200, 0, 0]\nsize = [200, 100, 20]\n"))
              .find("job.toml:11:1: the cuts of \"b\" leave nothing of it") == 0);
    CHECK(said(kMm + board("a", "[0, 0, 0]") +
               board("b", "[0, 100, 0]", notch + "100, 0, 0]\nsize = [200, 100, 20]\n"))
              .find("job.toml:11:1: the cuts of \"b\" leave it in 2 pieces") == 0);
  }

  TEST_CASE("a saw line beside the work and an override of no joint are told") {
    CHECK(said(kMm + board("a", "[0, 0, 0]") + board("b", "[0, 100, 0]") +
               "[[saw_later]]\naxis = 'z'\nat = 20\n") ==
          "job.toml:20:1: the saw line at 20 mm does not meet the work\n  it reaches from z 0 mm "
          "to 20 mm\n");
    CHECK(said(kMm + board("a", "[0, 0, 0]") + board("b", "[0, 100, 0]") +
               board("c", "[0, 200, 0]") + "[[joint]]\nbetween = ['a', 'c']\nglue = false\n") ==
          "job.toml:29:1: warning: \"a\" and \"c\" do not touch: this [[joint]] changes nothing\n");
  }
}

}  // namespace
}  // namespace planner::work
