#include "planner/clamps/axis/shaped_pads.h"

#include <cmath>
#include <numbers>

#include "geometry/elementary.h"

namespace planner::clamps::axis {
namespace {

// Of what lies under the jaw, from the line of action to either side along the track, and the whole
// across it.
struct Footprint {
  double before_mm = 0, after_mm = 0, across_mm = 0;
};

Footprint footprint(const AxisClamps& plan, const ClampSite& site) {
  if (!on_strips(plan.packing.padding)) {
    return {site.pad.along_mm / 2, site.pad.along_mm / 2, site.pad.across_mm};
  }
  const geometry::Extent run = caul_run(plan.tracks, site.track, plan.round.axis);
  return {site.x_mm - run.lo, run.hi - site.x_mm, site.pad.across_mm};
}

}  // namespace

double packed_mm(const AxisClamps& plan, const ClampSite& site, std::size_t end) {
  if (end == 0 && plan.backing.form_mm > 0) {
    return plan.backing.form_mm;  // the jaw grips the form itself
  }
  const Slope& slope = site.slope[end];
  const Footprint under = footprint(plan, site);
  const double thin_side = slope.along > 0 ? under.before_mm : under.after_mm;
  return plan.backing.platen_mm + plan.packing.thick_mm + std::abs(slope.along) * thin_side +
         std::abs(slope.across) * under.across_mm / 2;
}

double opening_mm(const AxisClamps& plan, const ClampSite& site) {
  return site.span_mm + packed_mm(plan, site, 0) + packed_mm(plan, site, 1) + kToGetOn_mm;
}

plan::Wedge wedge_under(const AxisClamps& plan, const ClampSite& site, std::size_t end) {
  const Slope& slope = site.slope[end];
  if (slope.flat()) {
    return {};
  }
  const Footprint under = footprint(plan, site);
  const double rise = std::abs(slope.along) * (under.before_mm + under.after_mm) +
                      std::abs(slope.across) * under.across_mm;
  const ClampTrack& track = plan.tracks[site.track];
  plan::Wedge out;
  out.angle_deg = geometry::arc_tangent(geometry::hypotenuse(slope.along, slope.across)) * 180 / std::numbers::pi;
  out.thin_mm = plan.packing.thick_mm;
  out.thick_mm = out.thin_mm + rise;
  out.rises =
      geometry::unit(slope.along * track.along + slope.across * across_of(track, plan.round.axis));
  return out;
}

}  // namespace planner::clamps::axis
