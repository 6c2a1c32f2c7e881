// The answer: what to fetch, spread, join, clamp and wait for, with what could not be done as part
// of it. Plain data; the sheets of cli/ draw and word it. Unrounded SI: mm, mm2, N, MPa, s, ml, g.
#pragma once
#include <algorithm>
#include <array>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "geometry/folding.h"
#include "planner/plan/caution.h"
#include "planner/plan/note.h"
#include "planner/plan/order_reason.h"
#include "planner/plan/placed_finding.h"
#include "planner/plan/spare_note.h"
#include "planner/plan/step_reason.h"
#include "planner/plan/verdict_reason.h"
#include "planner/plan/way_out.h"
#include "planner/work/glue_quantity.h"
#include "planner/work/joint.h"
#include "planner/work/movement.h"
#include "planner/work/shop.h"
#include "planner/work/square.h"

namespace planner::plan {

enum class TimeVerdict { one_go, stages, too_slow };
enum class Comfort {
  comfortable,
  tight,
  no
};  // slack of a fifth of the limit or more; positive; not
// What a glue line or the whole plan reaches, from best to worst. `seat`: home, closed by clamps with
// no pressure asked of it. `light`: lightly held, less than holds, where nothing has to be pulled in
// (docs/method.md "Pressure"). `contact`: only kept closed.
enum class Level { full, hold, seat, light, contact, short_of_hold };
// How hard a clamp is drawn, of what people give with its kind: gently to a third, firmly to two
// thirds, hard above (ours).
enum class Strength { gentle, firm, hard };
inline constexpr double kGentle = 1.0 / 3, kFirm = 2.0 / 3;
enum class Proof { proven, bounded, impossible };

inline constexpr int kMostStages = 12;  // nobody glues one thing in more; our choice

// Stages beside one go, one go beside stages: what can be done too and isn't what is planned.
struct OtherChoice {
  int stages = 1;
  double slack_s = 0;  // of its tightest limit
  bool comfortable = false;
};

struct Verdict {
  bool ok = false;
  TimeVerdict time = TimeVerdict::one_go;
  Comfort comfort = Comfort::no;
  Level pressure = Level::short_of_hold;
  std::vector<VerdictReason> reasons;  // why not, or what is only just so; most serious first
  std::vector<WayOut> ways_out;        // up to three that help, least trouble first
  std::optional<HelpsMost> helps_most;  // where there is no comfort
  std::optional<OtherChoice> other;     // where one go and stages both do, and one go is no comfort
  int stages_asked = 0;                 // by the user; 0: as many as are best
  Risk risk;                           // the one thing most likely to go wrong
  bool stopped = false;  // planning was stopped by hand: the best found so far, not proven
};

struct PlanPart {
  std::string name, species;
  std::shared_ptr<const tables::Wood> own_wood;  // where the shop has described it
  const tables::Wood* wood() const { return own_wood ? own_wood.get() : tables::find_wood(species); }
  std::array<double, 3> size_mm{};  // length, width, thickness
  geometry::Direction grain;
  double volume_mm3 = 0, mass_g = 0;
  geometry::Box bounds;
  std::vector<work::Face> show;
  std::vector<geometry::Facet> facets;  // of its surface as cut, for drawing
};

enum class StepKind {
  spread,
  join,
  snug,
  check,
  tighten,
  wait,
  cauls,
  fasten,  // pins, nails or screws driven
  load,    // weights laid on, or the bag closed and pumped down
  ease,    // a strap lifted and tapped at each corner, so that its legs pull alike
  turn     // all that is together turned over, so that the next part comes to it from above
};

// What a check looks at.
enum class Check {
  inside_diagonals,  // before the closing part goes on
  outside_diagonals,
  square,  // by a try square, where no ring closes
  wind,
  flush
};

// A corner that is folded shut: boards laid open end to end, taped across the outside.
struct FoldUp {
  geometry::Hinge hinge;  // positive angles open it
  double angle_deg = 0;   // from laid open to closed
  work::PartId turns = 0, stays = 0;
};

// The movement that brings `moving` to the rest.
struct Motion {
  std::vector<work::PartId> moving;
  geometry::Direction direction;    // the way they move, at last, in the assembly's axes
  std::optional<FoldUp> fold = {};  // nothing: straight
  bool rubbed = false;              // slid to and fro under the hands until it grabs
};

// A second person is called for where more is lifted over wet joints, if another could lift it alone (ours).
inline constexpr double kOneLifts_kg = 20;

struct Step {
  int n = 0;  // from 1, through all stages
  StepKind kind = StepKind::spread;
  double start_s = 0, end_s = 0;  // from the first glue of the stage
  std::vector<int> people;        // who, from 1
  std::vector<work::PartId>
      parts;  // spread: the part that gets the glue; join: all in the joined group
  std::vector<work::JointId>
      joints;                    // spread: what is spread; join: what closes; snug: what it presses
  std::optional<Motion> motion;  // join
  std::vector<int> clamps;       // snug, tighten: their numbers
  std::optional<Check> check;    // check: of what
  std::vector<std::size_t> rings;  // check of diagonals: of these of the plan's rings
  bool wants_hand = false;  // join: only a hand keeps the moving parts there until they are pressed
  double lifted_kg = 0;     // join, turn: of what moves, with the clamps that hang on it
  bool wants_two() const { return lifted_kg > kOneLifts_kg; }
  StepReason why;
};

// A pad, block or caul under a jaw: along the glue line, across it, thickness.
struct PadSize {
  double along_mm = 0, across_mm = 0, thick_mm = 0;
};

// How what lies under a jaw is shaped, where the face isn't square to the clamp: thicker at one
// end.
struct Wedge {
  double angle_deg = 0;              // 0: the face is square, and the block or caul flat
  double thin_mm = 0, thick_mm = 0;  // at its two ends
  geometry::Direction rises;         // towards the thick one
};

struct PlannedClamp {
  int n = 0;                 // from 1, through all stages
  geometry::Direction axis;  // its line of action, non-negative sense
  geometry::Point at;  // where the line of action enters the work, on the low side of the axis
  double span_mm = 0;  // of the work between the pads
  std::string kind;    // id of the clamp table
  std::optional<std::size_t> owned;  // index into Shop::clamps; nothing: not on the rack
  double size_mm = 0;                // it opens so far at most: the one on the rack, or as sold
  double opening_mm = 0;             // to pre-set: span + pads + 1/2 in
  double force_N = 0;
  Strength strength = Strength::firm;  // that this is with its kind
  double snug_N = 0;  // of it, when it is only snug
  Level level =
      Level::hold;  // hold: needed to hold; full: added for full pressure; seat: closes a shoulder
  PadSize pad;      // under each jaw
  geometry::Direction pad_along;  // the way the pad's (and caul's) first side runs
  std::optional<PadSize> caul;    // between pad and work, where one is used
  double caul_camber_mm = 0;      // to plane off its ends, where it is pressed at two places only
  double caul_lining_mm = 0;      // of cork between it and the work
  double platen_mm = 0;           // of a platen between it and the work, at each jaw; 0: none
  double form_mm = 0;             // from the work to the low jaw, which grips the form; 0: none
  std::array<Wedge, 2> wedge;     // of the pad or caul under the low jaw, and under the high one
  double caul_shift_mm = 0;       // from the line of action to the caul's middle, along pad_along
  geometry::Direction bar_side;   // from the line of action towards the bar
  // Of a strap, whose `axis` is square to the way it runs: the corners it goes round, in order, at
  // its height. `at` is its buckle then, `span_mm` the way round, `opening_mm` the strap to pull
  // out, `force_N` its tension, `pad` what lies on either side of every corner. Empty: two jaws.
  std::vector<geometry::Point> round;
  double bearing_MPa = 0,
         bearing_limit_MPa = 0;       // under the pad; half the compression perpendicular
  bool barrier = false;               // bare iron near wet glue: paper or tape under the bar
  std::vector<work::JointId> joints;  // whose faces it presses
  int meets = 0;                      // number of a clamp whose bar is in its own's way; 0: none
  int laid_before = 0;  // number of one that would bar its way: it is laid in place before; 0: none
  // On a caul along the edge it presses, as a block would tip on one so narrow.
  bool edge_caul = false;

