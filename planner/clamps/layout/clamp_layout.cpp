#include "planner/clamps/layout/clamp_layout.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "planner/clamps/axis/clamp_shortfall.h"
#include "planner/clamps/axis/pressure_levels.h"
#include "planner/clamps/axis/shaped_pads.h"
#include "planner/clamps/layout/borrow_for_full.h"
#include "planner/clamps/layout/clamp_clearance.h"
#include "planner/clamps/layout/clamp_ways_out.h"
#include "planner/clamps/layout/spare_clamps.h"
#include "planner/clamps/layout/stage_clamps.h"
#include "planner/clamps/layout/strap_clamps.h"
#include "planner/pressure/crush.h"
#include "planner/pressure/pressure_line.h"
#include "planner/tables/clamp.h"

namespace planner::clamps::layout {
namespace {

using geometry::Direction;

// A stage's rounds as the plan tells them.
class Telling {
 public:
  Telling(const ClampProblem& problem, const StageAxes& stage, const Clearance& clear,
          const std::optional<StrapClamps>& band)
      : problem_(problem), stage_(stage), clear_(clear), band_(band) {}

  ClampLayout to_plan() const {
    ClampLayout out;
    std::size_t next = 0;
    int number = 1;
    for (const StageAxis& round : stage_.rounds) {
      out.rounds.push_back(to_plan(round, std::span(stage_.owned).subspan(next), number));
      next += round.plan.clamps.size();
    }
    if (band_) {
      out.rounds.push_back(planner::clamps::layout::to_plan(problem_, *band_, number));
    }
    count(out);
    return out;
  }

 private:
  PressingAxis to_plan(const StageAxis& round, std::span<const std::optional<std::size_t>> owned,
                       int& number) const {
    const axis::AxisClamps& plan = round.plan;
    PressingAxis out;
    out.axis = plan.round.axis;
    out.seat = plan.round.seat();
    const std::vector<char> extra = beyond_hold(plan);
    std::vector<axis::ChosenClamp> there;
    for (std::size_t i = 0; i < plan.clamps.size(); ++i) {
      const bool have = problem_.shop.unlimited_rack || owned[i];
      plan::PlannedClamp clamp = planned(round, plan.clamps[i], owned[i]);
      const std::size_t all = static_cast<std::size_t>(number) - 1;
      clamp.bar_side = clear_.bar_side[all];
      clamp.n = number++;
      clamp.level = out.seat        ? plan::Level::seat
                    : extra[i] != 0 ? plan::Level::full
                                    : plan::Level::hold;
      clamp.edge_caul = clamp.caul && narrow_edges(plan);
      if (clear_.in_the_way[all]) {
        clamp.meets = static_cast<int>(*clear_.in_the_way[all]) + 1;
      }
      out.clamps.push_back(std::move(clamp));
      if (have) {
        there.push_back(plan.clamps[i]);
      }
    }
    out.lines = line_pressures(plan, there);
    tell_levels(out, plan);
    if (round.to_hands > 0) {
      out.by_hand = plan::ByHand{out.axis, out.presses, round.to_hands, round.to_hands_opening_mm};
    }
    out.hold_N = force_needed_N(plan, problem_.joints, stage_.work, plan::Level::hold);
    out.full_N = force_needed_N(plan, problem_.joints, stage_.work, plan::Level::full);
    out.proven_fewest = plan.proven;
    out.fewest_bound = plan.bound;
    return out;
  }

  plan::PlannedClamp planned(const StageAxis& round, const axis::ChosenClamp& chosen,
                             const std::optional<std::size_t>& owned) const {
    const axis::ClampSite& site = round.plan.sites[chosen.site];
    const tables::ClampKind* kind =
        tables::find_clamp_kind(owned ? problem_.shop.clamps[*owned].kind : round.kind.kind);
    plan::PlannedClamp c;
    c.axis = round.plan.round.axis;
    c.at = site.at;
    c.span_mm = site.span_mm;
    c.kind = kind->id;
    c.owned = owned;
    c.opening_mm = opening_mm(round, site);
    c.size_mm =
        owned ? problem_.shop.clamps[*owned].opening.mm() : sold_opening_mm(c.kind, c.opening_mm);
    if (!on_face(round.plan.packing.padding)) {
      c.wedge = {wedge_under(round.plan, site, 0), wedge_under(round.plan, site, 1)};
    }
    c.force_N = chosen.force_N;
    c.bearing_limit_MPa = site.bearing_limit_MPa;
    c.pad = site.pad;
    c.pad_along = round.plan.tracks[site.track].along;
    if (on_strips(round.plan.packing.padding)) {
      const geometry::Extent run = caul_run(round.plan.tracks, site.track, c.axis);
      c.caul = plan::PadSize{run.size(), site.pad.across_mm, round.plan.packing.thick_mm};
      if (narrow_edges(round.plan)) {
        c.caul->across_mm = pressure::edge_caul_width_mm(site.pad.across_mm, problem_.job.units);
      }
      c.caul_shift_mm = (run.lo + run.hi) / 2 - site.x_mm;
      c.caul_camber_mm = round.plan.lines[round.plan.tracks[site.track].lines.front()].camber_mm;
      c.caul_lining_mm = c.caul_camber_mm > 0 ? pressure::kLining_mm : 0;
      c.pad = {};
    }
    if (on_face(round.plan.packing.padding)) {
      lay_on_face(c, round.plan, site);
    }
    c.bearing_MPa = chosen.force_N * c.bearing_limit_MPa / site.bears_N;
    c.barrier = kind->bare_iron;
    for (std::size_t l = 0; l < round.plan.lines.size(); ++l) {
      const bool presses = l < round.plan.held_lines
                               ? round.plan.model->presses(chosen.site, l)
                               : std::any_of(site.presses.begin(), site.presses.end(),
                                             [l](const axis::PressedAt& p) { return p.line == l; });
      if (presses) {
        c.joints.push_back(round.plan.lines[l].joint);
      }
    }
    std::sort(c.joints.begin(), c.joints.end());
    c.joints.erase(std::unique(c.joints.begin(), c.joints.end()), c.joints.end());
    return c;
  }

