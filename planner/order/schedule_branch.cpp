// Branch and bound of ScheduleSearch: what to try next.
#include <algorithm>

#include "planner/order/schedule_search.h"

namespace planner::order {
namespace {

// Ways of choosing what to spread in one window; beyond, only the likely ones.
constexpr std::size_t kMostChoices = 2048;
// Pauses for a glue that must stand before it is pressed come in quarters of a minute.
constexpr int kPauseStep_s = 15;
// Nodes that are looked at whoever waits: they take a search to its first order.
constexpr std::int64_t kFirstNodes = 500;

// Jobs of equal seconds are taken most urgent first (exchanging two of them never hurts), so a
// choice is a number of jobs for each length.
class Choices {
 public:
  Choices(const std::vector<Spreading>& jobs, int must_within_s, int next_s) {
    for (std::size_t i = 0; i < jobs.size(); ++i) {
      if (jobs[i].wait_s > 0) {
        continue;
      }
      if (ready_.empty() || jobs[i].seconds != ready_.back().seconds) {
        start_.push_back(ready_.size());
        most_.push_back(0);
        least_.push_back(0);
      }
      ready_.push_back(jobs[i]);
      ++most_.back();
      // Put off, it would have to wait for the next barrier and still be spread.
      const bool must =
          jobs[i].left_s <= must_within_s || jobs[i].left_s < next_s + jobs[i].seconds;
      least_.back() = must ? most_.back() : least_.back();
    }
    for (std::size_t k = 0; k < most_.size(); ++k) {
      size_ *= static_cast<std::size_t>(most_[k] - least_[k] + 1);
      cut_ = cut_ || size_ > kMostChoices;
      size_ = std::min(size_, kMostChoices);
    }
  }

  std::size_t size() const { return size_; }
  bool cut_short() const { return cut_; }

  // Number 0 is everything.
  std::vector<int> counts(std::size_t number) const {
    std::vector<int> result(most_.size());
    for (std::size_t k = 0; k < most_.size(); ++k) {
      const auto base = static_cast<std::size_t>(most_[k] - least_[k] + 1);
      result[k] = most_[k] - static_cast<int>(number % base);
      number /= base;
    }
    return result;
  }

  // The number of the choice with one job more of length k; nothing where all are in it.
  std::optional<std::size_t> with_one_more(std::size_t number, std::size_t k) const {
    std::size_t weight = 1;
    for (std::size_t i = 0; i < k; ++i) {
      weight *= static_cast<std::size_t>(most_[i] - least_[i] + 1);
    }
    const auto base = static_cast<std::size_t>(most_[k] - least_[k] + 1);
    if (number / weight % base == 0) {
      return std::nullopt;
    }
    return number - weight;
  }
  std::size_t lengths() const { return most_.size(); }

  std::vector<Spreading> chosen(const std::vector<int>& counts) const {
    std::vector<Spreading> result;
    for (std::size_t k = 0; k < counts.size(); ++k) {
      for (int i = 0; i < counts[k]; ++i) {
        result.push_back(ready_[start_[k] + static_cast<std::size_t>(i)]);
      }
    }
    std::ranges::stable_sort(result, {}, &Spreading::left_s);
    return result;
  }

