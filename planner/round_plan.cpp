#include "planner/round_plan.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include "planner/clamp_components.h"
#include "planner/crush.h"
#include "planner/seating.h"
#include "planner/tables/glue.h"
#include "planner/tables/pressure_range.h"
#include "planner/tables/wood.h"

namespace planner {
namespace {

using geometry::Direction;
using geometry::Point;

constexpr double kFirstSpacing_mm = 120;
constexpr double kSameHeight_mm = 0.1;
constexpr int kMostClamps = 80;  // a round; a bench has no room for more
constexpr int kSpacingRounds = 4, kAttempts = 3;
constexpr double kNearlyOne = 1 - 1e-3;  // rounding of pressures
constexpr double kRoughly_mm = 8;
constexpr double kApart_mm = 5;  // between the places that the search looks at

const GlueFamily& family_of(const Joint& joint, const GlueInUse& glue) {
  const GlueFamily* own = joint.glue.empty() ? nullptr : find_glue_family(joint.glue);
  return own != nullptr ? *own : *find_glue_family(glue.family);
}

void add_lines(RoundPlan& plan, const RoundQuestion& q, std::span<const FaceRef> faces) {
  for (const FaceRef& f : faces) {
    plan.lines.push_back(glue_line(q.job, q.joints, q.work, f.joint, f.face, plan.round.axis));
    const Joint& joint = q.joints[f.joint];
    const GlueFamily& family = family_of(joint, q.glue);
    const auto wood = [&](int i) {
      return find_wood(q.job.parts[joint.parts[static_cast<std::size_t>(i)]].species);
    };
    const bool own = !joint.glue.empty() && &family != find_glue_family(q.glue.family);
    plan.hold_MPa.push_back(own ? hold_pressure(family).lo_MPa : q.glue.hold_MPa);
    plan.full_MPa.push_back(
        std::max(plan.hold_MPa.back(), pressure_range(family, *wood(0), *wood(1)).lo_MPa));
  }
}

void find_sites(RoundPlan& plan, const RoundQuestion& q) {
  const geometry::Tolerance tolerance;
  const auto bearing = geometry::find_bearing_faces(q.work.solids, plan.round.axis, tolerance);
  const RoundSetting& s = q.setting;
  const double block = pad_length_mm(s.jaw_mm, s.thick_mm, q.job.units);
  const double along = plan.padding == Padding::strips ? s.jaw_mm : block;
  const PadSize pad{along, s.jaw_high_mm, s.thick_mm};
  SiteSearch search{q.job, q.joints, q.work, bearing, plan.lines, plan.round.axis, pad};
  search.max_gap_mm = std::max(q.glue.max_gap_mm, tolerance.max_gap_mm) + 0.05;
  if (plan.round.seat()) {
    search.off_centre = 0.5;
  }
  const std::size_t lines = plan.round.seat() ? plan.lines.size() : plan.held_lines;
  plan.tracks = clamp_tracks(std::span(plan.lines).first(lines), plan.round.axis);
  plan.sites = clamp_sites(search, plan.tracks);
  for (const ClampSite& site : plan.sites) {
    const double bearing_MPa =
        std::min(bearing_limit_MPa(*find_wood(q.job.parts[site.path.front()].species)),
                 bearing_limit_MPa(*find_wood(q.job.parts[site.path.back()].species)));
    plan.bearing_limit_MPa.push_back(bearing_MPa);
    // Under a strip the wood bears on at least what a block of that thickness would cover.
    const double under = plan.padding == Padding::strips ? block : site.pad.along_mm;
    const double bears = bearing_MPa * under * site.pad.across_mm;
    plan.bears_N.push_back(bears);
    plan.limit_N.push_back(std::max(kSnug_N, std::min(s.force_N, bears)));
  }
}

// --- Held axes
// -------------------------------------------------------------------------------------

// The same force on every clamp where that does, as low as it may be; else the evenest. Judged by
// every sample (`table`), on which the component's spots are the plan's sites.
std::vector<double> forces_for(const ClampComponent& c, const Placement& placement,
                               const PressTable& table) {
  const PlacementQuestion& q = c.question;
  double equal = kSnug_N, limit = std::numeric_limits<double>::max();
  for (const std::size_t s : placement.spots) {
    limit = std::min(limit, q.limit_N[s]);
  }
  std::vector<double> sum(table.places, 0.0), uneven = table.at_rest;
  bool rests = true;
  for (std::size_t i = 0; i < placement.spots.size(); ++i) {
    const std::span<const double> column = table.of(c.sites[placement.spots[i]]);
    for (std::size_t p = 0; p < column.size(); ++p) {
      sum[p] += column[p];
      uneven[p] += column[p] * placement.forces.force_N[i];
    }
  }
  bool steady = true;
  double least = std::numeric_limits<double>::max();
  for (std::size_t p = 0; p < table.places; ++p) {
    if (std::abs(sum[p]) < 1e-12) {
      continue;  // another component's
    }
    rests &= table.at_rest[p] == 0;
    const double lack = 1 - table.at_rest[p];
    steady &= sum[p] > 0 || lack <= 0;
    equal = sum[p] > 0 ? std::max(equal, lack / sum[p]) : equal;
    least = std::min(least, uneven[p]);
  }
  if (steady && hand_force_N(equal) <= limit) {
    return std::vector<double>(placement.spots.size(), hand_force_N(equal));
  }
  std::vector<double> forces = placement.forces.force_N;
  for (std::size_t i = 0; i < forces.size(); ++i) {
    const double needed = rests && least > 0 ? forces[i] / least : forces[i];
    forces[i] = std::min(q.limit_N[placement.spots[i]], hand_force_N(std::max(kSnug_N, needed)));
  }
  return forces;
}

struct Solved {
  std::vector<ChosenClamp> clamps;
  bool reached = true;
};

// Where nothing does, as many clamps as the spots take at a hand's breadth, as hard as they may.
Placement all_that_fit(const PlacementQuestion& q) {
  Placement p;
  std::vector<char> taken(q.limit_N.size(), 0);
  for (std::size_t s = 0; s < q.limit_N.size(); ++s) {
    const bool clash = std::any_of(q.exclusive.begin(), q.exclusive.end(), [&](const auto& pair) {
      return (pair.first == s && taken[pair.second] != 0) ||
             (pair.second == s && taken[pair.first] != 0);
    });
    if (!clash) {
      taken[s] = 1;
      p.spots.push_back(s);
    }
  }
  p.forces = even_forces(q.table, p.spots, q.snug_N, q.limit_N);
  return p;
}

// Evenly spread, or where that can't be done nothing.
std::vector<std::optional<Placement>> spread(const std::vector<ClampComponent>& parts) {
  std::vector<std::optional<Placement>> out;
  for (const ClampComponent& c : parts) {
    out.push_back(even_spread(c.question, c.tracks, c.track_of_place, kMostClamps));
  }
  return out;
}

Solved with_forces(const std::vector<ClampComponent>& parts,
                   const std::vector<std::optional<Placement>>& placements,
                   const PressTable& every) {
  Solved out;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const ClampComponent& c = parts[i];
    out.reached &= placements[i].has_value();
    const Placement placement = placements[i] ? *placements[i] : all_that_fit(c.question);
    const std::vector<double> forces = forces_for(c, placement, every);
    for (std::size_t k = 0; k < placement.spots.size(); ++k) {
      out.clamps.push_back({c.sites[placement.spots[k]], forces[k]});
    }
  }
  std::sort(out.clamps.begin(), out.clamps.end(),
            [](const ChosenClamp& a, const ChosenClamp& b) { return a.site < b.site; });
  return out;
}

std::vector<int> clamps_on_lines(const RoundPlan& plan, const std::vector<ClampComponent>& parts,
                                 const std::vector<std::optional<Placement>>& placements) {
  std::vector<int> count(plan.lines.size(), 0);
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const std::vector<std::size_t> none;
    for (const std::size_t spot : placements[i] ? placements[i]->spots : none) {
      for (const PressedAt& p : plan.sites[parts[i].sites[spot]].presses) {
        ++count[p.line];
      }
    }
  }
  for (int& n : count) {
    n = std::max(n, 1);
  }
  return count;
}