  // A caul as long as the face, or as long as it is wide.
  static void lay_on_face(plan::PlannedClamp& c, const axis::AxisClamps& plan,
                          const axis::ClampSite& site) {
    const axis::AskedLine& face = plan.lines.front();
    const bool crosswise = plan.packing.padding == axis::Padding::crosswise;
    const Direction across = axis::across_of(face, c.axis);
    const double along_mm = dot(site.at - face.start, face.along);
    const double across_mm = dot(site.at - face.start, across);
    c.pad_along = crosswise ? across : face.along;
    c.caul = crosswise ? plan::PadSize{face.across_mm, site.pad.along_mm, plan.packing.thick_mm}
                       : plan::PadSize{face.length_mm, site.pad.across_mm, plan.packing.thick_mm};
    c.caul_shift_mm = crosswise ? -across_mm : face.length_mm / 2 - along_mm;
    c.pad = {};
    c.caul_camber_mm = face.camber_mm;
    c.caul_lining_mm = c.caul_camber_mm > 0 ? pressure::kLining_mm : 0;
  }

  void tell_levels(PressingAxis& out, const axis::AxisClamps& plan) const {
    // A joint that none of the clamps presses, for want of them, isn't of the round.
    const auto pressed = [&](const axis::FaceRef& f) {
      return out.seat || out.clamps.empty() ||
             std::any_of(out.clamps.begin(), out.clamps.end(), [&](const plan::PlannedClamp& c) {
               return std::find(c.joints.begin(), c.joints.end(), f.joint) != c.joints.end();
             });
    };
    for (const axis::FaceRef& f : plan.round.held) {
      if (pressed(f)) {
        out.holds.push_back(f.joint);
        out.presses.push_back(f.joint);
      }
    }
    for (const axis::FaceRef& f : plan.round.closed) {
      if (pressed(f)) {
        out.presses.push_back(f.joint);
      }
    }
    for (std::vector<work::JointId>* ids : {&out.holds, &out.presses}) {
      std::sort(ids->begin(), ids->end());
      ids->erase(std::unique(ids->begin(), ids->end()), ids->end());
    }
    out.level = out.seat ? plan::Level::seat : plan::Level::full;
    for (const plan::LinePressure& line : out.lines) {
      if (line.level == plan::Level::short_of_hold ||
          (line.level == plan::Level::hold && out.level == plan::Level::full)) {
        out.level = line.level;
      }
    }
  }

  void count(ClampLayout& out) const {
    std::map<std::pair<std::string, double>, plan::InventoryRow> rows;
    for (const PressingAxis& round : out.rounds) {
      for (const plan::PlannedClamp& c : round.clamps) {
        plan::InventoryRow& row = rows[{c.kind, c.size_mm}];
        row.kind = c.kind;
        row.opening_mm = c.size_mm;
        ++row.used;
        if (!c.owned && !problem_.shop.unlimited_rack) {
          --row.used;
          ++row.short_by;
          ++out.missing;
        }
      }
    }
    for (const work::OwnedClamp& owned : problem_.shop.clamps) {
      const auto it = rows.find({owned.kind, owned.opening.mm()});
      if (it != rows.end()) {
        it->second.owned += owned.count;
      }
    }
    for (auto& [key, row] : rows) {
      out.inventory.push_back(row);
    }
  }

  const ClampProblem& problem_;
  const StageAxes& stage_;
  const Clearance& clear_;
  const std::optional<StrapClamps>& band_;
};

}  // namespace

ClampLayout lay_out_clamps(const ClampProblem& problem, plan::Level goal) {
  StageAxes stage = plan_clamps(problem, goal, {});
  const std::optional<StrapClamps> band = band_instead(problem, stage);
  const Clearance clear = clear_bars(problem, stage);
  ClampLayout layout = Telling(problem, stage, clear, band).to_plan();
  layout.bar_clashes = clear.clashes;
  if (!problem.shop.unlimited_rack && (stage.missing > 0 || !stage.reached) &&
      !base::stop_requested(problem.stop)) {
    layout.ways_out = clamp_ways_out(problem, stage);
    if (const auto straps = band_short(problem, stage)) {
      layout.tried.emplace_back(*straps);
    }
  }
  if (goal == plan::Level::full && !problem.shop.unlimited_rack && stage.missing == 0 &&
      stage.reached && !band && !base::stop_requested(problem.stop) && !presses_fully(stage)) {
    layout.fuller = borrow_for_full(problem, stage);
    if (!layout.fuller) {
      layout.tried.emplace_back(plan::NotFullNote{});
    }
  }
  for (const SpareClamps& spare : spare_clamps(problem, stage)) {
    layout.spare.emplace_back(spare_note(spare, problem));
  }
  return layout;
}

}  // namespace planner::clamps::layout
