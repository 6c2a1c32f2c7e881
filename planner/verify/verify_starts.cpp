#include "planner/verify/verify_starts.h"

#include <algorithm>
#include <map>

namespace planner::verify {
namespace {

constexpr double kHair_s = 1e-6;

bool together(const plan::Stage& a, const plan::Stage& b) {
  return std::ranges::find_first_of(a.parts, b.parts) != a.parts.end();
}

double off_s(const plan::Stage& stage) { return stage.starts_s + stage.makespan_s + stage.clamp_time_s; }

// By the rack's rows, with everything that is in its clamps when `now` begins.
std::map<std::size_t, int> used_with(const VerifyContext& c, const plan::Stage& now) {
  std::map<std::size_t, int> used;
  for (const plan::Stage& other : c.plan.stages) {
    const bool clamped = other.starts_s <= now.starts_s && now.starts_s < off_s(other) - kHair_s;
    if (!clamped && &other != &now) {
      continue;
    }
    for (const plan::PlannedClamp& clamp : other.clamps) {
      if (clamp.owned) {
        ++used[*clamp.owned];
      }
    }
    for (const plan::CornerClamp& corner : other.corner_clamps) {
      ++used[corner.owned];
    }
  }
  return used;
}

}  // namespace

void verify_starts(VerifyContext& c) {
  for (std::size_t s = 0; s < c.plan.stages.size(); ++s) {
    const plan::Stage& now = c.plan.stages[s];
    const std::string name = "stage " + std::to_string(s + 1);
    for (std::size_t e = 0; e < s; ++e) {
      const plan::Stage& before = c.plan.stages[e];
      c.require(!together(now, before) || now.starts_s >= off_s(before) - kHair_s,
                name + " begins before what it builds on is out of its clamps");
      c.require(now.starts_s >= before.starts_s + before.makespan_s - kHair_s,
                name + " begins before the hands are free");
    }
    for (const auto& [row, count] : used_with(c, now)) {
      c.require(c.shop.unlimited_rack || row >= c.shop.clamps.size() || count <= c.shop.clamps[row].count,
                name + " begins with more clamps of row " + std::to_string(row + 1) +
                    " in use than are on the rack");
    }
  }
}

}  // namespace planner::verify
