#include "planner/placed/placed_mends.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "planner/clamps/axis/even_spacing.h"
#include "planner/placed/placed_redesign.h"
#include "planner/pressure/crush.h"
#include "planner/tables/clamp.h"

namespace planner::placed {
namespace {

using geometry::Direction;

constexpr double kRounding = 1e-6;
constexpr double kFarthestMove_mm = 400;
constexpr int kMostMore = 8;
constexpr double kLongestBlock = 4;  // in jaws; as choose_pad()
enum Trouble { kMove = 1, kTighten, kSpread, kPads, kMore };

class Mending {
 public:
  explicit Mending(const PlacedAxis& axis) : axis_(axis), clamps_(axis.clamps) {}

  std::vector<plan::PlacedMend> run() {
    if (good(clamps_)) {
      return {};
    }
    centre();
    give_pads();
    if (!first_.empty() && good(clamps_)) {
      mends_.push_back({axis_.round.axis(), first_, kMove});
      return std::move(mends_);
    }
    move_one();
    tighten();
    spread();
    longer_pads();
    lay_cauls();
    add_more();
    if (mends_.empty()) {
      if (auto anew = placed_redesign(axis_)) {
        mends_.push_back(std::move(*anew));
      }
    }
    return std::move(mends_);
  }

 private:
  using Clamps = std::vector<clamps::axis::TrialClamp>;

  bool good(const Clamps& clamps) const {
    const auto plan = axis_.round.with(clamps);
    return plan && state_of(*plan).good();
  }

  double step() const { return pressure::cut_sizes(axis_.job.units).step_mm; }

  void offer(int trouble, plan::PlacedChange change) {
    std::vector<plan::PlacedChange> changes = first_;
    changes.push_back(std::move(change));
    mends_.push_back({axis_.round.axis(), std::move(changes), trouble});
  }

  // Back to the middle of the lines that feel it.
  void centre() {
    const auto plan = axis_.round.with(clamps_);
    if (!plan) {
      return;
    }
    for (std::size_t l = 0; l < plan->lines.size(); ++l) {
      const auto forces = forces_beside(*plan, plan->clamps, l);
      if (std::none_of(forces.begin(), forces.end(), [](const auto& f) { return f.force_N > 0; })) {
        continue;
      }
      const pressure::OffsetRemedy remedy = mend_offset(forces, plan->lines[l].across_mm);
      const Direction side = clamps::axis::across_of(plan->lines[l], plan->round.axis);
      for (std::size_t i = 0; i < forces.size(); ++i) {
        const bool swap = std::find(remedy.swap.begin(), remedy.swap.end(), i) != remedy.swap.end();
        const double move =
            (swap ? -2 * forces[i].offset_mm : 0) + (forces[i].force_N > 0 ? remedy.shift_mm : 0);
        if (std::abs(move) > kRounding) {
          clamps_[i].on_line = clamps_[i].on_line + move * side;
          first_.emplace_back(
              plan::MoveClamp{axis_.numbers[i], std::abs(move), move > 0 ? side : -side});
        }
      }
      if (!remedy.swap.empty() || remedy.shift_mm != 0) {
        return;  // lines behind one another are mended alike
      }
    }
  }

  // Blocks under the jaws that dent.
  void give_pads() {
    const auto plan = axis_.round.with(clamps_);
    for (std::size_t i = 0; plan && i < clamps_.size(); ++i) {
      const clamps::axis::ClampSite& site = plan->sites[i];
      if (clamps_[i].force_N <= site.bears_N * (1 + kRounding)) {
        continue;
      }
      pressure::PadQuestion q{clamps_[i].force_N,
                              site.bearing_limit_MPa,
                              clamps_[i].pad.along_mm,
                              site.pad.across_mm,
                              plan->tracks[site.track].length_mm,
                              site.pad.across_mm};
      q.units = axis_.job.units;
      const auto answer = choose_pad(q);
      if (answer) {
        clamps_[i].pad.along_mm = answer->pad.along_mm;
        first_.emplace_back(plan::PutBlocks{
            {axis_.numbers[i]}, answer->pad.along_mm, answer->pad.thick_mm, answer->edge_caul});
      }
    }
  }

  Direction along(const clamps::axis::TrialClamp& clamp) const {
    const auto site = axis_.round.site(clamp);
    return axis_.round.tracks()[site->track].along;
  }

