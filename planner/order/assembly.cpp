#include "planner/order/assembly.h"

#include <algorithm>
#include <deque>
#include <optional>
#include <tuple>
#include <unordered_map>

#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/strong_components.hpp>

#include "planner/order/assembly_splits.h"

namespace planner::order {
namespace {

struct Hash {
  std::size_t operator()(const base::UnitSet& s) const { return s.hash(); }
};

// Taking all ways apart of a group of many unlike units would not end.
constexpr std::size_t kMostGroups = 6000;
// Ways apart that are enough to go on with, where nobody waits for the best. Of the whole all that
// take off one unit are kept: it may be the one that must go on last.
constexpr std::size_t kFewSplits = 8;

struct Group {
  base::UnitSet units;
  int size = 0;
  bool searched = false;
  std::vector<Split> raw;  // before those are dropped whose halves do not come apart
  std::optional<std::vector<Split>> splits;
  std::optional<bool> comes_apart;
  std::optional<std::pair<int, int>> least_disorder;
};

// Down is best for the hand, then sideways, then up; `leaving` points the other way.
int against_gravity(const Removal& removal, bool reversed) {
  const double z = reversed ? -removal.direction.z : removal.direction.z;
  return removal.folds ? 1 : z > 0.5 ? 0 : z < -0.5 ? 2 : 1;
}

}  // namespace

struct AssemblyGraph::Impl {
  AssemblyProblem problem;
  SplitFinder finder;
  std::deque<Group> groups;  // which stay where they are while more are met
  std::unordered_map<base::UnitSet, int, Hash> ids;
  std::vector<base::UnitSet> alike;  // units that may stand for one another
  base::UnitSet replaceable;         // all units of these
  // Of each unit, by the other one of the pair: few pairs of many are joined or wipe.
  struct JointWith {
    int other, joint;
  };
  std::vector<std::vector<JointWith>> joints_of;
  struct WipeOn {
    int other, mm;
  };
  std::vector<std::vector<WipeOn>> wipes_on;  // [removal * units + unit that leaves]
  bool complete = true;

  explicit Impl(AssemblyProblem p)
      : problem(std::move(p)), finder(problem, interchangeable_units(problem)) {
    const auto n = static_cast<std::size_t>(problem.units);
    alike.resize(n);
    for (int u = 0; u < problem.units; ++u) {
      alike[static_cast<std::size_t>(finder.stand_in(u))].insert(u);
    }
    std::erase_if(alike, [](const base::UnitSet& kind) { return kind.count() < 2; });
    for (const base::UnitSet& kind : alike) {
      replaceable = replaceable | kind;
    }
    joints_of.resize(n);
    for (std::size_t j = 0; j < problem.joints.size(); ++j) {
      const auto [u, v] = problem.joints[j];
      joints_of[static_cast<std::size_t>(u)].push_back({v, static_cast<int>(j)});
      joints_of[static_cast<std::size_t>(v)].push_back({u, static_cast<int>(j)});
    }
    list_wipes();
  }

  void list_wipes() {
    const int units = problem.units;
    wipes_on.resize(problem.removals.size() * static_cast<std::size_t>(units));
    for (std::size_t d = 0; d < problem.removals.size(); ++d) {
      for (int i = 0; i < units; ++i) {
        for (int j = 0; j < units; ++j) {
          if (const int mm = problem.leave(static_cast<int>(d), i, j); mm > 0) {
            wipes_on[d * static_cast<std::size_t>(units) + static_cast<std::size_t>(i)].push_back(
                {j, mm});
          }
        }
      }
    }
  }

  Group& at(int id) { return groups[static_cast<std::size_t>(id)]; }

  base::UnitSet canonical(const base::UnitSet& group) const {
    base::UnitSet result = group - replaceable;
    for (const base::UnitSet& kind : alike) {
      const int n = (kind & group).count();
      for (int i = 0, u = kind.lowest(); i < n; ++i, u = kind.next(u)) {
        result.insert(u);
      }
    }
    return result;
  }

  int id_of(const base::UnitSet& group) {
    const base::UnitSet form = canonical(group);
    const auto [it, fresh] = ids.try_emplace(form, static_cast<int>(groups.size()));
    if (fresh) {
      groups.push_back({form, form.count(), false, {}, {}, {}, {}});
    }
    return it->second;
  }