 private:
  std::vector<Spreading> ready_;  // by seconds, then urgency
  std::vector<std::size_t> start_;
  std::vector<int> most_, least_;
  std::size_t size_ = 1;
  bool cut_ = false;
};

}  // namespace

ScheduleSearch::Answer ScheduleSearch::reachable(int slack_s, std::int64_t nodes) {
  slack_ = slack_s;
  first_only_ = true;
  out_of_nodes_ = false;
  node_limit_ = nodes_ + nodes;
  best_cost_.reset();
  if (slack_bound() < slack_s) {
    return Answer::no;
  }
  states_.assign(1, initial());
  path_.clear();
  if (search(0)) {
    return Answer::yes;
  }
  return out_of_nodes_ ? Answer::unknown : Answer::no;
}

ScheduleSearch::Answer ScheduleSearch::cheapest(int slack_s, std::int64_t nodes) {
  const Moves start = best_moves_;
  slack_ = slack_s;
  first_only_ = false;
  out_of_nodes_ = false;
  node_limit_ = nodes_ + nodes;
  best_cost_.reset();
  State s = initial(), next;
  bool valid = true;
  for (const Move& move : start) {
    valid = valid && follow(s, move, next);
    std::swap(s, next);
  }
  if (valid) {
    best_cost_ = s.cost;
  }
  states_.assign(1, initial());
  path_.clear();
  search(0);
  return out_of_nodes_ ? Answer::unknown : Answer::yes;
}

std::vector<SpreadWindow> ScheduleSearch::windows(const State& s) {
  int least_next = std::min(problem_.join_s, problem_.closing_s);
  for (std::size_t g = 0; g < s.age.size(); ++g) {
    if (s.age[g] < 0) {
      least_next = std::min(least_next, snug_round_s(static_cast<int>(g)));
    }
  }
  if (s.phase == kToCheck) {
    least_next = std::min(least_next, problem_.inside_check_s);
  }
  const Choices choices(s.jobs, urgent_limit(s), least_next);
  cut_short_ = cut_short_ || choices.cut_short();
  std::vector<std::optional<SpreadWindow>> all(choices.size());
  for (std::size_t i = 0; i < all.size(); ++i) {
    const std::vector<Spreading> jobs = choices.chosen(choices.counts(i));
    all[i] = shortest_window(jobs, problem_.people);
    cut_short_ = cut_short_ || (all[i] && !all[i]->shortest);
  }
  std::vector<SpreadWindow> result;
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (!all[i]) {
      continue;
    }
    bool idle_hands = false;  // somebody could spread one more at no cost
    for (std::size_t k = 0; problem_.people > 1 && k < choices.lengths(); ++k) {
      const auto more = choices.with_one_more(i, k);
      idle_hands = idle_hands || (more && all[*more] && all[*more]->length_s <= all[i]->length_s);
    }
    if (!idle_hands) {
      result.push_back(*all[i]);
    }
  }
  return result;
}

bool ScheduleSearch::given(const State& s, const Split& split) const {
  if (problem_.given_joins.empty()) {
    return true;
  }
  const auto& [a, b] =
      problem_.given_joins[problem_.given_joins.size() - 1 - static_cast<std::size_t>(s.parted)];
  return (split.first == a && split.second == b) || (split.first == b && split.second == a);
}

std::vector<Barrier> ScheduleSearch::barriers(const State& s) {
  std::vector<Barrier> result;
  const bool checked = s.phase != kToCheck;
  if (!checked) {
    result.push_back({Barrier::Kind::inside_check});
  }
  for (std::size_t i = 0; checked && i < s.blocks.size(); ++i) {
    if (i > 0 && s.blocks[i] == s.blocks[i - 1]) {
      continue;
    }
    const int block = s.blocks[i];
    const int most = view(block).needs.empty() ? 0 : static_cast<int>(view(block).needs.size());
    for (int k = 0; k < most; ++k) {
      const int index = first_only_ ? view(block).by_slack[static_cast<std::size_t>(k)] : k;
      const SplitNeeds needs = view(block).needs[static_cast<std::size_t>(index)];
      bool ready = needs.allowed && needs.slack >= slack_;
      for (std::size_t g = 0; g < s.age.size(); ++g) {
        ready = ready && ((needs.opens >> g & 1u) == 0 || s.age[g] >= 0);
      }
      if (!ready) {
        continue;
      }
      const Split split = graph_.splits(block)[static_cast<std::size_t>(index)];
      if (given(s, split) && bottleneck_.best_slack(split.first_id) >= slack_ &&
          bottleneck_.best_slack(split.second_id) >= slack_) {
        result.push_back({Barrier::Kind::part, -1, 0, block, index});
      }
    }
  }
  std::uint32_t still_snug = 0;
  for (std::size_t g = 0; g < s.age.size(); ++g) {
    still_snug |= s.age[g] < 0 ? 1u << g : 0;
  }
  for (std::size_t g = 0; g < s.age.size(); ++g) {
    const bool early =
        problem_.snug_before_inside_check && s.phase != kOpen && (closing_groups_ >> g & 1u) == 0;
    const bool waits = early || (snug_later_[g] & still_snug) != 0;
    for (int pause = 0; s.age[g] < 0 && !waits && pause < wait_of_[g] + kPauseStep_s;
         pause += kPauseStep_s) {
      result.push_back({Barrier::Kind::unsnug, static_cast<int>(g), pause});
    }
  }
  return result;
}

