// The bench's table, whose lines several programs print: what is measured, the figure to reach,
// ours, another way to the same answer, and how many times as long that takes. Markdown; run.sh
// prints its head.
#pragma once
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <string>
#include <vector>

namespace bench {

inline std::string ms(double value) {
  char text[32];
  const char* format = value < 1 ? "%.3f ms" : value < 100 ? "%.1f ms" : "%.0f ms";
  std::snprintf(text, sizeof text, format, value);
  return text;
}

inline void row(const std::string& what, const std::string& reach, const std::string& ours,
                const std::string& beside = "", const std::string& times = "") {
  std::printf("| %-52s | %-9s | %-22s | %-42s | %-7s |\n", what.c_str(), reach.c_str(),
              ours.c_str(), beside.c_str(), times.c_str());
  std::fflush(stdout);
}

inline void row_beside(const std::string& what, const std::string& reach, double ours_ms,
                       const std::string& other, double other_ms) {
  char times[32];
  std::snprintf(times, sizeof times, other_ms < 10 * ours_ms ? "%.1f" : "%.0f", other_ms / ours_ms);
  row(what, reach, ms(ours_ms), other + ", " + ms(other_ms), times);
}

// Wall time of one run.
template <class Work>
double once_ms(const Work& work) {
  using Clock = std::chrono::steady_clock;
  const Clock::time_point from = Clock::now();
  work();
  return std::chrono::duration<double, std::milli>(Clock::now() - from).count();
}

// Median of some runs; one that takes long is run once.
template <class Work>
double median_ms(const Work& work) {
  std::vector<double> times{once_ms(work)};
  const int more = times[0] > 1000 ? 0 : times[0] > 100 ? 4 : 20;
  for (int i = 0; i < more; ++i) {
    times.push_back(once_ms(work));
  }
  std::sort(times.begin(), times.end());
  return times[times.size() / 2];
}

}  // namespace bench