void set_up(RoundPlan& plan, const std::vector<int>& on_line, double thick_mm) {
  plan.model = std::make_unique<PressModel>(
      PressSetUp{std::span(plan.lines).first(plan.held_lines), plan.sites, on_line,
                 plan.padding == Padding::strips ? thick_mm : 0});
}

void note_beyond_reach(RoundPlan& plan) {
  for (std::size_t l = 0; l < plan.held_lines; ++l) {
    bool any = false;
    for (std::size_t s = 0; s < plan.sites.size() && !any; ++s) {
      any = plan.model->presses(s, l);
    }
    if (!any) {
      plan.beyond_reach.push_back(l);
    }
  }
}

// Share of what is asked that the worst pressed line gets, with joints and cauls that can open.
double true_share(const RoundPlan& plan, const PressNeed& need) {
  const std::vector<LineResult> results = press(plan, plan.clamps);
  double least = std::numeric_limits<double>::max();
  for (std::size_t l = 0; l < plan.held_lines; ++l) {
    if (std::find(plan.beyond_reach.begin(), plan.beyond_reach.end(), l) ==
        plan.beyond_reach.end()) {
      const LineProfile& p = results[l].profile;
      least =
          std::min(least, need.hand * (p.min_MPa - kModelMargin * p.mean_MPa) / need.line_MPa[l]);
    }
  }
  return least;
}

