// Every fixture's clamps as questions small enough for GLPK and for trying all sets.
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>

#include <doctest/doctest.h>

#include "lp_file.h"
#include "planner/clamps/axis/clamp_components.h"
#include "planner/clamps/axis/axis_cache.h"
#include "planner/clamps/layout/clamp_work_test.h"
#include "tests/source_dir.h"

namespace planner {
namespace {

constexpr std::size_t kMostSpots = 12;

std::vector<std::string> fixtures() {
  std::vector<std::string> jobs;
  const std::filesystem::path root = source_dir() + "/fixtures";
  for (const auto& entry : std::filesystem::directory_iterator(root)) {
    if (std::filesystem::exists(entry.path() / "job.toml")) {
      jobs.push_back((entry.path() / "job.toml").string());
    }
  }
  std::sort(jobs.begin(), jobs.end());
  return jobs;
}

std::string text_of(const std::string& path) {
  std::ostringstream text;
  text << std::ifstream(path).rdbuf();
  return text.str();
}

// At most so many of the spots, spread evenly.
clamps::count::PlacementQuestion coarse(const clamps::count::PlacementQuestion& q) {
  const std::size_t all = q.limit_N.size(), kept = std::min(all, kMostSpots);
  std::vector<std::size_t> spots;
  for (std::size_t k = 0; k < kept; ++k) {
    spots.push_back(kept == 1 ? 0 : k * (all - 1) / (kept - 1));
  }
  return only_spots(q, spots);
}

// Some set of `count` spots from `from` on, beside those chosen, presses every place enough.
bool any_set_works(const clamps::count::PlacementQuestion& q, std::size_t count, std::size_t from,
                   std::vector<std::size_t>& chosen) {
  if (chosen.size() == count) {
    return try_spots(q, chosen).has_value();
  }
  for (std::size_t s = from; s < q.limit_N.size(); ++s) {
    chosen.push_back(s);
    const bool works = any_set_works(q, count, s + 1, chosen);
    chosen.pop_back();
    if (works) {
      return true;
    }
  }
  return false;
}

std::vector<clamps::count::PlacementQuestion> questions_of(const clamps::layout::TestWork& work) {
  std::vector<clamps::count::PlacementQuestion> out;
  const work::Shop market;
  const clamps::layout::ClampProblem problem = work.problem(market);
  const pressure::Work all = pressure::work_of(problem.parts, work.solids);
  for (const clamps::axis::RoundAxis& axis :
       clamps::axis::round_axes(work.joints, problem.stage_joints, work.job)) {
    if (axis.seat()) {
      continue;
    }
    clamps::axis::AxisSetting setting;
    clamps::axis::AxisCache cache;
    setting.kind.force_N = 4500;
    setting.packings = {{clamps::axis::Padding::strips, 38}};
    const clamps::axis::AxisClamps plan = planner::clamps::axis::plan_axis(
        {work.job, work.joints, all, axis, work.glue, setting}, plan::Level::hold, cache);
    if (plan.model == nullptr || plan.sites.empty() || on_face(plan.packing.padding)) {
      continue;
    }
    for (const clamps::axis::ClampComponent& c :
         clamp_components(plan, plan.model->table(need_to_hold(plan), 20))) {
      out.push_back(coarse(c.question));
    }
  }
  return out;
}

}  // namespace

TEST_SUITE("placements/fixtures") {
  // Outside, solver: GLPK, fewest clamps of the same lines
  TEST_CASE("on a coarse grid every fixture takes as many clamps as GLPK, and trying all, find") {
    int asked = 0;
    for (const std::string& path : fixtures()) {
      CAPTURE(path);
      for (const clamps::count::PlacementQuestion& q :
           questions_of(clamps::layout::work_of_text(text_of(path)))) {
        const clamps::count::FewestClamps ours = fewest_clamps(q, std::nullopt, {1e12});
        if (const auto theirs = ask_glpk(q, 20);
            theirs && (theirs->optimal || theirs->impossible)) {
          CHECK(ours.impossible == theirs->impossible);
          CHECK((theirs->impossible || ours.bound == *theirs->clamps));
        }
        ++asked;
        const std::size_t fewer =
            ours.impossible ? 4 : static_cast<std::size_t>(std::max(0, ours.bound - 1));
        std::vector<std::size_t> chosen;
        for (std::size_t count = 1; count <= std::min<std::size_t>(fewer, 4); ++count) {
          CHECK(!any_set_works(q, count, 0, chosen));
        }
      }
    }
    CHECK(asked >= 10);
  }
}

}  // namespace planner
