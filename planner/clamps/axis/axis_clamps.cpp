#include "planner/clamps/axis/axis_clamps.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>
#include <numbers>
#include <optional>

#include "geometry/elementary.h"
#include "planner/clamps/axis/clamp_components.h"
#include "planner/clamps/axis/axis_cache.h"
#include "planner/clamps/axis/fewest_on_axis.h"
#include "planner/clamps/axis/shoulder_clamps.h"
#include "planner/clamps/axis/wide_face_clamps.h"
#include "planner/pressure/beam_table.h"
#include "planner/pressure/crush.h"
#include "planner/tables/glue.h"
#include "planner/tables/pressure_range.h"
#include "planner/tables/wood.h"

namespace planner::clamps::axis {
namespace {

using geometry::Point;

constexpr double kSameHeight_mm = 0.1;
// Keeps a line closed all along, which is all that a gap-filling glue asks for: our choice.
constexpr double kClosed_MPa = 0.01;
constexpr const char* kPressedGlue = "pva_type2";  // that such a glue's clamps are spread as for

const tables::GlueFamily& family_of(const work::Joint& joint, const work::GlueInUse& glue) {
  const tables::GlueFamily* own =
      joint.glue.empty() ? nullptr : tables::find_glue_family(joint.glue);
  return own != nullptr ? *own : *tables::find_glue_family(glue.family);
}

void add_lines(AxisClamps& plan, const AxisQuestion& q, std::span<const FaceRef> faces) {
  for (const FaceRef& f : faces) {
    AskedLine line{glue_line(q.job, q.joints, q.work, f.joint, f.face, plan.round.axis)};
    const work::Joint& joint = q.joints[f.joint];
    const tables::GlueFamily& family = family_of(joint, q.glue);
    const auto wood = [&](int i) {
      return wood_of(q.job.parts[joint.parts[static_cast<std::size_t>(i)]]);
    };
    const bool own = !joint.glue.empty() && &family != tables::find_glue_family(q.glue.family);
    const double asked = own ? hold_pressure(family).lo_MPa : q.glue.hold_MPa;
    line.hold_MPa = std::max(asked, kClosed_MPa);
    const tables::PressureRange range = pressure_range(family, *wood(0), *wood(1));
    line.full_MPa = std::max(line.hold_MPa, range.lo_MPa);
    line.most_MPa = std::max(line.full_MPa, range.hi_MPa);
    line.may_be_light = line.bow_mm == 0 && joint.faces[f.face].contact.gap_mm <= kClosedGap_mm;
    line.spaced = line.wide || joint.kind == work::JointKind::edge ||
                  joint.kind == work::JointKind::lamination;
    plan.lines.push_back(std::move(line));
  }
}

// Where the wood doesn't bear a snug clamp, none can stand.
void leave_out_slight(AxisClamps& plan) {
  const auto slight = [](const ClampSite& site) { return site.bears_N < kSnug_N; };
  for (const bool first : {true, false}) {
    for (const ClampSite& site : plan.sites) {
      for (const PressedAt& pressed : site.presses) {
        AskedLine& line = plan.lines[pressed.line];
        line.too_slight = first ? line.too_slight || slight(site) : line.too_slight && slight(site);
      }
    }
  }
  std::erase_if(plan.sites, slight);
}

void find_sites(AxisClamps& plan, const AxisQuestion& q, AxisCache& cache) {
  geometry::Tolerance sloped;
  if (!bare_jaws(plan.packing)) {
    sloped.max_angle_deg = geometry::arc_tangent(kSteepest) * 180 / std::numbers::pi;
  }
  const auto bearing = cache.bearing(q.work.solids, plan.round.axis, sloped);
  const KindInUse& kind = q.setting.kind;
  const double block = pad_length_mm(kind.jaw_mm, plan.packing.thick_mm, q.job.units);
  const double along = on_strips(plan.packing.padding) ? kind.jaw_mm : block;
  const plan::PadSize pad{along, kind.jaw_high_mm, plan.packing.thick_mm};
  SiteSearch search{q.job, q.joints, q.work, bearing, plan.lines, plan.round.axis, pad};
  search.max_gap_mm = bridged_gap_mm(q.glue.max_gap_mm);
  search.throat_mm = kind.throat_mm;
  if (plan.round.seat()) {
    search.off_centre = 0.5;
  }
  plan.sites = clamp_sites(search, plan.tracks);
  for (ClampSite& site : plan.sites) {
    site.bearing_limit_MPa = bearing_limit_MPa(q.job, site);
    // Under a strip the wood bears on at least what a block as thick would cover.
    const double under =
        on_strips(plan.packing.padding)
            ? std::min(block, caul_run(plan.tracks, site.track, plan.round.axis).size())
            : site.pad.along_mm;
    site.bears_N = site.bearing_limit_MPa * under * site.pad.across_mm;
    site.limit_N = std::max(kSnug_N, std::min(kind.drawn * kind.force_N, site.bears_N));
  }
  leave_out_slight(plan);
}

// The camber by which two clamps at a caul's ends press the line evenly, so hard as holds; what
// stronger hands give comes on top. A bowed part gets a straight caul.
double camber_for(const AskedLine& line, double thick_mm, double jaw_mm) {
  if (line.shape == pressure::LineShape::edge || line.bow_mm != 0 ||
      line.length_mm <= kTwoClamps_mm) {
    return 0;
  }
  const double load =
      pressure::kCamberOver * line.hold_MPa * line.strip.strip_width_mm * line.length_mm;
  const pressure::Caul caul{line.across_mm, thick_mm, line.offcut};
  return std::max(pressure::kShaving_mm, caul_camber_mm(caul, line.length_mm - jaw_mm, load));
}

AxisClamps laid_out(const AxisQuestion& q, const Packing& packing, AxisCache& cache) {
  if (const AxisClamps* known = cache.laid_out(q, packing)) {
    return *known;
  }
  AxisClamps plan;
  if (packing.padding == Padding::cambered) {  // stands where a straight caul does
    plan = laid_out(q, {Padding::strips, packing.thick_mm}, cache);
    plan.packing = packing;
    for (AskedLine& line : plan.lines) {
      line.camber_mm = camber_for(line, packing.thick_mm, q.setting.kind.jaw_mm);
    }
  } else {
    plan = lines_of(q);
    plan.packing = packing;
    find_sites(plan, q, cache);
  }
  cache.keep(plan, q);
  return plan;
}

// Planing a camber is worth a third of the clamps; where they are few, one.
bool worth_planing(const RoughCount& cambered, const RoughCount& straight, bool few) {
  return cambered.works && (!straight.works || (few ? cambered.clamps < straight.clamps
                                                    : 3 * cambered.clamps <= 2 * straight.clamps));
}

// Wooden jaws want no pads: those are worth cutting where they save a third of the clamps, or,
// where there are few, one.
bool worth_baring(const RoughCount& bare, const RoughCount& padded, bool few) {
  return bare.works && (!padded.works ||
                        (few ? bare.clamps <= padded.clamps : 2 * bare.clamps < 3 * padded.clamps));
}

std::vector<double> asked_of(const AxisClamps& plan, double AskedLine::*asked) {
  std::vector<double> MPa;
  std::ranges::transform(plan.lines, std::back_inserter(MPa), asked);
  return MPa;
}

// Pressure then is no longer in proportion to force.
bool gaps_to_close(const AxisClamps& plan) {
  return cambered(plan) || plan.backing.moment_Nmm > 0 ||
         std::ranges::any_of(plan.lines, [](const AskedLine& line) { return line.bow_mm != 0; });
}

bool all_edges(const AxisClamps& plan) {
  return std::ranges::all_of(
      plan.held(), [](const AskedLine& line) { return line.shape == pressure::LineShape::edge; });
}

// A corner of fingers higher than a jaw comes home under blocks as high as it: common practice.
bool high_fingers(const AxisClamps& plan, const AxisQuestion& q) {
  return plan.round.home && plan.packing.thick_mm > 0 &&
         std::ranges::all_of(plan.lines, [&](const AskedLine& line) {
           return q.joints[line.joint].kind == work::JointKind::fingers;
         }) &&
         std::ranges::any_of(plan.tracks, [&](const ClampTrack& track) {
           return track.length_mm > pad_length_mm(q.setting.kind.jaw_mm, plan.packing.thick_mm, q.job.units);
         });
}

// A wide shelf's dadoes come home under crowned cauls, as its two ends alone leave their middle open;
// common practice.
Packing home_packing(const AxisQuestion& q) {
  constexpr double kDeep_mm = 304.8;  // 12 in
  const AxisClamps bare = lines_of(q);
  const bool deep = q.round.home && std::ranges::any_of(bare.lines, [&](const AskedLine& line) {
    return q.joints[line.joint].kind == work::JointKind::dado && line.length_mm > kDeep_mm;
  });
  const auto blocks = std::ranges::find_if_not(q.setting.packings, bare_jaws);
  return deep && blocks != q.setting.packings.end() ? Packing{Padding::cambered, blocks->thick_mm}
                                                    : q.setting.packings.front();
}

// One way to pack the jaws, and the count it takes.
struct Packed {
  AxisClamps plan;
  RoughCount count;
  bool placed = false;
  bool cambered() const { return plan.packing.padding == Padding::cambered; }
  bool tips() const { return plan.packing.padding == Padding::blocks && narrow_edges(plan); }
  bool better_than(const Packed& other, bool few) const {
    if (tips() != other.tips()) {
      return tips() ? count.works && !other.count.works : count.works || !other.count.works;
    }
    if (const bool bare = bare_jaws(plan.packing); bare != bare_jaws(other.plan.packing)) {
      return bare ? worth_baring(count, other.count, few)
                  : count.works && !worth_baring(other.count, count, few);
    }
    if (cambered() != other.cambered()) {
      return cambered() ? worth_planing(count, other.count, few)
                        : count.works && !worth_planing(other.count, count, few);
    }
    return count.better_than(other.count);
  }
};

// Two clamps on every line: fewer won't do, but where it is short.
bool at_its_least(const RoughCount& count) {
  return count.works && std::all_of(count.on_line.begin(), count.on_line.end(),
                                    [](int on_line) { return on_line <= 2; });
}
bool one_might_do(const Packed& packed) {
  for (std::size_t l = 0; l < packed.plan.lines.size(); ++l) {
    if (packed.count.on_line[l] > 1 && packed.plan.lines[l].length_mm <= kTwoClamps_mm) {
      return true;
    }
  }
  return false;
}

// The ways to pack the jaws, each counted when it is first looked at.
class PackingChoice {
 public:
  PackingChoice(const AxisQuestion& question, const PressNeed& need, AxisCache& cache)
      : question_(question),
        need_(need),
        cache_(cache),
        ways_(question.setting.packings.size()) {}

