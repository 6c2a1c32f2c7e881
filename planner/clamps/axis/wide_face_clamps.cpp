#include "planner/clamps/axis/wide_face_clamps.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include "planner/clamps/axis/clamp_components.h"
#include "planner/clamps/axis/clamp_shortfall.h"
#include "planner/clamps/axis/clamps_at.h"
#include "planner/clamps/axis/even_spacing.h"
#include "planner/clamps/axis/fewest_on_axis.h"
#include "planner/pressure/beam_table.h"
#include "planner/pressure/pressure_plate.h"

namespace planner::clamps::axis {
namespace {

using geometry::Direction;

constexpr double kSame_mm = 1;
constexpr double kWidestCaul_mm = 80;      // stays level across its width; common practice
constexpr double kBetweenPads_mm = 5;
constexpr double kMostCamber = 0.25;                // of a caul's thickness; common practice
constexpr double kStep_mm = 10, kMostNodes = 1200;  // of the plate

bool presses(const ClampSite& site, std::size_t line) {
  return std::any_of(site.presses.begin(), site.presses.end(),
                     [line](const PressedAt& p) { return p.line == line; });
}

// The face's own x and y, from its corner.
std::array<double, 2> on_face(const pressure::GlueLine& face, const ClampSite& site,
                              const Direction& axis) {
  const Direction from = site.at - face.start;
  return {dot(from, face.along), dot(from, across_of(face, axis)) + face.across_mm / 2};
}

pressure::FacePlate plate_of(const AxisClamps& plan, const AskedLine& face,
                             std::span<const ChosenClamp> clamps) {
  pressure::FacePlate plate;
  plate.length_mm = face.length_mm;
  plate.width_mm = face.across_mm;
  plate.thickness_mm = face.strip.lip_thickness_mm;
  plate.moduli = face.strip.panel;
  if (plan.backing.platen_mm > 0) {
    plate.thickness_mm = plan.backing.platen_mm;
    plate.moduli = platen_moduli();
  }
  plate.step_mm = std::max(kStep_mm, std::sqrt(face.length_mm * face.across_mm / kMostNodes));
  const bool across = plan.packing.padding == Padding::crosswise;
  if (plan.packing.padding == Padding::blocks) {
    return plate;
  }
  for (const ChosenClamp& c : clamps) {
    const ClampSite& site = plan.sites[c.site];
    const double centre = on_face(face, site, plan.round.axis)[across ? 0 : 1];
    const bool known = std::any_of(
        plate.cauls.begin(), plate.cauls.end(),
        [&](const pressure::FaceCaul& k) { return std::abs(k.centre_mm - centre) < kSame_mm; });
    if (!known) {
      const double wide = across ? site.pad.along_mm : site.pad.across_mm;
      plate.cauls.push_back({across ? pressure::CaulRun::crosswise : pressure::CaulRun::lengthwise,
                             centre,
                             {wide, plan.packing.thick_mm, face.offcut, face.camber_mm}});
    }
  }
  return plate;
}

std::vector<pressure::FacePush> pushes_on(const pressure::FacePlate& plate, const AxisClamps& plan,
                                          std::size_t line, std::span<const ChosenClamp> clamps) {
  std::vector<pressure::FacePush> out;
  const std::vector<double> bends_N = bending_N(plan, clamps);
  for (std::size_t i = 0; i < clamps.size(); ++i) {
    const ChosenClamp& c = clamps[i];
    const ClampSite& site = plan.sites[c.site];
    if (!presses(site, line)) {
      continue;
    }
    const auto [x, y] = on_face(plan.lines[line], site, plan.round.axis);
    pressure::FacePush push{pressure::kOnTheBoard, x,        y, site.pad.along_mm,
                            site.pad.across_mm,    c.force_N - bends_N[i]};  // less: plies stand off there
    for (std::size_t k = 0; k < plate.cauls.size(); ++k) {
      const pressure::FaceCaul& caul = plate.cauls[k];
      if (std::abs(caul.centre_mm - (caul.run == pressure::CaulRun::crosswise ? x : y)) <
          kSame_mm) {
        push.caul = static_cast<int>(k);
      }
    }
    out.push_back(push);
  }
  return out;
}

// Along the face the least across it, so that a strip of it shows the worst.
LineResult to_plan(const pressure::GlueLine& face, std::span<const pressure::FaceSample> samples,
                   const pressure::ContactSolution& pressed) {
  const pressure::FaceProfile profile = profile_of(samples, pressed);
  LineResult out;
  out.profile = {profile.min_MPa,     profile.mean_MPa, profile.max_MPa,   profile.starved_share,
                 profile.open_gap_mm, profile.force_N,  face.length_mm / 2};
  double moment = 0;
  for (std::size_t i = 0; i < samples.size(); ++i) {
    moment += pressed.pressure_MPa[i] * samples[i].area_mm2 * samples[i].x_mm;
    const auto same = std::find_if(out.samples.begin(), out.samples.end(), [&](const auto& s) {
      return std::abs(s[0] - samples[i].x_mm) < 1e-6;
    });
    if (same == out.samples.end()) {
      out.samples.push_back({samples[i].x_mm, pressed.pressure_MPa[i]});
    } else {
      (*same)[1] = std::min((*same)[1], pressed.pressure_MPa[i]);
    }
  }
  if (profile.force_N > 0) {
    out.profile.centre_mm = moment / profile.force_N;
  }
  std::sort(out.samples.begin(), out.samples.end());
  return out;
}

// Of like boards behind one another the faces fare alike.
bool alike(const AxisClamps& plan, std::size_t a, std::size_t b,
           std::span<const ChosenClamp> clamps) {
  const pressure::GlueLine &x = plan.lines[a], &y = plan.lines[b];
  const auto near = [](double p, double q) { return std::abs(p - q) < 1e-6; };
  const auto at = [&](const pressure::GlueLine& l) {
    return dot(l.start - x.start, across_of(x, plan.round.axis));
  };
  return near(x.length_mm, y.length_mm) && near(x.across_mm, y.across_mm) &&
         near(x.strip.lip_thickness_mm, y.strip.lip_thickness_mm) &&
         near(x.strip.panel.E_x_MPa, y.strip.panel.E_x_MPa) && near(at(x), at(y)) &&
         near(dot(y.start - x.start, x.along), 0) &&
         std::all_of(clamps.begin(), clamps.end(), [&](const ChosenClamp& c) {
           return presses(plan.sites[c.site], a) == presses(plan.sites[c.site], b);
         });
}

// The first of the lines that fares as this one does: perhaps itself.
std::size_t first_alike(const AxisClamps& plan, std::size_t line,
                        std::span<const ChosenClamp> clamps) {
  std::size_t first = 0;
  while (first < line && !(plan.lines[first].wide && alike(plan, first, line, clamps))) {
    ++first;
  }
  return first;
}

// As the plan has it set up; nullptr where it hasn't.
const pressure::PressedPlate* set_up(const AxisClamps& plan, const pressure::FacePlate& plate) {
  const auto it =
      std::ranges::find_if(plan.plates, [&](const auto& known) { return known->plate == plate; });
  return it == plan.plates.end() ? nullptr : it->get();
}

// One way to lay cauls on the face, with any number of clamps along it.
class FacePlanner {
 public:
  FacePlanner(const AxisQuestion& q, plan::Level wanted, Padding padding, const PressBacking& backing)
      : q_(q),
        round_(q),
        wanted_(wanted),
        padding_(padding),
        face_(lines_of(q).lines.front()),
        backing_(backing) {
    for (const Packing& p : q.setting.packings) {
      thick_mm_ = padding == Padding::blocks ? 0 : std::max(thick_mm_, p.thick_mm);
    }
  }

