#include "planner/order/stages.h"

#include <algorithm>

#include "planner/order/likeness.h"
#include "planner/order/stage_search.h"

namespace planner::order {
namespace {

constexpr int kMostStages = 12;
constexpr int kNoClamps = 1'000'000;  // seconds short, where the rack hasn't the clamps

int clamps_of(const StageOrder& stage) {
  int sum = 0;
  for (const SnugRound& round : stage.groups) {
    sum += round.clamps;
  }
  return sum;
}

base::UnitSet product(const StageOrder& stage) {
  base::UnitSet all;
  for (const base::UnitSet& board : stage.boards) {
    all = all | board;
  }
  return all;
}

// Each stage starts when the people are free, what it uses is out of clamps and the rack has the
// clamps it wants.
void lay_out(const StageProblem& problem, StageOrders& orders) {
  std::vector<int> off(orders.stages.size(), 0);
  int free = 0;
  for (std::size_t i = 0; i < orders.stages.size(); ++i) {
    StageOrder& stage = orders.stages[i];
    int start = free;
    for (std::size_t k = 0; k < i; ++k) {
      if (product(stage).covers(product(orders.stages[k]))) {
        start = std::max(start, off[k]);
      }
    }
    const auto in_use = [&](int at) {
      int sum = 0;
      for (std::size_t k = 0; k < i; ++k) {
        sum += off[k] > at ? clamps_of(orders.stages[k]) : 0;
      }
      return sum;
    };
    while (problem.clamps_owned > 0 && in_use(start) > 0 &&
           in_use(start) + clamps_of(stage) > problem.clamps_owned) {
      int next = 0;
      for (std::size_t k = 0; k < i; ++k) {
        next = off[k] > start && (next == 0 || off[k] < next) ? off[k] : next;
      }
      start = next;
    }
    stage.starts_s = start;
    free = start + stage.schedule.makespan_s;
    off[i] = free + problem.clamp_time_s;
    orders.total_s = std::max(orders.total_s, off[i]);
  }
}

StageOrders orders_of(const StageProblem& problem, StageSearch& search,
                      const std::vector<Boards>& plan) {
  StageOrders result;
  for (std::size_t i = 0; i < plan.size(); ++i) {
    result.stages.push_back(search.order(plan[i], i + 1 == plan.size()));
    const int slack = result.stages.back().schedule.slack_s;
    result.slack_s = i == 0 ? slack : std::min(result.slack_s, slack);
  }
  lay_out(problem, result);
  return result;
}

struct Found {
  bool any = false;  // the plan in search.best()
  int fewest = 1;    // fewer stages are ruled out
};

int most_stages(const StageProblem& problem) {
  return std::min(kMostStages, std::max(1, problem.whole.assembly.units - 1));
}

// Every plan of one stage, two, three and so on, as far as the effort goes; then as much at a time
// as fits.
Found by_trying(const StageProblem& problem, StageSearch& search) {
  for (int count = 1; count <= most_stages(problem); ++count) {
    const StageSearch::Answer answer = search.with_stages(count);
    if (answer == StageSearch::Answer::yes) {
      return {true, count};
    }
    if (answer == StageSearch::Answer::unknown) {
      return {search.greedy(kMostStages), count};
    }
  }
  return {false, most_stages(problem) + 1};
}

// The same by the estimate, which asks for no more clamps than there will be: what it rules out is
// ruled out. What it finds is laid out, likeliest first.
Found by_estimate(const StageProblem& problem, const StageEffort& effort, KnownAssemblies& known,
                  StageSearch& search) {
  StageProblem rough = problem;
  rough.clamps = problem.estimate;
  StageSearch estimate(rough, effort, known);
  Found found;
  bool ruled_out = true;
  for (int count = 1; count <= most_stages(problem); ++count) {
    const StageSearch::Answer answer =
        count == 1 ? search.with_stages(1) : estimate.with_stages(count);
    if (answer == StageSearch::Answer::yes &&
        (count == 1 || search.confirm(estimate.ranked(), effort.confirmed, effort.layouts))) {
      found.any = true;
      found.fewest = ruled_out ? count : found.fewest;
      return found;
    }
    ruled_out = ruled_out && answer == StageSearch::Answer::no;
    found.fewest = ruled_out ? count + 1 : found.fewest;
    if (answer == StageSearch::Answer::unknown && estimate.greedy(kMostStages)) {
      found.any = search.confirm({estimate.best()}, 1, effort.layouts);
      return found;
    }
  }
  return found;
}

// A join by itself, with the clamps that its joints ask for.
class JoinWithClamps {
 public:
  explicit JoinWithClamps(const StageProblem& problem)
      : problem_(problem), ask_(problem.estimate ? problem.estimate : problem.clamps) {}

