// How long the hands need: from sizes and the shop's pace to whole seconds, rounded up.
#pragma once
#include <string>

#include "planner/work/joint.h"
#include "planner/work/shop.h"

namespace planner::work {

// Spreading all faces of a joint: narrow ones (none wider than 50 mm) by their running length, wide
// ones by their area, and a little on top for each joint. Common practice until a rehearsal says
// otherwise; docs/method.md "Pace".
int spread_seconds(const Joint& joint, const Pace& pace);

// Snugging a clamp with its pad: 30 s, a one-handed one 20, a pipe clamp 40 (common practice), or
// the shop's own.
int snug_seconds(const std::string& clamp_kind, const Pace& pace);

int whole_seconds(double seconds);  // rounded up; a millionth over a whole second is not over

}  // namespace planner::work