  // So many stations along the face: half as many again until they do, then the fewest by halving.
  // The last tried where none do.
  std::optional<AxisClamps> run() const {
    const int least = std::max(least_on_line(face_.length_mm, true), at_their_widest());
    const int most = std::max(
        1,
        std::min(q_.setting.kind.most / rows(),
                 static_cast<int>(face_.length_mm / (q_.setting.kind.jaw_mm + kBetweenPads_mm))));
    std::optional<AxisClamps> best;
    int fails = 0, works = std::min(least, most);
    while (!(best = attempt(works)) || !best->reached) {
      if (works == most) {
        return best;
      }
      fails = works;
      works = std::min(most, works + (works + 1) / 2);
    }
    while (works - fails > 1) {
      const int n = (works + fails) / 2;
      auto fewer = attempt(n);
      const bool enough = fewer && fewer->reached;
      (enough ? works : fails) = n;
      if (enough) {
        best = std::move(fewer);
      }
    }
    return best;
  }

 private:
  bool crosswise() const { return padding_ == Padding::crosswise; }

  bool bare() const { return padding_ == Padding::blocks; }

  // As many as stand nowhere farther apart than they may.
  int at_their_widest() const {
    const double apart_mm = backing_.widest_apart_mm > 0 ? backing_.widest_apart_mm : kWidestApart_mm;
    return static_cast<int>(std::ceil(face_.length_mm / apart_mm + 0.1));
  }

