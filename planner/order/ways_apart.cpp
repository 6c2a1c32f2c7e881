#include "planner/order/ways_apart.h"

#include <algorithm>
#include <array>
#include <numeric>
#include <tuple>

#include "planner/order/interchangeable_units.h"

namespace planner::order {
namespace {

// A solver that changes one thing after another needs the last but one again at most.
constexpr std::size_t kMostKnown = 4;
// No group's ways apart take more than this share of the work that is left.
constexpr double kShareOfOne = 1.0 / 16;
// To describe a way apart and to keep it: time, and the memory that all of them may take. By unit.
constexpr double kWorkOfAWay = 8;

// Down is best for the hand, then sideways, then up; `leaving` points the other way.
int against_gravity(const Removal& removal, bool reversed) {
  const double z = reversed ? -removal.direction.z : removal.direction.z;
  return removal.folds ? 1 : z > 0.5 ? 0 : z < -0.5 ? 2 : 1;
}

}  // namespace

WaysApart::WaysApart(AssemblyProblem problem)
    : problem_(std::move(problem)), finder_(problem_, interchangeable_units(problem_)) {
  const auto n = static_cast<std::size_t>(problem_.units);
  alike_.resize(n);
  for (int u = 0; u < problem_.units; ++u) {
    alike_[static_cast<std::size_t>(finder_.stand_in(u))].insert(u);
  }
  std::erase_if(alike_, [](const base::UnitSet& kind) { return kind.count() < 2; });
  for (const base::UnitSet& kind : alike_) {
    replaceable_ = replaceable_ | kind;
  }
  joints_of_.resize(n);
  for (std::size_t j = 0; j < problem_.joints.size(); ++j) {
    const auto [u, v] = problem_.joints[j];
    joints_of_[static_cast<std::size_t>(u)].push_back({v, static_cast<int>(j)});
    joints_of_[static_cast<std::size_t>(v)].push_back({u, static_cast<int>(j)});
  }
  list_wipes();
}

void WaysApart::list_wipes() {
  const int units = problem_.units;
  wipes_on_.resize(problem_.removals.size() * static_cast<std::size_t>(units));
  for (std::size_t d = 0; d < problem_.removals.size(); ++d) {
    for (int i = 0; i < units; ++i) {
      for (int j = 0; j < units; ++j) {
        if (const int mm = problem_.leave(static_cast<int>(d), i, j); mm > 0) {
          wipes_on_[d * static_cast<std::size_t>(units) + static_cast<std::size_t>(i)].push_back(
              {j, mm});
        }
      }
    }
  }
}

base::UnitSet WaysApart::canonical(const base::UnitSet& group) const {
  base::UnitSet result = group - replaceable_;
  for (const base::UnitSet& kind : alike_) {
    const int n = (kind & group).count();
    for (int i = 0, u = kind.lowest(); i < n; ++i, u = kind.next(u)) {
      result.insert(u);
    }
  }
  return result;
}

int WaysApart::form_of(const base::UnitSet& group) {
  const base::UnitSet form = canonical(group);
  const auto [it, fresh] = numbers_.try_emplace(form, static_cast<int>(forms_.size()));
  if (fresh) {
    forms_.push_back({form, std::nullopt});
  }
  return it->second;
}

base::UnitSet WaysApart::realise(const base::UnitSet& group, int form,
                                 const base::UnitSet& subset) const {
  base::UnitSet result = subset - replaceable_;
  for (const base::UnitSet& kind : alike_) {
    const base::UnitSet from = units_of(form) & kind, to = group & kind;
    for (int a = from.lowest(), b = to.lowest(); a >= 0; a = from.next(a), b = to.next(b)) {
      if (subset.contains(a)) {
        result.insert(b);
      }
    }
  }
  return result;
}

// REQUIRES: nothing of `b` is in the way of `a` along the removal.
int WaysApart::wiped(int removal, const base::UnitSet& a, const base::UnitSet& b) const {
  int sum = 0;
  for (int i = a.lowest(); i >= 0; i = a.next(i)) {
    for (const WipeOn& w : wipes_on_[static_cast<std::size_t>(removal * problem_.units + i)]) {
      sum += b.contains(w.other) ? w.mm : 0;
    }
  }
  return sum;
}

// Pairs of a unit of `a` and one of `b` in which the former's stand-in comes after the latter's.
int WaysApart::out_of_order(const base::UnitSet& a, const base::UnitSet& b) const {
  std::vector<int> after;
  for (int j = b.lowest(); j >= 0; j = b.next(j)) {
    after.push_back(finder_.stand_in(j));
  }
  std::ranges::sort(after);
  std::ptrdiff_t pairs = 0;
  for (int i = a.lowest(); i >= 0; i = a.next(i)) {
    pairs += std::ranges::lower_bound(after, finder_.stand_in(i)) - after.begin();
  }
  return static_cast<int>(pairs);
}

void WaysApart::choose_removal(Split& split, const RemovalSet& ways) const {
  using Rank = std::tuple<int, bool, int, int, int, int>;
  std::optional<Rank> best;
  const int first = split.first.count(), second = split.second.count();
  for (std::size_t i = 0; i < problem_.removals.size(); ++i) {
    if (!ways[i]) {
      continue;
    }
    const int d = static_cast<int>(i);
    const Removal& removal = problem_.removals[i];
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

void WaysApart::add_joints(const Split& split, std::vector<int>& joints) const {
  const auto from = static_cast<std::ptrdiff_t>(joints.size());
  for (int i = split.first.lowest(); i >= 0; i = split.first.next(i)) {
    for (const JointWith& with : joints_of_[static_cast<std::size_t>(i)]) {
      if (split.second.contains(with.other)) {
        joints.push_back(with.joint);
      }
    }
  }
  std::sort(joints.begin() + from, joints.end());
}

Split WaysApart::describe(const base::UnitSet& group, const RawSplit& raw) {
  Split split;
  split.first = raw.first;
  split.second = group - raw.first;
  split.first_id = form_of(split.first);
  split.second_id = form_of(split.second);
  split.out_of_order = out_of_order(split.first, split.second);
  choose_removal(split, raw.removals);
  return split;
}

WaysApart::Ways WaysApart::find(const base::UnitSet& group) {
  Ways ways;
  const double a_try = finder_.work_of_a_try();
  const double tries = spent() ? 0 : kShareOfOne * left() / a_try;
  const RawSplits found = finder_.find(
      group, static_cast<int>(std::clamp<double>(tries, SplitFinder::kFewTries, SplitFinder::kMostTries)));
  ways.complete = found.complete;
  work(a_try * found.tries + kWorkOfAWay * problem_.units * static_cast<double>(found.splits.size()));
  std::vector<std::size_t> joints_end;
  for (const RawSplit& raw : found.splits) {
    ways.splits.push_back(describe(group, raw));
    add_joints(ways.splits.back(), ways.joints);
    joints_end.push_back(ways.joints.size());
  }
  for (std::size_t i = 0; i < ways.splits.size(); ++i) {
    const std::size_t from = i == 0 ? 0 : joints_end[i - 1];
    ways.splits[i].joints = std::span(ways.joints).subspan(from, joints_end[i] - from);
  }
  ways.order.resize(ways.splits.size());
  std::iota(ways.order.begin(), ways.order.end(), std::size_t{0});
  std::ranges::stable_sort(ways.order, {}, [&ways](std::size_t i) {
    return std::tuple(ways.splits[i].out_of_order, ways.splits[i].second.count());
  });
  return ways;
}

const WaysApart::Ways& WaysApart::ways(int form) {
  Form& asked = forms_[static_cast<std::size_t>(form)];
  if (!asked.ways) {
    asked.ways = asked.units.count() > 1 ? find(asked.units) : Ways{};
  }
  return *asked.ways;
}

std::shared_ptr<WaysApart> KnownAssemblies::ways_apart(AssemblyProblem problem) {
  auto& made = known_->ways;
  const auto known = std::ranges::find_if(
      made, [&problem](const auto& ways) { return ways->problem() == problem; });
  if (known != made.end()) {
    return *known;
  }
  made.push_back(std::make_shared<WaysApart>(std::move(problem)));
  if (made.size() > kMostKnown) {
    made.pop_front();
  }
  return made.back();
}

}  // namespace planner::order
