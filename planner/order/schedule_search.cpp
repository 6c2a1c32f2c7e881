#include "planner/order/schedule_search.h"

#include <algorithm>

#include "planner/order/schedule_bounds.h"
#include "planner/order/schedule_branching.h"

namespace planner::order {
namespace {

// Nodes that are looked at whoever waits, until there is a first order.
constexpr std::int64_t kFirstNodes = 500;
// In the units of WaysApart::work().
constexpr double kWorkOfAMove = 30, kWorkOfANode = 100;

double work_of(ScheduleFacts& facts, const Moment& m) {
  return kWorkOfANode + 3 * static_cast<double>((m.blocks.size() + m.jobs.size()) *
                                                (facts.classes().size() + m.age.size()));
}

}  // namespace

void ScheduleSearch::start(int slack_s, bool any_wanted, std::int64_t nodes, double share) {
  slack_ = slack_s;
  any_wanted_ = any_wanted;
  out_of_nodes_ = false;
  node_limit_ = nodes_ + nodes;
  work_limit_ = facts_.graph().work_done() + share * facts_.graph().work_left();
  best_cost_.reset();
  moments_.assign(1, last_moment(facts_));
  path_.clear();
}

// What takes it to a first order is looked at whatever that costs.
bool ScheduleSearch::spent() {
  return nodes_ >= node_limit_ ||
         ((nodes_ >= kFirstNodes || !best_moves_.empty()) &&
          (facts_.graph().work_done() >= work_limit_ || facts_.graph().spent()));
}

ScheduleSearch::Answer ScheduleSearch::reachable(int slack_s, std::int64_t nodes, double share) {
  start(slack_s, true, nodes, share);
  if (slack_bound() < slack_s) {
    return Answer::no;
  }
  return search(0) ? Answer::yes : out_of_nodes_ ? Answer::unknown : Answer::no;
}

ScheduleSearch::Answer ScheduleSearch::cheapest(int slack_s, std::int64_t nodes) {
  start(slack_s, false, nodes, 1);
  Moment m = last_moment(facts_), next;
  bool valid = true;
  for (const Move& move : best_moves_) {
    valid = valid && follow(facts_, slack_, m, move, next);
    std::swap(m, next);
  }
  if (valid) {
    best_cost_ = m.cost;
  }
  search(0);
  return out_of_nodes_ ? Answer::unknown : Answer::yes;
}

// All that is left is spread first of all.
bool ScheduleSearch::finish(const Moment& first) {
  std::vector<Spreading> jobs = first.jobs;
  if (std::ranges::any_of(jobs, [](const Spreading& job) { return job.wait_s > 0; })) {
    return false;  // too short a pause before the round
  }
  std::ranges::stable_sort(jobs, {}, &Spreading::left_s);
  const auto window = shortest_window(jobs, facts_.problem().people);
  if (!window) {
    return false;
  }
  OrderCost cost = first.cost;
  cost.spent_s += window->length_s;
  if (!dearer_than_best(cost)) {
    best_cost_ = cost;
    best_moves_ = path_;
    best_slack_s_ = slack_;
    best_moves_.push_back({*window, std::nullopt});
  }
  return true;
}

bool ScheduleSearch::search(std::size_t depth) {
  if (spent()) {
    out_of_nodes_ = true;
    return false;
  }
  ++nodes_;
  facts_.graph().work(work_of(facts_, moments_[depth]));
  if (moments_.size() < depth + 2) {
    moments_.resize(depth + 2);
  }
  if (!enough_time(facts_, slack_, moments_[depth]) || !waits_end(facts_, moments_[depth]) ||
      (!any_wanted_ && best_cost_ && dearer_than_best(least_cost(facts_, moments_[depth])))) {
    return false;
  }
  const std::vector<Barrier> barriers = next_barriers(facts_, slack_, moments_[depth], any_wanted_);
  if (barriers.empty()) {
    return moments_[depth].blocks.empty() && moments_[depth].phase == Moment::Phase::open &&
           finish(moments_[depth]);
  }
  MomentMark mark = mark_of(facts_, moments_[depth]);
  const OrderCost cost = moments_[depth].cost;
  if (explored_.contains(mark, slack_, cost, any_wanted_)) {
    return false;
  }
  const WindowChoice choice = next_windows(facts_, slack_, moments_[depth]);
  cut_short_ = cut_short_ || choice.cut_short;
  facts_.graph().work(kWorkOfAMove * static_cast<double>(choice.windows.size() * barriers.size()));
  bool found = false;
  for (const SpreadWindow& window : choice.windows) {
    for (const Barrier& barrier : barriers) {
      path_.push_back({window, barrier});
      if (follow(facts_, slack_, moments_[depth], path_.back(), moments_[depth + 1])) {
        found = search(depth + 1) || found;
      }
      path_.pop_back();
      if (found && any_wanted_) {
        return true;
      }
    }
  }
  if (!out_of_nodes_) {
    explored_.add(std::move(mark), slack_, cost, any_wanted_);
  }
  return found;
}

}  // namespace planner::order
