// Random legal jobs and shops, the same from the same seed everywhere; and what leaves a job the
// same work: carried elsewhere, turned, its parts told in another order, drawn twice as large.
#pragma once
#include <string>

#include "planner/work/job.h"
#include "planner/work/shop.h"
#include "scenes/random_parts.h"

namespace random_work {

using scenes::Dice;

// A job file of one starter, small enough to be planned in a fraction of a second: panels, frames,
// boxes, carcasses, drawers, laminations, table bases; a starter's sizes, cuts and woods at random.
std::string job_text(Dice& dice);
// A rack of one to three rows, one to three people, any pace; or an unlimited rack.
struct ShopAsText {
  std::string text;
  planner::work::Shop shop;
};
ShopAsText shop(Dice& dice);

// The text read. Fails the test where it has a mistake: what is generated is legal.
planner::work::Job job_of(const std::string& text);

// All by whole nanometres, so that areas stay the same to the last digit.
planner::work::Job carried(planner::work::Job job, Dice& dice);
// x to y, y to z, z to x: a turn about the space diagonal.
planner::work::Job turned(planner::work::Job job);
// x to y and y to x: seen in a mirror, and turned a quarter about the vertical.
planner::work::Job mirrored(planner::work::Job job);
// A quarter about the vertical, as a turn of every board after all others.
planner::work::Job quarter_turned(planner::work::Job job);
// Parts of other names, which sort the other way round.
planner::work::Job renamed(planner::work::Job job);
planner::work::Job reordered(planner::work::Job job, Dice& dice);
// Every length twice as long.
planner::work::Job doubled(planner::work::Job job);

}  // namespace random_work
