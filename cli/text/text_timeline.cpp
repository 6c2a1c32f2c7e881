#include "cli/text/text_timeline.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "cli/model/timeline.h"
#include "cli/words/trade_words.h"

namespace cli::text {
namespace {

using planner::plan::Plan;
using planner::plan::Stage;

// The longest names take room from the chart, down to where its columns still tell times apart.
constexpr int kNameAndChart = 56, kLongestName = 30;
constexpr std::size_t kShown = 12;  // rows; a carcass has a hundred joints

// Seconds to columns, in steps a reader can count in.
struct Scale {
  int columns, column_s = 5, tick_s = 60;

  Scale(double longest_s, int chart) : columns(chart) {
    for (const int s : {5, 10, 15, 20, 30, 40, 60, 120, 300, 600, 1800, 3600}) {
      column_s = s;
      if (longest_s / s <= columns - 1) {
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
    return static_cast<std::size_t>(std::clamp<long>(std::lround(s / column_s), 0, columns - 1));
  }
  std::string blank() const { return std::string(static_cast<std::size_t>(columns), ' '); }
};

std::string ruler(const Scale& scale) {
  std::string text = scale.blank();
  for (int s = 0; s <= scale.column_s * (scale.columns - 1); s += scale.tick_s) {
    const std::string minute = std::to_string(s / 60);
    if (scale.at(s) + minute.size() <= text.size()) {
      text.replace(scale.at(s), minute.size(), minute);
    }
  }
  return text;
}

std::string bar(const model::JointTime& time, const Scale& scale) {
  std::string text = scale.blank();
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
  std::vector<model::JointTime> times = model::joint_times(plan.stages[index]);
  if (times.empty()) {
    return;
  }
  page.heading(plan.stages.size() == 1 ? "TIMELINE" : fmt::format("TIMELINE, stage {}", index + 1));
  page.line("  ~ wet   = together   # held   | to be held by then   * least to spare");
  const planner::work::JointId tightest = times.front().joint;
  const std::size_t left_out = times.size() - std::min(times.size(), kShown);
  times.resize(times.size() - left_out);
  double longest_s = 60;
  for (const model::JointTime& time : times) {
    longest_s = std::max({longest_s, time.held_s, time.total_limit_s});
  }
  std::stable_sort(
      times.begin(), times.end(),
      [](const model::JointTime& a, const model::JointTime& b) { return a.wet_s < b.wet_s; });
  const std::string star = " *";
  int name_width = 0;
  for (const model::JointTime& time : times) {
    name_width = std::max(name_width, words::columns(words::joint_text(plan, time.joint) +
                                                     (time.joint == tightest ? star : "")));
  }
  name_width = std::min(name_width, kLongestName);
  const Scale scale(longest_s, kNameAndChart - name_width);
  page.line("  " + words::padded("minutes", name_width) + " " + ruler(scale) + "  used of allowed");
  for (const model::JointTime& time : times) {
    const std::string mark = time.joint == tightest ? star : "";
    const int room = name_width - static_cast<int>(mark.size());
    const std::string name =
        words::fullest_that_fits({words::joint_text(plan, time.joint)}, room) + mark;
    page.line("  " + words::padded(name, name_width) + " " + bar(time, scale) + "  " +
              words::right_aligned(words::clock_text(time.used_s), 5) + " of " +
              words::right_aligned(words::clock_text(time.allowed_s), 5) +
              (time.by_open ? " open" : " held"));
  }
  if (left_out > 0) {
    page.line(fmt::format("  {} more, with at least as much to spare.",
                          words::count_text(static_cast<int>(left_out), "joint")));
  }
}

}  // namespace cli::text
