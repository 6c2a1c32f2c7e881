#include "planner/order/schedule.h"

#include <algorithm>
#include <limits>

#include "planner/order/likeness.h"
#include "planner/order/schedule_clock.h"
#include "planner/order/schedule_search.h"

namespace planner::order {
namespace {

using Answer = ScheduleSearch::Answer;

constexpr std::int64_t kGlance = 64;  // nodes
constexpr double kOfTheSlack = 0.75;  // of the work; what is left is for the cheapest order
constexpr double kShareOfQuestion = 0.25;       // for each question, of nodes and work

int floor_to_step(int seconds, int step) {
  const int rest = ((seconds % step) + step) % step;
  return seconds - rest;
}

class Solver {
 public:
  Solver(const ScheduleProblem& problem, const Effort& effort, KnownAssemblies& known)
      : problem_(problem),
        effort_(effort),
        known_(known),
        graph_(known.ways_apart(with_likeness(problem))),
        search_(problem_, graph_) {}

  Schedule solve() {
    const double before = graph_.work_done();
    graph_.grant(kOfTheSlack * effort_.work);
    Schedule result = solved();
    known_.add_work(graph_.work_done() - before);
    return result;
  }

 private:
  Schedule solved() {
    Schedule result;
    result.locked = graph_.locked_group();
    if (!result.locked.empty()) {
      result.no_order = NoOrder::locked;
      return result;
    }
    if (!most_slack(result)) {
      return result;
    }
    fill_clock(problem_, graph_, search_, result);
    result.nodes = search_.nodes();
    return result;
  }

  std::int64_t nodes_left() const {
    return std::max<std::int64_t>(1, effort_.nodes - search_.nodes());
  }

  // Of a shared budget, with the joint open all the time there is: each second beyond the open
  // limit takes closed_s / open_s of the closed time.
  int least_budget(const JointTime& t) const {
    return static_cast<int>(std::int64_t{t.closed_s} * (t.open_s - all_seconds()) / t.open_s) - 1;
  }

  // Longest the work can take: nobody ever needs to overrun by more.
  int all_seconds() const {
    int sum =
        problem_.assembly.units * problem_.most_joining_s() + problem_.inside_check_s;
    int longest_wait = 0;
    for (const JointTime& t : problem_.joints) {
      sum += t.spread_s;
      longest_wait = std::max(longest_wait, t.wait_s + 60);
    }
    for (int g = 0; g < static_cast<int>(problem_.groups.size()); ++g) {
      sum += problem_.snug_s(g) + longest_wait;
    }
    for (int ring = 0; ring < static_cast<int>(problem_.rings.size()); ++ring) {
      sum += problem_.finish_s(ring);
    }
    return sum;
  }

  // Nothing has more to spare, whatever was looked at.
  int shortest_limit() const {
    int shortest = std::numeric_limits<int>::max();
    for (const JointTime& t : problem_.joints) {
      shortest = std::min({shortest, t.open_s, t.total_s});
    }
    return shortest;
  }

  bool most_slack(Schedule& result);
  int slack_found();

