#include "tests/schedules/twin.h"

#include <algorithm>
#include <numeric>

namespace tests {
namespace {

using namespace planner;

// Something everybody does.
struct Together {
  int seconds = 0;
  int group = -1;           // snug
  std::vector<int> joints;  // join: what it closes
  int ring = -1;            // tack, check and tighten
};

class Twin {
 public:
  explicit Twin(const order::ScheduleProblem& p) : p_(p), snug_(p.groups.size(), false) {
    for (int u = 0; u < p.assembly.units; ++u) {
      groups_.push_back(base::UnitSet::of(u));
    }
  }

  TwinAnswer solve() {
    extend();
    return answer_;
  }

 private:
  int round(int group, int each) const {
    return (p_.groups[static_cast<std::size_t>(group)].clamps + p_.people - 1) / p_.people * each;
  }
  bool all_snug(int ring) const {
    for (std::size_t g = 0; g < snug_.size(); ++g) {
      if (p_.groups[g].ring == ring && !snug_[g]) {
        return false;
      }
    }
    return true;
  }
  bool closed(int joint) const {
    const auto [u, v] = p_.assembly.joints[static_cast<std::size_t>(joint)];
    return std::ranges::any_of(
        groups_, [u = u, v = v](const base::UnitSet& g) { return g.contains(u) && g.contains(v); });
  }
  bool can_snug(std::size_t g) const {
    bool any = false, all = true;
    for (std::size_t j = 0; j < p_.joints.size(); ++j) {
      const bool waits = p_.joints[j].group == static_cast<int>(g) ||
                         std::ranges::count(p_.groups[g].closed_first, static_cast<int>(j)) > 0;
      any = any || waits;
      all = all && (!waits || closed(static_cast<int>(j)));
    }
    for (const int first : p_.groups[g].after) {
      all = all && snug_[static_cast<std::size_t>(first)];
      any = any || !snug_[static_cast<std::size_t>(first)];
    }
    return !snug_[g] && (any ? all : groups_.size() == 1);
  }
  bool one_removal_frees(const base::UnitSet& a, const base::UnitSet& b) const {
    for (std::size_t d = 0; d < p_.assembly.removals.size(); ++d) {
      bool free = true;
      for (int i = a.lowest(); i >= 0; i = a.next(i)) {
        for (int j = b.lowest(); j >= 0; j = b.next(j)) {
          free = free && p_.assembly.leave(static_cast<int>(d), i, j) != order::kRefused;
        }
      }
      if (free) {
        return true;
      }
    }
    return false;
  }
  bool touch(const base::UnitSet& a, const base::UnitSet& b) const {
    for (int i = a.lowest(); i >= 0; i = a.next(i)) {
      for (int j = b.lowest(); j >= 0; j = b.next(j)) {
        if (p_.assembly.touching(i, j)) {
          return true;
        }
      }
    }
    return false;
  }

  // The next thing that everybody does, in every way.
  void extend() {
    if (groups_.size() == 1 && std::ranges::count(snug_, false) == 0) {
      choose_windows(0);
      answer_.last_joins.insert(last_join_);
      return;
    }
    for (std::size_t g = 0; g < snug_.size(); ++g) {
      if (can_snug(g)) {
        snug_[g] = true;
        const std::size_t before = order_.size();
        order_.push_back(
            {round(static_cast<int>(g), p_.groups[g].snug_s), static_cast<int>(g), {}});
        if (all_snug(p_.groups[g].ring)) {
          order_.push_back({0, -1, {}, p_.groups[g].ring});
        }
        extend();
        order_.resize(before);
        snug_[g] = false;
      }
    }
    const int lid = p_.closing_unit;
    if (lid >= 0 && groups_.size() == 2 && !checked_) {
      bool ready = std::ranges::count(groups_, base::UnitSet::of(lid)) == 1;
      for (std::size_t g = 0; g < snug_.size(); ++g) {
        ready = ready && !(p_.snug_before_inside_check && can_snug(g));
      }
      if (ready) {
        checked_ = true;
        order_.push_back({p_.inside_check_s, -1, {}});
        extend();
        order_.pop_back();
        checked_ = false;
      }
    }
    for (std::size_t a = 0; a < groups_.size(); ++a) {
      for (std::size_t b = 0; b < groups_.size(); ++b) {
        const bool lid_last =
            lid < 0 || (groups_.size() == 2 ? checked_
                                            : groups_[a] != base::UnitSet::of(lid) &&
                                                  groups_[b] != base::UnitSet::of(lid));
        if (groups_[a] < groups_[b] && lid_last && touch(groups_[a], groups_[b]) &&
            one_removal_frees(groups_[a], groups_[b])) {
          join(a, b);
        }
      }
    }
  }