  // Of clamps side by side.
  int rows() const {
    if (bare()) {
      return 1;
    }
    return crosswise() ? face_.across_mm > 2 * q_.setting.kind.jaw_high_mm + kBetweenPads_mm ? 2 : 1
                       : static_cast<int>(std::ceil(face_.across_mm / kWidestCaul_mm - 1e-9));
  }

  std::vector<TrialClamp> places(int stations) const {
    const Direction across = across_of(face_, q_.round.axis);
    const EvenSpacing even(face_.length_mm, stations);
    const double side = crosswise() ? q_.setting.kind.jaw_high_mm
                        : bare()    ? std::min(q_.setting.kind.jaw_high_mm, face_.across_mm)
                                    : face_.across_mm / rows();
    const double apart = crosswise() ? face_.across_mm - side : side;
    std::vector<TrialClamp> clamps;
    for (int i = 0; i < stations; ++i) {
      for (int k = 0; k < rows(); ++k) {
        TrialClamp c;
        c.on_line = point_at(face_, even.at_mm(i)) + (k - (rows() - 1) / 2.0) * apart * across;
        c.pad = {crosswise() ? std::min({kWidestCaul_mm, even.apart_mm - kBetweenPads_mm,
                                         2 * even.from_end_mm})  // none hangs over the end
                             : q_.setting.kind.jaw_mm,
                 side, 0};
        c.force_N = c.most_N = q_.setting.kind.force_N;
        clamps.push_back(c);
      }
    }
    return clamps;
  }

  // Nothing where a clamp can't stand.
  std::optional<AxisClamps> attempt(int stations) const {
    auto plan = round_.with(places(stations));
    if (!plan || !reach(*plan)) {
      return std::nullopt;
    }
    plan->packing = {padding_, thick_mm_};
    const double camber = camber_mm(*plan, stations);
    if (camber > kMostCamber * thick_mm_) {
      return std::nullopt;
    }
    for (AskedLine& line : plan->lines) {
      line.camber_mm = camber;
    }
    const double hands_N = q_.setting.kind.drawn * q_.setting.kind.force_N;
    double force = hands_N;
    for (ClampSite& site : plan->sites) {
      site.bears_N = site.bearing_limit_MPa * pressed_mm2(site.pad);
      site.limit_N = std::max(kSnug_N, std::min(hands_N, site.bears_N));
      force = std::min(force, site.limit_N);
    }
    if (enough(*plan, force)) {
      set_up_plates(*plan, plan->clamps);
      draw(*plan, force);
    } else {
      draw_all(*plan, force);
    }
    return plan;
  }

  // The worst place gets no more than the mean, less the model's margin.
  bool enough(const AxisClamps& plan, double force_N) const {
    const double all_N = (force_N - bending_most_N(plan)) * static_cast<double>(plan.clamps.size());
    const double mean_MPa = all_N / (face_.length_mm * face_.across_mm);
    const double most_MPa = sure_MPa(mean_MPa, mean_MPa);
    return std::ranges::all_of(plan.held(), [&](const AskedLine& line) {
      const double asked =
          wanted_ == plan::Level::light ? q_.setting.light_share * line.hold_MPa : line.hold_MPa;
      return wanted_ == plan::Level::full ? most_MPa >= line.full_MPa
                                          : plan.weak_hand * most_MPa >= asked;
    });
  }

