#include "planner/pressure/pressure_line.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <utility>

namespace planner::pressure {
namespace {

constexpr double kShearFactor = 5.0 / 6;  // rectangle, Timoshenko

constexpr double kEdgeStep_mm = 10, kPanelStep_mm = 5;

// Fitted to the finite-element lines of tests/reference/pressure_cases.json, as a share of the
// depth under the pad, on each side; docs/clamping.md.
constexpr double kEdgeWidening = 0.4, kPanelWidening = 0.2;

// Fitted likewise: bending width as a share of the spacing, and of twice the length for a bow.
constexpr double kWidthPerSpacing = 0.10, kWidthPerBow = 0.15;

// Fitted to its bowed lines: the wave below which what bends with the bow stays behind, in spacings
// and at most in lengths.
constexpr double kCouplingWave = 1.75, kLongestCouplingWave = 0.65;

// Compliance of a board's half under unit pressure, per width.
double half_compliance(const EdgeBoard& board) {
  return board.width_mm / (2 * board.moduli.E_z_MPa);
}

double joint_stiffness_MPa(const EdgeBoard& a, const EdgeBoard& b) {
  return std::min(a.thickness_mm, b.thickness_mm) / (half_compliance(a) + half_compliance(b));
}

bool alike(const EdgeBoard& a, const EdgeBoard& b) {
  return a.width_mm == b.width_mm && a.thickness_mm == b.thickness_mm &&
         a.moduli.E_x_MPa == b.moduli.E_x_MPa && a.moduli.E_z_MPa == b.moduli.E_z_MPa &&
         a.moduli.G_xz_MPa == b.moduli.G_xz_MPa;
}

bool is_mirrored(std::span<const EdgeBoard> boards) {
  for (std::size_t i = 0; i < boards.size() / 2; ++i)
    if (!alike(boards[i], boards[boards.size() - 1 - i]))
      return false;
  return true;
}

BeamLayer layer_of(const EdgeBoard& board) {
  return rectangle(board.thickness_mm, board.width_mm, board.moduli);
}

SpringBed joint_bed(const EdgeBoard& a, const EdgeBoard& b) {
  SpringBed bed;
  bed.stiffness_MPa = joint_stiffness_MPa(a, b);
  bed.width_mm = std::min(a.thickness_mm, b.thickness_mm);
  return bed;
}

// By symmetry the middle board of an odd panel stays straight and the middle joint of an even one
// stays in place: both are the folded stack's base. There the twin moves as far, so half the
// closing counts.
void fold(EdgePanel& panel, std::span<const EdgeBoard> boards) {
  const std::size_t half = boards.size() / 2, joints = boards.size() - 1;
  for (std::size_t i = 0; i < half; ++i) {
    panel.line.layers.push_back(layer_of(boards[i]));
    panel.line.beds.push_back(joint_bed(boards[i], boards[i + 1]));
  }
  if (boards.size() % 2 == 0)
    panel.line.beds.back().stiffness_MPa *= 2;
  for (std::size_t j = 0; j < joints; ++j)
    panel.bed_of_joint.push_back(static_cast<int>(std::min(j, joints - 1 - j)));
  panel.folded = true;
}

double lip(const PanelOnStrip& joint) {
  return joint.lip_thickness_mm > 0 ? joint.lip_thickness_mm : joint.panel_thickness_mm;
}

double spacing_mm(const PanelOnStrip& joint) {
  return joint.length_mm / std::max(1, joint.clamps);
}

// 1/k = t / (2 E_z,panel b) + h_eff / (E_z,mating b)
double strip_stiffness_MPa(const PanelOnStrip& joint) {
  const double depth = effective_depth_mm(joint.mating, joint.mating_depth_mm, spacing_mm(joint));
  return joint.strip_width_mm /
         (lip(joint) / (2 * joint.panel.E_z_MPa) + depth / joint.mating.E_z_MPa);
}

double width_that_bends_mm(const PanelOnStrip& joint, double wave_share_mm) {
  const double stiffer_across = std::sqrt(std::sqrt(joint.panel.E_y_MPa / joint.panel.E_x_MPa));
  return std::min(joint.panel_reach_mm, joint.strip_width_mm + wave_share_mm * stiffer_across);
}

// What bends with a bow besides what bends between clamps. It hangs on so softly that waves as
// short as the clamps' spacing leave it behind: E I (2 pi / wave)^4.
BesideBeam rest_of_panel(const PanelOnStrip& joint, int layer) {
  const double wide = width_that_bends_mm(joint, kWidthPerBow * 2 * joint.length_mm);
  const double rest = std::max(wide - bending_width_mm(joint), 1e-3 * wide);
  const double wave =
      std::min(kCouplingWave * spacing_mm(joint), kLongestCouplingWave * joint.length_mm);
  BesideBeam beside{layer, rectangle(rest, joint.panel_thickness_mm, joint.panel), 0};
  const double turns = 2 * std::numbers::pi / wave;
  beside.coupling_MPa = beside.beam.bending_Nmm2 * turns * turns * turns * turns;
  return beside;
}

}  // namespace

EdgePanel edge_panel(double length_mm, std::span<const EdgeBoard> boards,
                     std::span<const BowGap> gap_of_joint) {
  EdgePanel panel;
  panel.line.length_mm = length_mm;
  panel.line.step_mm = kEdgeStep_mm;
  panel.outer_width_mm[0] = boards.front().width_mm;
  panel.outer_width_mm[1] = boards.back().width_mm;
  if (gap_of_joint.empty() && is_mirrored(boards)) {
    fold(panel, boards);
    return panel;
  }
  for (const EdgeBoard& board : boards)
    panel.line.layers.push_back(layer_of(board));
  for (std::size_t j = 0; j + 1 < boards.size(); ++j) {
    panel.line.beds.push_back(joint_bed(boards[j], boards[j + 1]));
    panel.bed_of_joint.push_back(static_cast<int>(j));
    if (!gap_of_joint.empty())
      panel.line.beds.back().gaps = {gap_of_joint[j]};
  }
  return panel;
}

std::vector<Push> edge_clamp(const EdgePanel& panel, int line, double x_mm, double pad_mm,
                             double force_N) {
  const auto footprint = [pad_mm](double width) { return pad_mm + 2 * kEdgeWidening * width; };
  std::vector<Push> pushes{{{line, 0, x_mm}, footprint(panel.outer_width_mm[0]), force_N}};
  if (!panel.folded) {
    const int last = static_cast<int>(panel.line.layers.size()) - 1;
    pushes.push_back({{line, last, x_mm}, footprint(panel.outer_width_mm[1]), -force_N});
  }
  return pushes;
}

StackLine panel_line(const PanelOnStrip& joint) {
  StackLine line;
  line.length_mm = joint.length_mm;
  line.step_mm = kPanelStep_mm;
  SpringBed strip;
  strip.stiffness_MPa = strip_stiffness_MPa(joint);
  strip.width_mm = joint.strip_width_mm;
  if (joint.bow_mm != 0)
    strip.gaps = {{joint.bow_mm, joint.length_mm}};
  if (joint.caul) {
    const Caul& caul = *joint.caul;
    line.layers.push_back(rectangle(caul.width_mm, caul.height_mm, caul.moduli));
    SpringBed under;
    under.width_mm = std::min(caul.width_mm, joint.strip_width_mm);
    const double lining = caul.camber_mm != 0 ? kLining_mm / kLining_MPa : 0;
    under.stiffness_MPa = under.width_mm / (caul.height_mm / (2 * caul.moduli.E_z_MPa) +
                                            lip(joint) / (2 * joint.panel.E_z_MPa) + lining);
    // A straight caul touches a bowed panel where that stands proud; a cambered one in the middle.
    if (joint.bow_mm != 0 || caul.camber_mm != 0)
      under.gaps = {{-joint.bow_mm, joint.length_mm}, {-caul.camber_mm, joint.length_mm}};
    line.beds.push_back(std::move(under));
  }
  const double beside = bending_width_mm(joint) - joint.strip_width_mm;
  line.layers.push_back(stepped_strip(joint.strip_width_mm, lip(joint), beside,
                                      joint.panel_thickness_mm, joint.panel));
  if (joint.bow_mm != 0)
    line.beside.push_back(rest_of_panel(joint, static_cast<int>(line.layers.size()) - 1));
  line.beds.push_back(std::move(strip));
  return line;
}

Push panel_clamp(const PanelOnStrip& joint, int line, double x_mm, double pad_mm, double force_N) {
  const double depth = joint.caul ? joint.caul->height_mm : lip(joint);
  return {{line, 0, x_mm}, pad_mm + 2 * kPanelWidening * depth, force_N};
}

// The exact orthotropic half-space under a cosine of that wavelength: h0 = E_z / (alpha E_h).
double effective_depth_mm(const LineModuli& mating, double depth_mm, double spacing_mm) {
  const double a_xx = 1 / mating.E_x_MPa, a_zz = 1 / mating.E_z_MPa;
  const double a_xz = -mating.nu_xz / mating.E_x_MPa, a_ss = 1 / mating.G_xz_MPa;
  const double E_h = 1 / std::sqrt(a_zz * (2 * std::sqrt(a_xx * a_zz) + 2 * a_xz + a_ss));
  const double alpha = 2 * std::numbers::pi / spacing_mm;
  const double h0 = mating.E_z_MPa / (alpha * E_h);
  return h0 * std::tanh(depth_mm / h0);
}

double bending_width_mm(const PanelOnStrip& joint) {
  return width_that_bends_mm(joint, kWidthPerSpacing * spacing_mm(joint));
}

BeamLayer stepped_strip(double b_mm, double lip_mm, double rest_mm, double thickness_mm,
                        const LineModuli& moduli) {
  const double a1 = b_mm * lip_mm, a2 = rest_mm * thickness_mm;
  const double from_top = (a1 * lip_mm / 2 + a2 * thickness_mm / 2) / (a1 + a2);
  const auto second_moment = [from_top](double area, double height) {
    const double off = height / 2 - from_top;
    return area * (height * height / 12 + off * off);
  };
  return {moduli.E_x_MPa * (second_moment(a1, lip_mm) + second_moment(a2, thickness_mm)),
          kShearFactor * moduli.G_xz_MPa * (a1 + a2)};
}

BeamLayer rectangle(double width_mm, double height_mm, const LineModuli& moduli) {
  const double area = width_mm * height_mm;
  return {moduli.E_x_MPa * area * height_mm * height_mm / 12,
          kShearFactor * moduli.G_xz_MPa * area};
}

}  // namespace planner::pressure
