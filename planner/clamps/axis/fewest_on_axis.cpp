#include "planner/clamps/axis/fewest_on_axis.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <memory>

#include "planner/clamps/axis/clamp_components.h"

namespace planner::clamps::axis {
namespace {

constexpr double kFirstSpacing_mm = 120;
constexpr int kSpacingRounds = 4, kAttempts = 3;
constexpr double kOpens = 2.0 / 3;
constexpr double kRoughly_mm = 8;
constexpr double kJustOver = 1 + 1e-6;  // the highest mean: rounding of pressures
constexpr double kWithEase = 1.3;  // of what is asked, when every clamp gives its most

// The same force on every clamp where that does, as low as it may be; else the evenest. Judged by
// every sample (`table`), on which the component's spots are the plan's sites.
std::vector<double> forces_for(const ClampComponent& c, const count::Placement& placement,
                               const count::PressTable& table) {
  const count::PlacementQuestion& q = c.question;
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
count::Placement all_that_fit(const count::PlacementQuestion& q) {
  count::Placement p;
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
  for (const std::size_t s : p.spots) {
    p.forces.force_N.push_back(q.limit_N[s]);
  }
  return p;
}

// Evenly spread, or where that can't be done nothing.
std::vector<std::optional<count::Placement>> spread(const std::vector<ClampComponent>& parts,
                                                    int most) {
  std::vector<std::optional<count::Placement>> out;
  for (const ClampComponent& c : parts) {
    out.push_back(even_spread(c.question, c.tracks, c.track_of_place, most));
  }
  return out;
}

Solved with_forces(const std::vector<ClampComponent>& parts,
                   const std::vector<std::optional<count::Placement>>& placements,
                   const count::PressTable& every) {
  Solved out;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const ClampComponent& c = parts[i];
    out.reached &= placements[i].has_value();
    const count::Placement placement = placements[i] ? *placements[i] : all_that_fit(c.question);
    const std::vector<double> forces =
        placements[i] ? forces_for(c, placement, every) : placement.forces.force_N;
    for (std::size_t k = 0; k < placement.spots.size(); ++k) {
      out.clamps.push_back({c.sites[placement.spots[k]], forces[k]});
    }
  }
  std::sort(out.clamps.begin(), out.clamps.end(),
            [](const ChosenClamp& a, const ChosenClamp& b) { return a.site < b.site; });
  return out;
}

std::vector<int> clamps_on_lines(const AxisClamps& plan, const std::vector<ClampComponent>& parts,
                                 const std::vector<std::optional<count::Placement>>& placements) {
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

// The models of one plan, by the clamps assumed on each line: a search comes back to the same.
struct Models {
  KnownSystems& known;
  std::map<std::vector<int>, std::shared_ptr<const PressModel>> by_count = {};
};

void set_up(AxisClamps& plan, const std::vector<int>& on_line, Models& models) {
  std::shared_ptr<const PressModel>& model = models.by_count[on_line];
  if (!model) {
    model = std::make_shared<PressModel>(
        PressSetUp{plan.held(), plan.sites, on_line,
                   on_strips(plan.packing.padding) ? plan.packing.thick_mm : 0},
        models.known);
  }
  plan.model = model;
}

void note_beyond_reach(AxisClamps& plan) {
  for (std::size_t l = 0; l < plan.held_lines; ++l) {
    bool any = false;
    for (std::size_t s = 0; s < plan.sites.size() && !any; ++s) {
      any = plan.model->presses(s, l);
    }
    plan.lines[l].beyond_reach = !any;
  }
}

// Harder, where the clamps can: pressure grows with force when no gap is to be closed first.
void tighten(AxisClamps& plan, double share) {
  for (ChosenClamp& c : plan.clamps) {
    c.force_N = std::min(plan.sites[c.site].limit_N, hand_force_N(c.force_N / share));
  }
}

std::vector<int> first_guess(const AxisClamps& plan) {
  std::vector<int> on_line;
  for (const pressure::GlueLine& line : plan.lines) {
    on_line.push_back(std::max(1, static_cast<int>(std::ceil(line.length_mm / kFirstSpacing_mm))));
  }
  return on_line;
}

// The same round with half of the spots: enough to see how many clamps it takes.
AxisClamps coarse(const AxisClamps& plan) {
  AxisClamps out;
  out.round = plan.round;
  out.packing = plan.packing;
  out.lines = plan.lines;
  out.held_lines = plan.held_lines;
  out.tracks = plan.tracks;
  std::size_t first = 0;  // of the site's track
  for (std::size_t s = 0; s < plan.sites.size(); ++s) {
    first = plan.sites[s].track == plan.sites[first].track ? first : s;
    const bool last = s + 1 == plan.sites.size() || plan.sites[s + 1].track != plan.sites[s].track;
    if (last || (s - first) % 2 == 0) {
      out.sites.push_back(plan.sites[s]);
    }
  }
  return out;
}

// The count where the lines' stiffness is that of so many clamps on each.
RoughCount counted(AxisClamps& few, const AxisQuestion& q, const PressNeed& need,
                   const std::vector<int>& on_line, Models& models) {
  set_up(few, on_line, models);
  const auto parts = clamp_components(few, few.model->table(need, kRoughly_mm));
  const auto placements = spread(parts, q.setting.kind.most);
  RoughCount out{clamps_on_lines(few, parts, placements), 0, !parts.empty(), true};
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const std::optional<count::Placement>& p = placements[i];
    out.works &= p.has_value();
    out.clamps += p ? static_cast<int>(p->spots.size()) : 0;
    out.even &= p && worst_at_equal_force(parts[i].question, p->spots).share >= kWithEase;
  }
  return out;
}

using Placements = std::vector<std::optional<count::Placement>>;

struct Settled {
  std::vector<ClampComponent> parts;
  Placements spread, fewest;  // evenly; and what the search found, which is no more
  std::vector<int> on_line;   // that the model assumes
};

// On all spots, from a rough count: the fewest.
Settled settle(AxisClamps& plan, const AxisQuestion& q, const PressNeed& need,
               std::vector<int> on_line, Models& models) {
  Settled out;
  for (int round = 0; round < kSpacingRounds; ++round) {
    set_up(plan, on_line, models);
    out.parts = clamp_components(plan, plan.model->table(need, kApart_mm));
    out.spread = spread(out.parts, q.setting.kind.most);
    out.on_line = on_line;
    const std::vector<int> now = clamps_on_lines(plan, out.parts, out.spread);
    if (now == on_line) {
      break;
    }
    on_line = now;
  }
  plan.proven = true;
  plan.bound = 0;
  for (std::size_t i = 0; i < out.parts.size(); ++i) {
    count::FewestClamps found =
        fewest_clamps(out.parts[i].question, out.spread[i], q.setting.effort);
    plan.proven &= found.proven();
    plan.bound += found.bound;
    out.fewest.push_back(std::move(found.best));
  }
  note_beyond_reach(plan);
  return out;
}

Placements evened(const Settled& settled) {
  Placements out = settled.fewest;
  for (std::size_t i = 0; i < out.size(); ++i) {
    if (out[i]) {
      out[i] = evened(settled.parts[i].question, settled.parts[i].tracks, *out[i]);
    }
  }
  return out;
}

// How the plan's lines fare with its clamps.
struct Fares {
  double share = 1;  // of what is asked, that the worst line gets
  double most = 0;   // of the highest mean, that the hardest pressed line gets
};

double share_of(const AxisClamps& plan, const PressNeed& need,
                std::span<const LineResult> planned) {
  const std::vector<pressure::LineProfile> weak =
      need.hand < 1 ? weakly(plan, plan.clamps, planned) : std::vector<pressure::LineProfile>{};
  double least = std::numeric_limits<double>::max();
  for (std::size_t l = 0; l < plan.held_lines; ++l) {
    if (!plan.lines[l].beyond_reach) {
      const pressure::LineProfile& p = need.hand < 1 ? weak[l] : planned[l].profile;
      least = std::min(least, sure_MPa(p.min_MPa, p.mean_MPa) / need.line_MPa[l]);
    }
  }
  return least;
}

double most_of(const AxisClamps& plan, std::span<const LineResult> planned) {
  double most = 0;
  for (std::size_t l = 0; l < plan.held_lines; ++l) {
    const bool drawn = std::ranges::any_of(plan.clamps, [&](const ChosenClamp& c) {
      return c.force_N > kSnug_N && plan.model->presses(c.site, l);
    });
    most = drawn ? std::max(most, planned[l].profile.mean_MPa / plan.lines[l].most_MPa) : most;
  }
  return most;
}

Fares fares(const AxisClamps& plan, const PressNeed& asked) {
  const std::vector<LineResult> planned = press(plan, plan.clamps);
  return {share_of(plan, asked, planned), most_of(plan, planned)};
}

// Sets the plan's clamps. The search takes every spring as holding; where a caul or a joint opens,
// the truth is a little less, and the clamps are tightened.
Fares force_on(AxisClamps& plan, const Settled& settled, const Placements& placements,
               const count::PressTable& every, const PressNeed& asked) {
  Solved solved = with_forces(settled.parts, placements, every);
  plan.clamps = std::move(solved.clamps);
  plan.reached = solved.reached && !plan.clamps.empty();
  Fares now = plan.reached ? fares(plan, asked) : Fares{};
  if (now.share > 0 && now.share < 1) {
    tighten(plan, now.share);
    now = fares(plan, asked);
  }
  plan.reached &= now.share > kNearlyOne && now.most <= kJustOver &&
                  std::ranges::none_of(plan.lines, &AskedLine::beyond_reach);
  return now;
}

// Placements judged by a model whose lines are as stiff as so many clamps leave them: the search
// may have found fewer than it assumed, and a line pressed in fewer places yields more.
class Judging {
 public:
  Judging(AxisClamps& plan, const Settled& settled, const PressNeed& need, const PressNeed& asked,
          Models& models)
      : plan_(plan),
        settled_(settled),
        need_(need),
        asked_(asked),
        models_(models),
        on_line_(settled.on_line) {
    every_ = plan.model->table(need_, 0).table;
  }

