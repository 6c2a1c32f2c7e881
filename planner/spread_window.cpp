#include "planner/spread_window.h"

#include <algorithm>

namespace planner {
namespace {

// Only dozens of unlike joints between two joins come near it.
constexpr int kMostTries = 20000;

// Assigns jobs in the order of urgency: on one person's list that order is never worse.
class Assignment {
 public:
  Assignment(std::span<const Spreading> jobs, int people)
      : jobs_(jobs), load_(static_cast<std::size_t>(people), 0), who_(jobs.size(), 0) {
    int sum = 0;
    for (const Spreading& job : jobs) {
      sum += job.seconds;
      least_ = std::max(least_, job.seconds);
    }
    least_ = std::max(least_, (sum + people - 1) / people);
  }

  std::optional<SpreadWindow> solve() {
    assign(0, 0);
    if (best_ < 0) {
      return std::nullopt;
    }
    SpreadWindow window{best_, {}, tries_ < kMostTries || best_ == least_};
    std::fill(load_.begin(), load_.end(), 0);
    for (std::size_t i = 0; i < jobs_.size(); ++i) {
      int& load = load_[static_cast<std::size_t>(best_who_[i])];
      load += jobs_[i].seconds;
      window.placed.push_back({jobs_[i], best_who_[i], load});
    }
    return window;
  }

 private:
  void assign(std::size_t i, int longest) {
    if (++tries_ > kMostTries) {
      return;
    }
    if (i == jobs_.size()) {
      best_ = longest;
      best_who_ = who_;
      return;
    }
    for (std::size_t p = 0; p < load_.size(); ++p) {
      if (std::find(load_.begin(), load_.begin() + static_cast<std::ptrdiff_t>(p), load_[p]) !=
          load_.begin() + static_cast<std::ptrdiff_t>(p)) {
        continue;  // as good as an earlier person
      }
      const int done = load_[p] + jobs_[i].seconds;
      const int longer = std::max(longest, done);
      if (done > jobs_[i].left_s || (best_ >= 0 && longer >= best_)) {
        continue;
      }
      load_[p] = done;
      who_[i] = static_cast<int>(p);
      assign(i + 1, longer);
      load_[p] -= jobs_[i].seconds;
      if (best_ == least_) {
        return;
      }
    }
  }

  std::span<const Spreading> jobs_;
  std::vector<int> load_, who_, best_who_;
  int least_ = 0, best_ = -1, tries_ = 0;
};

std::optional<SpreadWindow> in_turn(std::span<const Spreading> jobs) {
  SpreadWindow window;
  for (const Spreading& job : jobs) {
    window.length_s += job.seconds;
    if (window.length_s > job.left_s) {
      return std::nullopt;
    }
    window.placed.push_back({job, 0, window.length_s});
  }
  return window;
}

}  // namespace

std::optional<SpreadWindow> shortest_window(std::span<const Spreading> jobs, int people) {
  return people == 1 ? in_turn(jobs) : Assignment(jobs, people).solve();
}

}  // namespace planner
