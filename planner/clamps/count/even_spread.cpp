#include "planner/clamps/count/even_spread.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace planner::clamps::count {
namespace {

using Spots = std::vector<std::size_t>;  // of one track, as indices into TrackSpots::spots

constexpr double kFirstIn = 0.6;  // of the spacing: no end clamp stands farther in
constexpr int kSweeps = 1;

class Spread {
 public:
  Spread(const PlacementQuestion& question, std::span<const TrackSpots> tracks)
      : question_(question), tracks_(tracks), placed_(tracks.size()) {
    apart_.assign(question.limit_N.size(), {});
    for (const auto& [a, b] : question.exclusive) {
      apart_[a].push_back(b);
      apart_[b].push_back(a);
    }
  }

  std::optional<Placement> grow(std::span<const std::size_t> track_of_place, int most) {
    for (const TrackSpots& track : tracks_) {
      count_.push_back(track.at_least);
    }
    while (total() <= most) {
      place_all();
      if (auto found = try_spots(question_, all())) {
        return shrink(std::move(*found));
      }
      if (all().size() < static_cast<std::size_t>(total())) {
        return std::nullopt;  // no room for more
      }
      const std::size_t worst = track_of_place[worst_at_equal_force(question_, all()).place];
      if (!one_more(worst)) {
        return std::nullopt;
      }
    }
    return std::nullopt;
  }

 private:
  int total() const {
    int sum = 0;
    for (const int n : count_) {
      sum += n;
    }
    return sum;
  }

  // On the worst pressed track; where that is full, on the next that has room.
  bool one_more(std::size_t worst) {
    for (std::size_t i = 0; i < tracks_.size(); ++i) {
      const std::size_t t = (worst + i) % tracks_.size();
      if (count_[t] < static_cast<int>(tracks_[t].spots.size())) {
        ++count_[t];
        return true;
      }
    }
    return false;
  }

  Placement shrink(Placement found) {
    for (std::size_t t = 0; t < tracks_.size(); ++t) {
      while (count_[t] > tracks_[t].at_least || (count_[t] > 0 && tracks_.size() > 1)) {
        const std::vector<Spots> kept = placed_;
        --count_[t];
        place_all();
        auto fewer = try_spots(question_, all());
        if (!fewer) {
          ++count_[t];
          placed_ = kept;
          break;
        }
        found = std::move(*fewer);
      }
    }
    return found;
  }

  void place_all() {
    for (int sweep = 0; sweep < (tracks_.size() > 1 ? kSweeps : 1); ++sweep) {
      for (std::size_t t = 0; t < tracks_.size(); ++t) {
        place(t);
      }
    }
  }

  void place(std::size_t t) {
    const TrackSpots& track = tracks_[t];
    const auto n = static_cast<std::size_t>(count_[t]);
    placed_[t].clear();
    if (n == 0) {
      return;
    }
    look_at_others();
    Spots best;
    double best_share = std::numeric_limits<double>::lowest();
    const double spacing = track.length_mm / static_cast<double>(n);
    for (const double in : track.x_mm) {
      if (!best.empty() && (n == 1 || in > std::min(kFirstIn * spacing, track.length_mm / 2))) {
        break;
      }
      const Spots spots =
          n == 1 ? Spots{nearest(track, track.length_mm / 2)} : evenly(track, n, in);
      if (spots.size() == n && !clash(t, spots)) {
        const double share = worst_with(t, spots);
        if (share > best_share + 1e-9) {
          best = spots;
          best_share = share;
        }
      }
    }
    placed_[t] = best.empty() ? fallback(t, n) : best;
  }

  // What all clamps placed so far do, at the force that the weakest spot may take.
  void look_at_others() {
    force_ = *std::min_element(question_.limit_N.begin(), question_.limit_N.end());
    share_ = question_.table.at_rest;
    taken_.assign(question_.limit_N.size(), 0);
    for (const std::size_t spot : all()) {
      taken_[spot] = 1;
      add(spot, share_);
    }
  }

  void add(std::size_t spot, std::vector<double>& share) const {
    const std::span<const double> column = question_.table.of(spot);
    for (std::size_t i = 0; i < column.size(); ++i) {
      share[i] += force_ * column[i];
    }
  }

  double worst_with(std::size_t t, const Spots& spots) {
    trial_ = share_;
    for (const std::size_t i : spots) {
      add(tracks_[t].spots[i], trial_);
    }
    return *std::min_element(trial_.begin(), trial_.end());
  }

  static std::size_t nearest(const TrackSpots& track, double x) {
    std::size_t best = 0;
    for (std::size_t i = 1; i < track.x_mm.size(); ++i) {
      if (std::abs(track.x_mm[i] - x) < std::abs(track.x_mm[best] - x) - 1e-6) {
        best = i;
      }
    }
    return best;
  }

  static Spots evenly(const TrackSpots& track, std::size_t n, double in) {
    Spots spots;
    for (std::size_t k = 0; k < n; ++k) {
      const double share = static_cast<double>(k) / static_cast<double>(n - 1);
      spots.push_back(nearest(track, in + share * (track.length_mm - 2 * in)));
    }
    spots.erase(std::unique(spots.begin(), spots.end()), spots.end());
    return spots;
  }

  // Pads that would overlap: among themselves, or with what stands on the other tracks.
  bool clash(std::size_t t, const Spots& spots) const {
    const auto own = [&](std::size_t rival) {
      return std::any_of(spots.begin(), spots.end(),
                         [&](std::size_t i) { return tracks_[t].spots[i] == rival; });
    };
    return std::any_of(spots.begin(), spots.end(), [&](std::size_t i) {
      const auto& rivals = apart_[tracks_[t].spots[i]];
      return std::any_of(rivals.begin(), rivals.end(),
                         [&](std::size_t rival) { return taken_[rival] != 0 || own(rival); });
    });
  }