// Harder, where the clamps can: pressure grows with force when no gap is to be closed first.
void tighten(RoundPlan& plan, double share) {
  for (ChosenClamp& c : plan.clamps) {
    c.force_N = std::min(plan.limit_N[c.site], hand_force_N(c.force_N / share));
  }
}

std::vector<int> first_guess(const RoundPlan& plan) {
  std::vector<int> on_line;
  for (const GlueLine& line : plan.lines) {
    on_line.push_back(std::max(1, static_cast<int>(std::ceil(line.length_mm / kFirstSpacing_mm))));
  }
  return on_line;
}

// The same round with half of the spots: enough to see how many clamps it takes.
RoundPlan coarse(const RoundPlan& plan) {
  RoundPlan out;
  out.round = plan.round;
  out.padding = plan.padding;
  out.lines = plan.lines;
  out.held_lines = plan.held_lines;
  out.tracks = plan.tracks;
  std::size_t first = 0;  // of the site's track
  for (std::size_t s = 0; s < plan.sites.size(); ++s) {
    first = plan.sites[s].track == plan.sites[first].track ? first : s;
    const bool last = s + 1 == plan.sites.size() || plan.sites[s + 1].track != plan.sites[s].track;
    if (last || (s - first) % 2 == 0) {
      out.sites.push_back(plan.sites[s]);
      out.limit_N.push_back(plan.limit_N[s]);
    }
  }
  return out;
}

// A count and how it lies on the lines, from few spots.
struct Rough {
  std::vector<int> on_line;
  int clamps = 0;
  bool works = false;
};

// The count where the lines' stiffness is that of so many clamps on each.
Rough counted(RoundPlan& few, const RoundQuestion& q, const PressNeed& need,
              const std::vector<int>& on_line) {
  set_up(few, on_line, q.setting.thick_mm);
  const auto parts = clamp_components(few, few.model->table(need, kRoughly_mm));
  const auto placements = spread(parts);
  Rough out{clamps_on_lines(few, parts, placements), 0, !parts.empty()};
  for (const std::optional<Placement>& p : placements) {
    out.works &= p.has_value();
    out.clamps += p ? static_cast<int>(p->spots.size()) : 0;
  }
  return out;
}

