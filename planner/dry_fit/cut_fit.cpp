#include "planner/dry_fit/cut_fit.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "planner/work/cut.h"
#include "planner/work/joint_kind.h"

namespace planner::dry_fit {
namespace {

// A rabbet, groove or dado as drawn: which way it is deep and wide, and by how much.
struct Trench {
  work::JointKind kind;
  int depth_axis, width_axis;
  geometry::Length depth, width;
};
std::optional<Trench> trench_of(const work::Cut& cut) {
  if (const auto* rabbet = std::get_if<work::Rabbet>(&cut.shape)) {
    return Trench{work::JointKind::rabbet, rabbet->on.axis, rabbet->side.axis, rabbet->depth,
                  rabbet->width};
  }
  if (const auto* channel = std::get_if<work::Channel>(&cut.shape)) {
    return Trench{channel->across_grain ? work::JointKind::dado : work::JointKind::groove,
                  channel->on.axis, 3 - channel->on.axis - channel->runs, channel->depth,
                  channel->width};
  }
  return std::nullopt;
}

// How far the mate's board reaches into what the cut takes out, along each axis, mm; zeros where
// it stays outside. Turned parts are not looked at.
std::array<double, 3> reach_into(const work::Part& mate, const work::Part& part,
                                 const work::Cut& cut) {
  if (!mate.turns.empty() || !part.turns.empty()) {
    return {};
  }
  const geometry::LatticeBox board = mate.blank();
  const geometry::LatticeBox hollow = tools_of(part, cut).boxes.front();
  std::array<double, 3> reach{};
  for (std::size_t i = 0; i < 3; ++i) {
    const geometry::Length lo = std::max(hollow.lo[i] + part.at[i], board.lo[i]);
    const geometry::Length hi = std::min(hollow.hi[i] + part.at[i], board.hi[i]);
    if (hi <= lo) {
      return {};
    }
    reach[i] = (hi - lo).mm();
  }
  return reach;
}

bool names(const work::MeasuredCut& cut, const work::Job& job, work::PartId a, work::PartId b) {
  const auto is = [&](const std::string& name, work::PartId part) {
    return job.parts[part].name == name;
  };
  return (is(cut.between[0], a) && is(cut.between[1], b)) ||
         (is(cut.between[0], b) && is(cut.between[1], a));
}

const work::MeasuredCut* measured(const work::Job& job, work::PartId a, work::PartId b) {
  if (!job.dry_fit) {
    return nullptr;
  }
  const auto& cuts = job.dry_fit->cuts;
  const auto found = std::find_if(cuts.begin(), cuts.end(), [&](const work::MeasuredCut& cut) {
    return names(cut, job, a, b);
  });
  return found == cuts.end() ? nullptr : &*found;
}

// A cut of the part that the mate sits in, and how much of it the mate fills.
struct Seat {
  CutFit fit;
  double filled_mm3 = 0;
};
std::optional<Seat> seat_in(const work::Job& job, work::PartId part, work::PartId mate,
                            const work::Cut& cut) {
  // Less than this share of the mate's size is a board that lies across the cut and grazes its end.
  constexpr double kAcross = 0.25;
  const auto trench = trench_of(cut);
  if (!trench) {
    return std::nullopt;
  }
  const work::Part& board = job.parts[mate];
  const auto reach = reach_into(board, job.parts[part], cut);
  const double width = board.size(trench->width_axis).mm();
  if (reach[static_cast<std::size_t>(trench->width_axis)] <= kAcross * width) {
    return std::nullopt;
  }
  Seat seat{{}, reach[0] * reach[1] * reach[2]};
  seat.fit.cut_in = part;
  seat.fit.mate = mate;
  seat.fit.kind = trench->kind;
  seat.fit.depth_axis = trench->depth_axis;
  seat.fit.drawn_depth_mm = trench->depth.mm();
  seat.fit.goes_in_mm = reach[static_cast<std::size_t>(trench->depth_axis)];
  seat.fit.width_mm = trench->width.mm();
  // A mate with a tongue or rabbet of its own is taken to fit the cut as drawn.
  seat.fit.mate_mm = board.cuts.empty() ? width : seat.fit.width_mm;
  return seat;
}

// The cut that either part fills most of: at its corners it may graze those of its neighbours.
std::optional<CutFit> cut_fit(const work::Job& job, const work::Joint& joint) {
  // Joints that hold by other shapes may run through a groove all the same, as a rail's tenon does.
  if (trade_of(joint.kind).has(work::kOtherShape)) {
    return std::nullopt;
  }
  std::optional<Seat> best;
  for (const std::size_t side : {0u, 1u}) {
    const work::PartId part = joint.parts[side], mate = joint.parts[1 - side];
    for (const work::Cut& cut : job.parts[part].cuts) {
      const auto seat = seat_in(job, part, mate, cut);
      if (seat && (!best || seat->filled_mm3 > best->filled_mm3)) {
        best = seat;
      }
    }
  }
  if (!best) {
    return std::nullopt;
  }
  CutFit& fit = best->fit;
  const work::MeasuredCut* made = measured(job, fit.cut_in, fit.mate);
  if (made && made->width) {
    fit.width_mm = made->width->mm();
    fit.width_measured = true;
  }
  if (made && made->depth) {
    fit.depth_mm = made->depth->mm();
  }
  return fit;
}

bool worth_telling(const work::Job& job, const CutFit& fit) {
  return measured(job, fit.cut_in, fit.mate) || std::abs(fit.spare_mm()) > kWorthTelling_mm;
}

}  // namespace

double CutFit::longer_mm() const {
  if (!depth_mm) {
    return 0;
  }
  const double room = drawn_depth_mm - goes_in_mm, deeper = *depth_mm - drawn_depth_mm;
  return room > 0 ? std::min(0.0, deeper + room) : deeper;
}

std::optional<CutFit> first_seat(const work::Job& job, std::span<const work::Joint> joints) {
  for (const work::Joint& joint : joints) {
    if (auto fit = cut_fit(job, joint)) {
      return fit;
    }
  }
  return std::nullopt;
}

std::vector<CutFit> cut_fits(const work::Job& job, std::span<const work::Joint> joints,
                             base::Diagnostics& told) {
  std::vector<CutFit> fits;
  for (const work::Joint& joint : joints) {
    const auto fit = cut_fit(job, joint);
    if (fit && worth_telling(job, *fit)) {
      fits.push_back(*fit);
    }
  }
  if (!job.dry_fit) {
    return fits;
  }
  for (const work::MeasuredCut& cut : job.dry_fit->cuts) {
    const bool used = std::any_of(fits.begin(), fits.end(), [&](const CutFit& fit) {
      return measured(job, fit.cut_in, fit.mate) == &cut;
    });
    if (!used) {
      told.push_back(
          {base::Severity::error, cut.place,
           "no rabbet, dado or groove between " + cut.between[0] + " and " + cut.between[1],
           "`glueup check` lists the joints found"});
    }
  }
  return fits;
}

std::vector<CutSize> sizes_to_cut(const work::Job& job, std::span<const CutFit> cuts) {
  std::map<std::pair<work::PartId, int>, double> longer;
  for (const CutFit& cut : cuts) {
    if (std::abs(cut.longer_mm()) > 0) {
      longer[{cut.mate, cut.depth_axis}] += cut.longer_mm();
    }
  }
  std::vector<CutSize> sizes;
  for (const auto& [where, mm] : longer) {
    const double drawn = job.parts[where.first].size(where.second).mm();
    if (std::abs(mm) > 1e-6) {
      sizes.push_back({where.first, where.second, drawn, drawn + mm});
    }
  }
  return sizes;
}

}  // namespace planner::dry_fit
