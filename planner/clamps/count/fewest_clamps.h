// The fewest clamps that press every place enough, with a bound that says how sure that is.
//
// How many clamps an axis takes is asked in four layers, each for the next to start from. A rough
// count (axis/fewest_on_axis.h), on half of the spots, is made for every way to pack the jaws, as
// it has to be quick: the best way is chosen by it. For that way alone, on all spots, an even
// spread (even_spread.h) gives the first true answer, as people would set them. This search then
// asks for fewer, and is the only one that proves anything: one count after the other is refuted by
// halving intervals of spots (fewest_clamps_search.h) until one can't be, or the effort is spent.
// Last, what it found is evened out, and the one of the two that draws no clamp so hard is kept.
#pragma once
#include <cstddef>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "planner/base/stop.h"
#include "planner/clamps/count/max_min_forces.h"

namespace planner::clamps::count {

// At least so many of these spots must be used: a line over 100 mm wants two clamps.
struct SpotRule {
  std::vector<std::size_t> spots;
  int at_least = 1;
};

struct PlacementQuestion {
  PressTable table;
  std::vector<double> snug_N;   // least force a spot: what keeps a clamp from falling off
  std::vector<double> limit_N;  // most force a spot: what a person can apply, what the wood bears
  std::vector<SpotRule> rules;
  // Spots that can't both be used (their pads would overlap), each pair once, lower first.
  std::vector<std::pair<std::size_t, std::size_t>> exclusive;
};

struct Placement {
  std::vector<std::size_t> spots;  // ascending
  MaxMinForces forces;             // least >= 1
};

struct FewestClamps {
  std::optional<Placement> best;  // nothing: none found within the effort, or impossible
  int bound = 0;                  // no placement has fewer
  bool impossible = false;        // not even with a clamp on every spot
  bool proven() const { return best && static_cast<int>(best->spots.size()) == bound; }
};

// Places x clamps squared, summed over the small linear programmes solved: about as long as it
// takes, and the same on every machine.
struct SearchEffort {
  double work = 2e6;
  const base::Stop* stop = nullptr;
};

// True where the spots obey the rules, exclude none of each other and their best forces press every
// place enough.
std::optional<Placement> try_spots(const PlacementQuestion& question,
                                   std::span<const std::size_t> spots);

// Fewest spots. Counts 1, 2, 3 ... are each refuted before the next is tried
// (fewest_clamps_search.h). `known` is a placement to beat: the search only asks whether fewer do.
// The effort is for each count.
FewestClamps fewest_clamps(const PlacementQuestion& question, const std::optional<Placement>& known,
                           const SearchEffort& effort);

}  // namespace planner::clamps::count
