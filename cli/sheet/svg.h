// The pictures of the bench sheet, each one SVG element. Drawn for a width of kPictureWidth units,
// about a phone's pixels; black lines on nothing, so that dark and light, screen and paper all
// work. Readable without colour: by shape, hatching and label.
#pragma once
#include <string>

#include "cli/words.h"
#include "planner/plan.h"

namespace cli {

inline constexpr double kPictureWidth = 360;

// Patterns the other pictures fill with. Once a page, before them.
std::string svg_patterns();

// The stage's parts pulled apart the way they go together, numbered in the order they are placed,
// with an arrow a movement and hatching where glue is spread.
std::string exploded_svg(const planner::Plan& plan, const planner::Stage& stage);

// Part names in the order they are placed, which is how exploded_svg numbers them.
std::vector<planner::PartId> placing_order(const planner::Stage& stage);

// The stage's parts that get glue, in the order of the job.
std::vector<planner::PartId> spread_parts(const planner::Plan& plan, const planner::Stage& stage);

// A part with its edges and ends folded out round its wide face: hatched where glue is spread,
// dashed where only its mate is, and each joint's number, A at one end and B at the other, the same
// on both parts. Sides without a joint are left out.
std::string opened_part_svg(const planner::Plan& plan, const planner::Stage& stage,
                            planner::PartId part);

// The ways the stage's clamps press, each once: x, y, z, then the askew in the order of the clamps.
std::vector<geometry::Direction> clamp_ways(const planner::Stage& stage);
bool presses_along(const planner::PlannedClamp& clamp, const geometry::Direction& way);

// Looking along one of these ways at the stage with every clamp on it: pad, caul, bar and number at
// their place, to scale, with distances from the front-left-bottom corner.
std::string clamp_view_svg(const planner::Plan& plan, const planner::Stage& stage,
                           const geometry::Direction& way, const Wording& wording);
// "from the right", "from the front", "from above", "along them".
std::string seen_text(const geometry::Direction& way);

// One glue line from starved to crushed.
std::string pressure_svg(const planner::LinePressure& line, double crush_MPa,
                         const std::string& name);
// What the fillings of such a strip mean.
std::string pressure_legend_svg();

// Who does what when, against the limits of the tightest joints.
std::string timeline_svg(const planner::Plan& plan, const planner::Stage& stage);

}  // namespace cli
