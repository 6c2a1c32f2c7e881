#include "planner/placed/placed_redesign.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "planner/clamps/axis/even_spacing.h"
#include "planner/clamps/axis/wide_face_clamps.h"
#include "planner/pressure/crush.h"

namespace planner::placed {
namespace {

constexpr int kMostClamps = 16, kTrouble = 6;

// What lies under each jaw.
struct Under {
  double block_mm = 0,
         strip_mm = 0;  // a block so long, or a strip so thick; neither: the jaw alone
  double thick_mm = 0;
};

class Afresh {
 public:
  explicit Afresh(const PlacedAxis& axis) : axis_(axis), like_(axis.clamps.front()) {}

  std::optional<plan::PlacedMend> run() {
    if (row_too_narrow()) {
      return std::nullopt;
    }
    std::vector<int> counts(axis_.round.tracks().size(), 1);
    while (total(counts) <= kMostClamps) {
      for (const Under& under : packings()) {
        if (auto force = force_that_holds(counts, under)) {
          return to_plan(counts, under, *force);
        }
      }
      one_more_where_widest(counts);
    }
    return std::nullopt;
  }

 private:
  static int total(const std::vector<int>& counts) {
    int sum = 0;
    for (const int n : counts) {
      sum += n;
    }
    return sum;
  }

  clamps::axis::EvenSpacing spacing(std::size_t track, int count) const {
    return {axis_.round.tracks()[track].length_mm, count};
  }

  // Tracks of one length go together, as they are pressed alike.
  void one_more_where_widest(std::vector<int>& counts) const {
    double widest = 0;
    for (std::size_t t = 0; t < counts.size(); ++t) {
      widest = std::max(widest, spacing(t, counts[t]).apart_mm);
    }
    for (std::size_t t = 0; t < counts.size(); ++t) {
      counts[t] += spacing(t, counts[t]).apart_mm > widest - 1 ? 1 : 0;
    }
  }

  std::vector<Under> packings() const {
    std::vector<Under> out{{}};
    const double jaw = like_.pad.along_mm;
    for (const double thick : pressure::cut_sizes(axis_.job.units).thick_mm) {
      out.push_back({clamps::axis::pad_length_mm(jaw, thick, axis_.job.units), 0, thick});
    }
    for (const double thick : pressure::cut_sizes(axis_.job.units).thick_mm) {
      out.push_back({0, thick, thick});
    }
    return out;
  }

  std::vector<clamps::axis::TrialClamp> placed(const std::vector<int>& counts, const Under& under,
                                               double force_N) const {
    std::vector<clamps::axis::TrialClamp> out;
    for (std::size_t t = 0; t < counts.size(); ++t) {
      const clamps::axis::ClampTrack& track = axis_.round.tracks()[t];
      for (int i = 0; i < counts[t]; ++i) {
        clamps::axis::TrialClamp clamp = like_;
        clamp.on_line = track.start + spacing(t, counts[t]).at_mm(i) * track.along;
        clamp.pad.along_mm = std::max(clamp.pad.along_mm, under.block_mm);
        clamp.force_N = force_N;
        out.push_back(clamp);
      }
    }
    return out;
  }

  // On a wide face a row of clamps presses what a strip under it reaches. Where half of the most there may
  // be, on the thickest strip, leave the rest bare, no other row does better, and each try is dear.
  bool row_too_narrow() const {
    const std::vector<int> counts(axis_.round.tracks().size(), kMostClamps / 2);
    const double thick = pressure::cut_sizes(axis_.job.units).thick_mm.back();
    const auto plan = axis_.round.with(placed(counts, {0, thick, thick}, like_.most_N), {}, thick);
    return plan && clamps::axis::one_wide_face(*plan) && state_of(*plan).share <= 0;
  }

  // As hard as all may be drawn; then as hard as is needed.
  std::optional<double> force_that_holds(const std::vector<int>& counts, const Under& under) const {
    const auto plan = axis_.round.with(placed(counts, under, like_.most_N), {}, under.strip_mm);
    if (!plan || clash(*plan)) {
      return std::nullopt;
    }
    double most = like_.most_N;
    for (const clamps::axis::ClampSite& site : plan->sites) {
      most = std::min(most, site.bears_N);
    }
    if (!holds(counts, under, most)) {
      return std::nullopt;
    }
    for (double force = clamps::axis::kSnug_N; force < most;
         force = clamps::axis::hand_force_N(force * 1.1)) {
      if (holds(counts, under, force)) {
        return force;
      }
    }
    return most;
  }

  bool holds(const std::vector<int>& counts, const Under& under, double force_N) const {
    const auto plan = axis_.round.with(placed(counts, under, force_N), {}, under.strip_mm);
    return plan && state_of(*plan).good();
  }

  bool clash(const clamps::axis::AxisClamps& plan) const {
    for (std::size_t a = 0; a < plan.sites.size(); ++a) {
      for (std::size_t b = a + 1; b < plan.sites.size(); ++b) {
        if (pads_collide(plan.sites[a], plan.sites[b], plan.tracks, plan.round.axis)) {
          return true;
        }
      }
    }
    return false;
  }

  plan::PlacedMend to_plan(const std::vector<int>& counts, const Under& under,
                           double force_N) const {
    plan::SetAnew anew;
    std::vector<char> said(counts.size(), 0);
    for (std::size_t t = 0; t < counts.size(); ++t) {
      if (said[t] != 0) {
        continue;
      }
      const clamps::axis::EvenSpacing even = spacing(t, counts[t]);
      int alike = 0;
      for (std::size_t u = t; u < counts.size(); ++u) {
        if (counts[u] == counts[t] &&
            std::abs(spacing(u, counts[u]).apart_mm - even.apart_mm) < 1) {
          said[u] = 1;
          ++alike;
        }
      }
      anew.lines.push_back(
          {alike, counts[t], axis_.round.tracks()[t].length_mm, even.apart_mm, even.from_end_mm});
    }
    anew.clamps = total(counts);
    anew.block_mm = under.block_mm;
    anew.strips = under.strip_mm > 0;
    anew.thick_mm = under.thick_mm;
    anew.force_N = force_N;
    return {axis_.round.axis(), {std::move(anew)}, kTrouble};
  }

  const PlacedAxis& axis_;
  clamps::axis::TrialClamp like_;
};

}  // namespace

std::optional<plan::PlacedMend> placed_redesign(const PlacedAxis& axis) {
  return Afresh(axis).run();
}

}  // namespace planner::placed
