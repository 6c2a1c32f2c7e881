#include "planner/clamps/layout/clamp_clearance.h"

#include <algorithm>
#include <map>
#include <set>

#include "planner/clamps/axis/shaped_pads.h"
#include "planner/clamps/bodies/clamp_bodies.h"

namespace planner::clamps::layout {
namespace {

using geometry::Direction;

constexpr double kAlikeReach_mm = 1;
constexpr double kDown = 0.7;  // cosine

// Indices of a round's clamps among all.
struct Range {
  std::size_t first = 0, last = 0;
};

std::vector<Range> ranges_of(const StageAxes& stage) {
  std::vector<Range> out;
  std::size_t next = 0;
  for (const StageAxis& round : stage.rounds) {
    out.push_back({next, next + round.plan.clamps.size()});
    next = out.back().last;
  }
  return out;
}

// Nearest first, downwards last: the bench is there, and bars below want risers. Of two opposite
// ones that are alike the second on every other clamp, so that a panel is pulled on from both its
// faces.
std::array<std::size_t, 4> sides_by_reach(const axis::ClampSite& site,
                                          const std::array<Direction, 4>& to, std::size_t turn) {
  std::array<std::size_t, 4> order{0, 1, 2, 3};
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return site.reach_mm[a] < site.reach_mm[b] - kAlikeReach_mm;
  });
  const bool pair = (order[0] ^ 1U) == order[1] &&
                    site.reach_mm[order[1]] < site.reach_mm[order[0]] + kAlikeReach_mm;
  if (pair) {
    const bool first_down = to[order[0]].z < -kDown;
    if ((turn % 2 == 1) != first_down) {
      std::swap(order[0], order[1]);
    }
    return order;
  }
  std::stable_partition(order.begin(), order.end(),
                        [&](std::size_t side) { return to[side].z > -kDown; });
  return order;
}

bodies::StandingClamp standing(const StageAxis& round, const axis::ChosenClamp& chosen,
                               std::size_t turn, const work::OwnedClamp* owned) {
  const axis::AxisClamps& plan = round.plan;
  const axis::ClampSite& site = plan.sites[chosen.site];
  bodies::StandingClamp c;
  c.kind = tables::find_clamp_kind(owned != nullptr ? owned->kind : round.kind.kind);
  c.axis = plan.round.axis;
  c.low = site.at + (-packed_mm(plan, site, 0)) * c.axis;
  c.between_mm = site.span_mm + packed_mm(plan, site, 0) + packed_mm(plan, site, 1);
  c.throat_mm = owned != nullptr ? owned->throat.mm() : round.kind.throat_mm;
  c.bar_mm = owned != nullptr ? owned->opening.mm()
                              : sold_opening_mm(round.kind.kind, opening_mm(round.plan, site));
  const Direction along = plan.tracks[site.track].along;
  const Direction across = across_of(plan.tracks[site.track], c.axis);
  const std::array<Direction, 4> sides{-along, along, -across, across};
  for (const std::size_t side : sides_by_reach(site, sides, turn)) {
    if (site.reach_mm[side] + axis::kBarClears_mm <= c.throat_mm) {
      c.sides[static_cast<std::size_t>(c.side_count++)] = sides[side];
    }
  }
  if (c.side_count == 0) {  // not on the rack, and nothing sold reaches so deep
    c.sides[static_cast<std::size_t>(c.side_count++)] = sides[static_cast<std::size_t>(
        std::min_element(site.reach_mm.begin(), site.reach_mm.end()) - site.reach_mm.begin())];
  }
  return c;
}

struct Arrangement {
  std::vector<bodies::StandingClamp> clamps;
  bodies::BarSides sides;
};

Arrangement arranged(const work::Shop& shop, std::span<const StageAxis* const> rounds,
                     std::span<const std::optional<std::size_t>> owned) {
  Arrangement out;
  std::size_t next = 0;
  for (const StageAxis* round : rounds) {
    for (std::size_t i = 0; i < round->plan.clamps.size(); ++i) {
      const std::optional<std::size_t> row = owned[next++];
      out.clamps.push_back(
          standing(*round, round->plan.clamps[i], i, row ? &shop.clamps[*row] : nullptr));
    }
  }
  out.sides = choose_bar_sides(out.clamps);
  return out;
}

Arrangement arranged(const ClampProblem& problem, const StageAxes& stage) {
  std::vector<const StageAxis*> rounds;
  for (const StageAxis& round : stage.rounds) {
    rounds.push_back(&round);
  }
  return arranged(problem.shop, rounds, stage.owned);
}

