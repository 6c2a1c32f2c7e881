#include "planner/placed_clamps.h"

#include <algorithm>
#include <cmath>

#include "planner/crush.h"
#include "planner/file_notes.h"
#include "planner/line_levels.h"
#include "planner/placed_mends.h"
#include "planner/side_words.h"
#include "planner/tables/clamp.h"

namespace planner {
namespace {

using geometry::Direction;
using geometry::Point;

constexpr double kSameAxis = 0.9998;
constexpr double kGapTold_mm = 0.1;  // thinner gaps any glue fills
constexpr const char* kUsualKind = "f_heavy";

Work whole_work(const Job& job, std::span<const geometry::Solid> solids) {
  std::vector<PartId> parts(job.parts.size());
  for (PartId p = 0; p < parts.size(); ++p) {
    parts[p] = p;
  }
  return work_of(parts, solids);
}

TrialClamp trial_of(const PlacedClamp& clamp) {
  const ClampKind* own = find_clamp_kind(clamp.kind);
  const ClampKind& kind = own != nullptr ? *own : *find_clamp_kind(kUsualKind);
  TrialClamp t;
  t.on_line = {clamp.at[0].mm(), clamp.at[1].mm(), clamp.at[2].mm()};
  t.pad = clamp.pad ? PadSize{(*clamp.pad)[0].mm(), (*clamp.pad)[1].mm(), 0}
                    : PadSize{kind.pad_width_mm,
                              kind.pad_height_mm > 0 ? kind.pad_height_mm : kind.pad_width_mm, 0};
  t.force_N = clamp.force_N.value_or(kind.force_typ_N);
  t.most_N = std::max(t.force_N, kind.force_typ_N);
  return t;
}

class PlacedTrying {
 public:
  PlacedTrying(const Job& job, std::span<const geometry::Solid> solids,
               std::span<const Joint> joints, const GlueInUse& glue)
      : job_(job), joints_(joints), glue_(glue), work_(whole_work(job, solids)) {}

  PlacedTrial run() {
    std::vector<JointId> all(joints_.size());
    for (JointId j = 0; j < all.size(); ++j) {
      all[j] = j;
    }
    trial_.holds = true;
    for (const RoundAxis& axis : round_axes(joints_, all, job_)) {
      try_axis(axis);
    }
    std::sort(trial_.clamps.begin(), trial_.clamps.end(),
              [](const PlannedClamp& a, const PlannedClamp& b) { return a.n < b.n; });
    tell_idle();
    std::stable_sort(trial_.mends.begin(), trial_.mends.end(),
                     [](const WayOut& a, const WayOut& b) { return a.trouble < b.trouble; });
    return std::move(trial_);
  }

 private:
  std::string name(JointId joint) const { return joint_name(joints_[joint], job_); }
  std::string percent(double share) const {
    return std::to_string(std::lround(100 * share)) + " %";
  }

  void try_axis(const RoundAxis& axis) {
    const RoundQuestion question{job_, joints_, work_, axis, glue_, {}};
    const PlacedRound round(question);
    PlacedAxis own{job_, round, {}, {}};
    for (std::size_t i = 0; i < job_.placed.size(); ++i) {
      const Direction d = geometry::kAxis[static_cast<std::size_t>(job_.placed[i].axis)];
      const TrialClamp clamp = trial_of(job_.placed[i]);
      if (std::abs(dot(d, axis.axis)) > kSameAxis && round.site(clamp)) {
        own.clamps.push_back(clamp);
        own.numbers.push_back(static_cast<int>(i) + 1);
      }
    }
    if (own.clamps.empty()) {
      tell_untouched(question);
      return;
    }
    const RoundPlan plan = *round.with(own.clamps);
    for (std::size_t i = 0; i < own.clamps.size(); ++i) {
      trial_.clamps.push_back(told(plan, i, own.numbers[i]));
    }
    const std::vector<LinePressure> lines = line_pressures(plan, plan.clamps);
    trial_.pressure.insert(trial_.pressure.end(), lines.begin(), lines.end());
    tell_lines(plan, lines);
    tell_dents(plan, own.numbers);
    tell_offsets(plan);
    if (!state_of(plan).good()) {
      trial_.holds = false;
      for (WayOut& way : placed_mends(own)) {
        way.what = std::string(axis_words(axis.axis)) + ": " + way.what;
        trial_.mends.push_back(std::move(way));
      }
    }
  }

