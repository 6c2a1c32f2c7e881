// Straight glue lines as stacks: boards glued edge to edge, a panel pressed on a strip, with pads
// and cauls. The formulas and where they hold: docs/clamping.md.
#pragma once
#include <optional>
#include <span>
#include <vector>

#include "planner/pressure/pressure_system.h"
#include "planner/pressure/pressure_wood.h"

namespace planner::pressure {

// --- Boards edge to edge -------------------------------------------------------------------------

// A board of an edge-glued panel. Width is its size in the pressing direction (z).
struct EdgeBoard {
  double width_mm = 0, thickness_mm = 0;
  LineModuli moduli;  // kBoardPressedOnEdge
};

// Boards pressed together from both edges. A panel that is its own mirror image is folded on its
// middle, so that the stack has half the layers; both edges are then pressed alike.
struct EdgePanel {
  StackLine line;
  std::vector<int> bed_of_joint;      // joint i lies between board i and i + 1
  double outer_width_mm[2] = {0, 0};  // of the first and the last board
  bool folded = false;
};

// `gap_of_joint[i]` is that of joint i before pressing; empty for none, else one a joint (which
// keeps the panel from being folded). REQUIRES: two boards or more, sizes and moduli > 0.
EdgePanel edge_panel(double length_mm, std::span<const EdgeBoard> boards,
                     std::span<const BowGap> gap_of_joint = {});

// A clamp across the panel at x: its pushes on line number `line` of a system. `pad_mm` is the
// length along the edge of what bears on it; the footprint widens by 0.4 of the board's width on
// each side.
std::vector<Push> edge_clamp(const EdgePanel& panel, int line, double x_mm, double pad_mm,
                             double force_N);

// --- A panel on a strip --------------------------------------------------------------------------

// What a cambered caul is lined with, so that it needn't be planed to the hundredth of a
// millimetre: sheet cork (common practice); its stiffness across, from memory.
inline constexpr double kLining_mm = 3, kLining_MPa = 10;

// A full-length caul or batten over the line.
struct Caul {
  double width_mm = 0, height_mm = 0;  // height in the pressing direction
  LineModuli moduli;
  // By which its ends stand off when its middle touches; it is lined then. 0: straight and bare.
  double camber_mm = 0;
  friend bool operator==(const Caul&, const Caul&) = default;
};

struct PanelOnStrip {
  double length_mm = 0;           // of the line
  double panel_thickness_mm = 0;  // inside the strip
  double lip_thickness_mm = 0;    // over the strip, less where the panel is rabbeted; 0: the same
  double panel_reach_mm = 0;      // from the strip's outer edge to the middle of the panel
  LineModuli panel;               // kPanelGrainAlongLine or kPanelGrainAcrossLine
  double strip_width_mm = 0;
  double mating_depth_mm = 0;  // of what the strip belongs to, to its middle or its rigid support
  LineModuli mating;
  int clamps = 1;     // along the line; their spacing decides how much of the panel helps
  double bow_mm = 0;  // of the panel along the line: > 0 its middle stands off, < 0 its ends
  std::optional<Caul> caul;
};

// One layer, the panel, on its strip; with a caul two, the caul first. The strip is the last bed.
// REQUIRES: sizes and moduli > 0, reach >= strip width, lip <= thickness.
StackLine panel_line(const PanelOnStrip& joint);

// A clamp over the line at x, its pad `pad_mm` long: the push on the panel, or on the caul where
// there is one. The footprint widens by 0.2 of the thickness under it on each side.
Push panel_clamp(const PanelOnStrip& joint, int line, double x_mm, double pad_mm, double force_N);

// --- Pieces of them ------------------------------------------------------------------------------

// h_eff: the depth of a mating part that yields under a strip pressed every `spacing_mm`.
double effective_depth_mm(const LineModuli& mating, double depth_mm, double spacing_mm);

// B_e: how much of the panel bends with the strip between clamps.
double bending_width_mm(const PanelOnStrip& joint);

// Bending and shear stiffness of a panel's strip of width b and thickness lip, with `rest` beside
// it at full thickness, top faces flush: parallel axes.
BeamLayer stepped_strip(double b_mm, double lip_mm, double rest_mm, double thickness_mm,
                        const LineModuli& moduli);

// E I and kappa G A of a rectangle, kappa = 5/6. Height in the pressing direction.
BeamLayer rectangle(double width_mm, double height_mm, const LineModuli& moduli);

}  // namespace planner::pressure
