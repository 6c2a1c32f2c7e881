// The clamps of one axis: how many, where, how hard.
#pragma once
#include <memory>
#include <span>
#include <string>
#include <vector>

#include "planner/clamps/axis/asked_line.h"
#include "planner/clamps/axis/clamp_press.h"
#include "planner/clamps/axis/press_backing.h"
#include "planner/clamps/count/fewest_clamps.h"
#include "planner/pressure/pressure_plate.h"
#include "planner/work/glue_quantity.h"

namespace planner::clamps::axis {

class AxisCache;

// What lies between jaw and work: a block a jaw, or one strip the length of the line under all of
// its jaws (a caul), of the same stock, straight or planed to a camber. On a wide face cauls as
// long as it, side by side, or cauls across it with a clamp at each end.
enum class Padding { blocks, strips, cambered, lengthwise, crosswise };
constexpr bool on_face(Padding padding) {
  return padding == Padding::lengthwise || padding == Padding::crosswise;
}
constexpr bool on_strips(Padding padding) {
  return padding == Padding::strips || padding == Padding::cambered;
}

// Of stock so thick. Blocks of none: the jaws are wooden and bear on the work themselves.
struct Packing {
  Padding padding = Padding::blocks;
  double thick_mm = 19.05;
  friend bool operator==(const Packing&, const Packing&) = default;
};
constexpr bool bare_jaws(const Packing& packing) {
  return packing.padding == Padding::blocks && packing.thick_mm == 0;
}

// The kind of clamp that an axis is planned on: all of it that a count of clamps hangs on.
struct KindInUse {
  double jaw_mm = 32;       // of the jaw, along the line
  double jaw_high_mm = 32;  // across it
  double force_N = 0;       // what a person applies with the kind
  double throat_mm = 100;   // how far in from an edge it reaches
  double weak_hand = kWeakHand;  // share of the planned force that weak hands give; 1: a spring
  double drawn = plan::kFirm;    // share of its force that it may be drawn to
  int most = 80;            // clamps to look at; a bench has no room for more
  friend bool operator==(const KindInUse&, const KindInUse&) = default;
};

// What the clamps of an axis are like, and what may be cut for them.
struct AxisSetting {
  KindInUse kind;
  std::vector<Packing> packings;  // to choose from; of those that take as many clamps the first
  double light_share = 1;         // of what holds, that a line which may be light gets
  bool few = false;               // a camber is planed for one clamp saved, not only for a third
  count::SearchEffort effort;
};

struct AxisQuestion {
  const work::Job& job;
  std::span<const work::Joint> joints;
  const pressure::Work& work;
  const RoundAxis& round;
  const work::GlueInUse& glue;
  AxisSetting setting;
};

struct ChosenClamp {
  std::size_t site = 0;
  double force_N = 0;
};

struct AxisClamps {
  RoundAxis round;
  Packing packing;
  PressBacking backing;
  std::vector<AskedLine> lines;  // of the held faces, then of the closed ones
  std::size_t held_lines = 0;
  std::vector<ClampTrack> tracks;
  std::vector<ClampSite> sites;
  std::shared_ptr<const PressModel> model;  // of the held lines; none on a seated axis
  // Of wide faces, as set_up_plates() left them; press() sets up for itself what it misses.
  std::vector<std::shared_ptr<const pressure::PressedPlate>> plates;
  std::vector<ChosenClamp> clamps;  // by site
  double weak_hand = kWeakHand;     // of the kind
  bool high_blocks = false;         // reach over their tracks, each under one clamp: a corner of fingers
  bool reached = false;             // every held line that a clamp can reach gets what was asked
  bool proven = false;
  int bound = 0;

  std::span<const AskedLine> held() const { return std::span(lines).first(held_lines); }
};

// The round's lines, what is asked of each, and the tracks over them; no sites or clamps yet.
AxisClamps lines_of(const AxisQuestion& question);

// True where all that is held are edges on which a block as wide as they are would tip over.
bool narrow_edges(const AxisClamps& plan);

// What is asked of the plan's lines: that they hold even with weak hands, or that they are fully
// pressed with forces as planned; or that those which may be held lightly get this share of what
// holds, likewise with weak hands.
PressNeed need_to_hold(const AxisClamps& plan);
PressNeed need_lightly(const AxisClamps& plan, double share);
PressNeed need_for_full(const AxisClamps& plan);

// Of the force of the clamps at either end what keeps plies bent and presses no glue: between them a bend of
// one radius asks for no more. A value a clamp.
std::vector<double> bending_N(const AxisClamps& plan, std::span<const ChosenClamp> clamps);

// True where cauls are planed to a camber, which is closed before they press.
bool cambered(const AxisClamps& plan);

// Under a site's two pads: of the softer wood.
double bearing_limit_MPa(const work::Job& job, const ClampSite& site);

// Fewest clamps that hold (`wanted` hold), lightly hold (light: with `setting.light_share` of what
// holds) or fully press (full) the round's held lines; on a seated axis those that bring it home.
// Even forces where they do. `cache`: what was found for other questions on the same work, to be used
// and added to.
AxisClamps plan_axis(const AxisQuestion& question, plan::Level wanted, AxisCache& cache);

// How the lines fare with some of the clamps.
std::vector<LineResult> press(const AxisClamps& plan, std::span<const ChosenClamp> clamps);

// The same with weak hands, from what planned ones do: in that share where nothing stands off
// before pressing; where a bow or a caul's camber is to be closed first, pressed anew.
std::vector<pressure::LineProfile> weakly(const AxisClamps& plan,
                                          std::span<const ChosenClamp> clamps,
                                          std::span<const LineResult> planned);

// Which of the plan's clamps the joints would be held without: those that full pressure alone asks
// for. One taken at a time, from the last. A flag a clamp.
std::vector<char> beyond_hold(const AxisClamps& plan);

// Force along the round's axis that presses its held faces (on a seated axis all) so hard: the
// largest, over the cuts through the work from jaw to jaw, of the sum of pressure x area x
// |normal . axis|. Cuts are taken between parts in the order of their middles.
// REQUIRES: `level` is hold or full.
double force_needed_N(const AxisClamps& plan, std::span<const work::Joint> joints,
                      const pressure::Work& work, plan::Level level);

// Longest pad that a jaw still presses all of: jaw + 2 x thickness (45 degrees), down to a size
// that people cut.
double pad_length_mm(double jaw_mm, double thick_mm, base::Units units);

inline constexpr double kSnug_N = 100;  // with less a clamp falls off; common practice
// Up to the next 50 N (11 lbf): finer than a hand can tell.
double hand_force_N(double force_N);

}  // namespace planner::clamps::axis
