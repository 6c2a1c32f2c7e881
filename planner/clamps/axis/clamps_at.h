// The user's own clamps on one axis, through the same model that plans use.
#pragma once
#include <optional>
#include <span>
#include <vector>

#include "planner/clamps/axis/axis_clamps.h"
#include "planner/clamps/axis/fewest_on_axis.h"

namespace planner::clamps::axis {

// A clamp to be tried, wherever it stands.
struct TrialClamp {
  geometry::Point on_line;  // a point on its line of action
  plan::PadSize pad;        // under each jaw; what hangs over an edge of the work presses nothing
  double force_N = 0;
  double most_N = 0;  // a person applies with it; crushing not counted
};

class ClampsAt {
 public:
  // REQUIRES: `question` outlives it, with an axis along which clamps are placed.
  explicit ClampsAt(const AxisQuestion& question);

  // The round with exactly these clamps, in their order, and its pressure model. Nothing where one
  // of them can't stand: it meets no joint of the axis, a hollow, or no flat free face. `spare`
  // are more places that the model is to know (sites behind those of the clamps). With `caul_mm` a
  // strip of the work's wood that thick and as long as the line lies under all jaws of each line.
  std::optional<AxisClamps> with(std::span<const TrialClamp> clamps,
                                 std::span<const TrialClamp> spare = {}, double caul_mm = 0) const;

  // The clamp as a site; nothing where it can't stand.
  std::optional<ClampSite> site(const TrialClamp& clamp) const;

  // Places for one more clamp like this one: along every track, where nothing stands yet.
  std::vector<TrialClamp> more_like(const TrialClamp& clamp) const;

  const std::vector<ClampTrack>& tracks() const { return bare_.tracks; }
  const geometry::Direction& axis() const { return q_.round.axis; }

 private:
  std::optional<plan::PadSize> pad_on_wood(const LineOfAction& action,
                                           const geometry::Direction& along,
                                           const plan::PadSize& pad) const;

  const AxisQuestion& q_;
  AxisClamps bare_;  // lines and tracks
  std::vector<geometry::BearingFace> bearing_;
  double max_gap_mm_;
};

// The share of what holds that the worst place of any line gets, every spring holding (so it can
// be negative): `forces` a clamp each, on `sites` of the plan's model.
struct TrialPress {
  std::span<const std::size_t> sites;
  std::span<const double> forces;
};
double linear_share(const count::PressTable& table, const TrialPress& press);
// What all places together lack, in shares; 0 where every one has enough.
double linear_lack(const count::PressTable& table, const TrialPress& press);

}  // namespace planner::clamps::axis