  int join_length(const std::vector<int>& closes) const {
    std::vector<int> own, more{0};
    for (const int j : closes) {
      own.push_back(p_.joints[static_cast<std::size_t>(j)].join_s);
      more.push_back(p_.joints[static_cast<std::size_t>(j)].next_s);
    }
    if (closes.empty()) {
      return p_.join_s;
    }
    std::ranges::sort(more);
    more.pop_back();
    return *std::ranges::max_element(own) + std::accumulate(more.begin(), more.end(), 0);
  }

  void join(std::size_t a, std::size_t b) {
    const std::vector<base::UnitSet> before = groups_;
    const base::UnitSet last = last_join_;
    Together t;
    for (std::size_t j = 0; j < p_.joints.size(); ++j) {
      const auto [u, v] = p_.assembly.joints[j];
      if ((before[a].contains(u) && before[b].contains(v)) ||
          (before[a].contains(v) && before[b].contains(u))) {
        t.joints.push_back(static_cast<int>(j));
      }
    }
    t.seconds = join_length(t.joints);
    last_join_ = before[a].contains(0) ? before[a] : before[b];
    groups_[a] = before[a] | before[b];
    groups_.erase(groups_.begin() + static_cast<std::ptrdiff_t>(b));
    order_.push_back(t);
    extend();
    order_.pop_back();
    groups_ = before;
    last_join_ = last;
  }

  // Joint `j` is spread before the k-th thing of order_, by one of the people.
  void choose_windows(std::size_t j) {
    if (j == p_.joints.size()) {
      evaluate();
      return;
    }
    for (std::size_t k = 0; k < order_.size(); ++k) {
      // Nothing comes between the last snug round of a ring and its check.
      for (int person = 0; order_[k].ring < 0 && person < p_.people; ++person) {
        place_.push_back({k, person});
        choose_windows(j + 1);
        place_.pop_back();
      }
      if (std::ranges::count(order_[k].joints, static_cast<int>(j)) > 0) {
        return;
      }
    }
  }

