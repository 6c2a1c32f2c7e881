// Somebody who waits may ask for an end. Searches poll for it, and end then as if their effort were
// used up: what they found so far stands, unproven.
#pragma once
#include <functional>

namespace planner::base {

// Whether an end was asked for: once true, always true. Called very often, by one thread.
using Stop = std::function<bool()>;

// Nobody can ask where there is none.
inline bool stop_requested(const Stop* stop) {
  return stop != nullptr && *stop && (*stop)();
}

}  // namespace planner::base
