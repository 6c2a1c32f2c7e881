// The pictures of the bench sheet, each one SVG element. Drawn for a width of kPictureWidth units,
// about a phone's pixels; black lines on nothing, so that dark and light, screen and paper all
// work. Readable without colour: by shape, hatching and label.
#pragma once
#include <string>

#include "cli/model/edge_strips.h"
#include "cli/words/words.h"
#include "planner/plan/plan.h"

namespace cli::html {

inline constexpr double kPictureWidth = 360;

// Patterns the other pictures fill with. Once a page, before them.
std::string svg_patterns();

// The stage's parts pulled apart the way they go together, numbered in the order they are placed,
// with an arrow a movement and hatching where glue is spread.
std::string exploded_svg(const planner::plan::Plan& plan, const planner::plan::Stage& stage);

// Part names in the order they are placed, which is how exploded_svg numbers them.
std::vector<planner::work::PartId> placing_order(const planner::plan::Stage& stage);

// The stage's parts that get glue, in the order of the job.
std::vector<planner::work::PartId> spread_parts(const planner::plan::Plan& plan,
                                                const planner::plan::Stage& stage);

// A part with its edges and ends folded out round its wide face: hatched where glue is spread,
// dashed where only its mate is, and each joint's number, A at one end and B at the other, the same
// on both parts. Sides without a joint are left out.
std::string opened_part_svg(const planner::plan::Plan& plan, const planner::plan::Stage& stage,
                            planner::work::PartId part);

// The ways the stage's clamps press, each once: x, y, z, then the askew in the order of the clamps.
std::vector<geometry::Direction> clamp_ways(const planner::plan::Stage& stage);
bool presses_along(const planner::plan::PlannedClamp& clamp, const geometry::Direction& way);

// Looking along one of these ways at the stage with every clamp on it: pad, caul, bar and number at
// their place, to scale, with distances from the front-left-bottom corner.
std::string clamp_view_svg(const planner::plan::Plan& plan, const planner::plan::Stage& stage,
                           const geometry::Direction& way, const words::Wording& wording);
// "from the right", "from the front", "from above", "along them".
std::string seen_text(const geometry::Direction& way);

// One glue line from starved to crushed.
std::string pressure_svg(const planner::plan::LinePressure& line, double crush_MPa,
                         const std::string& name);
// What the fillings of such a strip mean.
std::string pressure_legend_svg();

// Who does what when, against the limits of the tightest joints.
std::string timeline_svg(const planner::plan::Plan& plan, const planner::plan::Stage& stage);

// The strip at full size, in pieces that fit A4 and Letter upright; stretches without a mark are
// left out. One SVG each, 180 mm wide, units of a mm.
std::vector<std::string> strip_pieces_svg(const model::EdgeStrip& strip, const words::Wording& wording);
// 100 mm and 4 in, to hold a rule against.
std::string check_rule_svg();

}  // namespace cli::html
