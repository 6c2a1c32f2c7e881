// How long the hands need: from sizes and the shop's pace to whole seconds, rounded up.
#pragma once
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "planner/work/joint.h"
#include "planner/work/pace.h"

namespace planner::work {

// What of the pace a step hangs on: so many mm, square mm or pieces at the rate of a key. A step adds
// its shares up.
struct PaceShare {
  std::string key;  // of the shop file's [pace]
  double rate = 0, amount = 0;
  double seconds() const { return rate * amount; }
};

// Spreading all faces of a joint, by its kind: docs/method.md "Pace". Of a joint glued in its middle
// only, that share of what goes by length and area.
std::vector<PaceShare> spread_shares(const Joint& joint, const Pace& pace);
int spread_seconds(const Joint& joint, const Pace& pace);

// The pace with wide faces spread by roller or notched spreader, where they aren't yet.
Pace with_roller(Pace pace);

// What a joint asks of the join that closes it: by the longest side of its shorter part, as the light
// part moves; a strip's where boards are edged into a slab. `bounds`: by part; empty: all are short.
PaceShare join_share(const Joint& joint, std::span<const geometry::Box> bounds, const Pace& pace);
int join_seconds(const Joint& joint, std::span<const geometry::Box> bounds, const Pace& pace);
// And on top where it isn't the first that a join closes: tongues have to be started together.
int next_seconds(const Joint& joint, const Pace& pace);

// Snugging a clamp with its pad: as the clamp table has it, or the shop's own.
double snug_seconds(std::string_view clamp_kind, const Pace& pace);

// One pin, nail or screw.
double fastener_seconds(HeldBy by, const Pace& pace);

int whole_seconds(double seconds);  // rounded up; a millionth over a whole second is not over

}  // namespace planner::work
