#include "planner/advice/notes.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

#include "geometry/elementary.h"
#include "planner/advice/hands_wanted.h"
#include "planner/base/units.h"
#include "planner/pressure/pressure_profile.h"
#include "planner/pressure/racking.h"
#include "planner/tables/wood.h"
#include "planner/work/compound_mitre.h"
#include "planner/work/movement.h"

namespace planner::advice {
namespace {

using Notes = std::vector<plan::Note>;

// A stray loose part is no captive: it must touch something, and be stopped along every direction.
bool is_captive(const work::Motions& motions, work::PartId part) {
  for (std::size_t d = 0; d < motions.directions().size(); ++d) {
    bool free = true;
    for (work::PartId other = 0; other < motions.parts(); ++other) {
      free = free && (other == part || motions.clear(d, part, other));
    }
    if (free) {
      return false;
    }
  }
  return true;
}

std::vector<work::PartId> neighbours(const plan::Plan& plan, work::PartId part) {
  std::vector<work::PartId> all;
  for (const work::Joint& joint : plan.joints) {
    if (joint.parts[0] == part) {
      all.push_back(joint.parts[1]);
    } else if (joint.parts[1] == part) {
      all.push_back(joint.parts[0]);
    }
  }
  return all;
}

// A board between others of a panel slides in from its end or face.
bool only_edge_joints(const plan::Plan& plan, work::PartId part) {
  return std::all_of(plan.joints.begin(), plan.joints.end(), [part](const work::Joint& joint) {
    const bool its = joint.parts[0] == part || joint.parts[1] == part;
    return !its || joint.kind == work::JointKind::edge;
  });
}

void note_captives(const plan::Plan& plan, const work::Motions& motions, Notes& out) {
  std::vector<work::PartId> captives = captured_parts(motions);
  std::erase_if(captives, [&](work::PartId part) { return only_edge_joints(plan, part); });
  // Of a frame every part is captive, which a look at it tells.
  constexpr std::size_t kTold = 3;
  if (captives.size() > kTold) {
    out.push_back(plan::CapturedTogetherNote{std::move(captives)});
    return;
  }
  for (const work::PartId part : captives) {
    out.push_back(plan::CapturedNote{part, neighbours(plan, part)});
  }
}

// Pushed home and left: what a joint without a clamp gets.
void note_by_hand(const plan::Plan& plan, Notes& out) {
  for (const plan::Stage& stage : plan.stages) {
    for (const plan::ByHand& by_hand : stage.by_hand) {
      out.push_back(plan::ShouldersByHandNote{by_hand.axis, by_hand.joints, by_hand.clamps,
                                              by_hand.opening_mm});
    }
  }
}

void note_driven(const plan::Plan& plan, Notes& out) {
  for (const bool loose : {false, true}) {
    plan::DrivenNote driven{{}, loose};
    for (work::JointId id = 0; id < plan.joints.size(); ++id) {
      const work::Joint& joint = plan.joints[id];
      if (joint.glued && joint.driven != loose && joint.kind == work::JointKind::dovetail) {
        driven.joints.push_back(id);
      }
    }
    if (!driven.joints.empty()) {
      out.push_back(std::move(driven));
    }
  }
}

// Wood Handbook (GTR-190) eq. 13-2, boards taken flatsawn.
void note_breadboard(const work::Job& job, Notes& out) {
  const tables::Wood* wood = job.breadboard ? wood_of(job.parts.front()) : nullptr;
  if (wood != nullptr && wood->movement_tangential) {
    const double across = job.breadboard->across.mm();
    out.push_back(plan::BreadboardNote{
        across, work::movement_mm(across, *wood->movement_tangential, work::kSeasonalChange_percent)});
  }
}

// White and yellow glue stay a little plastic: common practice.
bool creeps(const work::GlueInUse& glue) {
  return glue.family.starts_with("pva");
}

void note_bend(const plan::Plan& plan, Notes& out) {
  if (!plan.bend) {
    return;
  }
  double bending_N = 0;
  for (const plan::LinePressure& line : plan.pressure) {
    bending_N = std::max(bending_N, line.closing_N);
  }
  out.push_back(plan::BendNote{plan.bend->radius.mm(), plan.bend->form_radius_mm(), bending_N / 2});
  if (creeps(plan.glue.glue)) {
    out.push_back(plan::CreepNote{});
  }
}

// A square is checked by its diagonals.
void note_ring(const work::Job& job, Notes& out) {
  if (!job.even_ring || job.even_ring->sides == 4) {
    return;
  }
  const int sides = job.even_ring->sides;
  const double inradius = job.even_ring->across.mm() / 2;
  const double corner = inradius / geometry::cosine(std::numbers::pi / sides);
  out.push_back(plan::RingTrueNote{sides, corner + (sides % 2 == 0 ? corner : inradius)});
}

void note_leaning(const work::Job& job, Notes& out) {
  if (job.even_ring && job.even_ring->slope_deg != 0) {
    const double slope = job.even_ring->slope_deg;
    const work::CompoundMitre saw = work::compound_mitre(job.even_ring->sides, slope);
    out.push_back(plan::LeaningSidesNote{std::abs(slope), saw.blade_deg, std::abs(saw.gauge_deg)});
  }
}

void note_dry_joints(const plan::Plan& plan, Notes& out) {
  plan::DryJointsNote dry;
  for (work::JointId id = 0; id < plan.joints.size(); ++id) {
    if (!plan.joints[id].glued) {
      dry.joints.push_back(id);
    }
  }
  if (!dry.joints.empty()) {
    out.push_back(std::move(dry));
  }
}

// A bow or cup wants its own force before any reaches the glue.
void note_bows(const plan::Plan& plan, Notes& out) {
  for (const plan::LinePressure& line : plan.pressure) {
    if (line.bow_mm != 0) {
      const double gap_mm = line.open_gap_mm > pressure::kFilled_mm ? line.open_gap_mm : 0;
      out.push_back(plan::BowNote{line.joint, line.bow_mm, gap_mm, line.closing_N});
    }
  }
}

// What the rack holds only lightly, and where it is weakest.
void note_lightly_held(const plan::Plan& plan, Notes& out) {
  plan::LightlyHeldNote note;
  for (const plan::LinePressure& line : plan.pressure) {
    if (line.level != plan::Level::light) {
      continue;
    }
    if (note.joints.empty() || line.min_MPa < note.least_MPa) {
      constexpr double kEnd = 0.1;  // of its length
      const auto weakest = std::ranges::min_element(
          line.samples, {}, [](const std::array<double, 2>& sample) { return sample[1]; });
      const double at = weakest == line.samples.end() ? 0.5 : (*weakest)[0] / line.size_mm[0];
      note.weakest = line.joint;
      note.least_MPa = line.min_MPa;
      note.hold_MPa = line.hold_MPa;
      note.at_an_end = at < kEnd || at > 1 - kEnd;
    }
    if (std::ranges::find(note.joints, line.joint) == note.joints.end()) {
      note.joints.push_back(line.joint);
    }
  }
  if (!note.joints.empty()) {
    out.push_back(std::move(note));
  }
}

// Pressure beside the middle third of a held joint, along it or across it. One that isn't held is
// the verdict's business.
void note_offsets(const plan::Plan& plan, Notes& out) {
  for (const plan::LinePressure& line : plan.pressure) {
    for (const std::size_t i : {0U, 1U}) {
      const pressure::OffsetVerdict verdict =
          line.size_mm[i] > 0 && line.level != plan::Level::short_of_hold
              ? pressure::judge_offset(line.off_mm[i], line.size_mm[i])
              : pressure::OffsetVerdict::good;
      if (verdict != pressure::OffsetVerdict::good) {
        out.push_back(plan::OffsetNote{line.joint, i == 0, std::abs(line.off_mm[i])});
      }
    }
  }
}

// The air, where the glue feels it.
void note_air(const plan::Plan& plan, Notes& out) {
  constexpr double kBarely_C = 3;  // common practice
  const work::GlueInUse& glue = plan.glue.glue;
  const bool hot = glue.warmth == tables::Warmth::warm;
  const bool dry = plan.humidity && tables::dry_share(*plan.humidity) < 1 && glue.times_share < 1;
  if (hot || dry) {
    out.push_back(plan::ShortTimesNote{hot ? plan.temperature_C : std::nullopt,
                                       dry ? plan.humidity : std::nullopt, glue.times_share});
  }
  if (plan.temperature_C && glue.min_temperature_C && glue.warmth != tables::Warmth::too_cold &&
      *plan.temperature_C < *glue.min_temperature_C + kBarely_C) {
    out.push_back(plan::KeepWarmNote{*plan.temperature_C, *glue.min_temperature_C});
  }
}

// The jaws of one clamp that don't stand opposite each other turn a frame.
void note_racking(const plan::Plan& plan, Notes& out) {
  constexpr double kOff_mm = base::kMmPerInch / 8;  // as a jaw is set by eye; common practice
  double most_Nmm = 0;
  for (const plan::Stage& stage : plan.stages) {
    std::array<std::vector<pressure::SlantedForce>, 3> slanted;  // by axis
    for (const plan::PlannedClamp& clamp : stage.clamps) {
      for (std::size_t axis = 0; axis < 3; ++axis) {
        if (clamp.round.empty() && clamp.axis[axis] > 0.99 &&
            static_cast<int>(axis) != plan.square_normal) {
          slanted[axis].push_back({clamp.force_N, 0, kOff_mm});
        }
      }
    }
    for (const std::vector<pressure::SlantedForce>& forces : slanted) {
      most_Nmm = std::max(most_Nmm, std::abs(racking_moment_Nmm(forces)));
    }
  }
  constexpr double kTold_Nmm = 1e4;  // less than the weight of a hand on a corner
  if (plan.needs_square && most_Nmm >= kTold_Nmm) {
    out.push_back(plan::RackingNote{kOff_mm, most_Nmm});
  }
}

// A caul that only its ends are clamped down on bends away from the middle; cork makes up for what
// a plane misses.
void note_cambers(const plan::Plan& plan, Notes& out) {
  constexpr double kPlaned_mm = 0.1;  // a shaving
  plan::CamberNote note;
  for (const plan::Stage& stage : plan.stages) {
    for (const plan::PlannedClamp& clamp : stage.clamps) {
      if (clamp.caul_camber_mm < kPlaned_mm) {
        continue;
      }
      const plan::CamberNote::Caul caul{clamp.caul->along_mm, clamp.caul->thick_mm,
                                        clamp.caul_camber_mm};
      if (std::find(note.cauls.begin(), note.cauls.end(), caul) == note.cauls.end()) {
        note.cauls.push_back(caul);
      }
      note.lining_mm = std::max(note.lining_mm, clamp.caul_lining_mm);
    }
  }
  if (!note.cauls.empty()) {
    out.push_back(std::move(note));
  }
}

// Nobody grows a third hand: what would fall is propped, or somebody helps.
void note_hands(const plan::Plan& plan, Notes& out) {
  for (const plan::Stage& stage : plan.stages) {
    const std::vector<HandsWanted> all = joins_short_of_hands(stage, plan.people);
    for (std::size_t i = 0; i < all.size();) {
      const HandsWanted& wanted = all[i];
      const std::size_t first = i;
      while (i < all.size() && all[i].loose == wanted.loose) {
        ++i;
      }
      out.push_back(plan::HandsNote{wanted.step, i - first > 1, wanted.hands, 2 * plan.people,
                                    wanted.props, wanted.loose});
    }
  }
}

// A strap gives its corners less the farther they are from its buckle.
void note_straps(const plan::Plan& plan, Notes& out) {
  const bool straps = std::ranges::any_of(plan.stages, [](const plan::Stage& stage) {
    return std::ranges::any_of(
        stage.clamps, [](const plan::PlannedClamp& clamp) { return !clamp.round.empty(); });
  });
  if (straps) {
    out.push_back(plan::StrapNote{});
  }
}

// Corners where one side is end grain are strong only as far as their long-grain faces go.
void note_end_grain(const plan::Plan& plan, Notes& out) {
  const double all = plan.long_mm2 + plan.cross_mm2 + plan.end_mm2;
  if (all > 0 && plan.end_mm2 > 0) {
    out.push_back(plan::EndGrainNote{plan.end_mm2 / all});
  }
}

void note_class_values(const work::Job& job, Notes& out) {
  std::map<std::string, plan::ClassValuesNote> missing;  // by name
  for (const work::Part& part : job.parts) {
    const tables::Wood* wood = wood_of(part);
    if (wood == nullptr) {
      continue;
    }
    const bool elastic = elastic_of(*wood).from_class, crush = crush_strength_of(*wood).from_class;
    if (elastic || crush) {
      missing[wood->name] = {wood->name, elastic, crush};
    }
  }
  for (auto& [name, note] : missing) {
    out.push_back(std::move(note));
  }
}

}  // namespace

std::vector<work::PartId> captured_parts(const work::Motions& motions) {
  std::vector<work::PartId> captives;
  for (work::PartId part = 0; part < motions.parts(); ++part) {
    if (is_captive(motions, part)) {
      captives.push_back(part);
    }
  }
  return captives;
}

std::vector<plan::Note> panel_notes(std::span<const work::PanelRoom> rooms) {
  // Less than this of an edge in its groove holds nothing: common practice, 1/16 in.
  constexpr double kLeastHold_mm = 1.5;
  Notes out;
  for (const work::PanelRoom& room : rooms) {
    if (!room.glued.empty()) {
      out.push_back(plan::PanelGluedNote{room.panel, room.sides, room.glued, room.movement_mm});
      continue;
    }
    if (room.room_mm && *room.room_mm < room.movement_mm - 0.05) {
      out.push_back(plan::PanelRoomNote{room.panel, room.movement_mm, *room.room_mm});
    }
    if (room.engaged_mm && *room.engaged_mm - room.movement_mm / 2 < kLeastHold_mm) {
      out.push_back(plan::PanelDepthNote{room.panel, *room.engaged_mm, room.movement_mm});
    }
  }
  return out;
}

std::vector<plan::Note> notes_for(const plan::Plan& plan, const work::Job& job,
                                  std::span<const work::PanelRoom> rooms,
                                  const work::Motions& motions) {
  Notes out = panel_notes(rooms);
  note_air(plan, out);
  note_by_hand(plan, out);
  note_driven(plan, out);
  note_breadboard(job, out);
  note_bend(plan, out);
  note_ring(job, out);
  note_leaning(job, out);
  if (job.keys) {
    out.push_back(plan::KeysNote{job.keys->each, job.keys->corners});
  }
  note_hands(plan, out);
  note_captives(plan, motions, out);
  note_dry_joints(plan, out);
  note_lightly_held(plan, out);
  note_bows(plan, out);
  note_offsets(plan, out);
  note_racking(plan, out);
  note_cambers(plan, out);
  note_straps(plan, out);
  note_end_grain(plan, out);
  note_class_values(job, out);
  return out;
}

}  // namespace planner::advice