  PlannedClamp told(const RoundPlan& plan, std::size_t i, int number) const {
    const ClampSite& site = plan.sites[i];
    const PlacedClamp& placed = job_.placed[static_cast<std::size_t>(number) - 1];
    const ClampKind& kind = *find_clamp_kind(placed.kind.empty() ? kUsualKind : placed.kind);
    PlannedClamp c;
    c.n = number;
    c.axis = plan.round.axis;
    c.at = site.at;
    c.span_mm = site.span_mm;
    c.kind = kind.id;
    constexpr double kHalfInch_mm = 12.7;
    c.opening_mm = site.span_mm + kHalfInch_mm;
    c.force_N = plan.clamps[i].force_N;
    c.level = plan.round.seat() ? Level::seat : Level::hold;
    c.pad = site.pad;
    c.pad_along = plan.tracks[site.track].along;
    c.bearing_MPa = c.force_N / (site.pad.along_mm * site.pad.across_mm);
    c.bearing_limit_MPa = plan.bearing_limit_MPa[i];
    c.barrier = kind.bare_iron;
    for (const PressedAt& p : site.presses) {
      c.joints.push_back(plan.lines[p.line].joint);
    }
    std::sort(c.joints.begin(), c.joints.end());
    c.joints.erase(std::unique(c.joints.begin(), c.joints.end()), c.joints.end());
    return c;
  }

  // Larger faces along an axis on which nothing is placed.
  void tell_untouched(const RoundQuestion& q) {
    if (q.round.seat()) {
      return;
    }
    const RoundPlan bare = lines_of(q);
    std::vector<std::string> names;
    for (std::size_t l = 0; l < bare.held_lines; ++l) {
      LinePressure line;
      line.joint = bare.lines[l].joint;
      line.face = bare.lines[l].face;
      line.axis = q.round.axis;
      line.hold_MPa = bare.hold_MPa[l];
      line.full_MPa = bare.full_MPa[l];
      trial_.pressure.push_back(line);
      names.push_back(name(line.joint));
    }
    trial_.holds = false;
    trial_.findings.push_back("nothing presses " + axis_words(q.round.axis) + ": " +
                              few_or_count(names) + " stay" + (names.size() == 1 ? "s" : "") +
                              " loose");
  }

  const GlueLine& line_of(const RoundPlan& plan, const LinePressure& told) const {
    return *std::find_if(plan.lines.begin(), plan.lines.end(), [&](const GlueLine& l) {
      return l.joint == told.joint && l.face == told.face;
    });
  }

  // Lines that fare alike are told of together.
  void tell_lines(const RoundPlan& plan, const std::vector<LinePressure>& lines) {
    std::vector<std::pair<std::string, std::vector<std::string>>> told;
    for (const LinePressure& line : lines) {
      if (line.level != Level::short_of_hold) {
        continue;
      }
      const std::string how = lack_of(line_of(plan, line), line);
      auto same = std::find_if(told.begin(), told.end(),
                               [&](const auto& entry) { return entry.first == how; });
      if (same == told.end()) {
        same = told.insert(told.end(), {how, {}});
      }
      same->second.push_back(name(line.joint));
    }
    for (const auto& [how, names] : told) {
      trial_.findings.push_back(few_or_count(names) + ": " + how);
    }
  }

  // A case has dozens; the profiles tell each.
  static std::string few_or_count(const std::vector<std::string>& names) {
    constexpr std::size_t kFew = 6;
    return names.size() <= kFew
               ? all_of(names)
               : "the " + std::to_string(names.size()) + " joints marked SHORT below";
  }

