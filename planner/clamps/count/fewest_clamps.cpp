#include "planner/clamps/count/fewest_clamps.h"

#include <algorithm>

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
  for (std::size_t count = 1; count <= most; ++count) {
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
