#include "planner/placed/placed_clamps.h"

#include <algorithm>
#include <cmath>

#include "planner/clamps/axis/planned_clamp.h"
#include "planner/clamps/axis/pressure_levels.h"
#include "planner/clamps/axis/wide_face_clamps.h"
#include "planner/placed/placed_mends.h"
#include "planner/pressure/crush.h"
#include "planner/tables/clamp.h"

namespace planner::placed {
namespace {

using geometry::Direction;
using geometry::Point;

// Of a clamp that names no kind: the one that people reach for.
const tables::ClampKind& kind_of(const work::PlacedClamp& clamp) {
  const tables::ClampKind* own = tables::find_clamp_kind(clamp.kind);
  return own != nullptr ? *own : *tables::first_choices().front();
}

clamps::axis::TrialClamp trial_of(const work::PlacedClamp& clamp) {
  const tables::ClampKind& kind = kind_of(clamp);
  clamps::axis::TrialClamp t;
  t.on_line = {clamp.at[0].mm(), clamp.at[1].mm(), clamp.at[2].mm()};
  t.pad = clamp.pad
              ? plan::PadSize{(*clamp.pad)[0].mm(), (*clamp.pad)[1].mm(), 0}
              : plan::PadSize{kind.pad_width_mm,
                              kind.pad_height_mm > 0 ? kind.pad_height_mm : kind.pad_width_mm, 0};
  t.force_N = clamp.force_N.value_or(kind.force_typ_N);
  t.most_N = std::max(t.force_N, kind.force_typ_N);
  return t;
}

class PlacedTrying {
 public:
  PlacedTrying(const work::Job& job, std::span<const geometry::Solid> solids,
               std::span<const work::Joint> joints, const work::GlueInUse& glue)
      : job_(job), joints_(joints), glue_(glue), work_(pressure::whole_work(solids)) {}

  plan::PlacedTrial run() {
    std::vector<work::JointId> all(joints_.size());
    for (work::JointId j = 0; j < all.size(); ++j) {
      all[j] = j;
    }
    trial_.holds = true;
    for (const clamps::axis::RoundAxis& axis : clamps::axis::round_axes(joints_, all, job_)) {
      try_axis(axis);
    }
    std::sort(trial_.clamps.begin(), trial_.clamps.end(),
              [](const plan::PlannedClamp& a, const plan::PlannedClamp& b) { return a.n < b.n; });
    tell_idle();
    std::stable_sort(
        trial_.mends.begin(), trial_.mends.end(),
        [](const plan::PlacedMend& a, const plan::PlacedMend& b) { return a.trouble < b.trouble; });
    return std::move(trial_);
  }

 private:
  void try_axis(const clamps::axis::RoundAxis& axis) {
    const clamps::axis::AxisQuestion question{job_, joints_, work_, axis, glue_, {}};
    const clamps::axis::ClampsAt round(question);
    PlacedAxis own{job_, round, {}, {}};
    for (std::size_t i = 0; i < job_.placed.size(); ++i) {
      const Direction d = geometry::kAxis[static_cast<std::size_t>(job_.placed[i].axis)];
      const clamps::axis::TrialClamp clamp = trial_of(job_.placed[i]);
      if (clamps::axis::same_axis(d, axis.axis) && round.site(clamp)) {
        own.clamps.push_back(clamp);
        own.numbers.push_back(static_cast<int>(i) + 1);
      }
    }
    if (own.clamps.empty()) {
      tell_untouched(question);
      return;
    }
    clamps::axis::AxisClamps plan = *round.with(own.clamps);
    set_up_plates(plan, plan.clamps);
    for (std::size_t i = 0; i < own.clamps.size(); ++i) {
      add(to_plan(plan, i, own.numbers[i]));
    }
    const std::vector<plan::LinePressure> lines = line_pressures(plan, plan.clamps);
    trial_.pressure.insert(trial_.pressure.end(), lines.begin(), lines.end());
    tell_lines(plan, lines);
    tell_dents(plan, own.numbers);
    tell_offsets(plan);
    if (!state_of(plan).good()) {
      trial_.holds = false;
      for (plan::PlacedMend& mend : placed_mends(own)) {
        trial_.mends.push_back(std::move(mend));
      }
    }
  }

  // One that presses what is held and what comes home along its axis is told once.
  void add(plan::PlannedClamp clamp) {
    const auto told = std::ranges::find(trial_.clamps, clamp.n, &plan::PlannedClamp::n);
    if (told == trial_.clamps.end()) {
      trial_.clamps.push_back(std::move(clamp));
      return;
    }
    told->joints.insert(told->joints.end(), clamp.joints.begin(), clamp.joints.end());
    std::ranges::sort(told->joints);
    told->joints.erase(std::unique(told->joints.begin(), told->joints.end()), told->joints.end());
  }

  plan::PlannedClamp to_plan(const clamps::axis::AxisClamps& plan, std::size_t i,
                             int number) const {
    const work::PlacedClamp& placed = job_.placed[static_cast<std::size_t>(number) - 1];
    const tables::ClampKind& kind = kind_of(placed);
    plan::PlannedClamp c = planned_clamp(plan, plan.clamps[i], job_.units);
    c.n = number;
    c.level = plan.round.seat() ? plan::Level::seat : plan::Level::hold;
    c.kind = kind.id;
    c.barrier = kind.bare_iron;
    return c;
  }

