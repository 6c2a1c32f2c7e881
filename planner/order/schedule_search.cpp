#include "planner/order/schedule_search.h"

#include <algorithm>
#include <bit>
#include <limits>
#include <map>

namespace planner::order {
namespace {

int ceil_div(int a, int b) {
  return (a + b - 1) / b;
}

}  // namespace

std::optional<int> spreading_left_s(const JointTime& t, int slack_s, int closed_s, int join_s) {
  int open = std::min(t.open_s - slack_s, t.total_s - slack_s - closed_s);
  if (t.closed_s > 0) {
    const std::int64_t rest = t.closed_s - slack_s - closed_s;
    if (rest < 0) {
      return std::nullopt;
    }
    open = static_cast<int>(std::min<std::int64_t>(open, t.open_s * rest / t.closed_s));
  }
  return open - join_s;
}

ScheduleSearch::ScheduleSearch(const ScheduleProblem& problem, AssemblyGraph& graph)
    : problem_(problem),
      graph_(graph),
      bottleneck_(graph, by_own_limits(problem)),
      wait_of_(problem.groups.size(), 0),
      closed_first_(problem.joints.size(), 0) {
  std::map<JointTime, int> known;
  for (const JointTime& joint : problem.joints) {
    JointTime limits = joint;
    limits.spread_s = 0;
    const auto [it, fresh] = known.try_emplace(limits, static_cast<int>(classes_.size()));
    if (fresh) {
      classes_.push_back({limits, limits.group < 0 ? 0 : snug_round_s(limits.group)});
    }
    class_of_.push_back(it->second);
  }
  for (std::size_t g = 0; g < problem.groups.size(); ++g) {
    for (const int j : problem.groups[g].closed_first) {
      closed_first_[static_cast<std::size_t>(j)] |= 1u << g;
    }
    waits_for_all_ |= 1u << g;
  }
  for (std::size_t j = 0; j < problem.joints.size(); ++j) {
    if (problem.joints[j].group >= 0) {
      closed_first_[j] |= 1u << problem.joints[j].group;
      int& wait = wait_of_[static_cast<std::size_t>(problem.joints[j].group)];
      wait = std::max(wait, wait_s(problem.joints[j]));
    }
    waits_for_all_ &= ~closed_first_[j];
    const auto [a, b] = problem.assembly.joints[j];
    if (a == problem.closing_unit || b == problem.closing_unit) {
      closing_groups_ |= closed_first_[j];
    }
  }
  note_order_of_groups();
}

void ScheduleSearch::note_order_of_groups() {
  snug_later_.assign(problem_.groups.size(), 0);
  closing_groups_ |= waits_for_all_;
  for (std::size_t pass = 0; pass < problem_.groups.size(); ++pass) {
    for (std::size_t g = 0; g < problem_.groups.size(); ++g) {
      for (const int first : problem_.groups[g].after) {
        snug_later_[static_cast<std::size_t>(first)] |= 1u << g;
        closing_groups_ |= (closing_groups_ >> first & 1u) << g;
      }
    }
  }
}

int ScheduleSearch::snug_round_s(int group) const {
  const SnugRound& g = problem_.groups[static_cast<std::size_t>(group)];
  return ceil_div(g.clamps, problem_.people) * g.snug_s;
}
int ScheduleSearch::tighten_round_s(int group) const {
  const SnugRound& g = problem_.groups[static_cast<std::size_t>(group)];
  return ceil_div(g.clamps, problem_.people) * g.tighten_s;
}

int ScheduleSearch::wait_s(const JointTime& joint) {
  return joint.group < 0 ? 0 : joint.wait_s;
}

// ---- what a group's ways apart need, worked out once ----

ScheduleSearch::BlockView& ScheduleSearch::view(int block) {
  if (static_cast<std::size_t>(block) >= views_.size()) {
    views_.resize(static_cast<std::size_t>(block) + 64);
  }
  if (!views_[static_cast<std::size_t>(block)].ready) {
    fill_view(block);
  }
  return views_[static_cast<std::size_t>(block)];
}

void ScheduleSearch::fill_view(int block) {
  BlockView v;
  v.ready = true;
  v.class_seconds.assign(classes_.size(), 0);
  v.waiting.assign(classes_.size(), 0);
  v.spreadings.resize(classes_.size());
  const base::UnitSet units = graph_.canonical(block);
  for (std::size_t j = 0; j < problem_.joints.size(); ++j) {
    const auto [a, b] = graph_.problem().joints[j];
    if (units.contains(a) && units.contains(b)) {
      const auto c = static_cast<std::size_t>(class_of_[j]);
      v.spreadings[c].push_back(problem_.joints[j].spread_s);
      v.waiting[c] |= closed_first_[j];
      v.class_seconds[c] += problem_.joints[j].spread_s;
      v.classes |= c < 32 ? 1u << c : 0;
    }
  }
  for (const Split& s : graph_.splits(block)) {
    SplitNeeds needs = needs_of(block, s);
    needs.slack = bottleneck_.split_slack(block, s);
    v.needs.push_back(needs);
    v.by_slack.push_back(static_cast<int>(v.by_slack.size()));
  }
  std::ranges::stable_sort(v.by_slack, std::ranges::greater{},
                           [&v](int i) { return v.needs[static_cast<std::size_t>(i)].slack; });
  views_[static_cast<std::size_t>(block)] = std::move(v);
}

ScheduleSearch::SplitNeeds ScheduleSearch::needs_of(int block, const Split& split) const {
  SplitNeeds needs;
  for (const int j : split.joints) {
    needs.opens |= closed_first_[static_cast<std::size_t>(j)];
  }
  const int lifted_g =
      std::min(weight_g_of(problem_, split.first), weight_g_of(problem_, split.second));
  needs.allowed = lifted_g <= problem_.people * kOnePersonLifts_g;
  if (graph_.size(block) == problem_.assembly.units) {
    needs.opens |= waits_for_all_;
  }
  for (const auto& [a, b] : problem_.joins_left_out) {
    const int first = graph_.id_of(a), second = graph_.id_of(b);
    const bool alike = (first == split.first_id && second == split.second_id) ||
                       (first == split.second_id && second == split.first_id);
    needs.allowed = needs.allowed && !(alike && graph_.id_of(a | b) == block);
  }
  const int lid = problem_.closing_unit;
  if (lid >= 0 && graph_.size(block) == problem_.assembly.units &&
      split.first != base::UnitSet::of(lid) && split.second != base::UnitSet::of(lid)) {
    needs.allowed = false;  // something else would go on last
  }
  return needs;
}

int ScheduleSearch::slack_bound() {
  return bottleneck_.best_slack(graph_.whole());
}

// Joins that must come apart before every joint of these classes is open: units that only other
// contacts hold together may stay together.
int ScheduleSearch::joins_to_open(int block, std::uint32_t classes) {
  auto& known = view(block).joins_to_open;
  if (const auto it = known.find(classes); it != known.end()) {
    return it->second;
  }
  const AssemblyProblem& p = graph_.problem();
  const base::UnitSet units = graph_.canonical(block);
  std::vector<int> root(static_cast<std::size_t>(p.units));
  for (int u = 0; u < p.units; ++u) {
    root[static_cast<std::size_t>(u)] = u;
  }
  const auto find = [&root](int u) {
    while (root[static_cast<std::size_t>(u)] != u) {
      u = root[static_cast<std::size_t>(u)];
    }
    return u;
  };
  std::vector<bool> must_part(static_cast<std::size_t>(p.units * p.units), false);
  for (std::size_t j = 0; j < p.joints.size(); ++j) {
    if ((classes >> class_of_[j] & 1u) != 0) {
      const auto [a, b] = p.joints[j];
      must_part[static_cast<std::size_t>(a * p.units + b)] = true;
      must_part[static_cast<std::size_t>(b * p.units + a)] = true;
    }
  }
  int groups = units.count();
  for (int a = units.lowest(); a >= 0; a = units.next(a)) {
    for (int b = units.next(a); b >= 0; b = units.next(b)) {
      if (p.touching(a, b) && !must_part[static_cast<std::size_t>(a * p.units + b)] &&
          find(a) != find(b)) {
        root[static_cast<std::size_t>(find(a))] = find(b);
        --groups;
      }
    }
  }
  return view(block).joins_to_open[classes] = groups - 1;
}

// ---- moving backwards ----

ScheduleSearch::State ScheduleSearch::initial() const {
  State s;
  if (problem_.assembly.units > 1) {
    s.blocks = {graph_.whole()};
  }
  s.age.assign(problem_.groups.size(), -1);
  s.phase = problem_.closing_unit >= 0 ? kLidOn : kOpen;
  return s;
}

bool ScheduleSearch::advance(State& s, int seconds) const {
  for (int& age : s.age) {
    age += age >= 0 ? seconds : 0;
  }
  for (Spreading& job : s.jobs) {
    job.left_s -= seconds;
    job.wait_s = std::max(0, job.wait_s - seconds);
    if (job.left_s < job.seconds) {
      return false;
    }
  }
  return true;
}

bool ScheduleSearch::follow_window(const SpreadWindow& window, State& s) const {
  for (const PlacedSpreading& placed : window.placed) {
    const auto job = std::ranges::find(s.jobs, placed.what);
    if (job == s.jobs.end()) {
      return false;
    }
    s.jobs.erase(job);
  }
  s.cost.windows_s += window.length_s;
  return advance(s, window.length_s);
}

int ScheduleSearch::seconds_of(const Barrier& barrier, const State& s) const {
  switch (barrier.kind) {
    case Barrier::Kind::unsnug:
      return snug_round_s(barrier.group) + barrier.pause_s;
    case Barrier::Kind::inside_check:
      return problem_.inside_check_s;
    case Barrier::Kind::part:
      break;
  }
  return s.parted == 0 ? problem_.closing_s : problem_.join_s;
}

bool ScheduleSearch::release(int joint, int join_s, State& s) const {
  const JointTime& t = problem_.joints[static_cast<std::size_t>(joint)];
  // The round's age includes the join.
  const int closed = t.group < 0 ? 0 : s.age[static_cast<std::size_t>(t.group)] - join_s;
  const std::optional<int> left = spreading_left_s(t, slack_, closed, join_s);
  if (!left || *left < t.spread_s) {
    return false;
  }
  const int pressed = t.group < 0 ? 0 : snug_round_s(t.group);
  const Spreading job{t.spread_s, *left, std::max(0, wait_s(t) + pressed - closed - join_s)};
  s.jobs.insert(std::ranges::upper_bound(s.jobs, job), job);
  return true;
}

bool ScheduleSearch::part(const Barrier& barrier, State& s) {
  const int join_s = seconds_of(barrier, s);
  const SplitNeeds needs = view(barrier.block).needs[static_cast<std::size_t>(barrier.split)];
  const Split& split = graph_.splits(barrier.block)[static_cast<std::size_t>(barrier.split)];
  for (const int j : split.joints) {
    if (!release(j, join_s, s)) {
      return false;
    }
  }
  s.opened |= needs.opens;
  for (std::size_t g = 0; g < s.age.size(); ++g) {
    // All its joints were closed before this join: it could have been snug by then.
    s.cost.late_snug += s.age[g] >= 0 && (s.opened >> g & 1u) == 0 ? 1 : 0;
  }
  s.blocks.erase(std::ranges::find(s.blocks, barrier.block));
  for (const int half : {split.first_id, split.second_id}) {
    if (graph_.size(half) > 1) {
      s.blocks.insert(std::ranges::upper_bound(s.blocks, half), half);
    }
  }
  s.cost.wiped_mm += split.wiped_mm;
  s.cost.out_of_order += split.out_of_order;
  s.cost.moved += (split.moving == 0 ? split.first : split.second).count() - 1;
  ++s.parted;
  if (s.phase == kLidOn) {
    s.phase = kToCheck;
  }
  return true;
}

}  // namespace planner::order