bool ScheduleSearch::follow(const State& from, const Move& move, State& to) {
  to = from;
  if (!follow_window(move.window, to)) {
    return false;
  }
  if (!move.barrier) {
    return true;
  }
  if (!advance(to, seconds_of(*move.barrier, to))) {
    return false;
  }
  switch (move.barrier->kind) {
    case Barrier::Kind::unsnug:
      to.age[static_cast<std::size_t>(move.barrier->group)] = seconds_of(*move.barrier, to);
      to.cost.windows_s += move.barrier->pause_s;
      return true;
    case Barrier::Kind::inside_check:
      to.phase = kOpen;
      return true;
    case Barrier::Kind::part:
      break;
  }
  return part(*move.barrier, to);
}

bool ScheduleSearch::finish(std::size_t depth) {
  const State& s = states_[depth];
  std::vector<Spreading> jobs = s.jobs;
  if (std::ranges::any_of(jobs, [](const Spreading& job) { return job.wait_s > 0; })) {
    return false;  // too short a pause before the round
  }
  std::ranges::stable_sort(jobs, {}, &Spreading::left_s);
  const auto window = shortest_window(jobs, problem_.people);
  if (!window) {
    return false;
  }
  OrderCost cost = s.cost;
  cost.windows_s += window->length_s;
  const bool better =
      !best_cost_ || (problem_.ties == Ties::shortest ? cost.windows_s < best_cost_->windows_s
                                                      : cost < *best_cost_);
  if (better) {
    best_cost_ = cost;
    best_moves_ = path_;
    best_slack_s_ = slack_;
    best_moves_.push_back({*window, std::nullopt});
  }
  return true;
}

bool ScheduleSearch::search(std::size_t depth) {
  if (nodes_ >= node_limit_ ||
      (nodes_ >= kFirstNodes && base::stop_requested(problem_.assembly.stop))) {
    out_of_nodes_ = true;
    return false;
  }
  ++nodes_;
  if (states_.size() < depth + 2) {
    states_.resize(depth + 2);
  }
  if (!enough_time(states_[depth]) || !waits_end(states_[depth]) || too_dear(states_[depth])) {
    return false;
  }
  const std::vector<Barrier> next = barriers(states_[depth]);
  if (next.empty()) {
    return states_[depth].blocks.empty() && states_[depth].phase == kOpen && finish(depth);
  }
  std::string k = key(states_[depth]);
  std::vector<int> l = left(states_[depth]);
  const OrderCost cost = states_[depth].cost;
  if (explored(k, l, cost)) {
    return false;
  }
  bool found = false;
  for (const SpreadWindow& window : windows(states_[depth])) {
    for (const Barrier& barrier : next) {
      path_.push_back({window, barrier});
      if (follow(states_[depth], path_.back(), states_[depth + 1])) {
        found = search(depth + 1) || found;
      }
      path_.pop_back();
      if (found && first_only_) {
        return true;
      }
    }
  }
  if (!out_of_nodes_) {
    remember(std::move(k), std::move(l), cost, first_only_);
  }
  return found;
}

}  // namespace planner::order