  // Everybody's list ends with its window; on one list, least room first from the end (Jackson's
  // rule, which minimises the greatest lateness).
  void evaluate() {
    const std::size_t n = p_.joints.size();
    std::vector<int> end(order_.size() + 1, 0), start(n, 0), joined(n, 0), held(n, 0), room(n, 0);
    int now = 0;
    for (std::size_t k = 0; k < order_.size(); ++k) {
      std::vector<int> load(static_cast<std::size_t>(p_.people), 0);
      for (std::size_t j = 0; j < n; ++j) {
        load[static_cast<std::size_t>(place_[j].second)] +=
            place_[j].first == k ? p_.joints[j].spread_s : 0;
      }
      now += *std::ranges::max_element(load);
      end[k] = now;
      now += order_[k].seconds;
      for (const int j : order_[k].joints) {
        joined[static_cast<std::size_t>(j)] = held[static_cast<std::size_t>(j)] = now;
      }
      for (std::size_t j = 0; j < n; ++j) {
        if (order_[k].group >= 0 && p_.joints[j].group == order_[k].group &&
            p_.joints[j].held_snug) {
          held[j] = now;
        }
      }
      now = finish(order_[k].ring, now, held);
    }
    int slack = 1000000;
    for (std::size_t j = 0; j < n; ++j) {
      const order::JointTime& t = p_.joints[j];
      room[j] = std::min(t.open_s - joined[j], t.total_s - held[j]);  // + start is its slack
      if (t.closed_s > 0) {
        // open / open_s + (closed + slack) / closed_s <= 1, solved for the latest start by trying
        room[j] = -1;
      }
    }
    for (std::size_t k = 0; k < order_.size(); ++k) {
      for (int person = 0; person < p_.people; ++person) {
        std::vector<std::size_t> list;
        for (std::size_t j = 0; j < n; ++j) {
          if (place_[j] == std::pair(k, person)) {
            list.push_back(j);
          }
        }
        slack = std::min(slack, best_of_list(list, end[k], room, joined, held));
        if (slack < answer_.slack_s.value_or(slack)) {
          return;
        }
      }
    }
    if (!answer_.slack_s || slack > *answer_.slack_s || now < answer_.makespan_s) {
      answer_.slack_s = slack;
      answer_.makespan_s = now;
    }
  }

  // Goes through what ends a ring; `held` of what it holds once tight.
  int finish(int ring, int now, std::vector<int>& held) const {
    if (ring < 0) {
      return now;
    }
    const order::RingFinish& r = p_.rings[static_cast<std::size_t>(ring)];
    now += r.tack_s + r.check_s;
    for (int g = 0; g < static_cast<int>(p_.groups.size()); ++g) {
      if (p_.groups[static_cast<std::size_t>(g)].ring != ring) {
        continue;
      }
      now += round(g, p_.groups[static_cast<std::size_t>(g)].tighten_s);
      for (std::size_t j = 0; j < held.size(); ++j) {
        if (p_.joints[j].group == g && !p_.joints[j].held_snug) {
          held[j] = now;
        }
      }
    }
    return now;
  }

  int best_of_list(std::vector<std::size_t> list, int end, const std::vector<int>& room,
                   const std::vector<int>& joined, const std::vector<int>& held) const {
    const bool budget =
        std::ranges::any_of(list, [&](std::size_t j) { return p_.joints[j].closed_s > 0; });
    std::ranges::sort(list, {},
                      [&](std::size_t j) { return budget ? static_cast<int>(j) : room[j]; });
    int best = -1000000;
    do {
      int at = end, worst = 1000000;
      for (const std::size_t j : list) {
        at -= p_.joints[j].spread_s;
        worst = std::min(worst, slack_by_definition(p_.joints[j], at, joined[j], held[j]));
      }
      best = std::max(best, worst);
    } while (budget && std::ranges::next_permutation(list).found);
    return best;
  }

  static int slack_by_definition(const order::JointTime& t, int start, int joined, int held) {
    int slack = std::min(t.open_s - (joined - start), t.total_s - (held - start));
    // The most whole seconds s with open / open_s + (closed + s) / closed_s <= 1.
    if (t.closed_s > 0) {
      const std::int64_t left = std::int64_t{t.closed_s} * t.open_s -
                                std::int64_t{joined - start} * t.closed_s -
                                std::int64_t{held - joined} * t.open_s;
      std::int64_t s = left / t.open_s;
      s -= s * t.open_s > left ? 1 : 0;
      slack = std::min(slack, static_cast<int>(s));
    }
    return slack;
  }

  const order::ScheduleProblem& p_;
  std::vector<base::UnitSet> groups_;
  std::vector<bool> snug_;
  bool checked_ = false;
  std::vector<Together> order_;
  std::vector<std::pair<std::size_t, int>> place_;
  base::UnitSet last_join_;
  TwinAnswer answer_;
};

}  // namespace

TwinAnswer solve_by_trying_all(const order::ScheduleProblem& problem) {
  return Twin(problem).solve();
}

}  // namespace tests