  int operator()(const Split& split, bool last) {
    if (split.joints.empty() || asked_ >= kMostAsked) {
      return kFar;
    }
    ++asked_;
    const StageClamps clamps = ask_(split.joints);
    ScheduleProblem one = problem_.whole;
    one.groups = clamps.groups;
    for (std::size_t k = 0; k < split.joints.size(); ++k) {
      one.joints[static_cast<std::size_t>(split.joints[k])].group = clamps.group_of[k];
    }
    const int slack = slack_of_join_alone(one, split.joints, last ? one.closing_s : one.join_s);
    return clamps.enough ? slack : slack - kNoClamps;
  }

 private:
  static constexpr int kFar = 1'000'000;
  static constexpr int kMostAsked = 2000;  // clamp layouts are dear

  const StageProblem& problem_;
  ClampDemand ask_;
  int asked_ = 0;
};

// Why no staging is enough, where one join alone is too much with its clamps.
void name_unavoidable(const StageProblem& problem, KnownAssemblies& known, StageOrders& failed) {
  AssemblyGraph graph(known.ways_apart(with_likeness(problem.whole)));
  JoinBottleneck bottleneck(graph, JoinWithClamps(problem));
  const int slack = bottleneck.best_slack(graph.whole());
  const std::optional<Split> split = slack < 0 ? bottleneck.worst_join() : std::optional<Split>();
  if (!split) {
    return;
  }
  UnavoidableJoin join{split->first, split->second, {}, -slack, 0, -slack, 0};
  join.joints.assign(split->joints.begin(), split->joints.end());
  failed.rack_short = slack < -kNoClamps / 2;
  for (int people = problem.whole.people + 1; people <= 4 && join.people == 0; ++people) {
    StageProblem helped = problem;
    helped.whole.people = people;
    AssemblyGraph again(known.ways_apart(with_likeness(helped.whole)));
    JoinBottleneck eased(again, JoinWithClamps(helped));
    join.people = eased.best_slack(again.whole()) >= 0 ? people : 0;
  }
  if (failed.rack_short) {
    join.short_by_s = join.more_time_s = 0;
  }
  failed.unavoidable = join;
}

}  // namespace

std::optional<StageOrders> solve_with_stages(const StageProblem& problem, int stages,
                                             const StageEffort& effort) {
  const KnownAssemblies known;
  StageSearch search(problem, effort, known);
  bool found = false;
  if (problem.estimate) {
    StageProblem rough = problem;
    rough.clamps = problem.estimate;
    StageSearch estimate(rough, effort, known);
    found = estimate.with_stages(stages) == StageSearch::Answer::yes &&
            search.confirm(estimate.ranked(), effort.confirmed, effort.layouts);
  } else {
    found = search.with_stages(stages) == StageSearch::Answer::yes;
  }
  if (!found) {
    return std::nullopt;
  }
  StageOrders result = orders_of(problem, search, search.best());
  result.status = plan::Proof::bounded;
  return result;
}

std::vector<StageOrders> next_best_stages(const StageProblem& problem, const StageOrders& best,
                                          int most) {
  StageSearch search(problem, {});
  std::vector<StageOrders> out;
  if (search.with_stages(static_cast<int>(best.stages.size())) == StageSearch::Answer::yes) {
    for (const std::vector<Boards>& plan : search.ranked()) {
      if (plan != search.best() && static_cast<int>(out.size()) < most) {
        out.push_back(orders_of(problem, search, plan));
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
  lay_out(problem, failed);
  if (failed.unavoidable) {
    return failed;
  }
  const Found found =
      problem.estimate ? by_estimate(problem, effort, known, search) : by_trying(problem, search);
  if (found.any) {
    StageOrders result = orders_of(problem, search, search.best());
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
