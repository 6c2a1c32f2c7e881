// Whether clamps can be set one after the other: each is brought to its place, open, past those
// that are there already. docs/clamping.md, "One after the other".
#pragma once
#include <optional>
#include <span>
#include <vector>

#include "planner/clamps/bodies/clamp_bodies.h"

namespace planner::clamps::bodies {

// Clamps by their indices.
using ClampIds = std::vector<std::size_t>;

class ClampWays {
 public:
  ClampWays() = default;
  // `sides`: where each bar is; nowhere: a strap, which is laid round the work. A clamp comes from
  // its bar's side, sideways with its jaws past the work, or lengthwise with its jaws turned aside.
  // Those that clash as they stand aren't in one another's way: they are told as such.
  ClampWays(std::span<const StandingClamp> clamps, std::span<const geometry::Direction> sides);

  std::size_t size() const { return in_way_.size(); }
  // One of those `there` that is in the clamp's way; nothing where it can be set.
  std::optional<std::size_t> behind(std::size_t clamp, const std::vector<char>& there) const;

 private:
  std::vector<std::vector<ClampIds>> in_way_;  // by clamp and way
};

// A clamp that no order brings to its place, and one that is in its way.
struct Hemmed {
  std::size_t clamp = 0, behind = 0;
};

struct SettingOrder {
  std::vector<ClampIds> rounds;  // those asked for, each in the order to set it
  // By clamp: before which other it must be laid in its place, open, as that would bar its way.
  std::vector<std::optional<std::size_t>> laid_before;
  std::vector<Hemmed> hemmed;
};

// Rounds of clamps, first to last, in each the given order where that is possible, else the nearest
// to it. Where no order serves that keeps to the rounds, some are laid in their places before.
SettingOrder setting_order(const ClampWays& ways, std::span<const ClampIds> rounds);

// A round set directly before an earlier one of the order, and how many clamps find no way then.
struct EarlierRound {
  std::size_t round = 0, before = 0, hemmed = 0;
};

// What leaves fewer of the clamps without a way than the order given: the fewest first, then the
// shortest move.
std::vector<EarlierRound> earlier_rounds(const ClampWays& ways, std::span<const ClampIds> rounds);

}  // namespace planner::clamps::bodies