  void move_one() {
    Clamps spare;
    struct Move {
      std::size_t clamp;
      double by_mm;
    };
    std::vector<Move> moves;
    for (std::size_t i = 0; i < clamps_.size(); ++i) {
      const Direction d = along(clamps_[i]);
      for (double by = step(); by <= kFarthestMove_mm; by += step()) {
        for (const double way : {-by, by}) {
          clamps::axis::TrialClamp moved = clamps_[i];
          moved.on_line = moved.on_line + way * d;
          if (stands_apart(moved, i)) {
            spare.push_back(moved);
            moves.push_back({i, way});
          }
        }
      }
    }
    const auto plan = axis_.round.with(clamps_, spare);
    if (!plan || !plan->model) {
      return;
    }
    const clamps::count::PressTable table =
        plan->model->table(need_to_hold(*plan), clamps::axis::kApart_mm).table;
    std::vector<std::size_t> order(moves.size());
    for (std::size_t m = 0; m < order.size(); ++m) {
      order[m] = m;
    }
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
      return std::abs(moves[a].by_mm) < std::abs(moves[b].by_mm) - kRounding;
    });
    for (const std::size_t m : order) {
      std::vector<std::size_t> sites;
      std::vector<double> forces;
      for (std::size_t i = 0; i < clamps_.size(); ++i) {
        sites.push_back(i == moves[m].clamp ? clamps_.size() + m : i);
        forces.push_back(clamps_[i].force_N);
      }
      if (clamps::axis::linear_share(table, {sites, forces}) < clamps::axis::kNearlyOne) {
        continue;
      }
      Clamps moved = clamps_;
      moved[moves[m].clamp] = spare[m];
      if (good(moved)) {
        const Direction d = along(clamps_[moves[m].clamp]);
        offer(kMove, plan::MoveClamp{axis_.numbers[moves[m].clamp], std::abs(moves[m].by_mm),
                                     moves[m].by_mm > 0 ? d : -d});
        return;
      }
    }
  }

  bool stands_apart(const clamps::axis::TrialClamp& moved, std::size_t own) const {
    const auto site = axis_.round.site(moved);
    if (!site) {
      return false;
    }
    for (std::size_t k = 0; k < clamps_.size(); ++k) {
      const auto other = k == own ? std::nullopt : axis_.round.site(clamps_[k]);
      if (other && pads_collide(*site, *other, axis_.round.tracks(), axis_.round.axis())) {
        return false;
      }
    }
    return true;
  }

  // All alike, as little as does.
  void tighten() {
    Clamps harder = clamps_;
    for (int round = 0; round < 12; ++round) {
      const auto plan = axis_.round.with(harder);
      const clamps::axis::AxisState state = plan ? state_of(*plan) : clamps::axis::AxisState{};
      if (state.good()) {
        offer(kTighten, tightened(harder));
        return;
      }
      bool any = false;
      for (std::size_t i = 0; plan && i < harder.size(); ++i) {
        const double more = state.share > 0 ? std::clamp(1 / state.share, 1.02, 2.0) : 1.5;
        const double force =
            std::min(plan->sites[i].limit_N, clamps::axis::hand_force_N(harder[i].force_N * more));
        any |= force > harder[i].force_N + 1;
        harder[i].force_N = std::max(force, harder[i].force_N);
      }
      if (!any) {
        return;
      }
    }
  }

  plan::DrawHarder tightened(const Clamps& harder) const {
    plan::DrawHarder out;
    for (std::size_t i = 0; i < harder.size(); ++i) {
      if (harder[i].force_N > clamps_[i].force_N + 1) {
        out.draws.push_back(
            {axis_.numbers[i], harder[i].force_N, harder[i].force_N / clamps_[i].force_N - 1});
      }
    }
    return out;
  }

