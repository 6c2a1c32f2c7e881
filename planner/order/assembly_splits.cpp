#include "planner/order/assembly_splits.h"

#include <algorithm>

#include "planner/base/reach.h"

namespace planner::order {
namespace {

// Groups in a grid have very many ways of being cut in two. Beyond this the search is cut short
// and the answer says so.
constexpr std::size_t kMostSplits = 3000;

}  // namespace

struct SplitFinder::Search {
  base::UnitSet group;
  const base::Stop* stop = nullptr;
  int most_tries = kMostTries;
  int tries = 0;
  RawSplits found;
  bool full() const {
    return tries >= most_tries || found.splits.size() >= kMostSplits ||
           (tries >= kFewTries && base::stop_requested(stop));
  }
};

SplitFinder::SplitFinder(const AssemblyProblem& problem, std::vector<int> stand_in)
    : units_(problem.units),
      stop_(problem.stop),
      removals_(problem.removals.size()),
      held_by_(static_cast<std::size_t>(units_) * removals_),
      holds_(held_by_.size()),
      neighbours_(static_cast<std::size_t>(units_)),
      stand_in_(std::move(stand_in)),
      previous_alike_(static_cast<std::size_t>(units_), -1) {
  for (std::size_t d = 0; d < problem.removals.size(); ++d) {
    const Removal& removal = problem.removals[d];
    if (removal.folds) {
      hinges_.push_back({d, removal.hinge[0], removal.hinge[1]});
    }
  }
  for (int i = 0; i < units_; ++i) {
    for (int j = 0; j < units_; ++j) {
      for (std::size_t d = 0; d < removals_; ++d) {
        if (problem.leave(static_cast<int>(d), i, j) == kRefused) {
          held_by_[index(d, i)].insert(j);
          holds_[index(d, j)].insert(i);
        }
      }
      if (i != j && problem.touching(i, j)) {
        neighbours_[static_cast<std::size_t>(i)].insert(j);
      }
    }
    for (int k = 0; k < i; ++k) {
      if (stand_in_[static_cast<std::size_t>(k)] == stand_in_[static_cast<std::size_t>(i)]) {
        previous_alike_[static_cast<std::size_t>(i)] = k;
      }
    }
  }
}

base::UnitSet SplitFinder::component(const base::UnitSet& within, int seed) const {
  return reach(neighbours_, within, seed);
}

bool SplitFinder::connected(const base::UnitSet& group) const {
  return !group.empty() && component(group, group.lowest()) == group;
}

bool SplitFinder::stands_in_order(const base::UnitSet& first, const base::UnitSet& group) const {
  for (int u = first.lowest(); u >= 0; u = first.next(u)) {
    const int before = previous_alike_[static_cast<std::size_t>(u)];
    if (before >= 0 && group.contains(before) && !first.contains(before)) {
      return false;
    }
  }
  return true;
}

void SplitFinder::include(base::UnitSet& in, const base::UnitSet& out, RemovalSet& alive,
                          int u) const {
  in.insert(u);
  for (std::size_t d = 0; d < removals_; ++d) {
    if (alive[d] && held_by_[index(d, u)].intersects(out)) {
      alive.reset(d);
    }
  }
}

void SplitFinder::exclude(const base::UnitSet& in, base::UnitSet& out, RemovalSet& alive,
                          int u) const {
  out.insert(u);
  for (std::size_t d = 0; d < removals_; ++d) {
    if (alive[d] && holds_[index(d, u)].intersects(in)) {
      alive.reset(d);
    }
  }
}

RemovalSet SplitFinder::usable(const base::UnitSet& group) const {
  RemovalSet all;
  for (std::size_t d = 0; d < removals_; ++d) {
    all.set(d);
  }
  for (const Hinge& hinge : hinges_) {
    all[hinge.removal] = hinge.turns >= 0 && hinge.stays >= 0 && group.contains(hinge.turns) &&
                         group.contains(hinge.stays);
  }
  return all;
}

// Each call decides one unit next to `in`. What is cut off from `out` by `in` can only belong to
// `in`, so every leaf is a split and none is met twice.
void SplitFinder::grow(Search& search, base::UnitSet in, base::UnitSet out,
                       RemovalSet alive) const {
  if (search.full()) {
    search.found.complete = false;
    return;
  }
  ++search.tries;
  if (!out.empty()) {
    const base::UnitSet rest = search.group - in;
    const base::UnitSet side = component(rest, out.lowest());
    if (!side.covers(out)) {
      return;
    }
    const base::UnitSet enclosed = rest - side;
    for (int u = enclosed.lowest(); u >= 0; u = enclosed.next(u)) {
      include(in, out, alive, u);
    }
  }
  if (alive.none()) {
    return;
  }
  base::UnitSet near;
  for (int u = in.lowest(); u >= 0; u = in.next(u)) {
    near = near | neighbours_[static_cast<std::size_t>(u)];
  }
  near = (near & search.group) - in - out;
  const int u = near.lowest();
  if (u < 0) {
    const base::UnitSet rest = search.group - in;
    RemovalSet parts = alive;
    const base::UnitSet undecided = rest - out;
    for (int x = undecided.lowest(); x >= 0 && parts.any(); x = undecided.next(x)) {
      exclude(in, out, parts, x);
    }
    // What `out` can't reach has gone to `in` above, so the rest hangs together.
    if (parts.any() && !rest.empty() && stands_in_order(in, search.group)) {
      search.found.splits.push_back({in, parts});
    }
    return;
  }
  {
    base::UnitSet out2 = out;
    RemovalSet alive2 = alive;
    exclude(in, out2, alive2, u);
    if (alive2.any()) {
      grow(search, in, out2, alive2);
    }
  }
  const int before = previous_alike_[static_cast<std::size_t>(u)];
  if (before >= 0 && out.contains(before)) {
    return;  // the lower of the two stays with `in`
  }
  include(in, out, alive, u);
  if (alive.any()) {
    grow(search, in, out, alive);
  }
}

RawSplits SplitFinder::find(const base::UnitSet& group, int most_tries) const {
  Search search{group, stop_, std::min(most_tries, kMostTries), 0, {}};
  const int root = group.lowest();
  for (int u = root; u >= 0; u = group.next(u)) {
    const base::UnitSet one = base::UnitSet::of(u), rest = group - one;
    const base::UnitSet first = u == root ? one : rest;
    if (rest.empty() || !connected(rest) || !stands_in_order(first, group)) {
      continue;
    }
    RemovalSet parts = usable(group);
    for (std::size_t d = 0; d < removals_; ++d) {
      if ((u == root ? held_by_ : holds_)[index(d, u)].intersects(rest)) {
        parts.reset(d);
      }
    }
    if (parts.any()) {
      search.found.splits.push_back({first, parts});
    }
  }
  grow(search, base::UnitSet::of(root), {}, usable(group));
  auto& splits = search.found.splits;
  std::ranges::sort(splits, {}, &RawSplit::first);
  splits.erase(std::unique(splits.begin(), splits.end(),
                           [](const RawSplit& a, const RawSplit& b) { return a.first == b.first; }),
               splits.end());
  search.found.tries = search.tries;
  return std::move(search.found);
}

}  // namespace planner::order