// How far a clamp's force spreads depends on how many share the line, so the count is found anew
// until it stays; then, as a line pressed in fewer places yields more, whether one less on each
// line carries itself too.
Rough rough(const RoundPlan& plan, const RoundQuestion& q, const PressNeed& need) {
  RoundPlan few = coarse(plan);
  std::vector<int> assumed = first_guess(plan);
  Rough out = counted(few, q, need, assumed);
  for (int round = 1; round < kSpacingRounds && out.works && out.on_line != assumed; ++round) {
    assumed = out.on_line;
    out = counted(few, q, need, assumed);
  }
  for (int& n : assumed) {
    n = std::max(1, n - 1);
  }
  const Rough fewer = counted(few, q, need, assumed);
  return fewer.works && (!out.works || fewer.clamps < out.clamps) ? fewer : out;
}

// On all spots, from a rough count.
void settle(RoundPlan& plan, const RoundQuestion& q, const PressNeed& need,
            std::vector<int> on_line) {
  std::vector<ClampComponent> parts;
  std::vector<std::optional<Placement>> placements;
  for (int round = 0; round < kSpacingRounds; ++round) {
    set_up(plan, on_line, q.setting.thick_mm);
    parts = clamp_components(plan, plan.model->table(need, kApart_mm));
    placements = spread(parts);
    const std::vector<int> now = clamps_on_lines(plan, parts, placements);
    if (now == on_line) {
      break;
    }
    on_line = now;
  }
  plan.proven = true;
  plan.bound = 0;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    FewestClamps found = fewest_clamps(parts[i].question, placements[i], q.setting.effort);
    plan.proven &= found.proven();
    plan.bound += found.bound;
    placements[i] = std::move(found.best);
  }
  Solved solved = with_forces(parts, placements, plan.model->table(need, 0).table);
  plan.clamps = std::move(solved.clamps);
  plan.reached = solved.reached && !plan.clamps.empty();
}

// The search takes every spring as holding. Where a caul or a joint opens, the truth is a little
// less: tighten; where the clamps are at their limit, ask the search for more.
void plan_held(RoundPlan& plan, const RoundQuestion& q, const PressNeed& asked,
               const std::vector<int>& on_line) {
  PressNeed need = asked;
  for (int attempt = 0; attempt < kAttempts; ++attempt) {
    settle(plan, q, need, on_line);
    plan.beyond_reach.clear();
    note_beyond_reach(plan);
    double share = plan.reached ? true_share(plan, asked) : 1;
    if (share > 0 && share < 1) {
      tighten(plan, share);
      share = true_share(plan, asked);
    }
    plan.reached &= share > kNearlyOne && plan.beyond_reach.empty();
    if (share > kNearlyOne) {
      return;
    }
    for (double& line : need.line_MPa) {
      line *= std::clamp(1 / share, 1.05, 1.5);
    }
  }
}

RoundPlan laid_out(const RoundQuestion& q, Padding padding) {
  RoundPlan plan;
  plan.round = q.round;
  plan.padding = padding;
  add_lines(plan, q, q.round.held);
  plan.held_lines = plan.lines.size();
  add_lines(plan, q, q.round.closed);
  find_sites(plan, q);
  return plan;
}

bool all_edges(const RoundPlan& plan) {
  return std::all_of(plan.lines.begin(),
                     plan.lines.begin() + static_cast<std::ptrdiff_t>(plan.held_lines),
                     [](const GlueLine& line) { return line.shape == LineShape::edge; });
}

}  // namespace

double hand_force_N(double force_N) {
  constexpr double kStep_N = 50;
  return kStep_N * std::ceil(force_N / kStep_N - 1e-6);
}

double pad_length_mm(double jaw_mm, double thick_mm, Units units) {
  const double step = cut_sizes(units).step_mm;
  return step * std::floor((jaw_mm + 2 * thick_mm) / step + 1e-9);
}

