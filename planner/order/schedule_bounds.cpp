// What ScheduleSearch need not try: too little time left, dearer than known, or no better than a
// state explored before.
#include <algorithm>

#include "planner/order/schedule_search.h"

namespace planner::order {
namespace {

constexpr int kFar = 1'000'000;  // seconds; no limit
constexpr std::size_t kMostClasses = 32;

}  // namespace

// All work of everybody that must be done before a limit must fit before it.
bool ScheduleSearch::enough_time(const State& s) {
  struct Due {
    int at = 0, seconds = 0, limit_class = -1;
  };
  std::vector<Due> due;
  for (const Spreading& job : s.jobs) {
    due.push_back({job.left_s, job.seconds, -1});
  }
  for (std::size_t c = 0; classes_.size() <= kMostClasses && c < classes_.size(); ++c) {
    const JointTime& limits = classes_[c].limits;
    const bool off = limits.group >= 0 && s.age[static_cast<std::size_t>(limits.group)] >= 0;
    if (off && seconds_in(s, c) > 0) {
      const int age = s.age[static_cast<std::size_t>(limits.group)];
      due.push_back({limits.total_s - slack_ - age, 0, static_cast<int>(c)});
    }
  }
  std::ranges::sort(due, {}, &Due::at);
  std::vector<int> work;  // longest first
  const auto add = [&work](int seconds) {
    work.insert(std::ranges::upper_bound(work, seconds, std::ranges::greater{}), seconds);
  };
  int together = 0;
  std::uint32_t classes = 0;
  for (const Due& d : due) {
    if (d.limit_class < 0) {
      add(d.seconds);
    } else {
      for (const int b : s.blocks) {
        std::ranges::for_each(view(b).spreadings[static_cast<std::size_t>(d.limit_class)], add);
      }
      classes |= 1u << d.limit_class;
      together = seconds_before_open(s, classes);
    }
    if (least_seconds(work, problem_.people) > d.at - together) {
      return false;
    }
  }
  return true;
}

int ScheduleSearch::seconds_in(const State& s, std::size_t limit_class) {
  int seconds = 0;
  for (const int b : s.blocks) {
    seconds += view(b).class_seconds[limit_class];
  }
  return seconds;
}

// With all that is still to be done, does every glue stand as long as it must? Pauses before rounds
// that are already off cannot be made longer.
bool ScheduleSearch::waits_end(const State& s) {
  if (std::ranges::all_of(wait_of_, [](int wait) { return wait == 0; })) {
    return true;
  }
  int rest = s.phase == kOpen ? 0 : problem_.inside_check_s;
  for (const Spreading& job : s.jobs) {
    rest += job.seconds;
  }
  for (const int b : s.blocks) {
    rest += (graph_.size(b) - 1) * std::max(problem_.join_s, problem_.closing_s);
    for (const int seconds : view(b).class_seconds) {
      rest += seconds;
    }
  }
  for (std::size_t g = 0; g < s.age.size(); ++g) {
    rest += s.age[g] < 0 ? snug_round_s(static_cast<int>(g)) + wait_of_[g] + 60 : 0;
  }
  return std::ranges::all_of(
             s.jobs, [rest](const Spreading& job) { return job.wait_s <= rest - job.seconds; }) &&
         std::ranges::all_of(classes_, [&](const LimitClass& c) {
           const int g = c.limits.group;
           if (wait_s(c.limits) == 0 || s.age[static_cast<std::size_t>(g)] < 0) {
             return true;
           }
           const bool closed = std::ranges::any_of(s.blocks, [&](int b) {
             return view(b).class_seconds[static_cast<std::size_t>(&c - classes_.data())] > 0;
           });
           const int age = s.age[static_cast<std::size_t>(g)];
           return !closed || wait_s(c.limits) + snug_round_s(g) - age <= rest;
         });
}

// What takes everybody before all joints of these classes are open.
int ScheduleSearch::seconds_before_open(const State& s, std::uint32_t classes) {
  int joins = 0;
  for (const int b : s.blocks) {
    const std::uint32_t in_block = classes & view(b).classes;
    joins += in_block == 0 ? 0 : joins_to_open(b, in_block);
  }
  int seconds = joins * problem_.join_s;
  if (s.parted == 0) {
    seconds += problem_.closing_s - problem_.join_s;
  }
  if (s.phase == kToCheck || (s.phase == kLidOn && joins > 1)) {
    seconds += problem_.inside_check_s;
  }
  std::uint32_t groups = 0;
  for (std::size_t c = 0; c < classes_.size(); ++c) {
    for (const int b : s.blocks) {
      groups |= (classes >> c & 1u) != 0 ? view(b).waiting[c] : 0;
    }
  }
  for (std::size_t g = 0; g < s.age.size(); ++g) {
    if ((groups >> g & 1u) != 0 && s.age[g] < 0) {
      seconds += snug_round_s(static_cast<int>(g));
    }
  }
  return seconds;
}

bool ScheduleSearch::too_dear(const State& s) {
  if (first_only_ || !best_cost_) {
    return false;
  }
  OrderCost least = s.cost;
  std::vector<int> work;
  for (const Spreading& job : s.jobs) {
    work.push_back(job.seconds);
  }
  for (const int b : s.blocks) {
    for (const std::vector<int>& seconds : view(b).spreadings) {
      work.insert(work.end(), seconds.begin(), seconds.end());
    }
    if (problem_.ties == Ties::file_order_then_length) {
      const auto [wiped, disorder] = graph_.least_disorder(b);
      least.wiped_mm += wiped;
      least.out_of_order += disorder;
    }
  }
  std::ranges::sort(work, std::ranges::greater{});
  least.windows_s += least_seconds(work, problem_.people);
  if (problem_.ties == Ties::shortest) {
    return least.windows_s >= best_cost_->windows_s;
  }
  return least >= *best_cost_;
}

// Seconds until the first joint still closed, of a round already off, is past its total time. With
// one pair of hands a job due before that gains nothing by being put off: whatever goes before it
// instead is due later than the job itself.
int ScheduleSearch::urgent_limit(const State& s) {
  const bool waits = std::ranges::any_of(wait_of_, [](int wait) { return wait > 0; });
  if (problem_.people > 1 || waits) {
    return -kFar;
  }
  int limit = kFar;
  for (std::size_t c = 0; c < classes_.size(); ++c) {
    const JointTime& limits = classes_[c].limits;
    if (limits.group < 0 || s.age[static_cast<std::size_t>(limits.group)] < 0) {
      continue;
    }
    if (seconds_in(s, c) > 0) {
      const int age = s.age[static_cast<std::size_t>(limits.group)];
      // A shared budget shrinks with every second the joint stays closed.
      limit = std::min(limit, limits.closed_s > 0 ? -kFar : limits.total_s - slack_ - age);
    }
  }
  return limit;
}

std::string ScheduleSearch::key(const State& s) const {
  std::string k;
  const auto put = [&k](int v) {
    k.push_back(static_cast<char>(v & 0xff));
    k.push_back(static_cast<char>(v >> 8 & 0xff));
  };
  put(s.phase);
  for (const int b : s.blocks) {
    put(b & 0xffff);
    put(b >> 16);
  }
  put(-1);
  for (std::size_t g = 0; g < s.age.size(); ++g) {
    k.push_back(s.age[g] >= 0 ? '1' : '0');
  }
  for (const Spreading& job : s.jobs) {
    put(job.seconds);
  }
  return k;
}

std::vector<int> ScheduleSearch::left(const State& s) {
  std::vector<int> v;
  for (std::size_t g = 0; g < s.age.size(); ++g) {
    if (s.age[g] < 0) {
      continue;
    }
    bool counts = false;  // a joint it presses is still closed
    for (std::size_t c = 0; c < classes_.size(); ++c) {
      if (classes_[c].limits.group == static_cast<int>(g)) {
        for (const int b : s.blocks) {
          counts = counts || view(b).class_seconds[c] > 0;
        }
      }
    }
    if (counts) {
      v.push_back(-s.age[g]);
      if (wait_of_[g] > 0) {
        v.push_back(s.age[g]);  // for the wait, longer ago is easier
      }
    }
  }
  for (const Spreading& job : s.jobs) {
    v.push_back(job.left_s);
    v.push_back(-job.wait_s);
  }
  return v;
}

bool ScheduleSearch::explored(const std::string& k, const std::vector<int>& left,
                              const OrderCost& cost) const {
  const auto it = memo_.find(k);
  return it != memo_.end() && std::ranges::any_of(it->second, [&](const Explored& e) {
           const bool as_good =
               e.hopeless || (!first_only_ &&
                              (problem_.ties == Ties::shortest ? cost.windows_s >= e.cost.windows_s
                                                               : cost >= e.cost));
           return as_good && e.slack <= slack_ &&
                  std::ranges::equal(left, e.left, std::ranges::less_equal{});
         });
}

void ScheduleSearch::remember(std::string k, std::vector<int> left, const OrderCost& cost,
                              bool hopeless) {
  auto& list = memo_[std::move(k)];
  std::erase_if(list, [&](const Explored& e) {
    return hopeless && slack_ <= e.slack &&
           std::ranges::equal(e.left, left, std::ranges::less_equal{});
  });
  list.push_back({std::move(left), slack_, cost, hopeless});
}

}  // namespace planner::order