  // As many as fit, from the start of the track.
  Spots fallback(std::size_t t, std::size_t n) {
    Spots spots;
    for (std::size_t i = 0; i < tracks_[t].spots.size() && spots.size() < n; ++i) {
      spots.push_back(i);
      if (clash(t, spots)) {
        spots.pop_back();
      }
    }
    return spots;
  }

  std::vector<std::size_t> all() const {
    std::vector<std::size_t> out;
    for (std::size_t t = 0; t < tracks_.size(); ++t) {
      for (const std::size_t i : placed_[t]) {
        out.push_back(tracks_[t].spots[i]);
      }
    }
    std::sort(out.begin(), out.end());
    return out;
  }

  const PlacementQuestion& question_;
  std::span<const TrackSpots> tracks_;
  std::vector<int> count_;
  std::vector<Spots> placed_;
  std::vector<std::vector<std::size_t>> apart_;
  double force_ = 0;
  std::vector<double> share_, trial_;
  std::vector<char> taken_;
};

// Hill climbing on the worst pressed place.
class Evening {
 public:
  Evening(const PlacementQuestion& question, std::span<const TrackSpots> tracks,
          std::vector<Spots>& placed)
      : question_(question), tracks_(tracks), placed_(placed) {}

  bool run() {
    share_ = worst();
    bool any = false;
    for (int round = 0; round < kRounds && step(); ++round) {
      any = true;
    }
    return any;
  }

 private:
  static constexpr int kRounds = 40;
  static constexpr double kWorthIt = 1.002;

  // The first move that helps, mirrored pairs first.
  bool step() {
    for (std::size_t t = 0; t < tracks_.size(); ++t) {
      const std::size_t n = placed_[t].size();
      for (const std::ptrdiff_t by : {1, -1, 3, -3}) {
        for (std::size_t i = 0; i < n; ++i) {
          if (2 * i + 1 < n && moved(t, i, by, n - 1 - i)) {
            return true;
          }
        }
        for (std::size_t i = 0; i < n; ++i) {
          if (moved(t, i, by, i)) {
            return true;
          }
        }
      }
    }
    return false;
  }

  bool moved(std::size_t t, std::size_t i, std::ptrdiff_t by, std::size_t mirror) {
    const Spots before = placed_[t];
    if (shift(t, i, by) && (mirror == i || shift(t, mirror, -by)) && apart()) {
      const double now = worst();
      if (now > share_ + (kWorthIt - 1) * std::abs(share_)) {
        share_ = now;
        return true;
      }
    }
    placed_[t] = before;
    return false;
  }

  bool shift(std::size_t t, std::size_t i, std::ptrdiff_t by) {
    const auto to = static_cast<std::ptrdiff_t>(placed_[t][i]) + by;
    if (to < 0 || to >= static_cast<std::ptrdiff_t>(tracks_[t].spots.size())) {
      return false;
    }
    placed_[t][i] = static_cast<std::size_t>(to);
    return true;
  }

  std::vector<std::size_t> all() const {
    std::vector<std::size_t> out;
    for (std::size_t t = 0; t < tracks_.size(); ++t) {
      for (const std::size_t i : placed_[t]) {
        out.push_back(tracks_[t].spots[i]);
      }
    }
    return out;
  }

  bool apart() const {
    std::vector<char> taken(question_.limit_N.size(), 0);
    for (const std::size_t s : all()) {
      if (taken[s] != 0) {
        return false;
      }
      taken[s] = 1;
    }
    return std::none_of(
        question_.exclusive.begin(), question_.exclusive.end(),
        [&](const auto& pair) { return taken[pair.first] != 0 && taken[pair.second] != 0; });
  }

  double worst() const { return worst_at_equal_force(question_, all()).share; }

  const PlacementQuestion& question_;
  std::span<const TrackSpots> tracks_;
  std::vector<Spots>& placed_;
  double share_ = 0;
};

}  // namespace

WorstPlace worst_at_equal_force(const PlacementQuestion& question,
                                std::span<const std::size_t> spots) {
  double force = std::numeric_limits<double>::max();
  for (const std::size_t s : spots) {
    force = std::min(force, question.limit_N[s]);
  }
  std::vector<double> share = question.table.at_rest;
  for (const std::size_t s : spots) {
    const std::span<const double> column = question.table.of(s);
    for (std::size_t i = 0; i < column.size(); ++i) {
      share[i] += force * column[i];
    }
  }
  const auto worst = std::min_element(share.begin(), share.end());
  return {*worst, static_cast<std::size_t>(worst - share.begin())};
}

std::optional<Placement> even_spread(const PlacementQuestion& question,
                                     std::span<const TrackSpots> tracks,
                                     std::span<const std::size_t> track_of_place, int most) {
  return Spread(question, tracks).grow(track_of_place, most);
}

Placement evened(const PlacementQuestion& question, std::span<const TrackSpots> tracks,
                 const Placement& placement) {
  std::vector<Spots> placed;
  for (const TrackSpots& track : tracks) {
    placed.emplace_back();
    for (std::size_t i = 0; i < track.spots.size(); ++i) {
      if (std::binary_search(placement.spots.begin(), placement.spots.end(), track.spots[i])) {
        placed.back().push_back(i);
      }
    }
  }
  if (Evening(question, tracks, placed).run()) {
    std::vector<std::size_t> spots;
    for (std::size_t t = 0; t < tracks.size(); ++t) {
      for (const std::size_t i : placed[t]) {
        spots.push_back(tracks[t].spots[i]);
      }
    }
    if (auto better = try_spots(question, spots)) {
      return std::move(*better);
    }
  }
  return placement;
}

}  // namespace planner::clamps::count
