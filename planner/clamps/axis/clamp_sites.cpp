#include "planner/clamps/axis/clamp_sites.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "planner/pressure/crush.h"

namespace planner::clamps::axis {
namespace {

using geometry::Direction;
using geometry::Point;

constexpr double kGrid_mm = 10;
constexpr double kSameTrack_mm = 3;  // sideways, for lines that one row of clamps presses
constexpr double kBetweenPads_mm = 2;
constexpr double kOnFace_mm = 0.05;

// The part of a direction square to the axis, as a unit vector.
Direction across_axis(const Direction& d, const Direction& axis) {
  const double k = dot(d, axis);
  return geometry::unit({d.x - k * axis.x, d.y - k * axis.y, d.z - k * axis.z});
}

bool on_track(const ClampTrack& track, const pressure::GlueLine& line, const Direction& axis) {
  const Direction along = across_axis(line.along, axis);
  if (!same_axis(along, track.along)) {
    return false;
  }
  const Direction off = line.start - track.start;
  if (std::abs(dot(off, cross(axis, track.along))) > kSameTrack_mm) {
    return false;
  }
  const double a = dot(off, track.along);
  const double b = a + line.length_mm * dot(line.along, track.along);
  const double shared = std::min(track.length_mm, std::max(a, b)) - std::max(0.0, std::min(a, b));
  return shared > 0.5 * std::min(track.length_mm, std::abs(b - a));
}

void lengthen(ClampTrack& track, const pressure::GlueLine& line) {
  const double a = dot(line.start - track.start, track.along);
  const double b = a + line.length_mm * dot(line.along, track.along);
  const double lo = std::min({0.0, a, b}), hi = std::max({track.length_mm, a, b});
  track.start = track.start + lo * track.along;
  track.length_mm = hi - lo;
  track.across_mm = std::min(track.across_mm, line.across_mm);
}

// Where the lines of two tracks meet, along the first; nothing when they run alike.
std::optional<double> meeting(const ClampTrack& a, const ClampTrack& b, const Direction& axis) {
  const Direction side = cross(axis, b.along);
  const double turn = dot(a.along, side);
  if (std::abs(turn) < 0.1) {
    return std::nullopt;
  }
  return -dot(a.start - b.start, side) / turn;
}

// Places along a track: a grid between the two that have the pad flush with an end, with the middle
// on it and carried on over the ends, where the part may reach further than the line; and meetings.
std::vector<double> stations(const ClampTrack& track, std::span<const ClampTrack> tracks,
                             const Direction& axis, double pad_along) {
  const double half = std::min(pad_along, track.length_mm) / 2;
  const double run = track.length_mm - 2 * half;
  std::vector<double> at;
  if (run <= 1) {
    at.push_back(track.length_mm / 2);  // a pad as long as the line
  } else {
    const double step = run / (2 * std::max(1.0, std::ceil(run / (2 * kGrid_mm))));
    for (double i = -std::floor(half / step); half + i * step <= track.length_mm + 1e-9; ++i) {
      at.push_back(half + i * step);
    }
  }
  for (const ClampTrack& other : tracks) {
    if (const auto x = meeting(track, other, axis)) {
      if (*x >= 0 && *x <= track.length_mm) {
        at.push_back(*x);
      }
    }
  }
  std::sort(at.begin(), at.end());
  at.erase(std::unique(at.begin(), at.end(), [](double a, double b) { return b - a < 1; }),
           at.end());
  return at;
}

// From a point to where the box ends in a direction.
double to_edge(const geometry::Box& box, const Point& p, const Direction& d) {
  double edge = 0;
  for (std::size_t i = 0; i < 3; ++i) {
    edge += d[i] * (d[i] > 0 ? box.hi[i] : box.lo[i]);
  }
  return edge - dot(p, d);
}

std::array<double, 4> bar_reach_mm(const geometry::Box& box, const Point& at,
                                   const Direction& along, const Direction& across) {
  return {to_edge(box, at, -along), to_edge(box, at, along), to_edge(box, at, -across),
          to_edge(box, at, across)};
}

class SiteFinder {
 public:
  SiteFinder(const SiteSearch& search, const ClampTrack& track, std::size_t number)
      : s_(search),
        track_(track),
        number_(number),
        across_(across_of(track, search.axis)),
        box_(bounds_of(search.work)) {
    pad_ = search.pad;
    pad_.along_mm = std::min(pad_.along_mm, track.length_mm);
    pad_.across_mm = std::clamp(track.across_mm, pressure::kLeastPad_mm,
                                std::max(pressure::kLeastPad_mm, pad_.across_mm));
  }

