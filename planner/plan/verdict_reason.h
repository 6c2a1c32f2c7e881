// Why a plan doesn't work or is only just so, and what is likeliest to go wrong: a struct a kind.
// cli/words/verdict_words.h words them.
#pragma once
#include <variant>
#include <vector>

#include "planner/work/joint.h"

namespace planner::plan {

// Two groups that touch, and the ways in which one can leave the other; none: it can't.
struct WaysApart {
  std::vector<work::PartId> stays, leaves;
  std::vector<geometry::Direction> ways;  // at most two
};

// No order puts these together: each holds the others in.
struct Locked {
  std::vector<work::PartId> parts;
  std::vector<WaysApart> pairs;  // that contradict each other; may be empty
};

// In every order some join lifts more than the people there can.
struct TooHeavy {
  double limit_g = 0;  // a person
  std::vector<work::PartId> heaviest;
  double mass_g = 0;  // its; 0: unknown
};

// Planning was stopped by hand before an order was found.
struct StoppedEarly {};

// No order was found in as many steps as the search may take.
struct SearchCutShort {};

// For the glue: the shop, and the least it sets at.
struct TooCold {
  double temperature_C = 0, least_C = 0;
};
struct TooWarm {};

// The joint with least to spare is past a limit of its glue, or nearly.
struct OutOfTime {
  work::JointId joint = 0;
  bool open = true;    // the open time; false: the total time
  double slack_s = 0;  // negative: over it by so much
};

// The clamps don't hold these all along.
struct NotHeld {
  std::vector<work::JointId> joints;
  bool too_slight = false;  // the wood on the way to any of them bears no snug clamp
};

struct TooLittleGlue {
  double needed_ml = 0, left_ml = 0;
};

using VerdictReason = std::variant<Locked, TooHeavy, StoppedEarly, SearchCutShort, TooCold, TooWarm,
                                   OutOfTime, NotHeld, TooLittleGlue>;

struct ShouldersRisk {
  geometry::Direction axis;  // no clamp closes the shoulders along it
};
struct CrossGrainRisk {
  work::JointId joint = 0;
};
struct SquareRisk {};
struct EndGrainRisk {};
struct SlipRisk {};

// A reason of the verdict, or what is likeliest where there is none.
using Risk =
    std::variant<SlipRisk, EndGrainRisk, SquareRisk, CrossGrainRisk, ShouldersRisk, VerdictReason>;

}  // namespace planner::plan