  // All press the glue alike: those that bend plies too are drawn so hard, the others by so much less.
  static void draw_all(AxisClamps& plan, double force_N) {
    const std::vector<double> bends_N = bending_N(plan, plan.clamps);
    const double net_N = force_N - std::ranges::max(bends_N);
    for (std::size_t i = 0; i < plan.clamps.size(); ++i) {
      plan.clamps[i].force_N = std::max(kSnug_N, net_N + bends_N[i]);
    }
  }

  // Of so hard a clamp, what presses no glue.
  static double bending_most_N(const AxisClamps& plan) {
    return std::ranges::max(bending_N(plan, plan.clamps));
  }

  // Of a caul across the face with a clamp at each end: by which it bends under what holds, spread
  // along it.
  double camber_mm(const AxisClamps& plan, int stations) const {
    if (!crosswise() || rows() < 2) {
      return 0;
    }
    const double hold = std::ranges::max(plan.lines, {}, &AskedLine::hold_MPa).hold_MPa;
    const double load = pressure::kCamberOver * hold * face_.length_mm * face_.across_mm / stations;
    const pressure::Caul caul{plan.sites.front().pad.along_mm, thick_mm_, face_.offcut};
    const double bent = caul_camber_mm(caul, face_.across_mm - q_.setting.kind.jaw_high_mm, load);
    return bent < pressure::kShaving_mm ? 0 : bent;
  }

  // Of the caul what 45 degrees from the jaw reach; of a bare jaw all.
  double pressed_mm2(const plan::PadSize& caul) const {
    if (bare()) {
      return caul.along_mm * caul.across_mm;
    }
    const double jaw = crosswise() ? q_.setting.kind.jaw_high_mm : q_.setting.kind.jaw_mm;
    const double most = crosswise() ? face_.across_mm / rows() : face_.length_mm;
    return std::min(pad_length_mm(jaw, thick_mm_, q_.job.units), most) *
           (crosswise() ? caul.along_mm : caul.across_mm);
  }

  bool reach(AxisClamps& plan) const {
    for (ClampSite& site : plan.sites) {
      const Direction& along = plan.tracks[site.track].along;
      site.reach_mm = bar_reach_mm(q_.work, site.at, along, cross(q_.round.axis, along));
      const double nearest = *std::min_element(site.reach_mm.begin(), site.reach_mm.end());
      if (nearest + kBarClears_mm > q_.setting.kind.throat_mm) {
        return false;
      }
    }
    return true;
  }

  // Of what is asked, that the worst face gets with every clamp so hard. Under a camber weak hands
  // give less than their share, and are asked as well.
  double share_at(AxisClamps& plan, double force_N) const {
    draw_all(plan, force_N);
    const double held = wanted_ == plan::Level::full && !cambered(plan)
                            ? std::numeric_limits<double>::max()
                            : true_share(plan, wanted_ == plan::Level::light
                                                   ? need_lightly(plan, q_.setting.light_share)
                                                   : need_to_hold(plan));
    return wanted_ == plan::Level::full ? std::min(held, true_share(plan, need_for_full(plan)))
                                        : held;
  }

  // As hard as they may; then no harder than it takes.
  void draw(AxisClamps& plan, double most_N) const {
    const double share = share_at(plan, most_N);
    plan.reached = share >= kNearlyOne;
    if (!plan.reached) {
      keep_under_most(plan, most_N);
      return;
    }
    const double bends_N = bending_most_N(plan);
    const double least =
        std::clamp(hand_force_N(bends_N + (most_N - bends_N) / share), kSnug_N, most_N);
    // With a camber to close pressure isn't in proportion: a little harder, then.
    for (const double more : {0.0, 0.25, 0.5}) {
      const double enough = std::min(most_N, hand_force_N(least + more * (most_N - least)));
      if (share_at(plan, enough) >= kNearlyOne) {
        keep_under_most(plan, enough);
        return;
      }
    }
    keep_under_most(plan, most_N);
  }

  // What presses a face harder than its range isn't planned: eased, and short where it no longer holds.
  void keep_under_most(AxisClamps& plan, double force_N) const {
    draw_all(plan, force_N);
    const double over = share_of_most(plan);
    if (force_N > kSnug_N && over > 1) {
      const double bends_N = bending_most_N(plan);
      plan.reached = share_at(plan, std::max(kSnug_N, bends_N + (force_N - bends_N) / over)) >= kNearlyOne &&
                     share_of_most(plan) <= 1;
    }
  }