// Rows of the rack, or kinds on sale, that could serve a whole round in place of what it has.
struct Other {
  PlannedKind kind;
  std::optional<std::size_t> row;
};

bool serves_all(const StageAxis& round, const work::OwnedClamp& row) {
  return std::all_of(round.plan.clamps.begin(), round.plan.clamps.end(),
                     [&](const axis::ChosenClamp& c) { return serves(row, wanted_at(round, c)); });
}

std::vector<Other> others_for(const ClampProblem& problem, const StageAxes& stage,
                              std::size_t which, const Range& range) {
  const StageAxis& round = stage.rounds[which];
  std::vector<Other> out;
  if (problem.shop.unlimited_rack) {
    double widest = 0, most_N = 0, reach = 0;
    for (const axis::ChosenClamp& c : round.plan.clamps) {
      const axis::ClampSite& site = round.plan.sites[c.site];
      widest = std::max(widest, opening_mm(round.plan, site));
      most_N = std::max(most_N, c.force_N);
      reach = std::max(reach, *std::min_element(site.reach_mm.begin(), site.reach_mm.end()));
    }
    for (const PlannedKind& kind : kinds_that_open(problem.shop, widest)) {
      if (kind.kind != round.kind.kind && kind.force_N >= most_N &&
          kind.throat_mm >= reach + axis::kBarClears_mm && kind.jaw_mm >= round.kind.jaw_mm - 1) {
        out.push_back({kind, std::nullopt});
      }
    }
    return out;
  }
  std::map<std::size_t, int> used;
  for (std::size_t i = 0; i < stage.owned.size(); ++i) {
    if (stage.owned[i] && (i < range.first || i >= range.last)) {
      ++used[*stage.owned[i]];
    }
  }
  const int wanted = static_cast<int>(range.last - range.first);
  for (std::size_t r = 0; r < problem.shop.clamps.size(); ++r) {
    const work::OwnedClamp& row = problem.shop.clamps[r];
    if (row.count - used[r] >= wanted && serves_all(round, row)) {
      PlannedKind kind = round.kind;
      kind.kind = row.kind;
      out.push_back({kind, r});
    }
  }
  return out;
}

void give(StageAxes& stage, std::size_t which, const Range& range, const Other& other) {
  stage.rounds[which].kind.kind = other.kind.kind;
  stage.rounds[which].kind.throat_mm = other.kind.throat_mm;
  for (std::size_t i = range.first; i < range.last; ++i) {
    stage.owned[i] = other.row;
  }
}

// One round after another gets the kind that leaves fewest clashes.
void change_kinds(const ClampProblem& problem, StageAxes& stage, Arrangement& now) {
  const std::vector<Range> ranges = ranges_of(stage);
  for (std::size_t which = stage.rounds.size(); which-- > 0 && now.sides.clashes > 0;) {
    const PlannedKind kind = stage.rounds[which].kind;
    const auto owned = stage.owned;
    std::optional<Other> best;
    for (const Other& other : others_for(problem, stage, which, ranges[which])) {
      give(stage, which, ranges[which], other);
      Arrangement trial = arranged(problem, stage);
      if (trial.sides.clashes < now.sides.clashes) {
        now = std::move(trial);
        best = other;
      }
      stage.rounds[which].kind = kind;
      stage.owned = owned;
    }
    if (best) {
      give(stage, which, ranges[which], *best);
    }
  }
}

}  // namespace

int bar_clashes(const work::Shop& shop, std::span<const StageAxis* const> rounds,
                std::span<const std::optional<std::size_t>> owned) {
  return arranged(shop, rounds, owned).sides.clashes;
}

Clearance clear_bars(const ClampProblem& problem, StageAxes& stage) {
  Arrangement now = arranged(problem, stage);
  if (now.sides.clashes > 0 && stage.missing == 0) {
    change_kinds(problem, stage, now);
  }
  Clearance out;
  out.clashes = now.sides.clashes;
  for (std::size_t i = 0; i < now.clamps.size(); ++i) {
    out.bar_side.push_back(now.clamps[i].sides[now.sides.side[i]]);
    const std::size_t other = now.sides.in_the_way[i];
    out.in_the_way.push_back(other == i ? std::nullopt : std::optional(other));
  }
  return out;
}

}  // namespace planner::clamps::layout