  // REQUIRES: nothing of `b` is in the way of `a` along d.
  int wiped(int d, const base::UnitSet& a, const base::UnitSet& b) const {
    int sum = 0;
    for (int i = a.lowest(); i >= 0; i = a.next(i)) {
      for (const WipeOn& w : wipes_on[static_cast<std::size_t>(d * problem.units + i)]) {
        sum += b.contains(w.other) ? w.mm : 0;
      }
    }
    return sum;
  }

  // Pairs of a unit of `a` and one of `b` in which the former's stand-in comes after the latter's.
  int out_of_order(const base::UnitSet& a, const base::UnitSet& b) const {
    std::vector<int> after;
    for (int j = b.lowest(); j >= 0; j = b.next(j)) {
      after.push_back(finder.stand_in(j));
    }
    std::ranges::sort(after);
    std::ptrdiff_t pairs = 0;
    for (int i = a.lowest(); i >= 0; i = a.next(i)) {
      pairs += std::ranges::lower_bound(after, finder.stand_in(i)) - after.begin();
    }
    return static_cast<int>(pairs);
  }

  void choose_removal(Split& split, const RemovalSet& ways) const {
    using Rank = std::tuple<int, bool, int, int, int, int>;
    std::optional<Rank> best;
    const int first = split.first.count(), second = split.second.count();
    for (std::size_t i = 0; i < problem.removals.size(); ++i) {
      if (!ways[i]) {
        continue;
      }
      const int d = static_cast<int>(i);
      const Removal& removal = problem.removals[i];
      const int wipes = wiped(d, split.first, split.second);
      const std::array<Rank, 2> ranks{
          Rank{wipes, !removal.usual, first, against_gravity(removal, false), 1, d},
          Rank{wipes, !removal.usual, second, against_gravity(removal, true), 0, removal.opposite}};
      for (const Rank& rank : ranks) {
        if (!best || rank < *best) {
          best = rank;
        }
      }
    }
    split.wiped_mm = std::get<0>(*best);
    split.moving = 1 - std::get<4>(*best);
    split.removal = std::get<5>(*best);
  }

  Split describe(const base::UnitSet& group, const RawSplit& raw) {
    Split split;
    split.first = raw.first;
    split.second = group - raw.first;
    split.first_id = id_of(split.first);
    split.second_id = id_of(split.second);
    split.out_of_order = out_of_order(split.first, split.second);
    for (int i = split.first.lowest(); i >= 0; i = split.first.next(i)) {
      for (const JointWith& with : joints_of[static_cast<std::size_t>(i)]) {
        if (split.second.contains(with.other)) {
          split.joints.push_back(with.joint);
        }
      }
    }
    std::ranges::sort(split.joints);
    choose_removal(split, raw.removals);
    return split;
  }

  // Ways apart by geometry alone.
  const std::vector<Split>& raw(int id) {
    if (!at(id).searched) {
      const base::UnitSet units = at(id).units;
      std::vector<Split> list;
      if (at(id).size > 1) {
        const RawSplits found = finder.find(units);
        complete = complete && found.complete;
        for (const RawSplit& r : found.splits) {
          list.push_back(describe(units, r));
        }
        std::ranges::stable_sort(
            list, {}, [](const Split& s) { return std::tuple(s.out_of_order, s.second.count()); });
      }
      at(id).searched = true;
      at(id).raw = std::move(list);
    }
    return at(id).raw;
  }

  bool comes_apart(int id) {
    if (!at(id).comes_apart) {
      bool yes = at(id).size == 1;
      if (!yes) {
        yes = std::ranges::any_of(raw(id), [this](const Split& s) {
          return comes_apart(s.first_id) && comes_apart(s.second_id);
        });
      }
      at(id).comes_apart = yes;
    }
    return *at(id).comes_apart;
  }

  const std::vector<Split>& splits(int id) {
    if (!at(id).splits) {
      std::vector<Split> kept;
      const std::vector<Split> ways = raw(id);  // groups grows below
      for (const Split& s : ways) {
        const bool may_be_wanted =
            at(id).size == problem.units && std::min(s.first.count(), s.second.count()) == 1;
        if (kept.size() >= kFewSplits && !may_be_wanted && base::stop_requested(problem.stop)) {
          complete = false;
          continue;
        }
        if (comes_apart(s.first_id) && comes_apart(s.second_id)) {
          kept.push_back(s);
        }
      }
      at(id).splits = std::move(kept);
    }
    return *at(id).splits;
  }

