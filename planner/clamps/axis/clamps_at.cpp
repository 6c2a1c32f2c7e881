#include "planner/clamps/axis/clamps_at.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace planner::clamps::axis {
namespace {

using geometry::Direction;
using geometry::Point;

constexpr double kLeastBearing_mm = 2;  // of a jaw on the wood, either way
constexpr int kShrinkSteps = 40;
constexpr double kStep_mm = 10;

// All of the pad that bears with its middle on the line of action, one side after the other.
std::optional<plan::PadSize> shrunk(const PadPlace& place, const LineOfAction& action,
                                    plan::PadSize pad) {
  const plan::PadSize whole = pad;
  pad.along_mm = std::min(whole.along_mm, kLeastBearing_mm);
  const auto most = [&](double& side, double wanted) {
    for (int i = kShrinkSteps; i > 0; --i) {
      side = wanted * i / kShrinkSteps;
      if (pads_bear(place, action, pad)) {
        return true;
      }
    }
    return false;
  };
  return most(pad.across_mm, whole.across_mm) && most(pad.along_mm, whole.along_mm) &&
                 std::min(pad.along_mm, pad.across_mm) >= kLeastBearing_mm
             ? std::optional(pad)
             : std::nullopt;
}

double share_at(const count::PressTable& table, const TrialPress& press, std::size_t place) {
  double share = table.at_rest[place];
  for (std::size_t c = 0; c < press.sites.size(); ++c) {
    share += table.of(press.sites[c])[place] * press.forces[c];
  }
  return share;
}

}  // namespace

ClampsAt::ClampsAt(const AxisQuestion& question)
    : q_(question),
      bare_(lines_of(question)),
      bearing_(geometry::find_bearing_faces(question.work.solids, question.round.axis, {})),
      max_gap_mm_(bridged_gap_mm(question.glue.max_gap_mm)) {}

std::optional<plan::PadSize> ClampsAt::pad_on_wood(const LineOfAction& action,
                                                   const Direction& along,
                                                   const plan::PadSize& pad) const {
  return shrunk({q_.work, bearing_, along, cross(axis(), along)}, action, pad);
}

std::optional<ClampSite> ClampsAt::site(const TrialClamp& clamp) const {
  const auto action = line_of_action(q_.work, clamp.on_line, axis());
  if (!action || after_hollow(*action, q_.joints, max_gap_mm_)) {
    return std::nullopt;
  }
  ClampSite site;
  site.presses = lines_pressed(*action, bare_.lines, q_.joints, max_gap_mm_);
  const auto track = std::find_if(tracks().begin(), tracks().end(), [&](const ClampTrack& t) {
    return std::any_of(site.presses.begin(), site.presses.end(), [&](const PressedAt& p) {
      return std::find(t.lines.begin(), t.lines.end(), p.line) != t.lines.end();
    });
  });
  if (track == tracks().end()) {
    return std::nullopt;
  }
  const auto pad = pad_on_wood(*action, track->along, clamp.pad);
  if (!pad) {
    return std::nullopt;
  }
  site.pad = *pad;
  site.track = static_cast<std::size_t>(track - tracks().begin());
  site.x_mm = dot(action->at - track->start, track->along);
  site.at = action->at;
  site.span_mm = action->span_mm();
  for (const pressure::Passage& passage : action->path) {
    site.path.push_back(passage.part);
  }
  // Held lines come first: the pad's long side goes by the line that the track was found by.
  std::stable_sort(
      site.presses.begin(), site.presses.end(), [&](const PressedAt& a, const PressedAt& b) {
        const auto on = [&](const PressedAt& p) {
          return std::find(track->lines.begin(), track->lines.end(), p.line) != track->lines.end();
        };
        return on(a) && !on(b);
      });
  return site;
}

std::optional<AxisClamps> ClampsAt::with(std::span<const TrialClamp> clamps,
                                         std::span<const TrialClamp> spare, double caul_mm) const {
  AxisClamps plan;
  plan.round = bare_.round;
  plan.backing = bare_.backing;
  plan.packing = {caul_mm > 0 ? Padding::strips : Padding::blocks, caul_mm};
  plan.lines = bare_.lines;
  plan.held_lines = bare_.held_lines;
  plan.weak_hand = bare_.weak_hand;
  plan.tracks = bare_.tracks;
  std::vector<int> on_line(plan.lines.size(), 0);
  const auto add = [&](const TrialClamp& clamp) {
    auto found = site(clamp);
    if (!found) {
      return false;
    }
    found->bearing_limit_MPa = bearing_limit_MPa(q_.job, *found);
    // Under a strip the wood bears on at least what a block of that thickness would cover.
    const double under = caul_mm > 0 ? pad_length_mm(clamp.pad.along_mm, caul_mm, q_.job.units)
                                     : found->pad.along_mm;
    found->bears_N = found->bearing_limit_MPa * under * found->pad.across_mm;
    found->limit_N = std::min(clamp.most_N, found->bears_N);
    plan.sites.push_back(std::move(*found));
    return true;
  };
  for (const TrialClamp& clamp : clamps) {
    if (!add(clamp)) {
      return std::nullopt;
    }
    plan.clamps.push_back({plan.sites.size() - 1, clamp.force_N});
    for (const PressedAt& p : plan.sites.back().presses) {
      ++on_line[p.line];
    }
  }
  for (const TrialClamp& clamp : spare) {
    if (!add(clamp)) {
      return std::nullopt;
    }
  }
  for (int& n : on_line) {
    n = std::max(n, 1);
  }
  if (plan.held_lines > 0) {
    KnownSystems none;
    plan.model = std::make_unique<PressModel>(PressSetUp{plan.held(), plan.sites, on_line, caul_mm}, none);
  }
  return plan;
}

std::vector<TrialClamp> ClampsAt::more_like(const TrialClamp& clamp) const {
  std::vector<TrialClamp> out;
  for (const ClampTrack& track : tracks()) {
    const double half = std::min(clamp.pad.along_mm, track.length_mm) / 2;
    const double run = track.length_mm - 2 * half;
    const int steps = std::max(1, static_cast<int>(std::ceil(run / kStep_mm)));
    for (int i = 0; i <= steps; ++i) {
      TrialClamp more = clamp;
      more.on_line = track.start + (half + run * i / steps) * track.along;
      if (site(more)) {
        out.push_back(more);
      }
    }
  }
  return out;
}

double linear_share(const count::PressTable& table, const TrialPress& press) {
  double least = std::numeric_limits<double>::max();
  for (std::size_t p = 0; p < table.places; ++p) {
    least = std::min(least, share_at(table, press, p));
  }
  return least;
}

double linear_lack(const count::PressTable& table, const TrialPress& press) {
  double lack = 0;
  for (std::size_t p = 0; p < table.places; ++p) {
    lack += std::max(0.0, 1 - share_at(table, press, p));
  }
  return lack;
}

}  // namespace planner::clamps::axis
