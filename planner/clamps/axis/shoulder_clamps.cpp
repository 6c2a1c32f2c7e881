#include "planner/clamps/axis/shoulder_clamps.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>

#include "planner/clamps/axis/even_spacing.h"

namespace planner::clamps::axis {
namespace {

using geometry::Direction;
using geometry::Point;

constexpr double kRounding_mm = 0.1;
constexpr double kAlike_mm = 10, kAlikeArea_mm2 = 1000;  // no difference to a woodworker

Point middle_of(std::span<const AskedLine> lines) {
  Point sum;
  double area = 0;
  for (const pressure::GlueLine& line : lines) {
    const double a = line.length_mm * line.width_mm;
    sum = sum + a * (point_at(line, line.length_mm / 2) - Point{});
    area += a;
  }
  return Point{} + (1 / area) * (sum - Point{});
}

class Seating {
 public:
  Seating(const AxisClamps& plan, std::span<const work::Joint> joints)
      : plan_(plan), joints_(joints), middle_(middle_of(plan.lines)) {}

  std::vector<std::size_t> best_pair() const {
    std::vector<std::size_t> best;
    Rank best_rank{};
    for (std::size_t a = 0; a < plan_.sites.size(); ++a) {
      for (std::size_t b = a + 1; b < plan_.sites.size(); ++b) {
        const Rank rank = rank_of(plan_.sites[a], plan_.sites[b]);
        if ((best.empty() || rank < best_rank) &&
            !pads_collide(plan_.sites[a], plan_.sites[b], plan_.tracks, plan_.round.axis)) {
          best = {a, b};
          best_rank = rank;
        }
      }
    }
    return best.empty() && !plan_.sites.empty() ? std::vector<std::size_t>{0} : best;
  }

  // The site nearest a place on the line that presses it and has room beside `taken`.
  std::optional<std::size_t> through(std::size_t line, double x_mm,
                                     std::span<const std::size_t> taken) const {
    std::optional<std::size_t> best;
    for (std::size_t s = 0; s < plan_.sites.size(); ++s) {
      const bool fits = std::none_of(taken.begin(), taken.end(), [&](std::size_t t) {
        return pads_collide(plan_.sites[s], plan_.sites[t], plan_.tracks, plan_.round.axis);
      });
      const auto at = pressed_at(s, line);
      if (fits && at && (!best || std::abs(*at - x_mm) < std::abs(*pressed_at(*best, line) - x_mm) - 1)) {
        best = s;
      }
    }
    return best;
  }

  // The same, of any of the joint's lines, nearest its track's middle.
  std::optional<std::size_t> through_middle(work::JointId joint,
                                            std::span<const std::size_t> taken) const {
    std::optional<std::size_t> best;
    for (std::size_t s = 0; s < plan_.sites.size(); ++s) {
      const bool fits = std::none_of(taken.begin(), taken.end(), [&](std::size_t t) {
        return pads_collide(plan_.sites[s], plan_.sites[t], plan_.tracks, plan_.round.axis);
      });
      if (fits && presses(s, joint) &&
          (!best || off_middle(plan_.sites[s]) < off_middle(plan_.sites[*best]) - kAlike_mm)) {
        best = s;
      }
    }
    return best;
  }

  bool presses(std::size_t site, work::JointId joint) const {
    return std::ranges::any_of(plan_.sites[site].presses, [&](const PressedAt& p) {
      return plan_.lines[p.line].joint == joint;
    });
  }

  // Where along a line a site presses it.
  std::optional<double> pressed_at(std::size_t site, std::size_t line) const {
    const auto& at = plan_.sites[site].presses;
    const auto found = std::ranges::find(at, line, &PressedAt::line);
    return found == at.end() ? std::nullopt : std::optional(found->x_mm);
  }

  // Where the line's clamps stand best: in its middle, or near its ends.
  std::vector<double> places_on(std::size_t line) const {
    const AskedLine& l = plan_.lines[line];
    const work::JointKind kind = joints_[l.joint].kind;
    const bool rail = kind == work::JointKind::mortise_and_tenon || kind == work::JointKind::dowel;
    const bool one = l.length_mm <= (rail ? kOneOnRail_mm : kOneClamp_mm) + kRounding_mm;
    const EvenSpacing two(l.length_mm, 2);
    return one ? std::vector{l.length_mm / 2} : std::vector{two.at_mm(0), two.at_mm(1)};
  }

