#include "planner/order/layer_stages.h"

#include <algorithm>
#include <set>
#include <tuple>

#include "planner/base/reach.h"

namespace planner::order {
namespace {

// Who is linked to whom, by board.
using Links = std::vector<base::UnitSet>;

void link(Links& links, int a, int b) {
  links[static_cast<std::size_t>(a)].insert(b);
  links[static_cast<std::size_t>(b)].insert(a);
}

std::vector<base::UnitSet> components(const Links& links) {
  std::vector<base::UnitSet> out;
  base::UnitSet left = base::UnitSet::first(static_cast<int>(links.size()));
  while (!left.empty()) {
    out.push_back(reach(links, left, left.lowest()));
    left = left - out.back();
  }
  return out;
}

// The groups from one end to the other; empty where they are no single file.
std::vector<base::UnitSet> in_file(const std::vector<base::UnitSet>& groups, const Links& joined) {
  Links between(groups.size());
  for (std::size_t i = 0; i < groups.size(); ++i) {
    base::UnitSet near;
    for (int b = groups[i].lowest(); b >= 0; b = groups[i].next(b)) {
      near = near | joined[static_cast<std::size_t>(b)];
    }
    for (std::size_t k = 0; k < i; ++k) {
      if (near.intersects(groups[k])) {
        link(between, static_cast<int>(i), static_cast<int>(k));
      }
    }
  }
  const auto end =
      std::ranges::find_if(between, [](const base::UnitSet& n) { return n.count() == 1; });
  if (end == between.end() ||
      std::ranges::any_of(between, [](const base::UnitSet& n) { return n.count() > 2; })) {
    return {};
  }
  std::vector<base::UnitSet> file;
  base::UnitSet passed;
  for (int at = static_cast<int>(end - between.begin()); at >= 0;) {
    file.push_back(groups[static_cast<std::size_t>(at)]);
    passed.insert(at);
    at = (between[static_cast<std::size_t>(at)] - passed).lowest();
  }
  return file;
}

}  // namespace

std::vector<base::UnitSet> slabs(const AssemblyProblem& a, std::span<const base::UnitSet> boards) {
  const std::vector<int> board = boards_by_unit(a, boards);
  std::set<base::UnitSet> found;
  for (std::size_t d = 0; d < a.removals.size(); ++d) {
    if (a.removals[d].folds) {
      continue;
    }
    Links stopped(boards.size()), beside(boards.size()), joined(boards.size());
    for (const auto& [u, v] : a.joints) {
      const int from = board[static_cast<std::size_t>(u)], to = board[static_cast<std::size_t>(v)];
      if (from < 0 || to < 0 || from == to) {
        continue;
      }
      const auto way = static_cast<int>(d);
      // One of the two can go; where neither can, it is that they would wipe each other.
      const bool stops = (a.leave(way, u, v) == kRefused) != (a.leave(way, v, u) == kRefused);
      link(stops ? stopped : beside, from, to);
      link(joined, from, to);
    }
    for (const Links& links : {stopped, beside}) {
      const std::vector<base::UnitSet> groups = components(links);
      found.insert(groups.begin(), groups.end());
      const std::vector<base::UnitSet> file = in_file(groups, joined);
      for (std::size_t first = 0; first < file.size(); ++first) {
        base::UnitSet run = file[first];
        for (std::size_t last = first + 1; last < file.size(); ++last) {
          run = run | file[last];
          found.insert(run);
        }
      }
    }
  }
  std::vector<base::UnitSet> out(found.begin(), found.end());
  std::erase_if(out, [](const base::UnitSet& group) { return group.count() < 2; });
  std::ranges::sort(out, {}, [](const base::UnitSet& group) {
    return std::tuple(group.count(), group.lowest());
  });
  return out;
}

}  // namespace planner::order
