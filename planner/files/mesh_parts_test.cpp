#include "planner/files/mesh_parts.h"

#include <fstream>
#include <sstream>
#include <string>

#include <doctest/doctest.h>

#include "planner/files/job_text.h"
#include "planner/work/built_job_test.h"
#include "planner/work/part_solid.h"
#include "tests/source_dir.h"

namespace planner::files {
namespace {

std::string fixture(const std::string& name) {
  std::ifstream file(source_dir() + "/fixtures/feeder_rack/" + name);
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

std::string said(const base::Diagnostics& diagnostics) {
  std::string all;
  for (const base::Diagnostic& d : diagnostics) {
    all += to_text(d) + "\n";
  }
  return all;
}

// What is said of the rack's mesh after the job has been changed.
std::string said_of(const std::string& from, const std::string& to,
                    std::string obj = fixture("rack.obj")) {
  std::string text = fixture("job.toml");
  text.replace(text.find(from), from.size(), to);
  JobReading read = read_job("job.toml", text);
  if (!read.job) {
    return said(read.diagnostics);
  }
  return said(add_mesh_parts(*read.job, std::vector<MeshBytes>{{"rack.obj", std::move(obj)}}));
}

TEST_SUITE("planner/mesh_parts") {
  TEST_CASE("a rack drawn as a mesh has the parts, grain and areas of its hand sums") {
    JobReading read = read_job("job.toml", fixture("job.toml"));
    REQUIRE(read.job.has_value());
    work::Job& job = *read.job;
    CHECK(job.parts.empty());
    CHECK(said(add_mesh_parts(job, std::vector<MeshBytes>{{"rack.obj", fixture("rack.obj")}})) ==
          "");
    REQUIRE(job.parts.size() == 4);
    const work::Part& side = job.parts[0];
    CHECK(side.name == "left side");
    CHECK(side.species == "douglas_fir");
    CHECK(side.along == 2);
    CHECK(side.face == 0);
    CHECK(side.length == geometry::Length::whole_mm(500));
    CHECK(side.width == geometry::Length::whole_mm(200));
    CHECK(side.thickness == geometry::Length::whole_mm(18));
    CHECK(job.parts[3].species == "white_fir");
    CHECK(job.parts[3].at[2] == geometry::Length::whole_mm(350));
    CHECK(grain_of(job.parts[3]).x == 1);
    const auto solids = work::make_solids(job.parts);
    CHECK(geometry::volume_mm3(solids[0]) == doctest::Approx(1'756'800));
    CHECK(check_solids(job, solids).empty());
    double area = 0;
    const auto contacts = geometry::find_contacts(solids, {});
    for (const geometry::Contact& c : contacts) {
      area += c.area_mm2;
    }
    CHECK(contacts.size() == 12);
    CHECK(area == doctest::Approx(24'000));
    CHECK(check_touching(job, solids, contacts).empty());
  }

  TEST_CASE("a mesh's job written out names its files and what is said of its parts") {
    JobReading read = read_job("job.toml", fixture("job.toml"));
    REQUIRE(read.job.has_value());
    add_mesh_parts(*read.job, std::vector<MeshBytes>{{"rack.obj", fixture("rack.obj")}});
    const std::string text = job_text(*read.job);
    CHECK(text.find("files = [\"rack.obj\"]\nunits = \"mm\"\n") != std::string::npos);
    JobReading again = read_job("job.toml", text);
    REQUIRE(again.job.has_value());
    CHECK(said(add_mesh_parts(*again.job,
                              std::vector<MeshBytes>{{"rack.obj", fixture("rack.obj")}})) == "");
    CHECK(job_text(*again.job) == text);
    CHECK(again.job->parts[3].species == "white_fir");
  }

  TEST_CASE("grain given by axis wins over the longest edge") {
    std::string text = fixture("job.toml");
    text.replace(text.find("species = \"white_fir\""), 21, "along = \"y\"");
    JobReading read = read_job("job.toml", text);
    REQUIRE(read.job.has_value());
    add_mesh_parts(*read.job, std::vector<MeshBytes>{{"rack.obj", fixture("rack.obj")}});
    CHECK(read.job->parts[3].length == geometry::Length::whole_mm(200));
    CHECK(grain_of(read.job->parts[3]).y == 1);
  }

  TEST_CASE(
      "a mesh that cannot be used is told by part, and names that it has not with the nearest") {
    CHECK(said_of("\"upper shelf\"", "\"uper shelf\"") ==
          "job.toml:9:1: the mesh has no part named \"uper shelf\"\n  did you mean \"upper "
          "shelf\"?\n");
    CHECK(said_of("species = \"douglas_fir\"\n", "")
              .find("job.toml:4:1: the mesh does not say of what wood \"left side\", "
                    "\"right side\" and \"lower shelf\" are") == 0);
    std::string open = fixture("rack.obj");
    open.erase(open.find("f "), open.find('\n', open.find("f ")) - open.find("f ") + 1);
    const std::string defect = said_of("\"pva_yellow\"", "\"pva_yellow\"", open);
    CAPTURE(defect);
    CHECK(defect.find("job.toml:5:1: rack.obj") == 0);
    CHECK(defect.find("\"left side\"") != std::string::npos);
    const std::string unsaid = said_of("units = \"mm\"                # mesh", "# mesh");
    CHECK(unsaid.find("[mesh] has no units: taken as millimeters, its longest part is 576 mm long\n"
                      "  if that is so, add units = \"mm\"") != std::string::npos);
    CHECK(said_of("rack.obj", "rack.step").find("file \"rack.step\": no mesh but surfaces as formulas") !=
          std::string::npos);
    CHECK(said_of("file = ", "# ").find("[mesh] names no file") != std::string::npos);
  }
}

}  // namespace
}  // namespace planner::files
