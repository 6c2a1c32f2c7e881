// The search of stages.cpp: which boards are glued up first.
#pragma once
#include <map>
#include <optional>
#include <set>
#include <vector>

#include "planner/order/stage_bounds.h"
#include "planner/order/stage_candidates.h"

namespace planner::order {

class StageSearch {
 public:
  // `problem` must outlive it.
  StageSearch(const StageProblem& problem, const StageEffort& effort, KnownAssemblies known = {});

  enum class Answer { yes, no, unknown };

  // Is there a plan of so many stages? The best of them in `best()`.
  Answer with_stages(int count);
  // A plan made by gluing up as much as fits, again and again; best() on yes.
  bool greedy(int most_stages);

  // The plan's stages in order, each as the boards that go together.
  const std::vector<Boards>& best() const { return best_; }
  // The best plans of the last with_stages(), best first.
  std::vector<std::vector<Boards>> ranked() const;
  // Fewer are ruled out at a glance.
  int fewest() const { return fewest_.from(single_units(problem_.whole.assembly)); }
  StageOrder order(const Boards& boards, bool last);
  bool fits(const Boards& boards, bool last);

 private:
  // Looked at as much as the effort allows, or met plans enough to choose from.
  bool ended() const;
  struct Score {
    int slack_steps = 0, uneven_steps = 0;
    std::vector<base::UnitSet> groups;
    int seconds = 0;
    bool better_than(const Score& other) const;
  };

  // No clamps, or no time, without searching its orders.
  bool clearly_refuted(const Boards& boards);
  void search(const Boards& boards, int stages_left);
  std::vector<StageCandidate> candidates(const Boards& boards, int wanted_work_s);
  Score score(const std::vector<Boards>& plan);
  void finish(const Boards& last);
  const StageClamps& clamps_for(const std::vector<int>& joints);
  std::vector<int> key(const Boards& boards, bool last);
  int step_of(int seconds) const;

  const StageProblem& problem_;
  StageEffort effort_;
  KnownAssemblies known_;
  FewestStages fewest_;
  AssemblyGraph graph_;  // for the canonical ids of groups
  std::map<std::vector<int>, StageClamps> clamps_;
  std::map<std::vector<int>, bool> fits_;
  std::map<std::pair<Boards, bool>, StageOrder> orders_;
  std::vector<Boards> path_, best_;
  std::vector<std::pair<Score, std::vector<Boards>>> ranked_;  // best first, not more than a few
  std::set<std::vector<int>> hopeless_;  // boards and stages left from which no plan is met
  int plans_met_ = 0, most_met_ = 0;
  int looked_at_ = 0, limit_ = 0;
  KnownAssemblies trials_;  // of stages that may fit
  double work_ = 0, most_work_ = 0;
  double work_done() const { return work_ + trials_.work_done(); }
  bool cut_short_ = false;
};

}  // namespace planner::order
