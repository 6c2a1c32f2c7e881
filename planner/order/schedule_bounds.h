// Moments that the search of a schedule need not go on from: too little time is left, or too much
// must be paid. Each is a bound by what is still to be done, whatever the order.
#pragma once
#include "planner/order/schedule_moves.h"

namespace planner::order {

// All work of everybody that must be done before a limit fits before it, with `slack_s` to spare.
bool enough_time(ScheduleFacts& facts, int slack_s, const Moment& m);

// With all that is still to be done, every glue can stand as long as it must. Pauses before rounds
// that are already off cannot be made longer.
bool waits_end(ScheduleFacts& facts, const Moment& m);

// No way on from here costs less.
OrderCost least_cost(ScheduleFacts& facts, const Moment& m);

// Seconds until the first joint that is held and still closed is past its total time. With
// one pair of hands a job due before that gains nothing by being put off: whatever goes before it
// instead is due later than the job itself. Far in the past where that doesn't hold.
int urgent_limit(ScheduleFacts& facts, int slack_s, const Moment& m);

}  // namespace planner::order
