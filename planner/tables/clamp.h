// Clamps by the kinds the trade knows: what a person really applies with one, and how big it is.
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "planner/tables/source.h"

namespace planner::tables {

// What a kind is good for.
enum class ClampUse {
  press,    // two jaws that face each other: the ones that clamp plans are made of
  band,     // a strap round the work: pressure at corners only
  corner,   // holds two mitred parts square
  position  // presses so little that only light lines are held by it
};

// One row of clamps.csv. Sizes in mm, forces in N.
struct ClampKind {
  std::string id, note;
  // What it is called: "pipe clamp (3/4 in)"; where room is short, "pipe 3/4 in"; in UK words,
  // "pipe cramp (3/4 in)".
  std::string name, short_name, uk_name;
  std::vector<std::string> also;
  ClampUse use = ClampUse::press;
  Range force_N;           // between weak and strong hands
  double force_typ_N = 0;  // what is planned on
  Source force_source;
  double pad_width_mm = 0, pad_height_mm = 0;  // jaw face, across and along the reach
  std::optional<Range> throat_mm;              // reach, from the bar to the jaw's end
  Source pad_source;
  std::vector<double> openings_mm;        // sold sizes, smallest first
  double bar_width_mm = 0;                // across the reach
  double bar_depth_mm = 0;                // along the reach
  double head_mm = 0;                     // sliding head with screw and handle, beyond its jaw
  double fixed_jaw_mm = 0;                // fixed jaw, beyond its face
  double travel_mm = 0;                   // of the screw
  double mass_kg = 0, mass_kg_per_m = 0;  // without bar; of the bar
  Source body_source;
  bool bare_iron = false;  // its bar or frame stains wet wood
  Source iron_source;
  bool wooden_jaws = false;  // which are their own pads
  Source jaws_source;
  double snug_s = 0;  // to set one with its pad and bring it snug
  Source snug_source;
  int choice = 0;  // 1: what people reach for first; 0: they rather take one of those that have a number
  Source choice_source;
  bool couples = false;  // several make one that is as long as one likes
  Source couples_source;

  // A jaw that is a round pad or a strip has no height given: taken as its width.
  double pad_area_mm2() const { return pad_width_mm * pad_height_mm; }
};

const std::vector<ClampKind>& clamp_kinds();  // in the table's order

// Strap on wood: the low end of smooth dry wood on a hard smooth surface, 0.3 to 0.5 (GTR-190 p. 4-17).
inline constexpr double kStrapFriction = 0.3;

// By id ("f_heavy"), another name ("G-cramp") or the printed one. Null where the table has none.
const ClampKind* find_clamp_kind(std::string_view name);

// Of one, its bar as long as it opens.
double mass_kg(const ClampKind& kind, double opening_mm);
std::vector<std::string> clamp_ids();

// Kinds that are taken where a job or a shop leaves the kind open, in the order people reach for
// them.
const std::vector<const ClampKind*>& first_choices();

const ClampKind& band_kind();  // the strap that goes round the work

// Two jaws that press, however little. Straps and corner clamps don't: those go round, and these
// only keep a corner square.
bool presses(const ClampKind& kind);

// Smallest size sold of the kind that opens at least so far. Nothing where none does.
std::optional<double> opening_at_least(const ClampKind& kind, double wanted_mm);

}  // namespace planner::tables
