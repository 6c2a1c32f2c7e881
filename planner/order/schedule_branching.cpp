#include "planner/order/schedule_branching.h"

#include <algorithm>

#include "planner/order/schedule_bounds.h"

namespace planner::order {
namespace {

// Ways of choosing what to spread in one window; beyond, only the likely ones.
constexpr std::size_t kMostChoices = 2048;
// Pauses for a glue that must stand before it is pressed come in quarters of a minute.
constexpr int kPauseStep_s = 15;

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

// The join that comes apart next, where the joins are given.
bool as_given(const ScheduleProblem& problem, const Moment& m, const Split& split) {
  if (problem.given_joins.empty()) {
    return true;
  }
  const auto& [a, b] =
      problem.given_joins[problem.given_joins.size() - 1 - static_cast<std::size_t>(m.parted)];
  return (split.first == a && split.second == b) || (split.first == b && split.second == a);
}

// Whatever comes next takes at least so long.
int least_barrier_s(const ScheduleFacts& facts, const Moment& m) {
  const ScheduleProblem& problem = facts.problem();
  int least = facts.least_joining_s();
  for (std::size_t g = 0; g < m.age.size(); ++g) {
    least = m.snug(g) ? std::min(least, unsnug_s(problem, static_cast<int>(g), m)) : least;
  }
  return m.phase == Moment::Phase::to_check ? std::min(least, problem.inside_check_s) : least;
}

void add_partings(ScheduleFacts& facts, int slack_s, const Moment& m, bool likeliest_first,
                  std::vector<Barrier>& barriers) {
  for (std::size_t i = 0; i < m.blocks.size(); ++i) {
    const int id = m.blocks[i];
    if (i > 0 && id == m.blocks[i - 1]) {
      continue;
    }
    const Block& block = facts.block(id);
    for (std::size_t k = 0; k < block.needs.size(); ++k) {
      const int index = likeliest_first ? block.by_slack[k] : static_cast<int>(k);
      const SplitNeeds& needs = block.needs[static_cast<std::size_t>(index)];
      bool ready = needs.allowed && needs.slack >= slack_s;
      for (std::size_t g = 0; g < m.age.size(); ++g) {
        ready = ready && ((needs.opens >> g & 1u) == 0 || !m.snug(g));
      }
      if (!ready) {
        continue;
      }
      const Split& split = facts.graph().splits(id)[static_cast<std::size_t>(index)];
      if (as_given(facts.problem(), m, split) &&
          facts.bottleneck().best_slack(split.first_id) >= slack_s &&
          facts.bottleneck().best_slack(split.second_id) >= slack_s) {
        barriers.push_back({Barrier::Kind::part, -1, 0, id, index});
      }
    }
  }
}

void add_unsnuggings(const ScheduleFacts& facts, const Moment& m, std::vector<Barrier>& barriers) {
  std::uint32_t still_snug = 0;
  for (std::size_t g = 0; g < m.age.size(); ++g) {
    still_snug |= m.snug(g) ? 1u << g : 0;
  }
  for (std::size_t g = 0; g < m.age.size(); ++g) {
    const bool early = facts.problem().snug_before_inside_check && m.phase != Moment::Phase::open &&
                       (facts.closing_groups() >> g & 1u) == 0;
    const bool waits = early || (facts.snug_later(g) & still_snug) != 0;
    for (int pause = 0; m.snug(g) && !waits && pause < facts.waits()[g] + kPauseStep_s;
         pause += kPauseStep_s) {
      barriers.push_back({Barrier::Kind::unsnug, static_cast<int>(g), pause});
    }
  }
}

}  // namespace

WindowChoice next_windows(ScheduleFacts& facts, int slack_s, const Moment& m) {
  const int people = facts.problem().people;
  const Choices choices(m.jobs, urgent_limit(facts, slack_s, m),
                        least_barrier_s(facts, m));
  WindowChoice result{{}, choices.cut_short()};
  std::vector<std::optional<SpreadWindow>> all(choices.size());
  for (std::size_t i = 0; i < all.size(); ++i) {
    all[i] = shortest_window(choices.chosen(choices.counts(i)), people);
    result.cut_short = result.cut_short || (all[i] && !all[i]->shortest);
  }
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (!all[i]) {
      continue;
    }
    bool idle_hands = false;  // somebody could spread one more at no cost
    for (std::size_t k = 0; people > 1 && k < choices.lengths(); ++k) {
      const auto more = choices.with_one_more(i, k);
      idle_hands = idle_hands || (more && all[*more] && all[*more]->length_s <= all[i]->length_s);
    }
    if (!idle_hands) {
      result.windows.push_back(*all[i]);
    }
  }
  return result;
}

std::vector<Barrier> next_barriers(ScheduleFacts& facts, int slack_s, const Moment& m,
                                   bool likeliest_first) {
  std::vector<Barrier> barriers;
  if (m.phase == Moment::Phase::to_check) {
    barriers.push_back({Barrier::Kind::inside_check});
  } else {
    add_partings(facts, slack_s, m, likeliest_first, barriers);
  }
  add_unsnuggings(facts, m, barriers);
  return barriers;
}

}  // namespace planner::order