  std::pair<int, int> least_disorder(int id) {
    if (at(id).least_disorder) {
      return *at(id).least_disorder;
    }
    std::pair<int, int> least{0, 0};
    if (at(id).size > 1 && groups.size() < kMostGroups && !base::stop_requested(problem.stop)) {
      std::optional<std::pair<int, int>> best;
      for (const Split& s : splits(id)) {
        const auto a = least_disorder(s.first_id), b = least_disorder(s.second_id);
        const std::pair<int, int> sum{s.wiped_mm + a.first + b.first,
                                      s.out_of_order + a.second + b.second};
        best = best ? std::min(*best, sum) : sum;
      }
      least = best.value_or(least);
    }
    at(id).least_disorder = least;
    return least;
  }

  // Units that no removal can part within `group`: the meet over all removals of the strong
  // components of the directed blocking graph.
  std::vector<int> bound_together(const base::UnitSet& group) const;
};

std::vector<int> AssemblyGraph::Impl::bound_together(const base::UnitSet& group) const {
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

AssemblyGraph::AssemblyGraph(AssemblyProblem problem)
    : impl_(std::make_unique<Impl>(std::move(problem))) {}
AssemblyGraph::~AssemblyGraph() = default;
AssemblyGraph::AssemblyGraph(AssemblyGraph&&) noexcept = default;
AssemblyGraph& AssemblyGraph::operator=(AssemblyGraph&&) noexcept = default;

const AssemblyProblem& AssemblyGraph::problem() const {
  return impl_->problem;
}
int AssemblyGraph::whole() {
  return impl_->id_of(base::UnitSet::first(impl_->problem.units));
}
int AssemblyGraph::id_of(const base::UnitSet& group) {
  return impl_->id_of(group);
}
const base::UnitSet& AssemblyGraph::canonical(int id) const {
  return impl_->at(id).units;
}
int AssemblyGraph::size(int id) const {
  return impl_->at(id).size;
}
const std::vector<Split>& AssemblyGraph::splits(int id) {
  return impl_->splits(id);
}
bool AssemblyGraph::complete() const {
  return impl_->complete;
}
bool AssemblyGraph::comes_apart(int id) {
  return impl_->comes_apart(id);
}
std::pair<int, int> AssemblyGraph::least_disorder(int id) {
  return impl_->least_disorder(id);
}

base::UnitSet AssemblyGraph::realise(const base::UnitSet& group, int id,
                                     const base::UnitSet& subset) const {
  const base::UnitSet& form = impl_->at(id).units;
  base::UnitSet result = subset - impl_->replaceable;
  for (const base::UnitSet& kind : impl_->alike) {
    const base::UnitSet from = form & kind, to = group & kind;
    for (int a = from.lowest(), b = to.lowest(); a >= 0; a = from.next(a), b = to.next(b)) {
      if (subset.contains(a)) {
        result.insert(b);
      }
    }
  }
  return result;
}

std::vector<int> AssemblyGraph::locked_group() {
  int id = whole();
  if (impl_->finder.connected(canonical(id)) && comes_apart(id)) {
    return {};
  }
  for (bool deeper = true; deeper;) {
    deeper = false;
    for (const Split& s : impl_->raw(id)) {
      const int half = !comes_apart(s.first_id) ? s.first_id : s.second_id;
      if (!comes_apart(half)) {
        id = half;
        deeper = true;
        break;
      }
    }
  }
  return impl_->bound_together(canonical(id));
}

std::vector<Lock> AssemblyGraph::locks(std::span<const int> group) const {
  std::vector<Lock> result;
  const AssemblyProblem& p = impl_->problem;
  for (std::size_t d = 0; d < p.removals.size(); ++d) {
    const int k = static_cast<int>(d);
    [&] {
      for (const int u : group) {
        for (const int by : group) {
          if (u != by && p.leave(k, u, by) == kRefused) {
            result.push_back({k, u, by});
            return;
          }
        }
      }
    }();
  }
  return result;
}

}  // namespace planner::order
