// The bad files of fixtures/mistakes are told as the lines under each of them say. With
// GLUEUP_UPDATE set, rewrites those lines; read the diff.
#include <cstdlib>
#include <fstream>
#include <map>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "planner/files/file_keys.h"
#include "planner/files/job_file.h"
#include "planner/files/mesh_parts.h"
#include "planner/files/mistake_sections_test.h"
#include "planner/files/shop_file.h"
#include "planner/placed/placed_check.h"
#include "planner/work/glue_quantity.h"
#include "planner/work/job_check.h"
#include "planner/work/part_solid.h"
#include "tests/source_dir.h"

namespace planner::files {
namespace {

const std::string kFolder = source_dir() + "/fixtures/mistakes";

std::string text_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

using Meshes = std::map<std::string, std::string>;  // bytes by file name

base::Diagnostics mistakes_of_meshes(work::Job& job, const Meshes& meshes) {
  std::vector<MeshBytes> read;
  for (const std::string& file : job.mesh->files) {
    const auto found = meshes.find(file);
    read.push_back({file, found == meshes.end() ? "" : found->second});
  }
  return add_mesh_parts(job, read);
}

base::Diagnostics mistakes_of_job(const std::string& name, const std::string& text,
                                  const Meshes& meshes = {}) {
  JobReading read = read_job(name, text);
  CHECK(read.job.has_value() != has_errors(read.diagnostics));
  if (!read.job) {
    return read.diagnostics;
  }
  if (read.job->mesh) {
    const base::Diagnostics found = mistakes_of_meshes(*read.job, meshes);
    if (has_errors(found)) {
      return found;
    }
  }
  if (const work::GlueChoice glue = choose_glue(*read.job, unlimited_shop());
      !glue.problem.empty()) {
    return glue.problem;
  }
  const auto solids = work::make_solids(read.job->parts);
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

std::string said_of(const MistakeSection& bad) {
  const base::Diagnostics all = bad.of_shop() ? read_shop(bad.file(), bad.text).diagnostics
                                              : mistakes_of_job(bad.file(), bad.text, bad.meshes);
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

std::vector<MistakeSection> all_mistakes() {
  std::vector<MistakeSection> all;
  for (const MistakeFile& file : read_mistakes(kFolder)) {
    all.insert(all.end(), file.sections.begin(), file.sections.end());
  }
  return all;
}

TEST_SUITE("planner/mistakes") {
  TEST_CASE("each mistake is told where it is, with its value and what to write instead") {
    const bool update = std::getenv("GLUEUP_UPDATE") != nullptr;
    std::set<std::string> names;
    for (MistakeFile& file : read_mistakes(kFolder)) {
      CAPTURE(file.path);
      for (MistakeSection& bad : file.sections) {
        CAPTURE(bad.name);
        CHECK(names.insert(bad.name).second);
        const std::string found = said_of(bad);
        CHECK_FALSE(found.empty());
        if (update) {
          bad.said = found;
        }
        CHECK(found == bad.said);
      }
      if (update) {
        std::ofstream(file.path, std::ios::binary) << to_text(file);
      }
      CHECK(to_text(file) == text_of(file.path));
    }
    CHECK(names.size() >= 370);
  }

  TEST_CASE("there is a bad value for every key that a file may have") {
    std::string all;
    for (const MistakeSection& bad : all_mistakes()) {
      all += bad.said;
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
    for (const MistakeSection& bad : all_mistakes()) {
      std::istringstream lines(bad.said);
      for (std::string line; std::getline(lines, line);) {
        CAPTURE(line);
        CHECK(line.back() != '.');
        CHECK((line.rfind("  ", 0) == 0 || line.rfind(bad.file() + ":", 0) == 0));
      }
    }
  }
}

}  // namespace
}  // namespace planner::files
