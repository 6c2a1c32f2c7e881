#include "planner/stage_search.h"

#include <algorithm>
#include <cstdlib>
#include <set>
#include <tuple>

#include "planner/like_units.h"

namespace planner {
namespace {

// Groups considered for one stage; grids of unlike units have very many.
constexpr std::size_t kMostCandidates = 4000;

Boards joined(const Boards& boards, const UnitSet& group) {
  Boards then;
  for (const UnitSet& board : boards) {
    if (!group.covers(board)) {
      then.push_back(board);
    }
  }
  then.push_back(group);
  std::ranges::sort(then, {}, &UnitSet::lowest);
  return then;
}

}  // namespace

bool StageSearch::Score::better_than(const Score& o) const {
  if (slack_steps != o.slack_steps) {
    return slack_steps > o.slack_steps;
  }
  return std::tie(uneven_steps, groups, seconds) < std::tie(o.uneven_steps, o.groups, o.seconds);
}

StageSearch::StageSearch(const StageProblem& problem, const StageEffort& effort)
    : problem_(problem), effort_(effort), graph_(with_likeness(problem.whole)) {}

int StageSearch::step_of(int seconds) const {
  const int step = problem_.whole.step_s;
  return seconds / step - (seconds % step < 0 ? 1 : 0);
}

const StageClamps& StageSearch::clamps_for(const std::vector<int>& joints) {
  const auto it = clamps_.find(joints);
  return it != clamps_.end() ? it->second
                             : clamps_.emplace(joints, problem_.clamps(joints)).first->second;
}

std::vector<int> StageSearch::key(const Boards& boards, bool last) {
  std::vector<int> ids;
  for (const UnitSet& board : boards) {
    ids.push_back(graph_.id_of(board));
  }
  std::ranges::sort(ids);
  ids.push_back(last ? -1 : -2);
  return ids;
}

int StageSearch::work_s(const Boards& boards) const {
  const std::vector<int> joints = joints_between(problem_.whole.assembly, boards);
  int sum = 0;
  for (const int j : joints) {
    sum += problem_.whole.joints[static_cast<std::size_t>(j)].spread_s;
  }
  return sum / problem_.whole.people +
         (static_cast<int>(boards.size()) - 1) * problem_.whole.join_s;
}

// Joins that must take place once these joints are being spread: boards that only touch otherwise
// may be together before.
int StageSearch::joins_after(const Boards& boards, const std::vector<int>& joints) const {
  const AssemblyProblem& a = problem_.whole.assembly;
  std::vector<int> board(static_cast<std::size_t>(a.units), -1), root;
  for (std::size_t b = 0; b < boards.size(); ++b) {
    root.push_back(static_cast<int>(b));
    for (int u = boards[b].lowest(); u >= 0; u = boards[b].next(u)) {
      board[static_cast<std::size_t>(u)] = static_cast<int>(b);
    }
  }
  const auto at = [&board](int u) { return board[static_cast<std::size_t>(u)]; };
  const int n = static_cast<int>(boards.size());
  std::vector<bool> closes(static_cast<std::size_t>(n * n), false);
  for (const int j : joints) {
    const auto [u, v] = a.joints[static_cast<std::size_t>(j)];
    closes[static_cast<std::size_t>(at(u) * n + at(v))] = true;
    closes[static_cast<std::size_t>(at(v) * n + at(u))] = true;
  }
  int groups = n;
  for (int u = 0; u < a.units; ++u) {
    for (int v = u + 1; v < a.units; ++v) {
      if (at(u) < 0 || at(v) < 0 || !a.touching(u, v) ||
          closes[static_cast<std::size_t>(at(u) * n + at(v))]) {
        continue;
      }
      const int from = root[static_cast<std::size_t>(at(u))];
      const int to = root[static_cast<std::size_t>(at(v))];
      groups -= from != to ? 1 : 0;
      std::ranges::replace(root, from, to);
    }
  }
  return groups - 1;
}

// While a round's joints wait to be held, all of them are spread and joined.
bool StageSearch::clearly_too_much(const Boards& boards, const std::vector<int>& joints,
                                   const StageClamps& clamps) const {
  const ScheduleProblem& whole = problem_.whole;
  for (std::size_t g = 0; g < clamps.groups.size(); ++g) {
    int spread = 0, total = 0;
    std::vector<int> own;
    for (std::size_t k = 0; k < joints.size(); ++k) {
      if (clamps.group_of[k] == static_cast<int>(g)) {
        const JointTime& time = whole.joints[static_cast<std::size_t>(joints[k])];
        spread += time.spread_s;
        total = std::max(total, time.total_s);
        own.push_back(joints[k]);
      }
    }
    const SnugRound& round = clamps.groups[g];
    const int snug = (round.clamps + whole.people - 1) / whole.people * round.snug_s;
    if (!own.empty() &&
        spread / whole.people + snug + joins_after(boards, own) * whole.join_s > total) {
      return true;
    }
  }
  return false;
}

bool StageSearch::fits(const Boards& boards, bool last) {
  const std::vector<int> k = key(boards, last);
  if (const auto it = fits_.find(k); it != fits_.end()) {
    return it->second;
  }
  const std::vector<int> joints = joints_between(problem_.whole.assembly, boards);
  const StageClamps& clamps = clamps_for(joints);
  bool yes = clamps.enough && !clearly_too_much(boards, joints, clamps);
  if (yes) {
    if (looked_at_ >= limit_) {
      cut_short_ = true;
      return false;
    }
    ++looked_at_;
    const Fits answer =
        fits_in_time(stage_quotient(problem_, boards, clamps, last).problem, effort_.each);
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
  const StageQuotient quotient = stage_quotient(problem_, boards, clamps, last);
  StageOrder result = in_whole(quotient, clamps, solve_schedule(quotient.problem, effort_.each));
  return orders_.emplace(std::pair(boards, last), std::move(result)).first->second;
}

// Connected groups of boards, likely ones (that take their even share of the work) first. Of groups
// of like boards one stands for all.
std::vector<StageSearch::Candidate> StageSearch::candidates(const Boards& boards,
                                                            int wanted_work_s) {
  const int n = static_cast<int>(boards.size());
  const int lid = problem_.whole.closing_unit;
  std::vector<int> ids;
  std::vector<UnitSet> next_to;  // boards, by board
  std::vector<UnitSet> groups;   // sets of boards
  for (int b = 0; b < n; ++b) {
    const UnitSet& board = boards[static_cast<std::size_t>(b)];
    ids.push_back(graph_.id_of(board));
    next_to.push_back(touching(board, boards));
    if (lid < 0 || !board.contains(lid)) {
      groups.push_back(UnitSet::of(b));
    }
  }
  const std::size_t single = groups.size();
  std::set<std::vector<int>> seen;
  std::vector<Candidate> result;
  for (std::size_t i = 0; i < groups.size(); ++i) {
    const UnitSet group = groups[i];
    if (group.count() + 2 > n) {
      continue;
    }
    if (groups.size() > kMostCandidates) {
      cut_short_ = true;
      break;
    }
    UnitSet near;
    for (int b = group.lowest(); b >= 0; b = group.next(b)) {
      near = near | next_to[static_cast<std::size_t>(b)];
    }
    for (std::size_t k = 0; k < single; ++k) {
      const UnitSet larger = group | groups[k];
      if (larger == group || !near.intersects(groups[k])) {
        continue;
      }
      std::vector<int> kind;
      for (int b = larger.lowest(); b >= 0; b = larger.next(b)) {
        kind.push_back(ids[static_cast<std::size_t>(b)]);
      }
      std::ranges::sort(kind);
      if (seen.insert(kind).second) {
        groups.push_back(larger);
        result.push_back(candidate(boards, larger));
      }
    }
  }
  std::ranges::stable_sort(result, {}, [wanted_work_s](const Candidate& c) {
    return std::abs(c.work_s - wanted_work_s);
  });
  return result;
}

// The boards that a board touches.
UnitSet StageSearch::touching(const UnitSet& board, const Boards& boards) const {
  const AssemblyProblem& assembly = problem_.whole.assembly;
  UnitSet near, result;
  for (int u = board.lowest(); u >= 0; u = board.next(u)) {
    for (int v = 0; v < assembly.units; ++v) {
      if (assembly.touching(u, v) && !board.contains(v)) {
        near.insert(v);
      }
    }
  }
  for (std::size_t b = 0; b < boards.size(); ++b) {
    if (near.intersects(boards[b])) {
      result.insert(static_cast<int>(b));
    }
  }
  return result;
}

StageSearch::Candidate StageSearch::candidate(const Boards& boards, const UnitSet& group) const {
  Candidate c;
  for (int b = group.lowest(); b >= 0; b = group.next(b)) {
    c.boards.push_back(boards[static_cast<std::size_t>(b)]);
    c.group = c.group | c.boards.back();
  }
  c.then = joined(boards, c.group);
  c.work_s = work_s(c.boards);
  return c;
}

void StageSearch::finish(const Boards& last) {
  ++plans_met_;
  path_.push_back(last);
  Score score;
  int least = 1'000'000, longest = 0, shortest = 1'000'000;
  for (std::size_t i = 0; i < path_.size(); ++i) {
    const StageOrder o = order(path_[i], i + 1 == path_.size());
    least = std::min(least, o.schedule.slack_s);
    longest = std::max(longest, o.schedule.makespan_s);
    shortest = std::min(shortest, o.schedule.makespan_s);
    score.seconds += o.schedule.makespan_s;
    UnitSet all;
    for (const UnitSet& b : path_[i]) {
      all = all | b;
    }
    score.groups.push_back(all);
  }
  score.slack_steps = step_of(least);
  score.uneven_steps = step_of(longest - shortest);
  if (!best_score_ || score.better_than(*best_score_)) {
    best_score_ = score;
    best_ = path_;
  }
  path_.pop_back();
}

void StageSearch::search(const Boards& boards, int stages_left) {
  if (++looked_at_ > limit_) {
    cut_short_ = true;
    return;
  }
  if (stages_left == 1) {
    if (fits(boards, true)) {
      finish(boards);
    }
    return;
  }
  std::vector<int> k = key(boards, false);
  k.push_back(stages_left);
  if (hopeless_.contains(k)) {
    return;
  }
  const int plans = plans_met_;
  bool skipped = false;
  for (const Candidate& c : candidates(boards, work_s(boards) / stages_left)) {
    if (looked_at_ >= limit_) {
      cut_short_ = true;
      return;
    }
    // Two stages that need nothing of each other are taken in one order only.
    const bool uses_last = path_.empty() || std::ranges::any_of(c.boards, [this](const UnitSet& b) {
                             return b.covers(path_.back().front());
                           });
    if (!uses_last && c.group.lowest() < path_.back().front().lowest()) {
      skipped = true;
      continue;
    }
    if (fits(c.boards, false)) {
      path_.push_back(c.boards);
      search(c.then, stages_left - 1);
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
  best_.clear();
  best_score_.reset();
  path_.clear();
  Boards boards;
  for (int u = 0; u < problem_.whole.assembly.units; ++u) {
    boards.push_back(UnitSet::of(u));
  }
  search(boards, count);
  return best_score_ ? Answer::yes : cut_short_ ? Answer::unknown : Answer::no;
}

bool StageSearch::greedy(int most_stages) {
  limit_ = looked_at_ + effort_.stages;
  best_.clear();
  Boards boards;
  for (int u = 0; u < problem_.whole.assembly.units; ++u) {
    boards.push_back(UnitSet::of(u));
  }
  for (int stage = 0; stage < most_stages; ++stage) {
    if (fits(boards, true)) {
      best_.push_back(boards);
      return true;
    }
    bool found = false;
    for (const Candidate& c : candidates(boards, 1'000'000)) {
      if (fits(c.boards, false)) {
        best_.push_back(c.boards);
        boards = c.then;
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

}  // namespace planner
