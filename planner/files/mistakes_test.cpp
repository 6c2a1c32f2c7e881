// fixtures/mistakes: one bad file a mistake, and beside it what must be said about it. Files whose
// name begins with "shop_" are shop files. With GLUEUP_UPDATE set, rewrites what is expected; read
// the diff.
#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "planner/files/file_keys.h"
#include "planner/files/job_file.h"
#include "planner/files/mesh_parts.h"
#include "planner/files/shop_file.h"
#include "planner/placed/placed_clamps.h"
#include "planner/work/glue_quantity.h"
#include "planner/work/job_check.h"

namespace planner::files {
namespace {

namespace fs = std::filesystem;

const fs::path kFolder = fs::path(GLUEUP_SOURCE_DIR) / "fixtures" / "mistakes";

std::string text_of(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

// The mesh files of a job lie beside it.
base::Diagnostics mistakes_of_meshes(work::Job& job) {
  std::vector<MeshBytes> meshes;
  for (const std::string& file : job.mesh->files) {
    meshes.push_back({file, text_of(kFolder / file)});
  }
  return add_mesh_parts(job, meshes);
}

base::Diagnostics mistakes_of_job(const std::string& name, const std::string& text) {
  JobReading read = read_job(name, text);
  CHECK(read.job.has_value() != has_errors(read.diagnostics));
  if (!read.job) {
    return read.diagnostics;
  }
  if (read.job->mesh) {
    const base::Diagnostics found = mistakes_of_meshes(*read.job);
    if (has_errors(found)) {
      return found;
    }
  }
  if (const work::GlueChoice glue = choose_glue(*read.job, unlimited_shop());
      !glue.problem.empty()) {
    return glue.problem;
  }
  for (const work::JointOverride& joint : read.job->overrides) {
    const base::Diagnostics problem =
        joint.glue ? glue_named(*joint.glue, joint.place, unlimited_shop()).problem
                   : base::Diagnostics();
    if (!problem.empty()) {
      return problem;
    }
  }
  std::vector<geometry::Solid> solids;
  for (const work::Part& part : read.job->parts) {
    solids.push_back(make_solid(part));
  }
  base::Diagnostics found = check_solids(*read.job, solids);
  if (!has_errors(found)) {
    const auto contacts = geometry::find_contacts(solids, {});
    found = check_touching(*read.job, solids, contacts);
    if (!has_errors(found)) {
      const base::Diagnostics placed =
          placed::check_placed(*read.job, solids, classify_joints(*read.job, contacts),
                               geometry::Tolerance{}.max_gap_mm);
      found.insert(found.end(), placed.begin(), placed.end());
    }
  }
  return found;
}

std::string said(const fs::path& path) {
  const std::string name = path.filename().string();
  const base::Diagnostics all = name.rfind("shop_", 0) == 0
                                    ? read_shop(name, text_of(path)).diagnostics
                                    : mistakes_of_job(name, text_of(path));
  std::string text;
  for (const base::Diagnostic& d : all) {
    text += to_text(d) + "\n";
  }
  return text;
}

std::string panel_of(int boards) {
  std::string text = "units = \"mm\"\nspecies = \"black_cherry\"\n";
  for (int i = 0; i < boards; ++i) {
    text += "[[part]]\nname = \"b" + std::to_string(i) +
            "\"\nlength = 300\nwidth = 20\nthickness = 18\nalong = \"x\"\nface = \"z\"\nat = [0, " +
            std::to_string(20 * i) + ", 0]\n";
  }
  return text;
}

std::vector<fs::path> bad_files() {
  std::vector<fs::path> files;
  for (const auto& entry : fs::directory_iterator(kFolder)) {
    if (entry.path().extension() == ".toml") {
      files.push_back(entry.path());
    }
  }
  std::sort(files.begin(), files.end());
  return files;
}

TEST_SUITE("planner/mistakes") {
  TEST_CASE("each mistake is told where it is, with its value and what to write instead") {
    CHECK(bad_files().size() >= 340);
    for (const fs::path& path : bad_files()) {
      CAPTURE(path.filename().string());
      const std::string found = said(path);
      CHECK_FALSE(found.empty());
      fs::path expected = path;
      expected.replace_extension(".expected");
      if (std::getenv("GLUEUP_UPDATE") != nullptr) {
        std::ofstream(expected) << found;
      }
      CHECK(found == text_of(expected));
    }
  }

  TEST_CASE("there is a bad value for every key that a file may have") {
    std::string all;
    for (const fs::path& path : bad_files()) {
      all += said(path);
    }
    for (const auto& tables : {job_file_keys(), shop_file_keys()}) {
      for (const TableKeys& table : tables) {
        for (const std::string& key : table.keys) {
          CAPTURE(table.heading);
          CAPTURE(key);
          const bool told = all.find(": " + key + " ") != std::string::npos ||
                            all.find(": " + key + ":") != std::string::npos;
          CHECK(told);
        }
      }
    }
  }

  TEST_CASE("what is too much for one glue-up is refused before it is worked on") {
    const auto told = [](const std::string& text) {
      const base::Diagnostics found = mistakes_of_job("job.toml", text);
      REQUIRE(found.size() == 1);
      return to_text(found.front());
    };
    CHECK(
        told(panel_of(129)) ==
        "job.toml: the job has 129 parts\n  128 at most: plan it in several jobs, what is glued in "
        "one as one part of the next");
    std::string many_cuts = panel_of(2);
    for (int i = 0; i < 501; ++i) {
      many_cuts +=
          "[[part.cut]]\nkind = \"groove\"\non = \"+z\"\nruns = \"x\"\noffset = 5\nwidth = 2\n"
          "depth = 1\n";
    }
    CHECK(told(many_cuts) ==
          "job.toml:11:1: \"b1\" has 501 cuts\n  at most 500 a part: describe it as several parts");
    const std::string name = "\"" + std::string(1 << 20, 'x') + "\"";
    CHECK(told("title = " + name + "\n" + panel_of(2)) ==
          "job.toml:1:9: title \"" + std::string(40, 'x') +
              "...\": it is far too long\n  shorten it to 1000 letters at most");
  }

  TEST_CASE("every message names its line and stays in the program's voice") {
    for (const fs::path& path : bad_files()) {
      std::istringstream lines(said(path));
      for (std::string line; std::getline(lines, line);) {
        CAPTURE(line);
        CHECK(line.back() != '.');
        CHECK((line.rfind("  ", 0) == 0 || line.rfind(path.filename().string() + ":", 0) == 0));
      }
    }
  }
}

}  // namespace
}  // namespace planner::files
