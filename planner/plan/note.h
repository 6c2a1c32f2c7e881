// What a careful eye would say about a job, beside the plan itself: a struct a kind of note, with
// what it is about and by how much. cli/words/note_words.h words them.
#pragma once
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "planner/work/joint.h"

namespace planner::plan {

// A solid panel that is glued across its grain at `joints` and had better float.
struct PanelGluedNote {
  work::PartId panel = 0;
  int sides = 0;  // it is held on, of its four
  std::vector<work::JointId> joints;
  double movement_mm = 0;  // over the year
};

// A floating panel that may swell by more than the room in its grooves.
struct PanelRoomNote {
  work::PartId panel = 0;
  double movement_mm = 0, room_mm = 0;
};

// A floating panel that may shrink out of its grooves.
struct PanelDepthNote {
  work::PartId panel = 0;
  double engaged_mm = 0, movement_mm = 0;
};

// Shoulders along an axis that no clamp of the rack closes; so many more would.
struct ShouldersByHandNote {
  geometry::Direction axis;
  std::vector<work::JointId> joints;
  int clamps = 0;
  double opening_mm = 0;
};

// Dovetails that the mallet drives home; loose ones, clamped on their tails alone.
struct DrivenNote {
  std::vector<work::JointId> joints;
  bool loose = false;
};

// Keys let in across mitred corners once the glue has cured.
struct KeysNote {
  int each = 0, corners = 0;
};

// A ring of sides alike is true when its corners are as far from those opposite, or of an odd number
// from the middles of the sides opposite; outside, where it is widest.
struct RingTrueNote {
  int sides = 0;
  double across_mm = 0;  // from corner to corner, or from corner to side
};

// How a saw is set for the ends of sides that lean, off square (work/compound_mitre.h); their edges
// are sawn at the slope, so that they lie level.
struct LeaningSidesNote {
  double slope_deg = 0, blade_deg = 0, gauge_deg = 0;
};

// Breadboard ends, past which the panel moves by so much over the year.
struct BreadboardNote {
  double across_mm = 0, movement_mm = 0;
};

// Plies on a form, whose face is tighter than the bend is to be: it opens when it comes off. What of the
// force at either end only bends them.
struct BendNote {
  double radius_mm = 0, form_radius_mm = 0, bending_N = 0;
};

// Bent plies in a glue that lets go slowly under load.
struct CreepNote {};

// A join that wants more hands than the people have.
struct HandsNote {
  int step = 0;              // its number
  bool and_later = false;    // the joins after it want them too
  int hands = 0, there = 0;  // wanted, and the people's
  int props = 0;             // square blocks in their place
  std::vector<work::PartId> loose;
};

// A part that the finished work holds captive: it goes in before its neighbours close round it.
struct CapturedNote {
  work::PartId part = 0;
  std::vector<work::PartId> neighbours;
};

// So many captive parts that they are told as one, as of a frame.
struct CapturedTogetherNote {
  std::vector<work::PartId> parts;
};

struct DryJointsNote {
  std::vector<work::JointId> joints;
};

// A bow or cup that the clamps close with part of their force, or can't close.
struct BowNote {
  work::JointId joint = 0;
  double bow_mm = 0;
  double open_gap_mm = 0;  // what stays open; 0: nothing that matters
  double closing_N = 0;    // what closing it takes, where it closes
};

// Joints that the clamps there are hold only lightly: how little the weakest of them gets, and where.
struct LightlyHeldNote {
  std::vector<work::JointId> joints;
  work::JointId weakest = 0;
  double least_MPa = 0, hold_MPa = 0;  // there; and what holds
  bool at_an_end = false;              // of the joint; else along it
};

// The clamps' force lies beside the middle third of a held joint.
struct OffsetNote {
  work::JointId joint = 0;
  bool along = true;  // the joint; false: across it
  double off_mm = 0;
};

// Jaws that don't stand opposite each other turn a frame out of square.
struct RackingNote {
  double off_mm = 0;  // as a jaw is set by eye
  double moment_Nmm = 0;
};

// Cauls that only their ends are clamped down on, to be planed to a camber.
struct CamberNote {
  struct Caul {
    double along_mm = 0, thick_mm = 0, camber_mm = 0;
    friend bool operator==(const Caul&, const Caul&) = default;
  };
  std::vector<Caul> cauls;  // each size once
  double lining_mm = 0;     // of cork; 0: none
};

// A strap sticks at its corners.
struct StrapNote {};

// Of the glued area, 0 to 1, what has end grain on one side.
struct EndGrainNote {
  double share = 0;
};

// Air so hot or dry that it shortens the glue's open and total time. `share`: what is counted of
// them; 1: by how much isn't known of this glue.
struct ShortTimesNote {
  std::optional<double> temperature_C, humidity;  // what is to blame
  double share = 1;
};

// Hardly warmer than the least the glue sets at.
struct KeepWarmNote {
  double temperature_C = 0, least_C = 0;
};

// A wood for which the values of its class stand in.
struct ClassValuesNote {
  std::string wood;
  bool elastic = false, crush = false;  // which are not published for it
};

using Note = std::variant<PanelGluedNote, PanelRoomNote, PanelDepthNote, ShouldersByHandNote,
                          DrivenNote, KeysNote, RingTrueNote, LeaningSidesNote, BreadboardNote,
                          BendNote, CreepNote,
                          HandsNote, CapturedNote, CapturedTogetherNote, DryJointsNote, BowNote,
                          LightlyHeldNote, OffsetNote, RackingNote, CamberNote, StrapNote, EndGrainNote,
                          ShortTimesNote, KeepWarmNote, ClassValuesNote>;

}  // namespace planner::plan
