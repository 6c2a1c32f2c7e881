#include "planner/clamps/count/fewest_clamps.h"

#include <algorithm>
#include <cmath>
#include <functional>

#include "planner/clamps/count/fewest_clamps_search.h"

namespace planner::clamps::count {
namespace {

bool obeys_rules(const PlacementQuestion& question, std::span<const std::size_t> spots) {
  const auto has = [&](std::size_t spot) {
    return std::find(spots.begin(), spots.end(), spot) != spots.end();
  };
  for (const SpotRule& rule : question.rules) {
    if (std::count_if(rule.spots.begin(), rule.spots.end(), has) < rule.at_least) {
      return false;
    }
  }
  return std::none_of(question.exclusive.begin(), question.exclusive.end(),
                      [&](const auto& pair) { return has(pair.first) && has(pair.second); });
}

// Fewer don't give so much: that the one place that gets least of a clamp needs, however many stand at its
// best spot; and that all places need together, from the spots that give them most.
int fewest_by_force(const PlacementQuestion& question) {
  const PressTable& table = question.table;
  std::vector<double> best(table.places, 0.0), together;  // share of need that one clamp gives at most
  for (std::size_t s = 0; s < table.spots; ++s) {
    const std::span<const double> column = table.of(s);
    double sum = 0;
    for (std::size_t p = 0; p < column.size(); ++p) {
      best[p] = std::max(best[p], column[p] * (column[p] > 0 ? question.limit_N[s] : question.snug_N[s]));
      sum += column[p];
    }
    together.push_back(sum * (sum > 0 ? question.limit_N[s] : question.snug_N[s]));
  }
  std::ranges::sort(together, std::ranges::greater());
  double lacking = 0;
  int fewest = 1;
  const int all = static_cast<int>(table.spots) + 1;  // that is: not even every spot does
  for (std::size_t p = 0; p < table.places; ++p) {
    const double lack = kEnough - table.at_rest[p];
    lacking += lack;
    if (lack > 0) {
      const double clamps = best[p] > 0 ? std::ceil(lack / best[p] * kEnough) : all;
      fewest = std::max(fewest, static_cast<int>(std::min<double>(all, clamps)));
    }
  }
  int enough = 0;
  for (std::size_t i = 0; lacking > 0 && i < together.size() && together[i] > 0; ++i, ++enough) {
    lacking -= together[i];
  }
  return std::max(fewest, lacking > 0 ? all : enough);
}

}  // namespace

std::optional<Placement> try_spots(const PlacementQuestion& question,
                                   std::span<const std::size_t> spots) {
  Placement placement;
  placement.spots.assign(spots.begin(), spots.end());
  std::sort(placement.spots.begin(), placement.spots.end());
  if (!obeys_rules(question, placement.spots)) {
    return std::nullopt;
  }
  placement.forces =
      max_min_forces(question.table, placement.spots, question.snug_N, question.limit_N, kEnough);
  if (placement.forces.least < kEnough) {
    return std::nullopt;
  }
  return placement;
}

FewestClamps fewest_clamps(const PlacementQuestion& question, const std::optional<Placement>& known,
                           const SearchEffort& effort) {
  FewestClamps out;
  out.best = known;
  const std::size_t most = known ? known->spots.size() - 1 : question.limit_N.size();
  for (auto count = static_cast<std::size_t>(fewest_by_force(question)); count <= most; ++count) {
    out.bound = static_cast<int>(count);
    IntervalSearch search = search_intervals(question, out.bound, effort);
    if (search.outcome != SearchOutcome::none) {
      out.best = search.placement ? std::move(search.placement) : known;
      return out;
    }
  }
  out.bound = static_cast<int>(most) + 1;
  out.impossible = !known;
  return out;
}

}  // namespace planner::clamps::count
