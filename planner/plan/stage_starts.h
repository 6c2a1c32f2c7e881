// When each stage begins, and what is in clamps while it does.
#pragma once
#include <cstddef>
#include <vector>

#include "planner/plan/plan.h"

namespace planner::plan {

// "Double for each 15 F below 70", a woodworking magazine's rule for PVA (docs/method.md "After").
inline constexpr double kUsual_C = (70 - 32) / 1.8, kDoubles_C = 15 / 1.8;

// That rule has something to say of the plan's glue and shop.
bool is_cool(const Plan& plan);

// How long a stage stays in its clamps, s: by that rule where it says so, in whole five minutes.
double clamps_off_s(const Plan& plan, const Stage& stage);

// Sets every stage's starts_s: once what it builds on is out of its clamps and the stage before is tight. It
// starts while another is in clamps where the rack has enough for both, never without a shop file: nobody
// borrows clamps for that. Counts what is in use at one time into the inventory. Stages that are done take no
// time.
void set_starts(Plan& plan);

// The stages that are in their clamps, or going into them, when this one starts; itself among them, ascending.
std::vector<std::size_t> in_clamps_with(const Plan& plan, std::size_t stage);

}  // namespace planner::plan
