#include "planner/clamps/axis/pressing_axes.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <optional>

#include "geometry/elementary.h"
#include "planner/pressure/glue_line.h"
#include "planner/work/joint_kind.h"

namespace planner::clamps::axis {
namespace {

using geometry::Direction;

constexpr double kHasAPartIn = 0.1;  // of the normal along an axis, to be pressed along it

std::vector<Direction> axes_of(const Direction& normal, const work::Joint& joint,
                               const work::Job& job) {
  for (const work::PartId part : joint.parts) {
    for (const Direction& own : part_axes(job.parts[part])) {
      if (same_axis(own, normal)) {
        return {pressure::non_negative(normal)};
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

RoundAxis& round_of(std::vector<RoundAxis>& rounds, const Direction& axis, bool home) {
  for (RoundAxis& r : rounds) {
    if (r.home == home && same_axis(r.axis, axis)) {
      return r;
    }
  }
  rounds.push_back({axis, {}, {}, home});
  return rounds.back();
}

// Which way a face runs, x before y before z, then where its middle lies. In whole micrometres, cut
// where no lengths of a job's lattice nor their halves or thirds come to lie, so that rounding
// can't tell two faces apart.
std::array<std::int64_t, 6> place_of(const geometry::Contact& face) {
  const auto whole = [](double mm) {
    return static_cast<std::int64_t>(std::floor(1000 * mm + 0.1234567));
  };
  const Direction& along = face.along;
  const geometry::Point& middle = face.centroid;
  return {whole(-std::abs(along.x)), whole(-std::abs(along.y)), whole(-std::abs(along.z)),
          whole(middle.x),           whole(middle.y),           whole(middle.z)};
}

// So that the search, which takes the first of equals, finds the same however the file lists them.
void in_order_of_place(std::vector<FaceRef>& faces, std::span<const work::Joint> joints) {
  const auto place = [&](const FaceRef& f) {
    return place_of(joints[f.joint].faces[f.face].contact);
  };
  std::stable_sort(faces.begin(), faces.end(),
                   [&](const FaceRef& a, const FaceRef& b) { return place(a) < place(b); });
}

void move_into(RoundAxis& to, const RoundAxis& from) {
  to.held.insert(to.held.end(), from.held.begin(), from.held.end());
  to.closed.insert(to.closed.end(), from.closed.begin(), from.closed.end());
  to.driven = to.driven && from.driven;
}

// Sides that lean apart look along two axes, neither of which a clamp over both has square faces
// on: they are pressed together along the assembly's axis that lies near to both.
void join_splayed(std::vector<RoundAxis>& rounds, bool home) {
  const double near = geometry::cosine(geometry::arc_tangent(kSteepest));
  for (const Direction& axis : geometry::kAxis) {
    const auto leans = [&](const RoundAxis& r) {
      return r.home == home && std::abs(dot(r.axis, axis)) >= near && !same_axis(r.axis, axis);
    };
    if (std::count_if(rounds.begin(), rounds.end(), leans) < 2) {
      continue;
    }
    RoundAxis joined{axis, {}, {}, home};
    const auto joins = [&](const RoundAxis& r) {
      return leans(r) || (r.home == home && same_axis(r.axis, axis));
    };
    for (const RoundAxis& r : rounds) {
      if (joins(r)) {
        move_into(joined, r);
      }
    }
    const auto gone = std::remove_if(rounds.begin(), rounds.end(), joins);
    rounds.erase(gone, rounds.end());
    rounds.push_back(std::move(joined));
  }
}

// A dado comes home on its floor; its end, where it is stopped, wants nothing, nor does a groove's
// floor.
bool asks_nothing(const work::Joint& joint, std::size_t face) {
  if (joint.kind != work::JointKind::dado) {
    return groove_floor(joint, face);
  }
  std::size_t floor = 0;
  while (fit_pressed(joint, floor) && floor < face) {
    ++floor;
  }
  return !same_axis(joint.faces[floor].contact.normal, joint.faces[face].contact.normal);
}

// x before y before z, whatever lies between by its greatest part.
bool earlier(const RoundAxis& a, const RoundAxis& b) {
  if (a.seat() != b.seat()) {
    return !a.seat();
  }
  if (a.home != b.home) {
    return a.home;
  }
  for (std::size_t i = 0; i < 3; ++i) {
    if (std::abs(a.axis[i] - b.axis[i]) > 1e-9) {
      return a.axis[i] > b.axis[i];
    }
  }
  return false;
}

}  // namespace

std::vector<RoundAxis> round_axes(std::span<const work::Joint> joints,
                                  std::span<const work::JointId> of_stage, const work::Job& job) {
  std::vector<RoundAxis> rounds;
  std::vector<work::JointId> ids(of_stage.begin(), of_stage.end());
  std::sort(ids.begin(), ids.end());
  for (const work::JointId id : ids) {
    const work::Joint& joint = joints[id];
    if (!joint.glued || work::wants_no_clamp(joint.held_by)) {
      continue;
    }
    const std::optional<std::size_t> main = main_face(joint);
    for (std::size_t f = 0; f < joint.faces.size(); ++f) {
      if (fit_pressed(joint, f) || asks_nothing(joint, f)) {
        continue;
      }
      for (const Direction& axis : axes_of(joint.faces[f].contact.normal, joint, job)) {
        RoundAxis& round = round_of(rounds, axis, !main);
        (main == f ? round.held : round.closed).push_back({id, f});
        round.driven &= main || joint.kind == work::JointKind::mortise_and_tenon ||
                        joint.kind == work::JointKind::dowel;
      }
    }
  }
  join_splayed(rounds, false);
  join_splayed(rounds, true);
  for (RoundAxis& round : rounds) {
    in_order_of_place(round.held, joints);
    in_order_of_place(round.closed, joints);
  }
  std::stable_sort(rounds.begin(), rounds.end(), earlier);
  return rounds;
}

}  // namespace planner::clamps::axis
