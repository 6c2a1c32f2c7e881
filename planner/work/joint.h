// Contacts between parts, grouped into joints with their trade names.
#pragma once
#include <array>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "geometry/contact.h"
#include "planner/work/job.h"
#include "planner/work/means.h"

namespace planner::work {

using JointId = std::size_t;  // index into the list of joints

enum class JointKind {
  edge,               // boards side by side, long grain to long grain
  butt,               // an end or edge against a face
  lap,                // face on face, partly
  lamination,         // face on face, all over
  rabbet,             // two faces at right angles
  dado,               // three in a U, across the grain
  groove,             // three in a U, along the grain
  mortise_and_tenon,  // cheeks all round
  bridle,             // an open mortise: cheeks and shoulders, free on two sides
  half_lap,           // crossed halves: a face and its shoulders
  fingers,            // alternating, many
  dovetail,           // wedges that hold each other: cheeks that lean towards one another
  mitre,              // oblique to both parts' axes
  dowel,              // a round peg in its hole
  other               // named by its number of faces, never guessed
};
std::string to_text(JointKind kind, bool uk_words);

enum class GrainClass { long_grain, end_grain };

// One planar region where two parts touch. `contact.a` and `.b` are the joint's parts[0] and
// parts[1].
struct GlueFace {
  geometry::Contact contact;
  std::array<GrainClass, 2>
      grain{};           // of each part: end grain where the face looks within 45 deg of the grain
  bool crossed = false;  // both long grain, with fibres crossing by more than 30 degrees
};

struct Joint {
  std::array<PartId, 2> parts{};  // lower id first
  JointKind kind = JointKind::other;
  std::optional<std::size_t> host;  // which of the two holds the cut, where one does
  std::vector<GlueFace> faces;      // largest first; [0] is the one that must be held
  bool glued = true;
  std::string unglued_reason;    // why it stays dry, where it does
  std::array<bool, 2> spread{};  // which part's side gets the glue (both for end grain, mitres)
  std::string glue;              // of the override; empty: the job's
  HeldBy held_by = HeldBy::clamps;  // what presses it; by strap where the plan sets one (take_means)
  double middle_mm = 0;          // glue only this much in the middle; 0: all
  bool seated = false;    // dowels or a loose tongue hold it: its faces need only come home
  bool pocket = false;    // screwed aslant, through the end that meets the other part's face
  bool splined = false;   // a strip in one of the two kerfs of a mitre
  bool driven = false;    // home by the mallet, where its own fit keeps it: nothing need press it
  // Of the face's area: 1, the middle's share, 0 when not glued.
  double glued_share(const GlueFace& face) const {
    const double run = face.contact.length_mm;
    return !glued ? 0 : middle_mm > 0 && run > middle_mm ? middle_mm / run : 1;
  }
  double glued_area_mm2() const;  // of all faces, the middle share where so; 0 when not glued
  // Longest stretch of face that slides over its mate while the joint closes the way it is made to:
  // the depth of its cut or the length of its tenon. Wiping up to this is free
  // (docs/method.md: "Wiping").
  double depth_mm = 0;
};

// All joints, by (parts[0], parts[1]). Contacts of one pair of parts make one joint.
// REQUIRES: contacts are find_contacts() of the parts' solids, indices alike.
std::vector<Joint> classify_joints(const Job& job, std::span<const geometry::Contact> contacts);

// "left - front": the two parts' names, in the job file's order.
std::string joint_name(const Joint& joint, const Job& job);

// How far the joint's faces slide over one another when parts[1] leaves parts[0] along `d` (a unit
// vector), in mm: the greatest extent along d of a face that d neither opens nor closes.
double wiped_mm(const Joint& joint, const geometry::Direction& d);

}  // namespace planner::work
