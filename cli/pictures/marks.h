// What is drawn over the work: the arrow of its path, a hand, diagonals, a try square, pins.
#pragma once
#include "cli/pictures/drawing.h"
#include "cli/pictures/labels.h"
#include "cli/words/words.h"

namespace cli::pictures {

// A thick arrow on the sheet, along its points to the last, and the room that it takes.
void thick_arrow(const std::vector<model::Point2>& points, Labels& labels, Markup& svg);
// The way of what moves, from where it is drawn to where it comes to rest; an arc about a fold's hinge.
void path_arrow(const planner::plan::Plan& plan, const Situation& at, const Canvas& canvas, Labels& labels,
                Markup& svg);
// On the rim of one ring towards another: what comes next. Path data, none where they stand too close.
std::string pointer(model::Point2 from, model::Point2 to);
// An open hand that stays on what would fall over.
void hand(model::Point2 at, Labels& labels, Markup& svg);
// Both diagonals of the rings that a check looks at, with their size.
void diagonals(const planner::plan::Plan& plan, const planner::plan::Step& step, const Canvas& canvas,
               const words::Wording& wording, Labels& labels, Markup& svg);
// A try square in one of the corners.
void try_square(const planner::plan::Plan& plan, const planner::plan::Stage& stage, const Situation& at,
                const Canvas& canvas, Labels& labels, Markup& svg);
// Heads of pins, nails or screws where they go in, those in view.
void pins(const planner::plan::Stage& stage, const planner::plan::Step& step, const Painted& painted,
          Markup& svg);

}  // namespace cli::pictures