  std::string lack_of(const GlueLine& line, const LinePressure& told) const {
    if (told.max_MPa <= 0) {
      return "no pressure at all";
    }
    const double share = kWeakHand * (told.min_MPa - kModelMargin * told.mean_MPa) / told.hold_MPa;
    constexpr double kLittle = 0.05;
    return (told.open_gap_mm > kGapTold_mm
                ? "open by " + short_text(told.open_gap_mm, job_.units) + " "
            : share > kLittle ? "weak hands give " + percent(share) + " of what holds "
                              : "starved ") +
           worst_stretch(line, told);
  }

  // Where a line has less than holds, from the end that it is nearer to.
  std::string worst_stretch(const GlueLine& line, const LinePressure& told) const {
    double worst_x = 0, least = told.max_MPa, below = 0;
    for (std::size_t i = 0; i < told.samples.size(); ++i) {
      const auto& [x, p] = told.samples[i];
      if (p < least - 1e-9) {
        least = p;
        worst_x = x;
      }
      const double from = i == 0 ? x : (told.samples[i - 1][0] + x) / 2;
      const double to = i + 1 == told.samples.size() ? x : (told.samples[i + 1][0] + x) / 2;
      const double sure = kWeakHand * (p - kModelMargin * told.mean_MPa);
      below += sure < told.hold_MPa ? to - from : 0;
    }
    const bool low_end = worst_x < line.length_mm / 2;
    const double off = low_end ? worst_x : line.length_mm - worst_x;
    const std::string end = end_word(low_end ? -line.along : line.along) + " end";
    const std::string where = off < 0.05 * line.length_mm
                                  ? "at the " + end
                                  : rule_words(off, job_.units) + " from the " + end;
    return where + "; " + percent(below / line.length_mm) + " of the length is under it";
  }

  void tell_dents(const RoundPlan& plan, const std::vector<int>& numbers) {
    for (std::size_t i = 0; i < plan.clamps.size(); ++i) {
      const double share = plan.clamps[i].force_N / plan.bears_N[i];
      if (share > 1.001) {
        const ClampSite& site = plan.sites[i];
        trial_.findings.push_back("no. " + std::to_string(numbers[i]) + " dents the " +
                                  job_.parts[site.path.front()].name + " or the " +
                                  job_.parts[site.path.back()].name + ": it presses " +
                                  percent(share) + " of what the wood bears");
      }
    }
  }

  void tell_offsets(const RoundPlan& plan) {
    const std::vector<double> offsets = offsets_mm(plan, plan.clamps);
    for (std::size_t l = 0; l < plan.held_lines; ++l) {
      const GlueLine& line = plan.lines[l];
      const OffsetVerdict verdict = judge_offset(offsets[l], line.across_mm);
      if (verdict != OffsetVerdict::good) {
        const Direction side = across_of(line, plan.round.axis);
        trial_.findings.push_back(
            name(line.joint) + ": the force acts " + short_text(std::abs(offsets[l]), job_.units) +
            " beside the middle, " + way_word(offsets[l] > 0 ? side : -side) + "; " +
            (verdict == OffsetVerdict::too_far ? "over half of the joint's width opens"
                                               : "the joint opens on the other side"));
      }
    }
  }

  void tell_idle() {
    for (std::size_t i = 0; i < job_.placed.size(); ++i) {
      const int n = static_cast<int>(i) + 1;
      if (std::none_of(trial_.clamps.begin(), trial_.clamps.end(),
                       [n](const PlannedClamp& c) { return c.n == n; })) {
        trial_.findings.push_back("no. " + std::to_string(n) + " presses no glue face");
      }
    }
  }

  const Job& job_;
  std::span<const Joint> joints_;
  const GlueInUse& glue_;
  Work work_;
  PlacedTrial trial_;
};

}  // namespace

std::optional<PlacedTrial> try_placed(const Job& job, std::span<const geometry::Solid> solids,
                                      std::span<const Joint> joints, const GlueInUse& glue) {
  return job.placed.empty() ? std::nullopt
                            : std::optional(PlacedTrying(job, solids, joints, glue).run());
}

}  // namespace planner
