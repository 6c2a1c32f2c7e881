#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "cli/sheet/text_sections.h"
#include "cli/sheet/timeline.h"
#include "cli/trade_words.h"

namespace cli {
namespace {

using planner::Plan;
using planner::Stage;

constexpr int kName = 21, kChart = 35;
constexpr std::size_t kShown = 12;  // rows; a carcass has a hundred joints

// Seconds to columns, in steps a reader can count in.
struct Scale {
  int column_s = 5, tick_s = 60;

  explicit Scale(double longest_s) {
    for (const int s : {5, 10, 15, 20, 30, 40, 60, 120, 300, 600, 1800, 3600}) {
      column_s = s;
      if (longest_s / s <= kChart - 1) {
        break;
      }
    }
    for (const int s : {60, 120, 300, 600, 1800, 3600, 6 * 3600}) {
      tick_s = s;
      if (s / column_s >= 5) {
        break;
      }
    }
  }
  std::size_t at(double s) const {
    return static_cast<std::size_t>(std::clamp<long>(std::lround(s / column_s), 0, kChart - 1));
  }
};

std::string ruler(const Scale& scale) {
  std::string text(kChart, ' ');
  for (int s = 0; s <= scale.column_s * (kChart - 1); s += scale.tick_s) {
    const std::string minute = std::to_string(s / 60);
    if (scale.at(s) + minute.size() <= text.size()) {
      text.replace(scale.at(s), minute.size(), minute);
    }
  }
  return text;
}

std::string bar(const JointTime& time, const Scale& scale) {
  std::string text(kChart, ' ');
  const auto fill = [&](double from, double to, char c) {
    for (std::size_t i = scale.at(from); i < scale.at(to); ++i) {
      text[i] = c;
    }
  };
  fill(time.wet_s, time.together_s, '~');
  fill(time.together_s, time.held_s, '=');
  text[scale.at(time.held_s)] = '#';
  // Once together in time, the open limit is past caring.
  if (time.together_s > time.open_limit_s) {
    text[scale.at(time.open_limit_s)] = ':';
  }
  text[scale.at(time.total_limit_s)] = '|';
  return text;
}

}  // namespace

void timeline_section(const Plan& plan, std::size_t index, Page& page) {
  std::vector<JointTime> times = joint_times(plan.stages[index]);
  if (times.empty()) {
    return;
  }
  page.heading(plan.stages.size() == 1 ? "TIMELINE" : fmt::format("TIMELINE, stage {}", index + 1));
  page.line("  ~ wet   = together   # held   | to be held by then   * the tightest");
  const planner::JointId tightest = times.front().joint;
  const std::size_t left_out = times.size() - std::min(times.size(), kShown);
  times.resize(times.size() - left_out);
  double longest_s = 60;
  for (const JointTime& time : times) {
    longest_s = std::max({longest_s, time.held_s, time.total_limit_s});
  }
  std::stable_sort(times.begin(), times.end(),
                   [](const JointTime& a, const JointTime& b) { return a.wet_s < b.wet_s; });
  const Scale scale(longest_s);
  page.line("  " + padded("minutes", kName) + " " + ruler(scale) + "  used of allowed");
  for (const JointTime& time : times) {
    const std::string star = time.joint == tightest ? " *" : "";
    const int room = kName - static_cast<int>(star.size());
    const std::string name = fullest_that_fits({joint_text(plan, time.joint)}, room) + star;
    page.line("  " + padded(name, kName) + " " + bar(time, scale) + "  " +
              right_aligned(clock_text(time.used_s), 5) + " of " +
              right_aligned(clock_text(time.allowed_s), 5) + (time.by_open ? " open" : " held"));
  }
  if (left_out > 0) {
    page.line(fmt::format("  {} more, with at least as much to spare.",
                          count_text(static_cast<int>(left_out), "joint")));
  }
}

}  // namespace cli