  const AxisQuestion& q_;
  ClampsAt round_;
  plan::Level wanted_;
  Padding padding_;
  pressure::GlueLine face_;
  PressBacking backing_;
  double thick_mm_ = 0;
};

// Cauls under wooden jaws are worth cutting where they save a third of the clamps, or, where there
// are few, one.
bool better(const AxisClamps& a, const AxisClamps& b, bool few) {
  if (a.reached && bare_jaws(b.packing)) {
    return !b.reached ||
           (few ? a.clamps.size() < b.clamps.size() : 3 * a.clamps.size() <= 2 * b.clamps.size());
  }
  return a.reached != b.reached ? a.reached : a.clamps.size() < b.clamps.size();
}

AxisClamps out_of_reach(const AxisQuestion& q) {
  AxisClamps plan = *ClampsAt(q).with({});
  for (AskedLine& line : plan.lines) {
    line.beyond_reach = true;
  }
  return plan;
}

// The outer caul runs the whole arc; bearers lie across platens.
std::vector<Padding> ways_on(const PressBacking& backing, const Packing& first) {
  if (backing.form_mm > 0) {
    return {Padding::lengthwise};
  }
  if (backing.platen_mm > 0) {
    return {Padding::crosswise};
  }
  if (bare_jaws(first)) {
    return {Padding::blocks, Padding::lengthwise, Padding::crosswise};
  }
  return {Padding::lengthwise, Padding::crosswise};
}

}  // namespace

bool one_wide_face(const AxisClamps& plan) {
  if (plan.held_lines == 0) {
    return false;
  }
  const pressure::GlueLine& first = plan.lines.front();
  const Direction across = across_of(first, plan.round.axis);
  return std::ranges::all_of(plan.held(), [&](const pressure::GlueLine& line) {
    const Direction off = line.start - first.start;
    return line.wide && std::abs(dot(off, first.along)) < kSame_mm &&
           std::abs(dot(off, across)) < kSame_mm &&
           std::abs(line.length_mm - first.length_mm) < kSame_mm &&
           std::abs(line.across_mm - first.across_mm) < kSame_mm;
  });
}

AxisClamps plan_on_face(const AxisQuestion& question, plan::Level wanted) {
  const PressBacking backing = press_backing(question.job, question.joints, question.round.held);
  const std::vector<Padding> ways = ways_on(backing, question.setting.packings.front());
  std::optional<AxisClamps> best;
  for (const Padding padding : ways) {
    auto plan = FacePlanner(question, wanted, padding, backing).run();
    if (plan && (!best || better(*plan, *best, question.setting.few))) {
      best = std::move(plan);
    }
  }
  return best ? std::move(*best) : out_of_reach(question);
}

void set_up_plates(AxisClamps& plan, std::span<const ChosenClamp> clamps) {
  for (std::size_t l = 0; l < plan.held_lines && !clamps.empty(); ++l) {
    if (!plan.lines[l].wide || first_alike(plan, l, clamps) != l) {
      continue;
    }
    pressure::FacePlate plate = plate_of(plan, plan.lines[l], clamps);
    if (set_up(plan, plate) == nullptr) {
      pressure::FaceSystem system(plate);
      plan.plates.push_back(std::make_shared<const pressure::PressedPlate>(
          pressure::PressedPlate{std::move(plate), std::move(system)}));
    }
  }
}

void press_faces(const AxisClamps& plan, std::span<const ChosenClamp> clamps,
                 std::vector<LineResult>& results) {
  for (std::size_t l = 0; l < results.size() && !clamps.empty(); ++l) {
    const AskedLine& face = plan.lines[l];
    if (!face.wide) {
      continue;
    }
    if (const std::size_t same = first_alike(plan, l, clamps); same != l) {
      results[l] = results[same];
      continue;
    }
    const pressure::FacePlate plate = plate_of(plan, face, clamps);
    std::optional<pressure::FaceSystem> own;
    const pressure::PressedPlate* known = set_up(plan, plate);
    const pressure::FaceSystem& system = known != nullptr ? known->system : own.emplace(plate);
    results[l] = to_plan(face, system.samples(), system.press(pushes_on(plate, plan, l, clamps)));
  }
}

}  // namespace planner::clamps::axis
