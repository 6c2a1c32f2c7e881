#include "planner/order/spread_window.h"

#include <algorithm>

namespace planner::order {
namespace {

// Only dozens of unlike joints between two joins come near it.
constexpr int kMostTries = 20000;

// Assigns jobs in the order of urgency: on one person's list that order is never worse.
class Assignment {
 public:
  Assignment(std::span<const Spreading> jobs, int people)
      : jobs_(jobs), load_(static_cast<std::size_t>(people), 0), who_(jobs.size(), 0) {
    std::vector<int> longest_first;
    for (const Spreading& job : jobs) {
      longest_first.push_back(job.seconds);
    }
    std::ranges::sort(longest_first, std::ranges::greater{});
    least_ = least_seconds(longest_first, people);
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
  // The first person with the least load above `load`.
  std::size_t next_person(int load) const {
    std::size_t next = load_.size();
    for (std::size_t p = 0; p < load_.size(); ++p) {
      if (load_[p] > load && (next == load_.size() || load_[p] < load_[next])) {
        next = p;
      }
    }
    return next;
  }

  void assign(std::size_t i, int longest) {
    if (++tries_ > kMostTries) {
      return;
    }
    if (i == jobs_.size()) {
      best_ = longest;
      best_who_ = who_;
      return;
    }
    // Whoever is free first, first; of those equally far the earlier person stands for all.
    for (std::size_t p = next_person(-1); p < load_.size(); p = next_person(load_[p])) {
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

int least_seconds(std::span<const int> jobs, int people) {
  const auto crew = static_cast<std::size_t>(people);
  int sum = 0;
  for (const int seconds : jobs) {
    sum += seconds;
  }
  int least = (sum + people - 1) / people;
  for (std::size_t k = 0; people > 1 && k * crew < jobs.size(); ++k) {
    int longest = 0;
    for (std::size_t i = 0; i <= k; ++i) {
      longest += jobs[k * crew - i];
    }
    least = std::max(least, longest);
  }
  return least;
}

}  // namespace planner::order