RoundPlan plan_round(const RoundQuestion& question, Level wanted) {
  if (question.round.seat()) {
    RoundPlan plan = laid_out(question, Padding::blocks);
    plan.clamps = seating_clamps(plan, question.joints, question.work);
    plan.reached = !plan.clamps.empty();
    return plan;
  }
  std::optional<RoundPlan> best;
  Rough best_rough;
  PressNeed need;
  for (const Padding padding : question.setting.paddings) {
    RoundPlan plan = laid_out(question, padding);
    if (best && all_edges(plan)) {
      break;  // boards on edge spread a force better than any strip would
    }
    need =
        wanted == Level::full ? PressNeed{plan.full_MPa, 1} : PressNeed{plan.hold_MPa, kWeakHand};
    Rough now = rough(plan, question, need);
    if (!best || !best_rough.works || (now.works && now.clamps < best_rough.clamps)) {
      best = std::move(plan);
      best_rough = std::move(now);
    }
  }
  plan_held(*best, question, need, best_rough.on_line);
  return std::move(*best);
}

std::vector<LineResult> press(const RoundPlan& plan, std::span<const ChosenClamp> clamps) {
  std::vector<std::size_t> sites;
  std::vector<double> forces;
  for (const ChosenClamp& c : clamps) {
    sites.push_back(c.site);
    forces.push_back(c.force_N);
  }
  return plan.model->press(sites, forces);
}

std::vector<char> beyond_hold(const RoundPlan& plan) {
  std::vector<char> extra(plan.clamps.size(), 0);
  if (plan.round.seat() || plan.clamps.empty()) {
    return extra;
  }
  for (const ClampComponent& c :
       clamp_components(plan, plan.model->table({plan.hold_MPa, kWeakHand}, kApart_mm))) {
    std::vector<std::size_t> kept;  // in the component's question
    for (const ChosenClamp& clamp : plan.clamps) {
      const auto it = std::find(c.sites.begin(), c.sites.end(), clamp.site);
      if (it != c.sites.end()) {
        kept.push_back(static_cast<std::size_t>(it - c.sites.begin()));
      }
    }
    for (std::size_t i = kept.size(); i-- > 0;) {
      std::vector<std::size_t> fewer = kept;
      fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(i));
      if (!fewer.empty() && try_spots(c.question, fewer)) {
        const std::size_t site = c.sites[kept[i]];
        const auto at = std::find_if(plan.clamps.begin(), plan.clamps.end(),
                                     [site](const ChosenClamp& k) { return k.site == site; });
        extra[static_cast<std::size_t>(at - plan.clamps.begin())] = 1;
        kept = std::move(fewer);
      }
    }
  }
  return extra;
}

double force_needed_N(const RoundPlan& plan, std::span<const Joint> joints, const Work& work,
                      std::span<const double> MPa) {
  const std::size_t lines = plan.round.seat() ? plan.lines.size() : plan.held_lines;
  std::map<PartId, double> height;
  for (std::size_t i = 0; i < work.parts.size(); ++i) {
    const geometry::Box box = geometry::bounds(work.solids[i]);
    const Point middle = box.lo + 0.5 * (box.hi - box.lo);
    height[work.parts[i]] = dot(middle, plan.round.axis);
  }
  double most = 0;
  for (const auto& [part, cut] : height) {
    double force = 0;
    for (std::size_t l = 0; l < lines; ++l) {
      const auto& parts = joints[plan.lines[l].joint].parts;
      const bool low = height[parts[0]] <= cut + kSameHeight_mm;
      const bool high = height[parts[1]] <= cut + kSameHeight_mm;
      force += low != high ? MPa[l] * plan.lines[l].length_mm * plan.lines[l].width_mm : 0;
    }
    most = std::max(most, force);
  }
  return most;
}

}  // namespace planner
