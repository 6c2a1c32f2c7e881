#include "planner/order/assembly.h"

#include <algorithm>

#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/strong_components.hpp>

namespace planner::order {
namespace {

// Taking all ways apart of a group of many unlike units would not end.
constexpr std::size_t kMostGroups = 6000;
// Ways apart that are enough to go on with, where nobody waits for the best. Of the whole all that
// take off one unit are kept: it may be the one that must go on last.
constexpr std::size_t kFewSplits = 8;
// What splits() of one group may take of the work that is left.
constexpr double kShareOfOne = 1.0 / 8;
constexpr double kWorkOfASplit = 20;
constexpr double kWorkOfALook = 1.0 / 8;  // at a unit and another, for each removal

// Units that no removal can part within `group`: the meet over all removals of the strong
// components of the directed blocking graph.
std::vector<int> bound_together(const AssemblyProblem& problem, const base::UnitSet& group) {
  std::vector<int> units;
  for (int u = group.lowest(); u >= 0; u = group.next(u)) {
    units.push_back(u);
  }
  std::vector<std::vector<int>> component_of(units.size());  // per unit: its component by removal
  for (std::size_t d = 0; d < problem.removals.size(); ++d) {
    boost::adjacency_list<boost::vecS, boost::vecS, boost::directedS> blocked(units.size());
    for (std::size_t i = 0; i < units.size(); ++i) {
      for (std::size_t j = 0; j < units.size(); ++j) {
        if (i != j && problem.leave(static_cast<int>(d), units[i], units[j]) == kRefused) {
          add_edge(i, j, blocked);
        }
      }
    }
    std::vector<int> component(units.size());
    boost::strong_components(blocked, boost::make_iterator_property_map(
                                          component.begin(), get(boost::vertex_index, blocked)));
    for (std::size_t i = 0; i < units.size(); ++i) {
      component_of[i].push_back(component[i]);
    }
  }
  std::vector<int> best;
  for (std::size_t i = 0; i < units.size(); ++i) {
    std::vector<int> together;
    for (std::size_t j = 0; j < units.size(); ++j) {
      if (component_of[j] == component_of[i]) {
        together.push_back(units[j]);
      }
    }
    if (together.size() > best.size()) {
      best = together;
    }
  }
  return best.size() > 1 ? best : units;
}

// Straight off the rest along the removal.
bool leaves(const AssemblyProblem& problem, std::size_t removal, int unit, const base::UnitSet& rest) {
  for (int other = rest.lowest(); other >= 0; other = rest.next(other)) {
    if (problem.leave(static_cast<int>(removal), unit, other) == kRefused) {
      return false;
    }
  }
  return !problem.removals[removal].folds;
}

// The group without the first of its units that goes straight off and leaves a group that hangs
// together; nothing where none does.
std::optional<base::UnitSet> less_one(WaysApart& ways, const base::UnitSet& group) {
  const AssemblyProblem& problem = ways.problem();
  for (int u = group.lowest(); u >= 0; u = group.next(u)) {
    const base::UnitSet rest = group - base::UnitSet::of(u);
    ways.work(kWorkOfALook * group.count() * static_cast<double>(problem.removals.size()));
    for (std::size_t d = 0; d < problem.removals.size(); ++d) {
      if (leaves(problem, d, u, rest)) {
        if (ways.connected(rest)) {
          return rest;
        }
        break;
      }
    }
  }
  return std::nullopt;
}

}  // namespace

int AssemblyGraph::whole() {
  return id_of(base::UnitSet::first(problem().units));
}

int AssemblyGraph::id_of(const base::UnitSet& group) {
  return id_of_form(ways_->form_of(group));
}

int AssemblyGraph::id_of_form(int form) {
  const auto f = static_cast<std::size_t>(form);
  if (f >= ids_.size()) {
    ids_.resize(f + 64, -1);
  }
  if (ids_[f] < 0) {
    ids_[f] = static_cast<int>(groups_.size());
    groups_.emplace_back().form = form;
    groups_.back().size = ways_->units_of(form).count();
  }
  return ids_[f];
}

base::UnitSet AssemblyGraph::realise(const base::UnitSet& group, int id,
                                     const base::UnitSet& subset) const {
  return ways_->realise(group, at(id).form, subset);
}

// Ways apart by geometry alone.
const std::vector<Split>& AssemblyGraph::raw(int id) {
  Group& group = at(id);
  if (!group.searched) {
    const WaysApart::Ways& ways = ways_->ways(group.form);
    complete_ = complete_ && ways.complete;
    std::vector<Split> numbered = ways.splits;
    for (Split& split : numbered) {
      split.first_id = id_of_form(split.first_id);
      split.second_id = id_of_form(split.second_id);
    }
    for (const std::size_t i : ways.order) {
      group.raw.push_back(numbered[i]);
    }
    group.searched = true;
  }
  return group.raw;
}

bool AssemblyGraph::comes_apart(int id) {
  Group& group = at(id);
  if (!group.comes_apart) {
    // One unit after another mostly does, and is soon seen.
    const auto rest = group.size == 1 ? std::nullopt : less_one(*ways_, canonical(id));
    group.comes_apart = group.size == 1 || (rest && comes_apart(id_of(*rest))) ||
                        std::ranges::any_of(raw(id), [this](const Split& s) {
                          return comes_apart(s.first_id) && comes_apart(s.second_id);
                        });
  }
  return *group.comes_apart;
}

const std::vector<Split>& AssemblyGraph::splits(int id) {
  Group& group = at(id);
  if (!group.splits) {
    std::vector<Split> kept;
    const double enough = ways_->done() + kShareOfOne * ways_->left();
    for (const Split& s : raw(id)) {
      ways_->work(kWorkOfASplit);
      const bool may_be_wanted =
          group.size == problem().units && std::min(s.first.count(), s.second.count()) == 1;
      if (kept.size() >= kFewSplits && !may_be_wanted && (ways_->done() > enough || spent())) {
        complete_ = false;
        continue;
      }
      if (comes_apart(s.first_id) && comes_apart(s.second_id)) {
        kept.push_back(s);
      }
    }
    group.comes_apart = group.size == 1 || !kept.empty();
    group.splits = std::move(kept);
    group.raw = {};  // asked for again only where the group doesn't come apart
    group.searched = false;
  }
  return *group.splits;
}

std::pair<int, int> AssemblyGraph::least_disorder(int id) {
  Group& group = at(id);
  if (group.least_disorder) {
    return *group.least_disorder;
  }
  std::pair<int, int> least{0, 0};
  if (group.size > 1 && groups_.size() < kMostGroups && !spent()) {
    std::optional<std::pair<int, int>> best;
    for (const Split& s : splits(id)) {
      const auto a = least_disorder(s.first_id), b = least_disorder(s.second_id);
      const std::pair<int, int> sum{s.wiped_mm + a.first + b.first,
                                    s.out_of_order + a.second + b.second};
      best = best ? std::min(*best, sum) : sum;
    }
    least = best.value_or(least);
  }
  group.least_disorder = least;
  return least;
}

std::vector<int> AssemblyGraph::locked_group() {
  int id = whole();
  if (ways_->connected(canonical(id)) && comes_apart(id)) {
    return {};
  }
  for (bool deeper = true; deeper;) {
    deeper = false;
    for (const Split& s : raw(id)) {
      const int half = !comes_apart(s.first_id) ? s.first_id : s.second_id;
      if (!comes_apart(half)) {
        id = half;
        deeper = true;
        break;
      }
    }
  }
  return bound_together(problem(), canonical(id));
}

}  // namespace planner::order
