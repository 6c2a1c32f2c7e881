// The fewest clamps that press every place enough, with a bound that says how sure that is.
#pragma once
#include <cstddef>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "planner/even_forces.h"

namespace planner {

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
  bool in_line = false;  // spots are numbered in order along one line
};

struct Placement {
  std::vector<std::size_t> spots;  // ascending
  EvenForces forces;               // least >= 1
};

struct FewestClamps {
  std::optional<Placement> best;  // nothing: none found within the effort, or impossible
  int bound = 0;                  // no placement has fewer
  bool impossible = false;        // not even with a clamp on every spot
  bool proven() const { return best && static_cast<int>(best->spots.size()) == bound; }
};

struct SearchEffort {
  int trials = 100;    // sets of spots whose forces are worked out
  int branches = 300;  // sets that are counted through; on one line, sets of intervals
};

// True where the spots obey the rules, exclude none of each other and their best forces press every
// place enough.
std::optional<Placement> try_spots(const PlacementQuestion& question,
                                   std::span<const std::size_t> spots);

// Fewest spots, then the least index. Counts 1, 2, 3 ... are each refuted before the next is tried:
// a trial that falls short gives a weighting of places, and every set that can't press that
// weighting enough is ruled out with it (a Benders cut), so few trials are needed. Spots in line
// are looked for in intervals instead (line_search.h). `known` is a placement to beat; with it, the
// search only asks whether fewer do.
FewestClamps fewest_clamps(const PlacementQuestion& question, const std::optional<Placement>& known,
                           const SearchEffort& effort);

}  // namespace planner