  // The largest line of each joint of the round.
  std::vector<std::size_t> main_lines() const {
    std::map<work::JointId, std::size_t> largest;
    for (std::size_t l = 0; l < plan_.lines.size(); ++l) {
      const auto [it, fresh] = largest.try_emplace(plan_.lines[l].joint, l);
      const AskedLine &now = plan_.lines[l], &was = plan_.lines[it->second];
      if (!fresh && now.length_mm * now.width_mm > was.length_mm * was.width_mm) {
        it->second = l;
      }
    }
    std::vector<std::size_t> out;
    for (const auto& [joint, line] : largest) {
      out.push_back(line);
    }
    return out;
  }

  // Through every joint as many as it asks for: one that stands near a place already serves it.
  std::vector<std::size_t> through_all() const {
    std::vector<std::size_t> sites;
    for (const std::size_t line : main_lines()) {
      const work::JointId joint = plan_.lines[line].joint;
      if (joints_[joint].kind == work::JointKind::fingers) {
        const bool there =
            std::ranges::any_of(sites, [&](std::size_t s) { return presses(s, joint); });
        if (const auto site = there ? std::nullopt : through_middle(joint, sites)) {
          sites.push_back(*site);
        }
        continue;
      }
      const std::vector<double> places = places_on(line);
      const double near = plan_.lines[line].length_mm / (2.0 * static_cast<double>(places.size()));
      for (const double x : places) {
        const bool there = std::ranges::any_of(sites, [&](std::size_t s) {
          const auto at = pressed_at(s, line);
          return at && std::abs(*at - x) <= near;
        });
        const auto site = there ? std::nullopt : through(line, x, sites);
        if (site) {
          sites.push_back(*site);
        }
      }
    }
    return sites;
  }

 private:
  using Rank = std::array<double, 5>;  // the lesser the better

  Rank rank_of(const ClampSite& a, const ClampSite& b) const {
    const Direction off = (a.at + 0.5 * (b.at - a.at)) - middle_;
    const double along = dot(off, plan_.round.axis);
    const double beside = std::sqrt(std::max(0.0, dot(off, off) - along * along));
    return {std::round(beside / kAlike_mm), up_and_down(a) + up_and_down(b),
            std::round(-(pressed_mm2(a) + pressed_mm2(b)) / kAlikeArea_mm2),
            std::round(off_middle(a) + off_middle(b)), static_cast<double>(a.track + b.track)};
  }

  // Shoulders of joints that are pressed down (a lid's, a bottom's) rather than sideways.
  double up_and_down(const ClampSite& site) const {
    double out = 0;
    for (const PressedAt& p : site.presses) {
      const double z = joints_[plan_.lines[p.line].joint].faces[0].contact.normal.z;
      out += std::abs(z) > 0.7 ? 1 : 0;
    }
    return out;
  }

  double off_middle(const ClampSite& site) const {
    return std::abs(site.x_mm - plan_.tracks[site.track].length_mm / 2);
  }

  double pressed_mm2(const ClampSite& site) const {
    double area = 0;
    for (const PressedAt& p : site.presses) {
      area += plan_.lines[p.line].length_mm * plan_.lines[p.line].width_mm;
    }
    return area;
  }

  const AxisClamps& plan_;
  std::span<const work::Joint> joints_;
  Point middle_;
};

// What the lines that a clamp presses ask of it, each shared by all that press it: of lines behind one
// another the most, as they get the same.
double asked_through(const AxisClamps& plan, std::size_t site,
                     std::span<const std::size_t> sites) {
  const auto presses = [&](std::size_t s, std::size_t line) {
    return std::ranges::count(plan.sites[s].presses, line, &PressedAt::line) > 0;
  };
  double most = 0;
  for (std::size_t l = 0; l < plan.lines.size(); ++l) {
    if (presses(site, l)) {
      const auto sharing = std::ranges::count_if(sites, [&](std::size_t s) { return presses(s, l); });
      const AskedLine& line = plan.lines[l];
      most = std::max(most, line.hold_MPa * line.length_mm * line.width_mm /
                                static_cast<double>(sharing));
    }
  }
  return most;
}

}  // namespace

std::vector<ChosenClamp> seating_clamps(const AxisClamps& plan, std::span<const work::Joint> joints,
                                        const pressure::Work& work) {
  const Seating seating(plan, joints);
  std::vector<std::size_t> sites =
      plan.round.home ? seating.through_all() : seating.best_pair();
  std::sort(sites.begin(), sites.end());
  const double all = force_needed_N(plan, joints, work, plan::Level::hold);
  std::vector<ChosenClamp> clamps;
  for (const std::size_t s : sites) {
    const double each = plan.round.home ? asked_through(plan, s, sites)
                                        : all / static_cast<double>(sites.size());
    clamps.push_back({s, hand_force_N(std::max(kSnug_N, each))});
  }
  return clamps;
}

}  // namespace planner::clamps::axis
