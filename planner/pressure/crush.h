// What a jaw or pad may press on wood without denting it, and the pad to cut for a force.
#pragma once
#include <optional>
#include <span>
#include <vector>

#include "planner/plan/plan.h"
#include "planner/tables/wood.h"
#include "planner/work/job.h"

namespace planner::pressure {

// Share of the compression perpendicular to grain (a mean, 28 % coefficient of variation: Wood
// Handbook Table 5-6) that a pad may press: a prudent cap, our choice.
inline constexpr double kCrushShare = 0.5;

// Most mean pressure under a pad.
double bearing_limit_MPa(const tables::Wood& wood);

// Least bearing area for a force.
double pad_area_mm2(double force_N, double limit_MPa);

// Sizes people cut and stock they cut from: multiples of 5 mm from 12, 18, 25 and 38 mm, or of 1/4
// in from 1/2, 3/4, 1 and 1 1/2 in. Common practice.
struct CutSizes {
  double step_mm = 5;
  std::vector<double> thick_mm;  // ascending
};
const CutSizes& cut_sizes(base::Units units);

// 1/2 in: a narrower block tips over; common practice.
inline constexpr double kLeastPad_mm = 12.7;
// How wide a caul is cut that stands on an edge: as the edge, but no narrower than that.
double edge_caul_width_mm(double edge_mm, base::Units units);

// A show face wants at least 1/2 in of pad: common practice.
inline constexpr double kShowPad_mm = 12.7;

struct PadQuestion {
  double force_N = 0, limit_MPa = 0;
  double jaw_along_mm = 0, jaw_across_mm = 0;    // the clamp's face on the pad
  double room_along_mm = 0, room_across_mm = 0;  // wood to bear on: along the line, across it
  bool show_face = false;
  base::Units units = base::Units::mm;
};

struct PadAnswer {
  plan::PadSize pad;
  double bearing_MPa = 0;  // mean, under `force_N`
  bool edge_caul = false;  // too long for a block: one piece along the edge, under several clamps
};

// The smallest pad: as wide as the jaw or the wood, whichever is less; as long as the area asks, at
// least the jaw; as thick as lets the force reach its ends, (side - jaw) / 2, from stock. Where no
// stock is thick enough, or the length passes four times the jaw, it is an edge caul, of the
// thickest stock. Nothing where the room itself is too small for the force.
std::optional<PadAnswer> choose_pad(const PadQuestion& question);

// Most force a jaw or pad of that size may bring.
double force_limit_N(double along_mm, double across_mm, double limit_MPa);

}  // namespace planner::pressure
