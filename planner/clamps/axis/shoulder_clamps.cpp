#include "planner/clamps/axis/shoulder_clamps.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

namespace planner::clamps::axis {
namespace {

using geometry::Direction;
using geometry::Point;

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

  // The site nearest its track's middle that presses the joint and has room beside `taken`.
  std::optional<std::size_t> through(work::JointId joint,
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
    const auto& at = plan_.sites[site].presses;
    return std::any_of(at.begin(), at.end(),
                       [&](const PressedAt& p) { return plan_.lines[p.line].joint == joint; });
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

}  // namespace

std::vector<ChosenClamp> seating_clamps(const AxisClamps& plan, std::span<const work::Joint> joints,
                                        const pressure::Work& work) {
  const Seating seating(plan, joints);
  std::vector<std::size_t> sites = seating.best_pair();
  std::set<work::JointId> alone;  // joints that no other axis holds
  for (const pressure::GlueLine& line : plan.lines) {
    if (!main_face(joints[line.joint])) {
      alone.insert(line.joint);
    }
  }
  for (const work::JointId joint : alone) {
    const bool seated = std::any_of(sites.begin(), sites.end(),
                                    [&](std::size_t s) { return seating.presses(s, joint); });
    const auto site = seated ? std::nullopt : seating.through(joint, sites);
    if (site) {
      sites.push_back(*site);
    }
  }
  std::sort(sites.begin(), sites.end());
  const double needed = force_needed_N(plan, joints, work, plan::Level::hold);
  std::vector<ChosenClamp> clamps;
  for (const std::size_t s : sites) {
    const double each = std::max(kSnug_N, needed / static_cast<double>(sites.size()));
    clamps.push_back({s, std::min(plan.sites[s].limit_N, hand_force_N(each))});
  }
  return clamps;
}

}  // namespace planner::clamps::axis
