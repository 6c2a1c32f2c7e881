// A placement question as a mixed-integer programme in the CPLEX LP format, and GLPK's answer to
// it.
#pragma once
#include <optional>
#include <span>
#include <string>

#include "planner/clamps/count/fewest_clamps.h"

namespace planner {

// The question with only those spots (ascending) to choose from, and the rules they can obey.
clamps::count::PlacementQuestion only_spots(const clamps::count::PlacementQuestion& question,
                                            std::span<const std::size_t> spots);

// Fewest spots used: a binary x a spot, a force F between snug and its limit where x is 1.
std::string lp_text(const clamps::count::PlacementQuestion& question);

struct GlpkAnswer {
  std::optional<int> clamps;  // of the best found; nothing: none found, or impossible
  bool optimal = false;
  bool impossible = false;
};

// Runs glpsol on it for at most so many seconds. Nothing where it isn't installed.
std::optional<GlpkAnswer> ask_glpk(const clamps::count::PlacementQuestion& question, int seconds);

}  // namespace planner