  // On the strip's middle, or no farther off it than allowed, where the pad or the throat needs that;
  // where the wood is narrower than any good pad, with one as narrow.
  std::optional<ClampSite> at(double x) {
    const double wide = pad_.across_mm;
    auto site = beside_middle(x);
    if (!site && track_.across_mm < wide) {
      pad_.across_mm = track_.across_mm;
      site = beside_middle(x);
      pad_.across_mm = wide;
    }
    return site;
  }

 private:
  std::optional<ClampSite> beside_middle(double x) const {
    const double most = s_.off_centre * track_.across_mm;
    const double flush = std::max(0.0, pad_.across_mm - track_.across_mm) / 2 + kOnFace_mm;
    for (const double off : {0.0, flush, -flush, most / 2, -most / 2, most, -most}) {
      if (std::abs(off) > most) {
        continue;
      }
      auto site = at(x, off);
      if (site && within_throat(*site)) {
        stand_opposite(*site, x, off);
        return site;
      }
    }
    return std::nullopt;
  }

  bool within_throat(const ClampSite& site) const {
    return *std::ranges::min_element(site.reach_mm) + kBarClears_mm <= s_.throat_mm;
  }

  // Of a shallow clamp over thick work, the like place on the middle's other side.
  void stand_opposite(ClampSite& site, double x, double off) const {
    const auto other = off != 0 ? at(x, -off) : std::nullopt;
    if (other && within_throat(*other) && at(x, 0)) {
      site.opposite = ClampSite::Place{other->at, other->reach_mm};
    }
  }

  std::optional<ClampSite> at(double x, double off) const {
    const Point p = track_.start + x * track_.along + off * across_;
    const std::optional<LineOfAction> action = line_of_action(s_.work, p, s_.axis);
    if (!action || action->path.size() < 2 || after_hollow(*action, s_.joints, s_.max_gap_mm)) {
      return std::nullopt;
    }
    ClampSite site;
    site.presses = lines_pressed(*action, s_.lines, s_.joints, s_.max_gap_mm);
    if (site.presses.empty() || in_saws_way(action->at)) {
      return std::nullopt;
    }
    const auto slopes = slopes_under({s_.work, s_.bearing, track_.along, across_}, *action, pad_);
    if (!slopes) {
      return std::nullopt;
    }
    site.slope = *slopes;
    site.at = action->at;
    site.track = number_;
    site.x_mm = x;
    site.span_mm = action->span_mm();
    site.pad = pad_;
    site.reach_mm = bar_reach_mm(box_, site.at, track_.along, across_);
    for (const pressure::Passage& passage : action->path) {
      site.path.push_back(passage.part);
    }
    return site;
  }

  // Pads, tape and iron keep out of a saw cut that is made once the glue is hard.
  bool in_saws_way(const Point& at) const {
    for (const work::SawLater& saw : s_.job.saw_later) {
      const Direction& d = geometry::kAxis[saw.axis];
      if (std::abs(dot(d, s_.axis)) > 0.5) {
        continue;  // a clamp across the cut: its jaws are far from it
      }
      const double half = (std::abs(dot(d, track_.along)) * pad_.along_mm +
                           std::abs(dot(d, across_)) * pad_.across_mm + saw.kerf.mm()) /
                          2;
      if (std::abs(dot(at, d) - saw.at.mm()) < half + kBetweenPads_mm) {
        return true;
      }
    }
    return false;
  }

