// Clamps wanted against clamps owned.
#pragma once
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "planner/work/shop.h"

namespace planner::clamps::layout {

struct ClampWanted {
  double opening_mm = 0;  // span, pads and the half inch
  double reach_mm = 0;    // to the nearest edge that a bar can pass
  double force_N = 0;
  double jaw_mm = 0;        // the pad was cut for a jaw this long
  bool only_seats = false;  // hands can do it: the first to go without
  std::string kind{};       // it was planned on: preferred, so that a row of clamps is alike
  int line = -1;            // clamps of one line, or a facing pair, share a number; -1: alone
  bool bare_jaws = false;   // no pads under them: only wooden jaws do
  double drawn = 1;         // share of its own force that what serves may be drawn to
};

// Whether an owned clamp does for a place. Straps and corner clamps don't press;
// spring clamps do where their little force is enough.
bool serves(const work::OwnedClamp& owned, const ClampWanted& wanted);

// For each clamp wanted the row of the rack it comes from; nothing: none is left that serves.
// As many places as possible are served, by the clamps that open least beyond what is wanted: long
// ones are kept for long spans. Least-cost flow; exact.
std::vector<std::optional<std::size_t>> assign_clamps(std::span<const ClampWanted> wanted,
                                                      std::span<const work::OwnedClamp> rack);

// The same, with the clamps of each line of one kind and length where that leaves no more places
// without: unlike ones draw unlike, and pull a frame or panel askew (common practice). Line after
// line, each given the row that costs least.
std::vector<std::optional<std::size_t>> assign_matched(std::span<const ClampWanted> wanted,
                                                       std::span<const work::OwnedClamp> rack);

}  // namespace planner::clamps::layout