  // Of those not placed yet; nullptr when all are.
  Packed* best() {
    Packed* best = nullptr;
    for (std::size_t i = 0; i < ways_.size(); ++i) {
      if (ways_[i] ? ways_[i]->placed : best != nullptr && !worth_a_look(i, *best)) {
        continue;
      }
      Packed& now = counted(i);
      const bool last_resort = best != nullptr && !best->count.works && !now.count.works &&
                               now.plan.packing.padding == Padding::strips;
      if (best == nullptr || now.better_than(*best, question_.setting.few) || last_resort) {
        best = &now;
      }
    }
    return best;
  }

 private:
  Packed& counted(std::size_t i) {
    if (!ways_[i]) {
      Packed& way = ways_[i].emplace();
      way.plan = laid_out(question_, question_.setting.packings[i], cache_);
      way.count = cache_.of(way.plan, question_, need_);
    }
    return *ways_[i];
  }

  bool worth_a_look(std::size_t i, const Packed& best) const {
    if (cache_.spent() || base::stop_requested(question_.setting.effort.stop)) {
      return false;
    }
    const Padding padding = question_.setting.packings[i].padding;
    if (padding == Padding::strips && best.tips()) {
      return true;
    }
    if (at_its_least(best.count) &&
        (padding == Padding::cambered ||
         (best.count.even && !best.cambered() && !one_might_do(best)))) {
      return false;
    }
    if (on_strips(padding) && all_edges(best.plan)) {
      // They spread a force better than most strips would.
      return padding == Padding::strips && (narrow_edges(best.plan) || !best.count.works);
    }
    return true;
  }

