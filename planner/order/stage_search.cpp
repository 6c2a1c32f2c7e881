#include "planner/order/stage_search.h"

#include <algorithm>
#include <tuple>

#include "planner/order/likeness.h"

namespace planner::order {
namespace {

constexpr std::size_t kMostRanked = 32;
// By board and joint of the whole, in the units of WaysApart::work().
constexpr double kWorkOfACandidate = 2;
// Of what a stage's joints ask of the rack, by pairs of them: rings are looked for.
constexpr double kWorkOfADemand = 0.25;

}  // namespace

bool StageSearch::Score::better_than(const Score& o) const {
  if (slack_steps != o.slack_steps) {
    return slack_steps > o.slack_steps;
  }
  return std::tie(uneven_steps, groups, seconds) < std::tie(o.uneven_steps, o.groups, o.seconds);
}

StageSearch::StageSearch(const StageProblem& problem, const StageEffort& effort,
                         KnownAssemblies known)
    : problem_(problem),
      effort_(effort),
      known_(std::move(known)),
      fewest_(problem),
      graph_(known_.ways_apart(with_likeness(problem.whole))) {}

int StageSearch::step_of(int seconds) const {
  const int step = problem_.whole.step_s;
  return seconds / step - (seconds % step < 0 ? 1 : 0);
}

const StageClamps& StageSearch::clamps_for(const std::vector<int>& joints) {
  const auto it = clamps_.find(joints);
  if (it != clamps_.end()) {
    return it->second;
  }
  work_ += kWorkOfADemand * static_cast<double>(joints.size() * joints.size());
  return clamps_.emplace(joints, problem_.clamps(joints)).first->second;
}

std::vector<int> StageSearch::key(const Boards& boards, bool last) {
  std::vector<int> ids;
  for (const base::UnitSet& board : boards) {
    ids.push_back(graph_.id_of(board));
  }
  std::ranges::sort(ids);
  ids.push_back(last ? -1 : -2);
  return ids;
}

bool StageSearch::ended() const {
  return looked_at_ >= limit_ || plans_met_ >= most_met_ || work_done() >= most_work_ ||
         base::stop_requested(problem_.whole.assembly.stop);
}

bool StageSearch::clearly_refuted(const Boards& boards) {
  const std::vector<int> joints = joints_between(problem_.whole.assembly, boards);
  const StageClamps& clamps = clamps_for(joints);
  return !clamps.enough || clearly_too_much(problem_.whole, boards, joints, clamps);
}

bool StageSearch::fits(const Boards& boards, bool last) {
  const std::vector<int> k = key(boards, last);
  if (const auto it = fits_.find(k); it != fits_.end()) {
    return it->second;
  }
  bool yes = !clearly_refuted(boards);
  if (yes) {
    if (ended()) {
      cut_short_ = true;
      return false;
    }
    ++looked_at_;
    const std::vector<int> joints = joints_between(problem_.whole.assembly, boards);
    const Fits answer =
        fits_in_time(merged_boards(problem_, boards, clamps_for(joints), last).problem, effort_.each, trials_);
    cut_short_ = cut_short_ || answer == Fits::unknown;
    yes = answer == Fits::yes;
  }
  fits_.emplace(k, yes);
  return yes;
}

StageOrder StageSearch::order(const Boards& boards, bool last) {
  const auto it = orders_.find({boards, last});
  if (it != orders_.end()) {
    return it->second;
  }
  const StageClamps& clamps = clamps_for(joints_between(problem_.whole.assembly, boards));
  const StageQuotient quotient = merged_boards(problem_, boards, clamps, last);
  StageOrder result =
      in_whole(quotient, clamps, solve_schedule(quotient.problem, effort_.each, trials_));
  return orders_.emplace(std::pair(boards, last), std::move(result)).first->second;
}

StageSearch::Score StageSearch::score(const std::vector<Boards>& plan) {
  Score score;
  int least = 1'000'000, longest = 0, shortest = 1'000'000;
  for (std::size_t i = 0; i < plan.size(); ++i) {
    const StageOrder o = order(plan[i], i + 1 == plan.size());
    least = std::min(least, o.schedule.slack_s);
    longest = std::max(longest, o.schedule.makespan_s);
    shortest = std::min(shortest, o.schedule.makespan_s);
    score.seconds += o.schedule.makespan_s;
    base::UnitSet all;
    for (const base::UnitSet& b : plan[i]) {
      all = all | b;
    }
    score.groups.push_back(all);
  }
  score.slack_steps = step_of(least);
  score.uneven_steps = step_of(longest - shortest);
  return score;
}

void StageSearch::finish(const Boards& last) {
  ++plans_met_;
  path_.push_back(last);
  std::pair<Score, std::vector<Boards>> plan{score(path_), path_};
  path_.pop_back();
  const auto at = std::ranges::find_if(
      ranked_, [&plan](const auto& other) { return plan.first.better_than(other.first); });
  ranked_.insert(at, std::move(plan));
  if (ranked_.size() > kMostRanked) {
    ranked_.pop_back();
  }
}

std::vector<std::vector<Boards>> StageSearch::ranked() const {
  std::vector<std::vector<Boards>> plans;
  for (const auto& [score, plan] : ranked_) {
    plans.push_back(plan);
  }
  return plans;
}

std::vector<StageCandidate> StageSearch::candidates(const Boards& boards, int wanted_work_s) {
  StageCandidates found = stage_candidates(problem_.whole, graph_, boards, wanted_work_s);
  cut_short_ = cut_short_ || found.cut_short;
  work_ += kWorkOfACandidate * static_cast<double>(found.list.size() *
                                                   (boards.size() + problem_.whole.joints.size()));
  return std::move(found.list);
}

void StageSearch::search(const Boards& boards, int stages_left) {
  if (ended()) {
    cut_short_ = true;
    return;
  }
  ++looked_at_;
  if (stages_left == 1) {
    if (fits(boards, true)) {
      finish(boards);
    }
    return;
  }
  std::vector<int> k = key(boards, false);
  k.push_back(stages_left);
  if (hopeless_.contains(k) || fewest_.from(boards) > stages_left) {
    return;
  }
  const int plans = plans_met_;
  bool skipped = false;
  for (const StageCandidate& c : candidates(boards, work_s(problem_.whole, boards) / stages_left)) {
    if (ended()) {
      cut_short_ = true;
      return;
    }
    // Two stages that need nothing of each other are taken in one order only.
    const bool uses_last =
        path_.empty() || std::ranges::any_of(c.boards, [this](const base::UnitSet& b) {
          return b.covers(path_.back().front());
        });
    if (!uses_last && c.group.lowest() < path_.back().front().lowest()) {
      skipped = true;
      continue;
    }
    const Boards rest = with_joined(boards, c.group);
    // The last stage is often refuted for less than the one before is searched.
    if ((stages_left > 2 || !clearly_refuted(rest)) && fits(c.boards, false)) {
      path_.push_back(c.boards);
      search(rest, stages_left - 1);
      path_.pop_back();
    }
  }
  if (plans_met_ == plans && !skipped) {
    hopeless_.insert(std::move(k));
  }
}

StageSearch::Answer StageSearch::with_stages(int count) {
  cut_short_ = false;
  limit_ = looked_at_ + effort_.stages;
  most_work_ = work_done() + effort_.work;
  most_met_ = plans_met_ + std::max(1, effort_.plans / problem_.whole.assembly.units);
  best_.clear();
  ranked_.clear();
  path_.clear();
  search(single_units(problem_.whole.assembly), count);
  if (ranked_.empty()) {
    return cut_short_ ? Answer::unknown : Answer::no;
  }
  best_ = ranked_.front().second;
  return Answer::yes;
}

bool StageSearch::greedy(int most_stages) {
  limit_ = looked_at_ + effort_.stages;
  most_work_ = work_done() + effort_.work;
  most_met_ = plans_met_ + 1;
  best_.clear();
  Boards boards = single_units(problem_.whole.assembly);
  for (int stage = 0; stage < most_stages; ++stage) {
    if (fits(boards, true)) {
      best_.push_back(boards);
      return true;
    }
    bool found = false;
    std::vector<StageCandidate> all = candidates(boards, 1'000'000);
    // Of rows and layers something straight is left; of whatever else is larger, perhaps not.
    std::stable_partition(all.begin(), all.end(), [](const StageCandidate& c) { return c.slab; });
    for (const StageCandidate& c : all) {
      if (fits(c.boards, false)) {
        best_.push_back(c.boards);
        boards = with_joined(boards, c.group);
        found = true;
        break;
      }
    }
    if (!found) {
      return false;
    }
  }
  return false;
}

}  // namespace planner::order
