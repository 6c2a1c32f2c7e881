#include "planner/work/step_seconds.h"

#include <algorithm>
#include <cmath>

#include "planner/tables/clamp.h"

namespace planner::work {
namespace {

// A joint with a face wider than this is spread by area, not by length (common practice).
constexpr double kNarrow_mm = 50;

// Of faces wider than kNarrow_mm, by brush, and by notched spreader (common practice).
constexpr double kBrush_s_per_mm2 = 60 / (base::kMmPerFoot * base::kMmPerFoot);
constexpr double kSpreader_s_per_mm2 = 20 / (base::kMmPerFoot * base::kMmPerFoot);

// A clamp of a kind that the table does not know (common practice).
constexpr double kSnug_s = 25;

// Parts up to here are short or not long (common practice).
constexpr double kShort_mm = 20 * base::kMmPerInch;
constexpr double kLong_mm = 4 * base::kMmPerFoot;

struct Spreads {
  double run_mm = 0;     // the longest of the narrow faces
  double wide_mm2 = 0;   // of all wide ones
};

Spreads spreads_of(const Joint& joint) {
  Spreads spreads;
  for (const GlueFace& face : joint.faces) {
    if (face.contact.width_mm > kNarrow_mm) {
      spreads.wide_mm2 += face.contact.area_mm2;
    } else {
      spreads.run_mm = std::max(spreads.run_mm, face.contact.length_mm);
    }
  }
  if (joint.middle_mm > 0) {
    const double whole = std::max(spreads.run_mm, joint.faces[0].contact.length_mm);
    const double share = std::min(1.0, joint.middle_mm / whole);
    spreads.run_mm *= share;
    spreads.wide_mm2 *= share;
  }
  return spreads;
}

// The faces that look one way or its opposite: of a finger corner most are the fingers' cheeks, one
// between any two; of a dovetailed one the upper or the lower cheeks of its tails.
std::size_t most_parallel(const Joint& joint) {
  std::size_t most = 0;
  for (const GlueFace& one : joint.faces) {
    const auto alike = std::ranges::count_if(joint.faces, [&](const GlueFace& other) {
      return std::abs(dot(one.contact.normal, other.contact.normal)) > 1 - 1e-6;
    });
    most = std::max(most, static_cast<std::size_t>(alike));
  }
  return most;
}

PaceShare wide_share(const Joint& joint, const Spreads& spreads, const Pace& pace) {
  const double usual = joint.kind == JointKind::lamination ? kSpreader_s_per_mm2 : kBrush_s_per_mm2;
  return {"wide", pace.wide_s_per_mm2.value_or(usual), spreads.wide_mm2};
}

// One go over a face by the piece, longer where it is long or wide.
PaceShare face_share(const Joint& joint, const Spreads& spreads, const Pace& pace) {
  const PaceShare by_piece{"face", pace.face_s, 1};
  const PaceShare by_run{"edge", pace.edge_s_per_mm, spreads.run_mm};
  return std::max({by_piece, by_run, wide_share(joint, spreads, pace)},
                  [](const PaceShare& a, const PaceShare& b) { return a.seconds() < b.seconds(); });
}

double seconds_of(const std::vector<PaceShare>& shares) {
  double sum = 0;
  for (const PaceShare& share : shares) {
    sum += share.seconds();
  }
  return sum;
}

double longest_side_mm(const geometry::Box& box) {
  return std::max({box.hi.x - box.lo.x, box.hi.y - box.lo.y, box.hi.z - box.lo.z});
}

// Of its two parts the one that is shorter at its longest; 0 where nobody knows.
double shorter_part_mm(const Joint& joint, std::span<const geometry::Box> bounds) {
  return bounds.empty() ? 0
                        : std::min(longest_side_mm(bounds[joint.parts[0]]),
                                   longest_side_mm(bounds[joint.parts[1]]));
}

}  // namespace

int whole_seconds(double seconds) {
  return static_cast<int>(std::ceil(seconds - 1e-6));
}

std::vector<PaceShare> spread_shares(const Joint& joint, const Pace& pace) {
  const Spreads spreads = spreads_of(joint);
  if (joint.splined) {
    return {{"spline", pace.spline_s, 0.5}};  // the other half in its other kerf
  }
  switch (joint.kind) {
    case JointKind::edge:
      return {{"edge", pace.edge_s_per_mm, spreads.run_mm}, wide_share(joint, spreads, pace)};
    case JointKind::rabbet:
    case JointKind::dado:
    case JointKind::groove:
      return {{"channel", pace.channel_s_per_mm, spreads.run_mm},
              {"channel_joint", pace.channel_joint_s, 1},
              wide_share(joint, spreads, pace)};
    case JointKind::mortise_and_tenon:
    case JointKind::bridle:
      return {{"tenon", pace.tenon_s, 1}};
    case JointKind::fingers:
    case JointKind::dovetail: {
      const std::size_t cheeks = most_parallel(joint);
      const auto pieces = static_cast<double>(
          joint.kind == JointKind::dovetail ? cheeks : (cheeks + 2) / 2);
      return {{"corner", pace.corner_s, 1}, {"corner_piece", pace.corner_piece_s, pieces}};
    }
    case JointKind::dowel:
      return {{"dowel", pace.dowel_s, 1}};
    case JointKind::butt:
    case JointKind::lap:
    case JointKind::lamination:
    case JointKind::half_lap:
    case JointKind::mitre:
    case JointKind::other:
      break;
  }
  return {face_share(joint, spreads, pace)};
}

int spread_seconds(const Joint& joint, const Pace& pace) {
  return whole_seconds(seconds_of(spread_shares(joint, pace)));
}

Pace with_roller(Pace pace) {
  pace.wide_s_per_mm2 =
      std::min(pace.wide_s_per_mm2.value_or(kSpreader_s_per_mm2), kSpreader_s_per_mm2);
  return pace;
}

PaceShare join_share(const Joint& joint, std::span<const geometry::Box> bounds, const Pace& pace) {
  if (joint.held_by == HeldBy::tape && joint.kind == JointKind::mitre) {
    return {"fold", pace.fold_s, 1};
  }
  if (joint.held_by == HeldBy::hand) {
    return {"rub", pace.rub_s, 1};
  }
  if (joint.kind == JointKind::edge) {
    return {"strip", pace.strip_s, 1};
  }
  const double longest_mm = shorter_part_mm(joint, bounds);
  return longest_mm < kShort_mm   ? PaceShare{"join_short", pace.join_short_s, 1}
         : longest_mm <= kLong_mm ? PaceShare{"join", pace.join_s, 1}
                                  : PaceShare{"join_long", pace.join_long_s, 1};
}

int join_seconds(const Joint& joint, std::span<const geometry::Box> bounds, const Pace& pace) {
  return whole_seconds(join_share(joint, bounds, pace).seconds());
}

int next_seconds(const Joint& joint, const Pace& pace) {
  const bool tongue = joint.kind == JointKind::dado || joint.kind == JointKind::groove ||
                      joint.kind == JointKind::mortise_and_tenon ||
                      joint.kind == JointKind::bridle || joint.kind == JointKind::dowel ||
                      joint.kind == JointKind::dovetail;
  return tongue ? whole_seconds(pace.next_s) : 0;
}

double fastener_seconds(HeldBy by, const Pace& pace) {
  return by == HeldBy::screws ? pace.screw_s : pace.pin_s;
}

double snug_seconds(std::string_view clamp_kind, const Pace& pace) {
  if (const auto own = pace.snug_s.find(clamp_kind); own != pace.snug_s.end()) {
    return own->second;
  }
  if (pace.any_snug_s) {
    return *pace.any_snug_s;
  }
  const tables::ClampKind* kind = tables::find_clamp_kind(clamp_kind);
  return kind ? kind->snug_s : kSnug_s;
}

}  // namespace planner::work
