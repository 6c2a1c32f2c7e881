// Every fixture's own parts against their Nef and polygon-set twins.
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <optional>
#include <sstream>

#include <doctest/doctest.h>

#include "geometry/contact.h"
#include "planner/files/job_file.h"
#include "planner/work/cut.h"
#include "planner/work/part_solid.h"
#include "tests/source_dir.h"
#include "twins/nef_twin.h"
#include "twins/polygon_set_twin.h"

using doctest::Approx;

namespace {

std::vector<std::filesystem::path> job_files() {
  std::vector<std::filesystem::path> files;
  const std::filesystem::path root = source_dir() + "/fixtures";
  for (const auto& entry : std::filesystem::directory_iterator(root)) {
    if (std::filesystem::exists(entry.path() / "job.toml")) {
      files.push_back(entry.path() / "job.toml");
    }
  }
  std::sort(files.begin(), files.end());
  return files;
}

planner::work::Job read(const std::filesystem::path& file) {
  std::ifstream in(file);
  std::stringstream text;
  text << in.rdbuf();
  const planner::files::JobReading reading = planner::files::read_job(file.string(), text.str());
  REQUIRE(reading.job);
  return *reading.job;
}

// The part as a recipe; nothing for dowels, meshes and turned parts, which the twins don't make.
std::optional<scenes::Recipe> recipe_of(const planner::work::Part& part) {
  if (part.mesh || part.round || !part.turns.empty()) {
    return std::nullopt;
  }
  scenes::Recipe recipe{part.blank(), {}, {}, {}};
  for (const planner::work::Cut& cut : part.cuts) {
    planner::work::CutTools tools = planner::work::tools_of(part, cut);
    for (std::vector<geometry::HalfSpace>& prism : tools.prisms) {
      for (geometry::HalfSpace& side : prism) {
        for (std::size_t i = 0; i < 3; ++i) {
          side.through[i] += part.at[i];
        }
      }
      recipe.prisms.push_back(prism);
    }
    for (geometry::LatticeBox& box : tools.boxes) {
      for (std::size_t i = 0; i < 3; ++i) {
        box.lo[i] += part.at[i];
        box.hi[i] += part.at[i];
      }
      recipe.cuts.push_back(box);
    }
    if (tools.keep) {
      for (std::size_t i = 0; i < 3; ++i) {
        tools.keep->through[i] += part.at[i];
      }
      recipe.keep.push_back(*tools.keep);
    }
  }
  return recipe;
}

}  // namespace

TEST_SUITE("tests/twins") {
  // Outside, CGAL: Nef polyhedra
  TEST_CASE("every fixture's parts have the volume of their Nef twins") {
    int compared = 0;
    for (const auto& file : job_files()) {
      for (const planner::work::Part& part : read(file).parts) {
        CAPTURE(file.string());
        CAPTURE(part.name);
        if (const auto recipe = recipe_of(part)) {
          ++compared;
          CHECK(volume_mm3(make_solid(part)) ==
                Approx(twins::nef_figures(*recipe).volume_mm3).epsilon(1e-13));
        }
      }
    }
    CHECK(compared > 40);
  }

  // Outside, CGAL: sets of polygons, cross section by cross section
  TEST_CASE("every fixture's parts touch on the areas of their cross sections") {
    const geometry::Tolerance strict{0, 1e-9, 0};
    int compared = 0;
    for (const auto& file : job_files()) {
      CAPTURE(file.string());
      const planner::work::Job job = read(file);
      const auto solids = planner::work::make_solids(job.parts);
      const auto found = find_contacts(solids, strict);
      for (std::size_t a = 0; a < solids.size(); ++a) {
        for (std::size_t b = a + 1; b < solids.size(); ++b) {
          const auto one = recipe_of(job.parts[a]), other = recipe_of(job.parts[b]);
          if (!one || !other) {
            continue;
          }
          std::vector<double> ours;
          for (const geometry::Contact& contact : found) {
            if (contact.a == a && contact.b == b) {
              ours.push_back(contact.area_mm2);
            }
          }
          const std::vector<double> theirs = twins::contact_areas(*one, *other);
          REQUIRE(ours.size() == theirs.size());
          for (std::size_t i = 0; i < ours.size(); ++i) {
            ++compared;
            CHECK(ours[i] == Approx(theirs[i]).epsilon(1e-12));
          }
        }
      }
    }
    CHECK(compared > 100);
  }
}