  void look_at(const Placements& placements) {
    assume(clamps_on_lines(plan_, settled_.parts, placements));
    const Fares now = force_on(plan_, settled_, placements, every_, asked_);
    share_ = std::max(share_, now.share);
    crushes_ |= now.share > kNearlyOne && now.most > kJustOver;
    if (plan_.reached && (best_.empty() || hardest_N(plan_.clamps) < hardest_N(best_))) {
      best_ = plan_.clamps;
      best_on_line_ = on_line_;
    }
  }

  bool any() const { return !best_.empty(); }
  double share() const { return share_; }  // of what is asked, that the best of them all gives
  bool crushes() const { return crushes_; }  // one of them gives enough, and some line too much

  void keep_best() {
    assume(best_on_line_);
    plan_.clamps = std::move(best_);
    plan_.reached = true;
    plan_.proven &= static_cast<int>(plan_.clamps.size()) == plan_.bound;
  }

 private:
  void assume(const std::vector<int>& on_line) {
    if (on_line != on_line_) {
      on_line_ = on_line;
      set_up(plan_, on_line_, models_);
      every_ = plan_.model->table(need_, 0).table;
    }
  }

  AxisClamps& plan_;
  const Settled& settled_;
  const PressNeed& need_;
  const PressNeed& asked_;
  Models& models_;
  std::vector<int> on_line_, best_on_line_;
  count::PressTable every_;
  std::vector<ChosenClamp> best_;
  double share_ = 0;
  bool crushes_ = false;
};

}  // namespace

double share_of_most(const AxisClamps& plan) {
  return most_of(plan, press(plan, plan.clamps));
}

double hardest_N(const std::vector<ChosenClamp>& clamps) {
  double most = 0;
  for (const ChosenClamp& c : clamps) {
    most = std::max(most, c.force_N);
  }
  return most;
}

// So much less on every clamp that no line's mean is over its range, or all are only snug. Those that
// are snug already give no more way, so that it takes the others a few rounds.
void ease(AxisClamps& plan) {
  constexpr int kRounds = 8;
  for (int round = 0; round < kRounds && !plan.clamps.empty(); ++round) {
    const double over = share_of_most(plan);
    const bool all_snug = std::ranges::all_of(
        plan.clamps, [](const ChosenClamp& c) { return c.force_N <= kSnug_N; });
    if (over <= 1 || all_snug) {
      return;
    }
    for (ChosenClamp& c : plan.clamps) {
      c.force_N = round + 1 == kRounds ? kSnug_N : std::max(kSnug_N, c.force_N / over);
    }
  }
}

double true_share(const AxisClamps& plan, const PressNeed& need) {
  return share_of(plan, need, press(plan, plan.clamps));
}

RoughCount rough_count(const AxisClamps& plan, const AxisQuestion& q, const PressNeed& need, KnownSystems& known) {
  AxisClamps few = coarse(plan);
  Models models{known};
  std::vector<int> assumed = first_guess(plan);
  RoughCount out = counted(few, q, need, assumed, models);
  for (int round = 1; round < kSpacingRounds && out.works && out.on_line != assumed; ++round) {
    assumed = out.on_line;
    out = counted(few, q, need, assumed, models);
  }
  for (int& n : assumed) {
    n = std::max(1, n - 1);
  }
  const RoughCount fewer = counted(few, q, need, assumed, models);
  return fewer.works && (!out.works || fewer.clamps < out.clamps) ? fewer : out;
}

// Of what the search found and the same made more even, the one that needs no clamp so hard; where
// neither stands the truth, the even spread does perhaps. Where the clamps are at their limit and
// it still isn't enough, the search is asked for more.
void place_clamps(AxisClamps& plan, const AxisQuestion& q, const PressNeed& asked,
                  const std::vector<int>& on_line, KnownSystems& known) {
  PressNeed need = asked, drawn = asked;
  Models models{known};
  for (int attempt = 0; attempt < kAttempts; ++attempt) {
    const Settled settled = settle(plan, q, need, on_line, models);
    Judging judging(plan, settled, drawn, asked, models);
    judging.look_at(settled.fewest);
    judging.look_at(evened(settled));
    if (!judging.any()) {
      judging.look_at(settled.spread);
    }
    if (judging.any()) {
      judging.keep_best();
      return;
    }
    const bool out_of_reach = judging.share() > kNearlyOne && !judging.crushes();
    if (out_of_reach || planner::base::stop_requested(q.setting.effort.stop)) {
      break;  // not out of force; or nobody waits for more
    }
    // Crushing somewhere, to hold elsewhere: more evenly, and no harder.
    if (judging.crushes()) {
      need.margin += kModelMargin;
      continue;
    }
    // A little short: harder. Far short: something opens, which no force closes; more evenly, then.
    if (judging.share() > kOpens) {
      for (double& line : need.line_MPa) {
        line *= std::max(1 / judging.share(), 1.05);
      }
    } else {
      need.margin += kModelMargin;
    }
    drawn = need;
  }
}

}  // namespace planner::clamps::axis