  // Larger faces along an axis on which nothing is placed, and what no mallet brings home.
  void tell_untouched(const clamps::axis::AxisQuestion& q) {
    if (q.round.hands_do()) {
      return;
    }
    const clamps::axis::AxisClamps bare = lines_of(q);
    const std::size_t asked = q.round.seat() ? bare.lines.size() : bare.held_lines;
    plan::UntouchedAxis untouched{q.round.axis, {}};
    for (std::size_t l = 0; l < asked; ++l) {
      plan::LinePressure line;
      line.joint = bare.lines[l].joint;
      line.face = bare.lines[l].face;
      line.axis = q.round.axis;
      line.hold_MPa = bare.lines[l].hold_MPa;
      line.full_MPa = bare.lines[l].full_MPa;
      trial_.pressure.push_back(line);
      untouched.joints.push_back(line.joint);
    }
    trial_.holds = false;
    trial_.findings.emplace_back(std::move(untouched));
  }

  const pressure::GlueLine& line_of(const clamps::axis::AxisClamps& plan,
                                    const plan::LinePressure& told) const {
    return *std::find_if(plan.lines.begin(), plan.lines.end(), [&](const pressure::GlueLine& l) {
      return l.joint == told.joint && l.face == told.face;
    });
  }

  void tell_lines(const clamps::axis::AxisClamps& plan,
                  const std::vector<plan::LinePressure>& lines) {
    for (const plan::LinePressure& line : lines) {
      if (line.level == plan::Level::short_of_hold || line.level == plan::Level::light) {
        trial_.findings.emplace_back(lack_of(line_of(plan, line), line, plan.round.axis));
      }
    }
  }

  static plan::StarvedJoint lack_of(const pressure::GlueLine& line, const plan::LinePressure& told,
                                    const Direction& axis) {
    using How = plan::StarvedJoint::How;
    plan::StarvedJoint out;
    out.joint = told.joint;
    out.axis = axis;
    if (told.max_MPa <= 0) {
      return out;
    }
    out.held_share = clamps::axis::kWeakHand * clamps::axis::sure_MPa(told.min_MPa, told.mean_MPa) /
                     told.hold_MPa;
    out.open_gap_mm = told.open_gap_mm;
    constexpr double kLittle = 0.05;
    out.how = told.open_gap_mm > pressure::kFilled_mm ? How::open
              : out.held_share > kLittle              ? How::weak
                                                      : How::starved;
    find_worst_stretch(line, told, out);
    return out;
  }

  // Where a line has less than holds, from the end that it is nearer to.
  static void find_worst_stretch(const pressure::GlueLine& line, const plan::LinePressure& told,
                                 plan::StarvedJoint& out) {
    double worst_x = 0, least = told.max_MPa, below = 0;
    for (std::size_t i = 0; i < told.samples.size(); ++i) {
      const auto& [x, p] = told.samples[i];
      if (p < least - 1e-9) {
        least = p;
        worst_x = x;
      }
      const double from = i == 0 ? x : (told.samples[i - 1][0] + x) / 2;
      const double to = i + 1 == told.samples.size() ? x : (told.samples[i + 1][0] + x) / 2;
      const double sure = clamps::axis::kWeakHand * clamps::axis::sure_MPa(p, told.mean_MPa);
      below += sure < told.hold_MPa ? to - from : 0;
    }
    constexpr double kAtEnd = 0.05;  // of the length
    const bool low_end = worst_x < line.length_mm / 2;
    const double off = low_end ? worst_x : line.length_mm - worst_x;
    out.end = low_end ? -line.along : line.along;
    out.from_end_mm = off < kAtEnd * line.length_mm ? 0 : off;
    out.starved_share = below / line.length_mm;
  }

  void tell_dents(const clamps::axis::AxisClamps& plan, const std::vector<int>& numbers) {
    for (std::size_t i = 0; i < plan.clamps.size(); ++i) {
      const double share = plan.clamps[i].force_N / plan.sites[i].bears_N;
      if (share > 1.001) {
        const clamps::axis::ClampSite& site = plan.sites[i];
        trial_.findings.emplace_back(
            plan::DentingClamp{numbers[i], site.path.front(), site.path.back(), share});
      }
    }
  }

  void tell_offsets(const clamps::axis::AxisClamps& plan) {
    const std::vector<double> offsets = offsets_mm(plan, plan.clamps);
    for (std::size_t l = 0; l < plan.held_lines; ++l) {
      const pressure::GlueLine& line = plan.lines[l];
      const pressure::OffsetVerdict verdict = pressure::judge_offset(offsets[l], line.across_mm);
      if (verdict != pressure::OffsetVerdict::good) {
        const Direction side = clamps::axis::across_of(line, plan.round.axis);
        trial_.findings.emplace_back(plan::OffMiddle{line.joint, std::abs(offsets[l]),
                                                     offsets[l] > 0 ? side : -side,
                                                     verdict == pressure::OffsetVerdict::too_far});
      }
    }
  }

  void tell_idle() {
    for (std::size_t i = 0; i < job_.placed.size(); ++i) {
      const int n = static_cast<int>(i) + 1;
      if (std::none_of(trial_.clamps.begin(), trial_.clamps.end(),
                       [n](const plan::PlannedClamp& c) { return c.n == n; })) {
        trial_.findings.emplace_back(plan::IdleClamp{n});
      }
    }
  }

  const work::Job& job_;
  std::span<const work::Joint> joints_;
  const work::GlueInUse& glue_;
  pressure::Work work_;
  plan::PlacedTrial trial_;
};

}  // namespace

std::optional<plan::PlacedTrial> try_placed(const work::Job& job,
                                            std::span<const geometry::Solid> solids,
                                            std::span<const work::Joint> joints,
                                            const work::GlueInUse& glue) {
  return job.placed.empty() ? std::nullopt
                            : std::optional(PlacedTrying(job, solids, joints, glue).run());
}

}  // namespace planner::placed
