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

#include "planner/job_check.h"
#include "planner/job_file.h"
#include "planner/placed_clamps.h"
#include "planner/shop_file.h"

namespace planner {
namespace {

namespace fs = std::filesystem;

std::string text_of(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

Diagnostics mistakes_of_job(const std::string& name, const std::string& text) {
  JobReading read = read_job(name, text);
  CHECK(read.job.has_value() != has_errors(read.diagnostics));
  if (!read.job) {
    return read.diagnostics;
  }
  std::vector<geometry::Solid> solids;
  for (const Part& part : read.job->parts) {
    solids.push_back(make_solid(part));
  }
  Diagnostics found = check_solids(*read.job, solids);
  if (!has_errors(found)) {
    const auto contacts = geometry::find_contacts(solids, {});
    found = check_touching(*read.job, solids, contacts);
    if (!has_errors(found)) {
      const Diagnostics placed =
          check_placed(*read.job, solids, classify_joints(*read.job, contacts),
                       geometry::Tolerance{}.max_gap_mm);
      found.insert(found.end(), placed.begin(), placed.end());
    }
  }
  return found;
}

std::string said(const fs::path& path) {
  const std::string name = path.filename().string();
  const Diagnostics all = name.rfind("shop_", 0) == 0 ? read_shop(name, text_of(path)).diagnostics
                                                      : mistakes_of_job(name, text_of(path));
  std::string text;
  for (const Diagnostic& d : all) {
    text += to_text(d) + "\n";
  }
  return text;
}

std::vector<fs::path> bad_files() {
  std::vector<fs::path> files;
  for (const auto& entry :
       fs::directory_iterator(fs::path(GLUEUP_SOURCE_DIR) / "fixtures" / "mistakes")) {
    if (entry.path().extension() == ".toml") {
      files.push_back(entry.path());
    }
  }
  std::sort(files.begin(), files.end());
  return files;
}

TEST_SUITE("planner/mistakes") {
  TEST_CASE("each mistake is told where it is, with its value and what to write instead") {
    CHECK(bad_files().size() >= 100);
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
}  // namespace planner
