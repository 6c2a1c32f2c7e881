#include "planner/clamps/layout/strap_clamps.h"

#include <algorithm>
#include <cmath>

#include "planner/clamps/axis/even_spacing.h"
#include "planner/clamps/axis/fewest_on_axis.h"
#include "planner/clamps/axis/pressure_levels.h"
#include "planner/pressure/crush.h"
#include "planner/pressure/mitre_press.h"
#include "planner/tables/clamp.h"
#include "planner/tables/wood.h"

namespace planner::clamps::layout {
namespace {

using geometry::Direction;

constexpr double kToDrawBy_mm = 300;  // of strap, through the buckle; common practice
constexpr double kBetween_mm = 2;     // straps side by side
constexpr double kLeastPad_mm = 25;   // each way from a corner; common practice
constexpr double kServes_mm = 3 * base::kMmPerInch;  // of height, a strap by itself; ours
constexpr double kHolds_MPa = 10 * base::kMPaPerPsi;  // what a strap is asked for; ours

struct Strap {
  double width_mm = 0, tension_N = 0;
};

// The ring's joints as lines, each seen along its own normal.
axis::AxisClamps lines_round(const ClampProblem& problem, const pressure::Work& work,
                             const StrapLoop& ring) {
  axis::AxisClamps plan;
  plan.round.axis = ring.normal;
  for (const StrapCorner& corner : ring.corners) {
    const Direction& normal =
        problem.joints[corner.face.joint].faces[corner.face.face].contact.normal;
    const axis::RoundAxis own{pressure::non_negative(normal), {corner.face}, {}};
    axis::AxisClamps one =
        axis::lines_of({problem.job, problem.joints, work, own, problem.glue, axis::AxisSetting{}});
    one.lines.front().shape = pressure::LineShape::strip;
    one.lines.front().hold_MPa = std::min(one.lines.front().hold_MPa, kHolds_MPa);
    plan.round.held.push_back(corner.face);
    plan.lines.push_back(std::move(one.lines.front()));
  }
  plan.held_lines = plan.lines.size();
  return plan;
}

// What of a strap's pull arrives at a corner: bare, or on cauls clear of a mitre's arris, which give
// each leg its whole pull (T / cos(turn / 2): finite elements of mitres agree).
double pull_at(const StrapCorner& corner, bool opposed, bool notched) {
  const double share =
      notched && corner.mitre ? pressure::notched_strap_share(corner.turn) : corner.share;
  return share * (opposed ? corner.opposed_tension : corner.tension);
}

// So many straps at equal distances, every second one's buckle across from the others'. Each serves
// so much height, or cauls as tall as the ring spread them: a line is pressed evenly.
void set_straps(StrapClamps& band, const Strap& strap, int count) {
  axis::AxisClamps& plan = band.plan;
  const geometry::Extent& height = band.ring.height;
  const axis::EvenSpacing even(height.size(), count);
  band.notched = height.size() > count * kServes_mm;
  band.height_mm.clear();
  plan.sites.clear();
  plan.clamps.clear();
  for (int k = 0; k < count; ++k) {
    band.height_mm.push_back(height.lo + even.at_mm(k));
    for (std::size_t l = 0; l < plan.lines.size(); ++l) {
      const pressure::GlueLine& line = plan.lines[l];
      axis::ClampSite site;
      site.x_mm = line.length_mm / 2;
      site.at = point_at(line, site.x_mm);
      site.pad = {line.length_mm, strap.width_mm, 0};
      site.presses = {{l, site.x_mm}};
      plan.sites.push_back(site);
      const double pull = pull_at(band.ring.corners[l], k % 2 == 1, band.notched);
      plan.clamps.push_back({plan.sites.size() - 1, strap.tension_N * pull});
    }
  }
  const std::vector<int> on_line(plan.lines.size(), count);
  axis::KnownSystems none;
  plan.model = std::make_unique<axis::PressModel>(axis::PressSetUp{plan.lines, plan.sites, on_line, 0}, none);
}

double softest_MPa(const work::Job& job, std::span<const work::PartId> parts) {
  double least = 1e300;
  for (const work::PartId part : parts) {
    least =
        std::min(least, pressure::bearing_limit_MPa(*wood_of(job.parts[part])));
  }
  return least;
}

// A strap turns the corner on pads that bear its pull on either side.
plan::PadSize corner_pad(const Strap& strap, double limit_MPa, base::Units units) {
  const pressure::CutSizes& sizes = pressure::cut_sizes(units);
  const double side = std::max(kLeastPad_mm, strap.tension_N / (limit_MPa * strap.width_mm));
  return {sizes.step_mm * std::ceil(side / sizes.step_mm - 1e-9), strap.width_mm,
          sizes.thick_mm.front()};
}

StrapClamps band_on(const ClampProblem& problem, const pressure::Work& work, const StrapLoop& ring,
                    const Strap& strap) {
  StrapClamps band;
  band.ring = ring;
  band.plan = lines_round(problem, work, ring);
  band.tension_N = strap.tension_N;
  band.strap_mm = ring.girth_mm + kToDrawBy_mm;
  band.bearing_limit_MPa = softest_MPa(problem.job, ring.parts);
  band.corner_pad = corner_pad(strap, band.bearing_limit_MPa, problem.job.units);
  return band;
}

// Straps that the ring is high enough for.
int room_for(const StrapLoop& ring, const Strap& strap) {
  const double room = ring.height.size();
  return room < strap.width_mm / 2
             ? 0
             : std::max(1, static_cast<int>((room + kBetween_mm) / (strap.width_mm + kBetween_mm)));
}

double share_with(StrapClamps& band, const Strap& strap, int count) {
  set_straps(band, strap, count);
  band.corner_pad.across_mm = band.notched ? band.ring.height.size() : strap.width_mm;
  return true_share(band.plan, need_to_hold(band.plan));
}

// The fewest of up to `most` that hold.
std::optional<StrapClamps> fewest(const ClampProblem& problem, const pressure::Work& work,
                                  const StrapLoop& ring, const Strap& strap, int most) {
  StrapClamps band = band_on(problem, work, ring, strap);
  for (int count = 1; count <= std::min(room_for(ring, strap), most); ++count) {
    if (share_with(band, strap, count) >= axis::kNearlyOne) {
      band.plan.reached = true;
      return band;
    }
  }
  return std::nullopt;
}

// A held axis all of whose faces the ring's corners are.
bool covers(const StrapLoop& ring, const StageAxis& round) {
  const auto& held = round.plan.round.held;
  return !held.empty() && std::all_of(held.begin(), held.end(), [&](const axis::FaceRef& f) {
    return std::any_of(ring.corners.begin(), ring.corners.end(),
                       [&](const StrapCorner& c) { return c.face == f; });
  });
}

int lacking(const StageAxis& round, std::span<const std::optional<std::size_t>> owned) {
  return round.plan.round.seat()
             ? 0
             : static_cast<int>(std::count(owned.begin(), owned.end(), std::nullopt));
}

// What is wrong with an axis's bars: they don't hold, or aren't there.
struct Wanting {
  bool rack_limited = false;
  bool operator()(const StageAxis& round, std::span<const std::optional<std::size_t>> owned) const {
    return !round.plan.round.seat() &&
           (!round.plan.reached || (rack_limited && lacking(round, owned) > 0));
  }
};

// A ring that the trade straps: mitred at every corner, or as the job says.
bool strapped_first(const ClampProblem& problem, const StrapLoop& ring) {
  return std::ranges::all_of(ring.corners, [&](const StrapCorner& corner) {
    const work::Joint& joint = problem.joints[corner.face.joint];
    return joint.kind == work::JointKind::mitre || joint.held_by == work::HeldBy::strap;
  });
}

// The ring that covers the most axes with something wanting; nothing where none covers one.
std::optional<StrapLoop> ring_for(const ClampProblem& problem, const StageAxes& stage) {
  const Wanting wanting{!problem.shop.unlimited_rack};
  std::optional<StrapLoop> best;
  int most = 0;
  for (const Direction& normal : {geometry::kAxis[2], geometry::kAxis[1], geometry::kAxis[0]}) {
    auto ring =
        find_band_ring(problem.job, problem.joints, problem.stage_joints, stage.work, normal);
    int mended = 0;
    std::size_t next = 0;
    for (const StageAxis& round : stage.rounds) {
      const auto owned = std::span(stage.owned).subspan(next, round.plan.clamps.size());
      mended += ring && covers(*ring, round) &&
                        (wanting(round, owned) || strapped_first(problem, *ring))
                    ? 1
                    : 0;
      next += round.plan.clamps.size();
    }
    if (mended > most) {
      most = mended;
      best = std::move(ring);
    }
  }
  return best;
}

// Straps on the rack that go round: a row each.
std::vector<std::size_t> straps_for(const StrapLoop& ring, const work::Shop& shop) {
  std::vector<std::size_t> rows;
  for (std::size_t r = 0; r < shop.clamps.size(); ++r) {
    const work::OwnedClamp& row = shop.clamps[r];
    if (row.kind == tables::band_kind().id && row.opening.mm() >= ring.girth_mm + kToDrawBy_mm) {
      rows.insert(rows.end(), static_cast<std::size_t>(std::max(0, row.count)), r);
    }
  }
  return rows;
}

Strap strap_of_table() {
  const tables::ClampKind& kind = tables::band_kind();
  return {kind.pad_width_mm, kind.force_typ_N};
}

// The weakest and narrowest of the straps there are.
Strap strap_of(const work::Shop& shop, std::span<const std::size_t> rows) {
  Strap strap{1e300, 1e300};
  for (const std::size_t r : rows) {
    strap.width_mm = std::min(strap.width_mm, shop.clamps[r].pad_width.mm());
    strap.tension_N = std::min(strap.tension_N, shop.clamps[r].force_N);
  }
  return strap;
}

constexpr int kMostStraps = 12;

void take_out(StageAxes& stage, const StrapLoop& ring) {
  std::vector<StageAxis> kept;
  std::vector<std::optional<std::size_t>> owned;
  std::size_t next = 0;
  stage.clamps = stage.missing = 0;
  stage.reached = true;
  for (StageAxis& round : stage.rounds) {
    const auto own = std::span(stage.owned).subspan(next, round.plan.clamps.size());
    next += round.plan.clamps.size();
    if (covers(ring, round)) {
      continue;
    }
    if (!round.plan.round.seat()) {
      stage.clamps += static_cast<int>(round.plan.clamps.size());
      stage.missing += lacking(round, own);
      stage.reached &= round.plan.reached;
    }
    owned.insert(owned.end(), own.begin(), own.end());
    kept.push_back(std::move(round));
  }
  stage.rounds = std::move(kept);
  stage.owned = std::move(owned);
}

// Every held axis that the ring leaves to bars is held by them.
bool rest_is_held(const StageAxes& stage, const StrapLoop& ring, const Wanting& wanting) {
  std::size_t next = 0;
  for (const StageAxis& round : stage.rounds) {
    const auto owned = std::span(stage.owned).subspan(next, round.plan.clamps.size());
    next += round.plan.clamps.size();
    if (!covers(ring, round) && wanting(round, owned)) {
      return false;
    }
  }
  return true;
}

double girth_mm(std::span<const geometry::Point> round) {
  double sum = 0;
  for (std::size_t i = 0; i < round.size(); ++i) {
    sum += length(round[(i + 1) % round.size()] - round[i]);
  }
  return sum;
}

}  // namespace

std::optional<StrapClamps> band_instead(const ClampProblem& problem, StageAxes& stage) {
  const auto ring = ring_for(problem, stage);
  if (!ring) {
    return std::nullopt;
  }
  std::optional<StrapClamps> band;
  if (problem.shop.unlimited_rack) {
    band = fewest(problem, stage.work, *ring, strap_of_table(), kMostStraps);
    if (band) {
      band->owned.assign(band->height_mm.size(), std::nullopt);
    }
  } else if (const auto rows = straps_for(*ring, problem.shop); !rows.empty()) {
    band = fewest(problem, stage.work, *ring, strap_of(problem.shop, rows),
                  static_cast<int>(rows.size()));
    for (std::size_t k = 0; band && k < band->height_mm.size(); ++k) {
      band->owned.emplace_back(rows[k]);
    }
  }
  if (band) {
    take_out(stage, *ring);
  }
  return band;
}

std::optional<StrapClamps> band_over_tape(const ClampProblem& problem, const StageAxes& stage) {
  const bool taped = std::ranges::any_of(problem.stage_joints, [&](work::JointId id) {
    return problem.joints[id].held_by == work::HeldBy::tape;
  });
  if (!taped || problem.shop.unlimited_rack) {
    return std::nullopt;
  }
  for (const Direction& normal : {geometry::kAxis[2], geometry::kAxis[1], geometry::kAxis[0]}) {
    const auto ring =
        find_band_ring(problem.job, problem.joints, problem.stage_joints, stage.work, normal);
    const auto rows = ring ? straps_for(*ring, problem.shop) : std::vector<std::size_t>{};
    const bool all_taped = ring && std::ranges::all_of(ring->corners, [&](const StrapCorner& c) {
      return problem.joints[c.face.joint].held_by == work::HeldBy::tape;
    });
    if (rows.empty() || !all_taped) {
      continue;
    }
    const Strap strap = strap_of(problem.shop, rows);
    StrapClamps band = band_on(problem, stage.work, *ring, strap);
    const int serve = static_cast<int>(std::ceil(ring->height.size() / kServes_mm));
    share_with(band, strap,
               std::min({serve, static_cast<int>(rows.size()), std::max(1, room_for(*ring, strap))}));
    band.over_tape = true;
    for (std::size_t k = 0; k < band.height_mm.size(); ++k) {
      band.owned.emplace_back(rows[k]);
    }
    return band;
  }
  return std::nullopt;
}

std::optional<StrapClamps> band_to_borrow(const ClampProblem& problem, const StageAxes& stage) {
  const auto ring = ring_for(problem, stage);
  return ring && rest_is_held(stage, *ring, {!problem.shop.unlimited_rack})
             ? fewest(problem, stage.work, *ring, strap_of_table(), kMostStraps)
             : std::nullopt;
}

std::optional<plan::StrapShortNote> band_short(const ClampProblem& problem,
                                               const StageAxes& stage) {
  const auto ring = ring_for(problem, stage);
  const auto rows = ring ? straps_for(*ring, problem.shop) : std::vector<std::size_t>{};
  if (rows.empty()) {
    return std::nullopt;
  }
  const Strap strap = strap_of(problem.shop, rows);
  plan::StrapShortNote out{std::min(room_for(*ring, strap), static_cast<int>(rows.size())), 0};
  StrapClamps band = band_on(problem, stage.work, *ring, strap);
  out.share = out.straps > 0 ? share_with(band, strap, out.straps) : 0;
  return out.share >= axis::kNearlyOne ? std::nullopt : std::optional(out);
}

int straps_owned(const ClampProblem& problem, const StrapClamps& band) {
  return static_cast<int>(straps_for(band.ring, problem.shop).size());
}

PressingAxis to_plan(const ClampProblem& problem, const StrapClamps& band, int& number) {
  const StrapLoop& ring = band.ring;
  PressingAxis out;
  out.axis = ring.normal;
  out.lines = line_pressures(band.plan, band.plan.clamps);
  out.level = plan::Level::full;
  for (plan::LinePressure& line : out.lines) {
    line.axis = pressure::non_negative(problem.joints[line.joint].faces[line.face].contact.normal);
    if (band.over_tape && line.level == plan::Level::short_of_hold) {
      line.level = plan::Level::seat;  // the tape holds
    }
    out.level = line.level > out.level ? line.level : out.level;
    out.presses.push_back(line.joint);
  }
  if (!band.over_tape) {
    out.holds = out.presses;
  }
  out.proven_fewest = true;
  out.fewest_bound = static_cast<int>(band.height_mm.size());
  for (std::size_t k = 0; k < band.height_mm.size(); ++k) {
    plan::PlannedClamp c;
    c.n = number++;
    c.axis = ring.normal;
    const double raised_mm = band.height_mm[k] - dot(ring.buckle, ring.normal);
    c.at = k % 2 == 1 ? ring.opposed + raised_mm * ring.opposed_rise
                      : ring.buckle + raised_mm * ring.buckle_rise;
    for (std::size_t i = 0; i < ring.outline.size(); ++i) {
      c.round.push_back(ring.outline[i] + raised_mm * ring.rise[i]);
    }
    c.span_mm = girth_mm(c.round);
    c.opening_mm = band.strap_mm;
    c.force_N = band.tension_N;
    take_from_rack(c, problem.shop, band.owned[k], tables::band_kind().id);
    c.level = plan::Level::hold;
    c.pad = band.corner_pad;
    c.pad_along = ring.along;
    const double under_mm2 = c.pad.along_mm * c.pad.across_mm;
    c.bearing_MPa = band.tension_N * (band.notched ? static_cast<double>(band.height_mm.size()) : 1) /
                    under_mm2;
    c.bearing_limit_MPa = band.bearing_limit_MPa;
    c.joints = out.presses;
    out.clamps.push_back(std::move(c));
  }
  std::vector<axis::ChosenClamp> snug = band.plan.clamps;
  for (axis::ChosenClamp& chosen : snug) {
    chosen.force_N *= out.clamps.front().snug_N / band.tension_N;
  }
  tell_snug(band.plan, band.plan.clamps, snug, out.lines);
  return out;
}

}  // namespace planner::clamps::layout