  // Between the work and either jaw, where no face slopes.
  double under_low_jaw_mm() const { return form_mm > 0 ? form_mm : under_high_jaw_mm(); }
  double under_high_jaw_mm() const {
    return platen_mm + (caul ? caul->thick_mm : pad.thick_mm);
  }
};

// A corner clamp: it keeps a corner square before the clamps are on, and presses nothing itself.
struct CornerClamp {
  work::JointId joint = 0;
  geometry::Point at;     // the corner's outer edge, at the middle of the clamp's height
  std::string kind;       // id of the clamp table
  std::size_t owned = 0;  // index into Shop::clamps
  bool stays = false;     // while they press; else a clamp wants its place, and it comes off
};

// What ends a face's total time: its clamps snug or tight, its joint driven home, its own fit, a
// hand, or what else presses it.
enum class PressedBy { snug, tighten, home, fit, hand, fasteners, tape, vacuum, weights };

struct FaceLimit {
  work::JointId joint = 0;
  std::size_t face = 0;
  double open_s = 0, used_open_s = 0, total_s = 0, used_total_s = 0;
  PressedBy pressed_by = PressedBy::tighten;
  double slack_s() const { return std::min(open_s - used_open_s, total_s - used_total_s); }
};

// Shoulders along an axis that the rack has no clamps for, and what would close them.
struct ByHand {
  geometry::Direction axis;
  std::vector<work::JointId> joints;  // with a shoulder on the axis
  int clamps = 0;                     // so many would do,
  double opening_mm = 0;              // opening so far
};

// Pins, nails or screws through a sheet into one of its neighbours, in a row.
struct Fastening {
  work::JointId joint = 0;
  work::PartId sheet = 0;
  work::HeldBy by = work::HeldBy::pins;
  std::vector<geometry::Point> at;  // where they go in, in order
  double spacing_mm = 0;            // usual distance between two
  bool pocket = false;              // in pockets at its end: `sheet` is the part that ends at the joint
};

// What lies on a stage's wide faces in place of clamps: so many weights of the shop, or its bag.
struct Loading {
  work::HeldBy by = work::HeldBy::weights;
  std::vector<work::JointId> joints;
  int weights = 0;
  double mass_kg = 0;      // of all weights
  double pressure_MPa = 0;  // on the glue
};

// Pairs of cauls across a panel, above and below, a clamp at either end of each pair.
struct CrossCauls {
  std::vector<double> at_mm;  // their middles along `along_axis`, in the assembly
  int along_axis = 0;         // the way the panel's boards run
  double length_mm = 0, side_mm = 0;
  std::string kind;           // of the clamps; id of the clamp table
  double size_mm = 0;         // what they open at most
  double opening_mm = 0;      // what they are set to
  int clamps() const { return 2 * static_cast<int>(at_mm.size()); }
};

struct Stage {
  std::string name;  // the user's, where he asked for it; else empty
  std::vector<work::PartId> parts;
  std::vector<work::JointId> joints;
  work::Face bench_face{2, false};  // the side of the assembly that lies on the bench at first
  double risers_mm = 0;             // or so high above it, for what passes under
  std::vector<Step> steps;
  std::vector<PlannedClamp> clamps;
  std::vector<CornerClamp> corner_clamps;  // set before the clamps
  std::optional<CrossCauls> cross_cauls;   // set once these are snug
  std::vector<Fastening> fastenings;       // a row a joint; driven once what it is driven into is tight
  std::vector<Loading> loadings;
  std::vector<ByHand> by_hand;
  double starts_s = 0;  // its first glue, from the plan's first: set_starts()
  double slack_s = 0, makespan_s = 0;
  double pull_apart_by_s = 0;  // after this it no longer comes apart cleanly
  bool turns_back() const { return pull_apart_by_s < makespan_s; }  // before all is tight
  double clamp_time_s = 0;
  Proof status = Proof::proven;
  std::optional<double> bound_s;  // with status bounded: no order has more slack than this
  std::vector<FaceLimit> limits;  // tightest first
  std::vector<OrderReason> why;   // why this order, where that was asked for
};

// Pressure along one glue face from the stage's clamps on one axis.
struct LinePressure {
  work::JointId joint = 0;
  std::size_t face = 0;
  geometry::Direction axis;
  Level level = Level::short_of_hold;
  double min_MPa = 0, mean_MPa = 0, max_MPa = 0;
  double hold_MPa = 0, full_MPa = 0;  // what is asked
  double most_MPa = 0;                // no higher mean is planned: the high end of its wood's range
  double open_gap_mm = 0;             // what stays open, at most
  std::array<double, 2> size_mm{};    // of the face's strip: along it, across it
  std::array<double, 2> off_mm{};  // of the resultant from its middle: along, across; larger faces
  double bow_mm = 0;     // gap that a bowed or cupped part leaves before pressing, at most
  double closing_N = 0;  // of the clamps' force on it what closes that gap, or bends plies, before glue is pressed
  bool snug_holds = false;  // held already when the clamps are only snug
  std::vector<std::array<double, 2>> samples;  // (mm along the face, MPa)
  bool too_slight = false;  // the wood on its way bears no snug clamp anywhere
  bool estimated = false;  // a wide face or other shape outside the straight-line model's range
};

// The user's own clamps, tried: `[[my_clamp]]` of the job.
struct PlacedTrial {
  std::vector<PlannedClamp> clamps;     // numbered as in the file, from 1
  std::vector<LinePressure> pressure;   // of every larger face, and what else they press; by axis
  std::vector<PlacedFinding> findings;  // where they fall short
  std::vector<PlacedMend> mends;        // the smallest changes that mend it, least trouble first
  bool holds = false;
};

// One row a kind and opening: what is used of it, and what is short.
struct InventoryRow {
  std::string kind;
  double opening_mm = 0;
  int owned = 0, used = 0, short_by = 0;
};

struct Plan {
  std::string title;
  base::Units units = base::Units::mm;
  bool uk_words = false;
  Verdict verdict;
  std::vector<PlanPart> parts;
  std::vector<work::Joint> joints;
  work::GlueNeed glue;
  std::vector<Stage> stages;
  std::size_t stages_done = 0;  // of the first: glued already, only what they left is told of them
  std::vector<LinePressure> pressure;
  std::vector<InventoryRow> inventory;
  std::optional<PlacedTrial> placed;  // where the job places clamps
  std::vector<work::PartId> locked;   // parts that no order puts together; empty: there is one
  std::vector<work::CrossGrainNote> cross_grain;
  std::vector<Note> notes;  // what applies to this job: captured parts, class values used ...
  std::vector<SpareNote> spare_notes;  // what of the rack is not used and why, told after them
  std::vector<Caution> cautions;       // this job's first, then the usual ones
  int people = 1;
  bool no_shop_file = false;
  std::optional<double> temperature_C, humidity;  // of the shop; humidity relative, 0 to 1
  // Share of the glued area by grain, mm2 (docs/method.md "Strength").
  double long_mm2 = 0, cross_mm2 = 0, end_mm2 = 0;
  std::vector<work::Ring> rings;  // whose diagonals are checked, the first the one that counts most
  std::optional<work::Bend> bend;  // where the work is bent on a form
  bool needs_square = false;      // a frame or box: there is one
  int square_normal = 2;      // and lie in the plane across this axis
  std::array<double, 2> inside_mm{},
      outside_mm{};  // sides of the rectangle whose diagonals are checked
};

}  // namespace planner::plan