  const SiteSearch& s_;
  const ClampTrack& track_;
  std::size_t number_;
  Direction across_;
  geometry::Box box_;
  plan::PadSize pad_;
};

}  // namespace

std::array<double, 4> bar_reach_mm(const pressure::Work& work, const Point& at,
                                   const Direction& along, const Direction& across) {
  return bar_reach_mm(bounds_of(work), at, along, across);
}

Direction across_of(const ClampTrack& track, const Direction& axis) {
  return cross(axis, track.along);
}

geometry::Extent caul_run(std::span<const ClampTrack> tracks, std::size_t track,
                          const Direction& axis) {
  const ClampTrack& own = tracks[track];
  geometry::Extent run{0, own.length_mm};
  for (std::size_t t = 0; t < tracks.size(); ++t) {
    const double longer = tracks[t].length_mm - own.length_mm;
    if (t == track || longer < -kOnFace_mm || (longer < kOnFace_mm && t > track)) {
      continue;
    }
    const auto here = meeting(own, tracks[t], axis), there = meeting(tracks[t], own, axis);
    const double half = tracks[t].across_mm / 2;
    if (!here || *there < -half || *there > tracks[t].length_mm + half) {
      continue;
    }
    if (std::abs(*here) <= tracks[t].across_mm) {
      run.lo = std::max(run.lo, *here + half);
    } else if (std::abs(*here - own.length_mm) <= tracks[t].across_mm) {
      run.hi = std::min(run.hi, *here - half);
    }
  }
  return run;
}

std::vector<ClampTrack> clamp_tracks(std::span<const AskedLine> lines, const Direction& axis) {
  std::vector<ClampTrack> tracks;
  for (std::size_t l = 0; l < lines.size(); ++l) {
    const pressure::GlueLine& line = lines[l];
    const auto it = std::find_if(tracks.begin(), tracks.end(),
                                 [&](const ClampTrack& t) { return on_track(t, line, axis); });
    if (it == tracks.end()) {
      tracks.push_back(
          {across_axis(line.along, axis), line.start, line.length_mm, line.across_mm, {l}});
    } else {
      lengthen(*it, line);
      it->lines.push_back(l);
    }
  }
  return tracks;
}

std::vector<ClampSite> clamp_sites(const SiteSearch& search, std::span<const ClampTrack> tracks) {
  std::vector<ClampSite> sites;
  for (std::size_t t = 0; t < tracks.size(); ++t) {
    SiteFinder finder(search, tracks[t], t);
    for (const double x : stations(tracks[t], tracks, search.axis, search.pad.along_mm)) {
      if (auto site = finder.at(x)) {
        sites.push_back(std::move(*site));
      }
    }
  }
  return sites;
}

void stand_alternately(std::span<ClampSite* const> chosen) {
  for (std::size_t i = 1; i < chosen.size(); i += 2) {
    if (chosen[i]->opposite) {
      chosen[i]->at = chosen[i]->opposite->at;
      chosen[i]->reach_mm = chosen[i]->opposite->reach_mm;
    }
  }
}

bool pads_collide(const ClampSite& a, const ClampSite& b, std::span<const ClampTrack> tracks,
                  const Direction& axis) {
  const Direction apart = b.at - a.at;
  for (const ClampSite* one : {&a, &b}) {
    const ClampTrack& track = tracks[one->track];
    for (const Direction& d : {track.along, across_of(track, axis)}) {
      double room = kBetweenPads_mm;
      for (const ClampSite* site : {&a, &b}) {
        const ClampTrack& own = tracks[site->track];
        room += (std::abs(dot(d, own.along)) * site->pad.along_mm +
                 std::abs(dot(d, across_of(own, axis))) * site->pad.across_mm) /
                2;
      }
      if (std::abs(dot(apart, d)) >= room - 1e-9) {
        return false;
      }
    }
  }
  return true;
}

}  // namespace planner::clamps::axis
