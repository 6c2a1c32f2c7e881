#include "planner/order/stages.h"

#include <algorithm>

#include "planner/order/likeness.h"
#include "planner/order/stage_search.h"

namespace planner::order {
namespace {

constexpr int kNoClamps = 1'000'000;  // seconds short, where the rack hasn't the clamps

StageOrders orders_of(StageSearch& search, const std::vector<Boards>& plan) {
  StageOrders result;
  for (std::size_t i = 0; i < plan.size(); ++i) {
    result.stages.push_back(search.order(plan[i], i + 1 == plan.size()));
    const int slack = result.stages.back().schedule.slack_s;
    result.slack_s = i == 0 ? slack : std::min(result.slack_s, slack);
  }
  return result;
}

struct Found {
  bool any = false;  // the plan in search.best()
  int fewest = 1;    // fewer stages are ruled out
};

int most_stages(const StageProblem& problem) {
  return std::min(problem.most, std::max(1, problem.whole.assembly.units - 1));
}

// Every plan of one stage, two, three and so on, as far as the effort goes; then as much at a time
// as fits.
Found by_trying(const StageProblem& problem, StageSearch& search) {
  const int least = std::max(problem.least, search.fewest());
  for (int count = least; count <= most_stages(problem); ++count) {
    const StageSearch::Answer answer = search.with_stages(count);
    if (answer == StageSearch::Answer::yes) {
      return {true, count};
    }
    if (answer == StageSearch::Answer::unknown) {
      const bool any = search.greedy(problem.most) &&
                       static_cast<int>(search.best().size()) >= problem.least;
      return {any, count};
    }
  }
  return {false, most_stages(problem) + 1};
}

// A join by itself, with the clamps that its joints ask for.
class JoinWithClamps {
 public:
  explicit JoinWithClamps(const StageProblem& problem)
      : clamps_(problem.clamps), one_(problem.whole) {}

  int operator()(const Split& split) {
    if (split.joints.empty() || asked_ >= kMostAsked) {
      return kFar;
    }
    ++asked_;
    const StageClamps clamps = clamps_(split.joints);
    one_.groups = clamps.groups;
    one_.rings = clamps.rings;
    for (RingFinish& ring : one_.rings) {
      ring.check_s = 0;  // the stage may have no ring to check
    }
    for (std::size_t k = 0; k < split.joints.size(); ++k) {
      one_.joints[static_cast<std::size_t>(split.joints[k])].group = clamps.group_of[k];
    }
    const int slack = slack_of_join_alone(one_, split.joints);
    return clamps.enough ? slack : slack - kNoClamps;
  }

 private:
  static constexpr int kMostAsked = 2000;  // clamp layouts are dear

  ClampDemand clamps_;
  ScheduleProblem one_;  // its groups and its joints' rounds are those of the join last asked for
  int asked_ = 0;
};

// Why no staging is enough, where one join alone is too much with its clamps.
void name_unavoidable(const StageProblem& problem, KnownAssemblies& known, StageOrders& failed) {
  AssemblyGraph graph(known.ways_apart(with_likeness(problem.whole)));
  graph.grant(Effort{}.work);
  JoinBottleneck bottleneck(graph, JoinWithClamps(problem));
  const int slack = bottleneck.best_slack(graph.whole());
  const std::optional<Split> split = slack < 0 ? bottleneck.worst_join() : std::optional<Split>();
  if (!split) {
    return;
  }
  UnavoidableJoin join{split->first, split->second, {}, -slack};
  join.joints.assign(split->joints.begin(), split->joints.end());
  failed.rack_short = slack < -kNoClamps / 2;
  if (failed.rack_short) {
    join.short_by_s = 0;
  }
  failed.unavoidable = join;
}

}  // namespace

std::vector<StageOrders> next_best_stages(const StageProblem& problem, const StageOrders& best,
                                          int most) {
  StageSearch search(problem, {});
  std::vector<StageOrders> out;
  if (search.with_stages(static_cast<int>(best.stages.size())) == StageSearch::Answer::yes) {
    for (const std::vector<Boards>& plan : search.ranked()) {
      if (plan != search.best() && static_cast<int>(out.size()) < most) {
        out.push_back(orders_of(search, plan));
        out.back().status = plan::Proof::bounded;
      }
    }
  }
  return out;
}

StageOrders solve_stages(const StageProblem& problem, const StageEffort& effort) {
  KnownAssemblies known;
  StageSearch search(problem, effort, known);
  StageOrders failed;
  failed.stages = {search.order(single_units(problem.whole.assembly), true)};
  failed.slack_s = failed.stages[0].schedule.slack_s;
  if (failed.stages[0].schedule.status == plan::Proof::impossible) {
    return failed;
  }
  failed.unavoidable = unavoidable_join(problem.whole, known);
  if (failed.unavoidable) {
    return failed;
  }
  const Found found = by_trying(problem, search);
  if (found.any) {
    StageOrders result = orders_of(search, search.best());
    result.fewest = found.fewest;
    result.status = found.fewest == static_cast<int>(result.stages.size()) ? plan::Proof::proven
                                                                           : plan::Proof::bounded;
    return result;
  }
  failed.fewest = found.fewest;
  name_unavoidable(problem, known, failed);
  return failed;
}

}  // namespace planner::order