  // Those of each track at equal spacings.
  void spread() {
    Clamps even = clamps_;
    plan::SpreadEvenly evenly;
    for (std::size_t t = 0; t < axis_.round.tracks().size(); ++t) {
      const clamps::axis::ClampTrack& track = axis_.round.tracks()[t];
      std::vector<std::pair<double, std::size_t>> on;
      for (std::size_t i = 0; i < clamps_.size(); ++i) {
        const auto site = axis_.round.site(clamps_[i]);
        if (site && site->track == t) {
          on.push_back({site->x_mm, i});
        }
      }
      std::sort(on.begin(), on.end());
      const clamps::axis::EvenSpacing spacing(track.length_mm, static_cast<int>(on.size()));
      for (std::size_t k = 0; k < on.size(); ++k) {
        const double by = spacing.at_mm(static_cast<int>(k)) - on[k].first;
        even[on[k].second].on_line = even[on[k].second].on_line + by * track.along;
      }
      if (on.size() > 1) {
        evenly.lines.push_back({spacing.apart_mm, spacing.from_end_mm});
      }
    }
    if (clamps_.size() > 1 && good(even)) {
      offer(kSpread, std::move(evenly));
    }
  }

  // Deeper ones let a force reach their ends.
  void longer_pads() {
    Clamps longer = clamps_;
    const std::vector<double>& stock = pressure::cut_sizes(axis_.job.units).thick_mm;
    for (double side = step();; side += step()) {
      double jaw = 0;
      bool longest = true;
      for (std::size_t i = 0; i < longer.size(); ++i) {
        jaw = std::max(jaw, axis_.clamps[i].pad.along_mm);
        longest &= side > kLongestBlock * axis_.clamps[i].pad.along_mm;
        longer[i].pad.along_mm = std::max(longer[i].pad.along_mm, side);
      }
      const auto thick = std::lower_bound(stock.begin(), stock.end(), (side - jaw) / 2 - kRounding);
      if (longest || thick == stock.end()) {
        return;
      }
      if (side > jaw && good(longer)) {
        offer(kPads, plan::PutBlocks{axis_.numbers, side, *thick, false});
        return;
      }
    }
  }

  // One strip the length of each line under all of its jaws.
  void lay_cauls() {
    for (const double thick : pressure::cut_sizes(axis_.job.units).thick_mm) {
      const auto plan = axis_.round.with(clamps_, {}, thick);
      if (plan && state_of(*plan).good()) {
        offer(kPads, plan::LayStrip{thick});
        return;
      }
    }
  }

  // One after the other, each where it helps the worst place most.
  void add_more() {
    Clamps all = clamps_;
    plan::SetMore set{axis_.round.axis(), {}};
    for (int more = 1; more <= kMostMore; ++more) {
      const Clamps spare = free_places(all);
      if (spare.empty()) {
        return;
      }
      all.push_back(best_of(all, spare));
      set.at.push_back(all.back().on_line);
      if (good(all)) {
        offer(kMore, std::move(set));
        return;
      }
    }
  }

  Clamps free_places(const Clamps& taken) const {
    Clamps spare;
    const Clamps grid = axis_.round.more_like(clamps_.front());
    for (const clamps::axis::TrialClamp& clamp : grid) {
      const auto site = axis_.round.site(clamp);
      const bool free =
          std::none_of(taken.begin(), taken.end(), [&](const clamps::axis::TrialClamp& t) {
            const auto other = axis_.round.site(t);
            return other && pads_collide(*site, *other, axis_.round.tracks(), axis_.round.axis());
          });
      if (free) {
        spare.push_back(clamp);
      }
    }
    return spare;
  }

  clamps::axis::TrialClamp best_of(const Clamps& there, const Clamps& spare) const {
    const auto plan = axis_.round.with(there, spare);
    const clamps::count::PressTable table =
        plan->model->table(need_to_hold(*plan), clamps::axis::kApart_mm).table;
    std::vector<std::size_t> sites(there.size() + 1);
    std::vector<double> forces(there.size() + 1);
    for (std::size_t i = 0; i < there.size(); ++i) {
      sites[i] = i;
      forces[i] = there[i].force_N;
    }
    std::size_t best = 0;
    double least = std::numeric_limits<double>::max();
    for (std::size_t s = 0; s < spare.size(); ++s) {
      sites.back() = there.size() + s;
      forces.back() = spare[s].force_N;
      const double lack = clamps::axis::linear_lack(table, {sites, forces});
      if (lack < least - 1e-9) {
        least = lack;
        best = s;
      }
    }
    return spare[best];
  }

  const PlacedAxis& axis_;
  Clamps clamps_;                          // with what comes first done
  std::vector<plan::PlacedChange> first_;  // what comes first
  std::vector<plan::PlacedMend> mends_;
};

}  // namespace

std::vector<plan::PlacedMend> placed_mends(const PlacedAxis& axis) {
  return Mending(axis).run();
}

}  // namespace planner::placed