  const AxisQuestion& question_;
  const PressNeed& need_;
  AxisCache& cache_;
  std::vector<std::optional<Packed>> ways_;
};

// A rough count may promise what the placed clamps don't keep: then the next best is placed.
AxisClamps placed_best(const AxisQuestion& question, const PressNeed& need,
                       AxisCache& cache) {
  constexpr int kMostTries = 3;
  PackingChoice choice(question, need, cache);
  Packed* first = nullptr;
  for (int tries = 0; tries < kMostTries; ++tries) {
    if (first != nullptr && (cache.spent() || base::stop_requested(question.setting.effort.stop))) {
      break;
    }
    Packed* way = choice.best();
    if (way == nullptr || (first != nullptr && !way->count.works)) {
      break;
    }
    way->plan = cache.placed(std::move(way->plan), question, need, way->count.on_line);
    way->placed = true;
    if (way->plan.reached) {
      return std::move(way->plan);
    }
    first = first == nullptr ? way : first;
  }
  return std::move(first->plan);
}

// Lines that are only to be closed all along.
bool only_closed(const AxisClamps& plan) {
  return std::ranges::all_of(
      plan.lines, [](const AskedLine& line) { return line.hold_MPa <= kClosed_MPa; });
}

// What closes a line all along stands as it would for a glue that is pressed, and is drawn less:
// evenness is all that is asked, and of that a pressed line has enough.
std::optional<AxisClamps> placed_as_pressed(const AxisQuestion& question, const AxisClamps& asked,
                                            AxisCache& cache) {
  work::GlueInUse pressed = question.glue;
  pressed.family = kPressedGlue;
  pressed.hold_MPa = hold_pressure(*tables::find_glue_family(kPressedGlue)).lo_MPa;
  AxisQuestion harder{question.job,   question.joints, question.work,
                      question.round, pressed,         question.setting};
  std::erase_if(harder.setting.packings, [](const Packing& packing) {
    return packing.padding == Padding::cambered;  // which so little force doesn't flatten
  });
  AxisClamps plan = placed_best(harder, need_to_hold(lines_of(harder)), cache);
  if (!plan.reached) {
    return std::nullopt;
  }
  for (std::size_t l = 0; l < plan.lines.size(); ++l) {
    plan.lines[l].hold_MPa = asked.lines[l].hold_MPa;
    plan.lines[l].full_MPa = asked.lines[l].full_MPa;
    plan.lines[l].most_MPa = asked.lines[l].most_MPa;
  }
  const PressNeed need = need_to_hold(plan);
  const double over = true_share(plan, need);
  for (ChosenClamp& c : plan.clamps) {
    c.force_N = hand_force_N(std::max(kSnug_N, c.force_N / over));
  }
  if (true_share(plan, need) < kNearlyOne || share_of_most(plan) > 1) {
    return std::nullopt;
  }
  return plan;
}

// Bars of a shallow kind over thick work, below and above by turns.
void alternate_bars(AxisClamps& plan) {
  std::vector<std::vector<ClampSite*>> rows(plan.tracks.size());
  for (const ChosenClamp& c : plan.clamps) {
    ClampSite& site = plan.sites[c.site];
    if (site.opposite) {
      rows[site.track].push_back(&site);
    }
  }
  for (const std::vector<ClampSite*>& row : rows) {
    stand_alternately(row);
  }
}

}  // namespace

AxisClamps lines_of(const AxisQuestion& q) {
  AxisClamps plan;
  plan.round = q.round;
  plan.backing = press_backing(q.job, q.joints, q.round.held);
  plan.weak_hand = q.setting.kind.weak_hand;
  add_lines(plan, q, q.round.held);
  plan.held_lines = plan.lines.size();
  add_lines(plan, q, q.round.closed);
  plan.tracks = clamp_tracks(q.round.seat() ? plan.lines : plan.held(), plan.round.axis);
  return plan;
}

PressNeed need_to_hold(const AxisClamps& plan) {
  return {asked_of(plan, &AskedLine::hold_MPa), plan.weak_hand};
}

PressNeed need_lightly(const AxisClamps& plan, double share) {
  PressNeed need = need_to_hold(plan);
  for (std::size_t l = 0; l < plan.lines.size(); ++l) {
    need.line_MPa[l] *= plan.lines[l].may_be_light ? share : 1;
  }
  return need;
}

PressNeed need_for_full(const AxisClamps& plan) {
  return {asked_of(plan, &AskedLine::full_MPa)};
}

std::vector<double> bending_N(const AxisClamps& plan, std::span<const ChosenClamp> clamps) {
  std::vector<double> out(clamps.size(), 0);
  if (plan.backing.moment_Nmm <= 0 || clamps.empty()) {
    return out;
  }
  const AskedLine& face = plan.lines.front();
  std::vector<double> at, stations;
  for (const ChosenClamp& c : clamps) {
    at.push_back(std::round(dot(plan.sites[c.site].at - face.start, face.along)));
  }
  stations = at;
  std::ranges::sort(stations);
  stations.erase(std::unique(stations.begin(), stations.end()), stations.end());
  for (const double end : {stations.front(), stations.back()}) {
    const auto beside = static_cast<double>(std::ranges::count(at, end));
    for (std::size_t i = 0; i < at.size(); ++i) {
      out[i] += at[i] == end
                    ? plan.backing.bending_N(face.length_mm / static_cast<double>(stations.size())) / beside
                    : 0;
    }
  }
  return out;
}

bool cambered(const AxisClamps& plan) {
  return plan.packing.padding == Padding::cambered ||
         std::ranges::any_of(plan.lines, [](const AskedLine& line) { return line.camber_mm > 0; });
}

double bearing_limit_MPa(const work::Job& job, const ClampSite& site) {
  return std::min(
      pressure::bearing_limit_MPa(*wood_of(job.parts[site.path.front()])),
      pressure::bearing_limit_MPa(*wood_of(job.parts[site.path.back()])));
}

bool narrow_edges(const AxisClamps& plan) {
  return all_edges(plan) &&
         std::all_of(plan.tracks.begin(), plan.tracks.end(), [](const ClampTrack& track) {
           return track.across_mm < pressure::kLeastPad_mm;
         });
}

double hand_force_N(double force_N) {
  constexpr double kStep_N = 50;
  return kStep_N * std::ceil(force_N / kStep_N - 1e-6);
}

double pad_length_mm(double jaw_mm, double thick_mm, base::Units units) {
  const double step = pressure::cut_sizes(units).step_mm;
  return step * std::floor((jaw_mm + 2 * thick_mm) / step + 1e-9);
}

AxisClamps plan_axis(const AxisQuestion& question, plan::Level wanted, AxisCache& cache) {
  if (question.round.seat()) {
    AxisClamps plan = laid_out(question, home_packing(question), cache);
    plan.clamps = seating_clamps(plan, question.joints, question.work);
    plan.high_blocks = high_fingers(plan, question);
    plan.reached = !plan.clamps.empty();
    for (ChosenClamp& c : plan.clamps) {
      const ClampSite& site = plan.sites[c.site];
      plan.reached &= c.force_N <= site.limit_N || site.limit_N >= site.bears_N;
      c.force_N = std::min(c.force_N, site.limit_N);
    }
    return plan;
  }
  const AxisClamps bare = lines_of(question);
  if (one_wide_face(bare)) {
    return plan_on_face(question, wanted);
  }
  if (only_closed(bare)) {
    if (std::optional<AxisClamps> plan = placed_as_pressed(question, bare, cache)) {
      return std::move(*plan);
    }
  }
  const bool fully = wanted == plan::Level::full;
  if (fully && force_needed_N(bare, question.joints, question.work, wanted) >
                   question.setting.kind.most * question.setting.kind.drawn *
                       question.setting.kind.force_N) {
    // All the clamps there are don't give as much.
    return laid_out(question, question.setting.packings.front(), cache);
  }
  PressNeed need = fully                         ? need_for_full(bare)
                   : wanted == plan::Level::light ? need_lightly(bare, question.setting.light_share)
                                                  : need_to_hold(bare);
  for (std::size_t l = 0; fully && l < bare.lines.size(); ++l) {  // weak hands hold all the same
    need.line_MPa[l] = std::max(need.line_MPa[l], bare.lines[l].hold_MPa / bare.weak_hand);
  }
  AxisClamps plan = placed_best(question, need, cache);
  alternate_bars(plan);
  if (fully && plan.reached && gaps_to_close(plan)) {  // weak hands then give less than their share
    plan.reached = true_share(plan, need_to_hold(plan)) >= kNearlyOne;
  }
  return plan;
}

std::vector<LineResult> press(const AxisClamps& plan, std::span<const ChosenClamp> clamps) {
  std::vector<std::size_t> sites;
  std::vector<double> forces;
  for (const ChosenClamp& c : clamps) {
    sites.push_back(c.site);
    forces.push_back(c.force_N);
  }
  std::vector<LineResult> out = plan.model->press(sites, forces);
  press_faces(plan, clamps, out);
  return out;
}

std::vector<pressure::LineProfile> weakly(const AxisClamps& plan,
                                          std::span<const ChosenClamp> clamps,
                                          std::span<const LineResult> planned) {
  const bool gaps = gaps_to_close(plan);
  std::vector<ChosenClamp> weak(clamps.begin(), clamps.end());
  // That plies lie on their form at the ends is seen: weak hands turn on until they do.
  const std::vector<double> bends_N = bending_N(plan, clamps);
  for (std::size_t i = 0; i < weak.size(); ++i) {
    double& force_N = weak[i].force_N;
    force_N = bends_N[i] + plan.weak_hand * (force_N - bends_N[i]);
  }
  const std::vector<LineResult> anew = gaps ? press(plan, weak) : std::vector<LineResult>{};
  std::vector<pressure::LineProfile> out;
  for (std::size_t l = 0; l < planned.size(); ++l) {
    out.push_back(gaps ? anew[l].profile : planned[l].profile);
    if (!gaps) {
      for (double* value : {&out[l].min_MPa, &out[l].mean_MPa, &out[l].max_MPa, &out[l].force_N}) {
        *value *= plan.weak_hand;
      }
    }
  }
  return out;
}

std::vector<char> beyond_hold(const AxisClamps& plan) {
  std::vector<char> extra(plan.clamps.size(), 0);
  if (plan.round.seat() || plan.clamps.empty() || on_face(plan.packing.padding)) {
    return extra;
  }
  for (const ClampComponent& c :
       clamp_components(plan, plan.model->table(need_to_hold(plan), kApart_mm))) {
    std::vector<std::size_t> kept;  // in the component's question
    for (const ChosenClamp& clamp : plan.clamps) {
      const auto it = std::find(c.sites.begin(), c.sites.end(), clamp.site);
      if (it != c.sites.end()) {
        kept.push_back(static_cast<std::size_t>(it - c.sites.begin()));
      }
    }
    for (std::size_t i = kept.size(); i-- > 0;) {
      std::vector<std::size_t> fewer = kept;
      fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(i));
      if (!fewer.empty() && try_spots(c.question, fewer)) {
        const std::size_t site = c.sites[kept[i]];
        const auto at = std::find_if(plan.clamps.begin(), plan.clamps.end(),
                                     [site](const ChosenClamp& k) { return k.site == site; });
        extra[static_cast<std::size_t>(at - plan.clamps.begin())] = 1;
        kept = std::move(fewer);
      }
    }
  }
  return extra;
}

double force_needed_N(const AxisClamps& plan, std::span<const work::Joint> joints,
                      const pressure::Work& work, plan::Level level) {
  const std::size_t lines = plan.round.seat() ? plan.lines.size() : plan.held_lines;
  std::map<work::PartId, double> height;
  for (std::size_t i = 0; i < work.parts.size(); ++i) {
    const geometry::Box box = geometry::bounds(work.solids[i]);
    const Point middle = box.lo + 0.5 * (box.hi - box.lo);
    height[work.parts[i]] = dot(middle, plan.round.axis);
  }
  double most = 0;
  for (const auto& [part, cut] : height) {
    double force = 0;
    for (std::size_t l = 0; l < lines; ++l) {
      const AskedLine& line = plan.lines[l];
      const double asked = level == plan::Level::full ? line.full_MPa : line.hold_MPa;
      const auto& parts = joints[line.joint].parts;
      const bool low = height[parts[0]] <= cut + kSameHeight_mm;
      const bool high = height[parts[1]] <= cut + kSameHeight_mm;
      force += low != high ? asked * line.length_mm * line.width_mm : 0;
    }
    most = std::max(most, force);
  }
  return most;
}

}  // namespace planner::clamps::axis