  ScheduleProblem problem_;
  Effort effort_;
  KnownAssemblies& known_;
  AssemblyGraph graph_;
  ScheduleSearch search_;
};

int Solver::slack_found() {
  Schedule s;
  fill_clock(problem_, graph_, search_, s);
  return s.tightest < 0 ? 0 : s.slack_s;
}

// Bisection over the slack; what was proven hopeless at one slack is so at every larger one.
bool Solver::most_slack(Schedule& result) {
  const int step = problem_.step_s;
  int least = 0;
  for (const JointTime& t : problem_.joints) {
    least = std::min({least, t.open_s, t.total_s, t.closed_s > 0 ? least_budget(t) : 0});
  }
  int low = floor_to_step(least - all_seconds(), step);
  if (const Answer any = search_.reachable(low, effort_.nodes); any != Answer::yes) {
    result.no_order = any == Answer::no && !search_.cut_short()      ? NoOrder::too_heavy
                      : base::stop_requested(problem_.assembly.stop) ? NoOrder::stopped
                                                                     : NoOrder::cut_short;
    return false;
  }
  // First step known to be impossible: cheap refutations first, so that the bound is good even
  // where the search below gives up.
  int refuted = floor_to_step(search_.slack_bound(), step) + step;
  low = problem_.joints.empty() ? refuted - step : floor_to_step(slack_found(), step);
  for (int open = low; open + step < refuted;) {
    const int middle = open + (refuted - open) / step / 2 * step;
    const Answer answer = search_.reachable(middle, kGlance);
    (answer == Answer::no ? refuted : open) = middle;
    low = answer == Answer::yes ? std::max(middle, floor_to_step(slack_found(), step)) : low;
    open = std::max(open, low);
  }
  int unknown = refuted;  // first step not reached, proven or not
  while (low + step < unknown) {
    const int middle = low + (unknown - low) / step / 2 * step;
    const Answer answer = search_.reachable(middle, nodes_left() / 4, kShareOfQuestion);
    if (answer == Answer::yes) {
      low = std::max(middle, floor_to_step(slack_found(), step));
    } else {
      unknown = middle;
      refuted = answer == Answer::no ? middle : refuted;
    }
  }
  result.status =
      refuted == unknown && !search_.cut_short() ? plan::Proof::proven : plan::Proof::bounded;
  if (result.status == plan::Proof::bounded) {
    result.bound_s = std::min(refuted - 1, shortest_limit());
  }
  graph_.grant(std::max(0.0, graph_.work_left()) + (1 - kOfTheSlack) * effort_.work);
  if (search_.moves_slack_s() != low) {
    search_.reachable(low, effort_.nodes);
  }
  result.ties_settled =
      search_.cheapest(low, std::min(nodes_left(), effort_.nodes / 8 + 1)) == Answer::yes &&
      !search_.cut_short();
  return true;
}

}  // namespace

int ScheduleProblem::joining_s(std::span<const int> closes) const {
  int longest = 0, all_next = 0, most_next = 0;
  for (const int j : closes) {
    const JointTime& joint = joints[static_cast<std::size_t>(j)];
    longest = std::max(longest, joint.join_s);
    all_next += joint.next_s;
    most_next = std::max(most_next, joint.next_s);
  }
  return closes.empty() ? join_s : longest + all_next - most_next;
}

int ScheduleProblem::least_joining_s() const {
  int least = join_s;
  for (const JointTime& joint : joints) {
    least = std::min(least, joint.join_s);
  }
  return least;
}

int ScheduleProblem::most_joining_s() const {
  int longest = join_s, all_next = 0;
  for (const JointTime& joint : joints) {
    longest = std::max(longest, joint.join_s);
    all_next += joint.next_s;
  }
  return longest + all_next;
}

int ScheduleProblem::finish_s(int ring) const {
  const RingFinish& finish = rings[static_cast<std::size_t>(ring)];
  int sum = finish.tack_s + finish.check_s;
  for (const SnugRound& round : groups) {
    sum += round.ring == ring ? round.tightening_s(people) : 0;
  }
  return sum;
}

int ScheduleProblem::tightening_after_s(int group) const {
  int sum = 0;
  for (auto g = static_cast<std::size_t>(group) + 1; g < groups.size(); ++g) {
    const bool same = groups[g].ring == groups[static_cast<std::size_t>(group)].ring;
    sum += same ? groups[g].tightening_s(people) : 0;
  }
  return sum;
}

int slack_of(const JointTime& t, int spread_start_s, int joined_s, int held_s) {
  const int open = joined_s - spread_start_s;
  int slack = std::min(t.open_s - open, t.total_s - (held_s - spread_start_s));
  if (t.closed_s > 0) {
    const std::int64_t share = std::int64_t{t.closed_s} * (t.open_s - open);
    const std::int64_t allowed = share / t.open_s - (share % t.open_s < 0 ? 1 : 0);
    slack = std::min(slack, static_cast<int>(allowed) - (held_s - joined_s));
  }
  return slack;
}

int weight_g_of(const ScheduleProblem& problem, const base::UnitSet& units) {
  int sum = 0;
  for (int u = units.lowest(); u >= 0 && !problem.weight_g.empty(); u = units.next(u)) {
    sum += problem.weight_g[static_cast<std::size_t>(u)];
  }
  return sum;
}

Fits fits_in_time(const ScheduleProblem& problem, const Effort& effort, KnownAssemblies known) {
  if (base::stop_requested(problem.assembly.stop)) {
    return Fits::unknown;
  }
  AssemblyGraph graph(known.ways_apart(with_likeness(problem)));
  const double before = graph.work_done();
  graph.grant(effort.work);
  const bool locked = !graph.locked_group().empty();
  ScheduleSearch search(problem, graph);
  const Answer answer = locked ? Answer::no : search.reachable(0, effort.nodes);
  known.add_work(graph.work_done() - before);
  if (locked) {
    return Fits::no;
  }
  return answer == Answer::yes                         ? Fits::yes
         : answer == Answer::no && !search.cut_short() ? Fits::no
                                                       : Fits::unknown;
}

Schedule solve_schedule(const ScheduleProblem& problem, const Effort& effort,
                        KnownAssemblies known) {
  return Solver(problem, effort, known).solve();
}

}  // namespace planner::order
