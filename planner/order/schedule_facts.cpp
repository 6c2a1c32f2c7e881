#include "planner/order/schedule_facts.h"

#include <algorithm>
#include <map>
#include <numeric>

namespace planner::order {

ScheduleFacts::ScheduleFacts(const ScheduleProblem& problem, AssemblyGraph& graph)
    : problem_(problem),
      graph_(graph),
      bottleneck_(graph, by_own_limits(problem)),
      wait_of_(problem.groups.size(), 0),
      least_joining_s_(problem.least_joining_s()),
      closed_first_(problem.joints.size(), 0) {
  std::map<JointTime, int> known;
  for (const JointTime& joint : problem.joints) {
    JointTime limits = joint;
    limits.spread_s = limits.join_s = limits.next_s = 0;
    const auto [it, fresh] = known.try_emplace(limits, static_cast<int>(classes_.size()));
    if (fresh) {
      classes_.push_back(limits);
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
    const JointTime& joint = problem.joints[j];
    if (joint.group >= 0) {
      closed_first_[j] |= 1u << joint.group;
      int& wait = wait_of_[static_cast<std::size_t>(joint.group)];
      wait = std::max(wait, joint.wait_before_pressing_s());
      any_waits_ = any_waits_ || wait > 0;
    }
    waits_for_all_ &= ~closed_first_[j];
    const auto [a, b] = problem.assembly.joints[j];
    if (a == problem.closing_unit || b == problem.closing_unit) {
      closing_groups_ |= closed_first_[j];
    }
  }
  note_order_of_groups();
}

void ScheduleFacts::note_order_of_groups() {
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

Block& ScheduleFacts::block(int id) {
  const auto i = static_cast<std::size_t>(id);
  if (i >= blocks_.size()) {
    blocks_.resize(i + 64);
  }
  if (!blocks_[i].ready) {
    blocks_[i] = look_at(id);
  }
  return blocks_[i];
}

Block ScheduleFacts::look_at(int id) {
  Block block;
  block.ready = true;
  block.class_seconds.assign(classes_.size(), 0);
  block.waiting.assign(classes_.size(), 0);
  block.spreadings.resize(classes_.size());
  const base::UnitSet units = graph_.canonical(id);
  for (std::size_t j = 0; j < problem_.joints.size(); ++j) {
    const auto [a, b] = graph_.problem().joints[j];
    if (units.contains(a) && units.contains(b)) {
      const auto c = static_cast<std::size_t>(class_of_[j]);
      block.spreadings[c].push_back(problem_.joints[j].spread_s);
      block.waiting[c] |= closed_first_[j];
      block.class_seconds[c] += problem_.joints[j].spread_s;
      block.classes |= c < kMostClasses ? 1u << c : 0;
    }
  }
  for (const Split& split : graph_.splits(id)) {
    SplitNeeds needs = needs_of(id, split);
    needs.slack = bottleneck_.split_slack(split);
    block.needs.push_back(needs);
  }
  block.by_slack.resize(block.needs.size());
  std::iota(block.by_slack.begin(), block.by_slack.end(), 0);
  std::ranges::stable_sort(block.by_slack, std::ranges::greater{}, [&block](int i) {
    return block.needs[static_cast<std::size_t>(i)].slack;
  });
  return block;
}

SplitNeeds ScheduleFacts::needs_of(int id, const Split& split) const {
  SplitNeeds needs;
  for (const int j : split.joints) {
    needs.opens |= closed_first_[static_cast<std::size_t>(j)];
  }
  const int lifted_g =
      std::min(weight_g_of(problem_, split.first), weight_g_of(problem_, split.second));
  needs.allowed = lifted_g <= problem_.people * kOnePersonLifts_g;
  if (graph_.size(id) == problem_.assembly.units) {
    needs.opens |= waits_for_all_;
  }
  for (const auto& [a, b] : problem_.joins_left_out) {
    const int first = graph_.id_of(a), second = graph_.id_of(b);
    const bool alike = (first == split.first_id && second == split.second_id) ||
                       (first == split.second_id && second == split.first_id);
    needs.allowed = needs.allowed && !(alike && graph_.id_of(a | b) == id);
  }
  const int lid = problem_.closing_unit;
  if (lid >= 0 && graph_.size(id) == problem_.assembly.units &&
      split.first != base::UnitSet::of(lid) && split.second != base::UnitSet::of(lid)) {
    needs.allowed = false;  // something else would go on last
  }
  return needs;
}

int ScheduleFacts::joins_to_open(int id, std::uint32_t classes) {
  auto& known = block(id).joins_to_open;
  if (const auto it = known.find(classes); it != known.end()) {
    return it->second;
  }
  const AssemblyProblem& p = graph_.problem();
  const base::UnitSet units = graph_.canonical(id);
  std::vector<int> root(static_cast<std::size_t>(p.units));
  std::iota(root.begin(), root.end(), 0);
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
  return known[classes] = groups - 1;
}

}  // namespace planner::order
