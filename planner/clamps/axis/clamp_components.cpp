#include "planner/clamps/axis/clamp_components.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <set>

#include "geometry/elementary.h"

namespace planner::clamps::axis {
namespace {

class Joined {
 public:
  explicit Joined(std::size_t n) : parent_(n) { std::iota(parent_.begin(), parent_.end(), 0U); }
  std::size_t root(std::size_t i) {
    while (parent_[i] != i) {
      i = parent_[i] = parent_[parent_[i]];
    }
    return i;
  }
  void join(std::size_t a, std::size_t b) {
    a = root(a);
    b = root(b);
    parent_[std::max(a, b)] = std::min(a, b);
  }

 private:
  std::vector<std::size_t> parent_;
};

// Of every stretch from one place to the next as far on as clamps may stand apart one is used: then
// no two neighbours stand farther apart, nor the outer ones from the track's ends.
void keep_near(ClampComponent& c, const count::TrackSpots& track) {
  for (std::size_t i = 0; i + 1 < track.spots.size(); ++i) {
    const double to = track.x_mm[i] + kWidestApart_mm;
    count::SpotRule rule;
    std::size_t k = i + 1;
    for (; k < track.spots.size() && track.x_mm[k] <= to; ++k) {
      rule.spots.push_back(track.spots[k]);
    }
    if (k < track.spots.size() && !rule.spots.empty()) {
      c.question.rules.push_back(std::move(rule));
    }
  }
}

void add_rules(ClampComponent& c, const AxisClamps& plan) {
  for (std::size_t l = 0; l < plan.held_lines; ++l) {
    count::SpotRule rule;
    rule.at_least = least_on_line(plan.lines[l].length_mm, plan.lines[l].spaced);
    for (std::size_t i = 0; i < c.sites.size(); ++i) {
      if (plan.model->presses(c.sites[i], l)) {
        rule.spots.push_back(i);
      }
    }
    if (static_cast<int>(rule.spots.size()) >= rule.at_least) {
      c.question.rules.push_back(std::move(rule));
    }
  }
  for (std::size_t i = 0; i < c.sites.size(); ++i) {
    for (std::size_t j = i + 1; j < c.sites.size(); ++j) {
      if (pads_collide(plan.sites[c.sites[i]], plan.sites[c.sites[j]], plan.tracks,
                       plan.round.axis)) {
        c.question.exclusive.emplace_back(i, j);
      }
    }
  }
}

// Along the tracks; round a rim as one goes round it, so that neighbours press alike.
void put_in_order(std::vector<std::size_t>& sites, const AxisClamps& plan) {
  std::set<std::size_t> tracks;
  geometry::Point middle;
  for (const std::size_t s : sites) {
    tracks.insert(plan.sites[s].track);
    middle =
        middle + (1.0 / static_cast<double>(sites.size())) * (plan.sites[s].at - geometry::Point{});
  }
  if (tracks.size() < 3) {
    return;
  }
  const geometry::Direction& x = plan.tracks[*tracks.begin()].along;
  const geometry::Direction y = cross(plan.round.axis, x);
  const auto angle = [&](std::size_t s) {
    const geometry::Direction off = plan.sites[s].at - middle;
    return geometry::arc_tangent(dot(off, y), dot(off, x));
  };
  std::stable_sort(sites.begin(), sites.end(),
                   [&](std::size_t a, std::size_t b) { return angle(a) < angle(b) - 1e-9; });
}

// In order along the track, as people count.
void straighten(count::TrackSpots& track) {
  std::vector<std::size_t> order(track.spots.size());
  std::iota(order.begin(), order.end(), 0U);
  std::sort(order.begin(), order.end(),
            [&](std::size_t a, std::size_t b) { return track.x_mm[a] < track.x_mm[b]; });
  const count::TrackSpots was = track;
  for (std::size_t i = 0; i < order.size(); ++i) {
    track.spots[i] = was.spots[order[i]];
    track.x_mm[i] = was.x_mm[order[i]];
  }
}

void fill(ClampComponent& c, const AxisClamps& plan, const LineTable& all) {
  const count::PressTable& table = all.table;
  count::PressTable& t = c.question.table;
  t.places = c.places.size();
  t.spots = c.sites.size();
  for (const std::size_t place : c.places) {
    t.at_rest.push_back(table.at_rest[place]);
  }
  for (const std::size_t site : c.sites) {
    const std::span<const double> column = table.of(site);
    for (const std::size_t place : c.places) {
      t.per_N.push_back(column[place]);
    }
    c.question.snug_N.push_back(kSnug_N);
    c.question.limit_N.push_back(plan.sites[site].limit_N);
  }
  std::map<std::size_t, std::size_t> track_index;
  for (std::size_t i = 0; i < c.sites.size(); ++i) {
    const ClampSite& site = plan.sites[c.sites[i]];
    const auto [it, fresh] = track_index.try_emplace(site.track, c.tracks.size());
    if (fresh) {
      c.tracks.push_back({{}, {}, plan.tracks[site.track].length_mm, 1});
    }
    c.tracks[it->second].spots.push_back(i);
    c.tracks[it->second].x_mm.push_back(site.x_mm);
  }
  for (count::TrackSpots& track : c.tracks) {
    straighten(track);
  }
  for (const std::size_t place : c.places) {
    const std::size_t line = all.line[place];
    std::size_t track = 0;
    for (const auto& [number, index] : track_index) {
      const auto& lines = plan.tracks[number].lines;
      if (std::find(lines.begin(), lines.end(), line) != lines.end()) {
        track = index;
      }
    }
    c.track_of_place.push_back(track);
  }
  add_rules(c, plan);
  for (const auto& [number, index] : track_index) {
    count::TrackSpots& track = c.tracks[index];
    const bool spaced = std::ranges::any_of(
        plan.tracks[number].lines, [&](std::size_t line) { return plan.lines[line].spaced; });
    if (spaced) {
      keep_near(c, track);
    }
    // Alone on its track, a line must find its two clamps there.
    track.at_least = c.tracks.size() == 1 ? least_on_line(track.length_mm, spaced) : 1;
  }
}

}  // namespace

int least_on_line(double length_mm, bool spaced) {
  return spaced && length_mm > kThreeClamps_mm ? 3 : length_mm > kTwoClamps_mm ? 2 : 1;
}

std::vector<ClampComponent> clamp_components(const AxisClamps& plan, const LineTable& all) {
  const count::PressTable& table = all.table;
  const std::size_t sites = plan.sites.size();
  Joined joined(sites + table.places);
  std::vector<std::size_t> first(plan.tracks.size(), sites);
  std::vector<char> pressed(table.places, 0);
  for (std::size_t s = 0; s < sites; ++s) {
    std::size_t& lead = first[plan.sites[s].track];
    lead = std::min(lead, s);
    joined.join(lead, s);
    const std::span<const double> column = table.of(s);
    for (std::size_t p = 0; p < column.size(); ++p) {
      if (std::abs(column[p]) > 1e-12) {
        joined.join(s, sites + p);
        pressed[p] = 1;
      }
    }
  }
  std::map<std::size_t, ClampComponent> by_root;
  for (std::size_t s = 0; s < sites; ++s) {
    by_root[joined.root(s)].sites.push_back(s);
  }
  for (std::size_t p = 0; p < table.places; ++p) {
    if (pressed[p] != 0) {
      by_root[joined.root(sites + p)].places.push_back(p);
    }
  }
  std::vector<ClampComponent> out;
  for (auto& [root, c] : by_root) {
    if (!c.places.empty()) {
      put_in_order(c.sites, plan);
      fill(c, plan, all);
      out.push_back(std::move(c));
    }
  }
  return out;
}

}  // namespace planner::clamps::axis
