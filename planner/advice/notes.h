// What a careful eye would say about this job, beside the plan itself.
#pragma once
#include <span>
#include <vector>

#include "planner/plan/plan.h"
#include "planner/work/motion.h"
#include "planner/work/panel_room.h"

namespace planner::advice {

// Parts that the finished work holds captive: no straight way out past their neighbours. By id.
std::vector<work::PartId> captured_parts(const work::Motions& motions);

// Of a job's panels: a glued one is proposed to float, with the reason; a floating one that has
// less room than it may want, or may shrink out of its grooves, is told.
std::vector<plan::Note> panel_notes(std::span<const work::PanelRoom> rooms);

// Most important first. REQUIRES: parts, joints, glue and stages of the plan are filled in.
std::vector<plan::Note> notes_for(const plan::Plan& plan, const work::Job& job,
                                  std::span<const work::PanelRoom> rooms,
                                  const work::Motions& motions);

}  // namespace planner::advice
