#include "planner/clamps/axis/planned_clamp.h"

#include <algorithm>

#include "planner/clamps/axis/clamp_shortfall.h"
#include "planner/clamps/axis/shaped_pads.h"
#include "planner/pressure/crush.h"
#include "planner/pressure/pressure_line.h"

namespace planner::clamps::axis {
namespace {

// A caul as long as the line, under all of its jaws.
void lay_on_strip(plan::PlannedClamp& c, const AxisClamps& plan, const ClampSite& site,
                  base::Units units) {
  const ClampTrack& track = plan.tracks[site.track];
  const geometry::Extent run = caul_run(plan.tracks, site.track, c.axis);
  c.edge_caul = !plan.high_blocks && narrow_edges(plan);
  c.caul = plan::PadSize{
      run.size(),
      c.edge_caul ? pressure::edge_caul_width_mm(site.pad.across_mm, units) : site.pad.across_mm,
      plan.packing.thick_mm};
  c.caul_shift_mm = (run.lo + run.hi) / 2 - site.x_mm;
  c.caul_camber_mm = plan.lines[track.lines.front()].camber_mm;
}

// A caul as long as the face, or as long as it is wide.
void lay_on_face(plan::PlannedClamp& c, const AxisClamps& plan, const ClampSite& site) {
  const AskedLine& face = plan.lines.front();
  const bool crosswise = plan.packing.padding == Padding::crosswise;
  const geometry::Direction across = across_of(face, c.axis);
  const double along_mm = dot(site.at - face.start, face.along);
  const double across_mm = dot(site.at - face.start, across);
  c.pad_along = crosswise ? across : face.along;
  c.caul = crosswise ? plan::PadSize{face.across_mm, site.pad.along_mm, plan.packing.thick_mm}
                     : plan::PadSize{face.length_mm, site.pad.across_mm, plan.packing.thick_mm};
  c.caul_shift_mm = crosswise ? -across_mm : face.length_mm / 2 - along_mm;
  c.caul_camber_mm = face.camber_mm;
}

std::vector<work::JointId> joints_pressed(const AxisClamps& plan, std::size_t s) {
  std::vector<work::JointId> joints;
  for (std::size_t l = 0; l < plan.lines.size(); ++l) {
    const bool presses = l < plan.held_lines
                             ? plan.model->presses(s, l)
                             : std::ranges::any_of(plan.sites[s].presses,
                                                   [l](const PressedAt& p) { return p.line == l; });
    if (presses) {
      joints.push_back(plan.lines[l].joint);
    }
  }
  std::ranges::sort(joints);
  joints.erase(std::unique(joints.begin(), joints.end()), joints.end());
  return joints;
}

}  // namespace

plan::PlannedClamp planned_clamp(const AxisClamps& plan, const ChosenClamp& chosen,
                                 base::Units units) {
  const ClampSite& site = plan.sites[chosen.site];
  plan::PlannedClamp c;
  c.axis = plan.round.axis;
  c.at = site.at;
  c.span_mm = site.span_mm;
  c.opening_mm = opening_mm(plan, site);
  c.platen_mm = plan.backing.platen_mm;
  c.form_mm = plan.backing.form_mm;
  c.force_N = chosen.force_N;
  c.pad_along = plan.tracks[site.track].along;
  if (on_face(plan.packing.padding)) {
    lay_on_face(c, plan, site);
  } else {
    c.wedge = {wedge_under(plan, site, 0), wedge_under(plan, site, 1)};
  }
  if (on_strips(plan.packing.padding) || plan.high_blocks) {
    lay_on_strip(c, plan, site, units);
  }
  if (!c.caul) {
    c.pad = site.pad;
  }
  c.caul_lining_mm = c.caul_camber_mm > 0 && !plan.round.seat() ? pressure::kLining_mm : 0;
  c.bearing_limit_MPa = site.bearing_limit_MPa;
  c.bearing_MPa = chosen.force_N * site.bearing_limit_MPa / site.bears_N;
  c.joints = joints_pressed(plan, chosen.site);
  return c;
}

}  // namespace planner::clamps::axis
