#include "planner/clamp_rounds.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "planner/joint_kind.h"

namespace planner {
namespace {

using geometry::Direction;

constexpr double kSame = 0.9998;     // cosine: 1 degree
constexpr double kHasAPartIn = 0.1;  // of the normal along an axis, to be pressed along it

Direction non_negative(const Direction& d) {
  for (std::size_t i = 0; i < 3; ++i) {
    if (std::abs(d[i]) > 1e-6) {
      return d[i] > 0 ? d : -d;
    }
  }
  return d;
}

std::vector<Direction> axes_of(const Direction& normal, const Joint& joint, const Job& job) {
  for (const PartId part : joint.parts) {
    for (const Direction& own : part_axes(job.parts[part])) {
      if (std::abs(dot(own, normal)) > kSame) {
        return {non_negative(normal)};
      }
    }
  }
  std::vector<Direction> axes;
  for (const Direction& axis : geometry::kAxis) {
    if (std::abs(dot(axis, normal)) > kHasAPartIn) {
      axes.push_back(axis);
    }
  }
  return axes;
}

RoundAxis& round_of(std::vector<RoundAxis>& rounds, const Direction& axis) {
  for (RoundAxis& r : rounds) {
    if (std::abs(dot(r.axis, axis)) > kSame) {
      return r;
    }
  }
  rounds.push_back({axis, {}, {}});
  return rounds.back();
}

// x before y before z, whatever lies between by its greatest part.
bool earlier(const RoundAxis& a, const RoundAxis& b) {
  if (a.seat() != b.seat()) {
    return !a.seat();
  }
  for (std::size_t i = 0; i < 3; ++i) {
    if (std::abs(a.axis[i] - b.axis[i]) > 1e-9) {
      return a.axis[i] > b.axis[i];
    }
  }
  return false;
}

}  // namespace

std::vector<RoundAxis> round_axes(std::span<const Joint> joints, std::span<const JointId> of_stage,
                                  const Job& job) {
  std::vector<RoundAxis> rounds;
  std::vector<JointId> ids(of_stage.begin(), of_stage.end());
  std::sort(ids.begin(), ids.end());
  for (const JointId id : ids) {
    const Joint& joint = joints[id];
    if (!joint.glued) {
      continue;
    }
    const std::optional<std::size_t> main = main_face(joint);
    for (std::size_t f = 0; f < joint.faces.size(); ++f) {
      if (held_by_fit(joint, f)) {
        continue;
      }
      for (const Direction& axis : axes_of(joint.faces[f].contact.normal, joint, job)) {
        RoundAxis& round = round_of(rounds, axis);
        (main == f ? round.held : round.closed).push_back({id, f});
      }
    }
  }
  std::stable_sort(rounds.begin(), rounds.end(), earlier);
  return rounds;
}

}  // namespace planner
