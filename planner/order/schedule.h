// Who spreads, joins and clamps what and when in one go, so that no glue line outlasts its time:
// exact, by branch and bound backwards from the last clamp round (docs/order.md).
//
// Crew: a join, a clamp round and a check take everybody (a round of c clamps takes
// ceil(c / people) times one clamp); only spreading runs side by side. All times are whole seconds.
//
// Clamps are tightened ring by ring: what is in a ring is snugged round by round, and at once after
// the last of its rounds comes its pause for tack, its check, and its rounds' tightening, in the
// rounds' order of index, without anything between.
//
// The search runs several times over the same states. First any order at all is looked for, as
// without one there is nothing to bound. Then the slack is bisected twice: at a glance, a few nodes
// a question, for refutations that cost little and a good bound; and with a quarter of the nodes
// left to each question, for what a glance left open. A slack that is refuted is refuted for every
// larger one. At the largest slack reached a last search takes the cheapest order, by `Ties`.
// fits_in_time() asks one question only: slack 0.
#pragma once
#include <cstdint>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "planner/order/assembly.h"
#include "planner/plan/plan.h"

namespace planner::order {

inline constexpr int kFar = 1'000'000;  // seconds: later than any limit

// What a joint's glue allows. `open`: spread start to brought together. `total`: spread start to
// held: the end of the tightening of the clamp round that presses it, or of its snugging where that
// is enough.
struct JointTime {
  int spread_s = 0;
  int open_s = 0, total_s = 0;
  // Open and closed time share one budget: open / open_s + closed / closed_s <= 1 (resorcinol's
  // sheet); closed runs from brought together to held. 0: no shared budget.
  int closed_s = 0;
  // Least time the spread glue stands before it is pressed: before its clamp round starts, or its
  // tightening where that is what holds it. Counted from the next thing that everybody does after
  // the spreading, at the earliest; waited out in quarters of a minute directly before a clamp
  // round.
  int wait_s = 0;
  int group = -1;          // the clamp round that holds it; -1: closed by hand, held when joined
  bool held_snug = false;  // its round holds it once snug; false: once tight
  // The join that closes it takes the longest `join_s` of its joints, and `next_s` of each further
  // one.
  int join_s = 25, next_s = 0;

  // What no clamps press needn't wait for them.
  int wait_before_pressing_s() const { return group < 0 ? 0 : wait_s; }
  friend auto operator<=>(const JointTime&, const JointTime&) = default;
};

// The clamps that are put on and snugged in one round.
struct SnugRound {
  int clamps = 0;
  int snug_s = 30, tighten_s = 10;  // one clamp
  int ring = 0;                     // index into ScheduleProblem::rings
  std::vector<int> closed_first;    // joints that must be closed before it can be snugged
  std::vector<int>
      after;  // groups that must be snug before it: its clamps would bar theirs the way

  // Of the whole round.
  int snugging_s(int people) const { return (clamps + people - 1) / people * snug_s; }
  int tightening_s(int people) const { return (clamps + people - 1) / people * tighten_s; }
};

// Rounds that are checked and tightened together.
struct RingFinish {
  int tack_s = 0, check_s = 0;
};

enum class Ties {
  shortest,               // then nothing but the shortest makespan
  file_order_then_length  // least wiping, then the job file's order, then the shortest makespan
};

// What one person lifts with two hands close to the body: HSE, Manual handling at work: a brief
// guide (INDG143), guideline figures, from memory.
inline constexpr int kOnePersonLifts_g = 25'000;

struct ScheduleProblem {
  AssemblyProblem assembly;
  std::vector<JointTime> joints;  // as assembly.joints
  std::vector<SnugRound> groups;  // at most 32
  std::vector<RingFinish> rings;  // each has a round or more
  int people = 1;                 // 1 to 4
  // Of each unit; empty: light. Of the two sides of a join the lighter is lifted to the other.
  std::vector<int> weight_g;
  int join_s = 25;                  // a join that closes no joint
  int closing_unit = -1;            // goes on last, after an inside check of the rest; -1: none
  int inside_check_s = 0;
  // Groups that can be snug before the inside check are; false: they may follow it.
  bool snug_before_inside_check = true;
  int step_s = 15;  // slack counts in steps of this, so that no odd split wins by a second
  Ties ties = Ties::file_order_then_length;
  // The joins, first to last, where they are given: only the clock is planned then.
  std::vector<std::pair<base::UnitSet, base::UnitSet>> given_joins;
  // Joins of these two groups (or of groups alike) are not made.
  std::vector<std::pair<base::UnitSet, base::UnitSet>> joins_left_out;

  // Seconds of the join that closes these joints; of the shortest and the longest that there can be.
  int joining_s(std::span<const int> closes) const;
  int least_joining_s() const;
  int most_joining_s() const;
  // Seconds of the group's rounds; 0 for no group.
  int snug_s(int group) const {
    return group < 0 ? 0 : groups[static_cast<std::size_t>(group)].snugging_s(people);
  }
  int tighten_s(int group) const {
    return group < 0 ? 0 : groups[static_cast<std::size_t>(group)].tightening_s(people);
  }
  // Of the round that presses the joint.
  int pressing_s(const JointTime& joint) const {
    return joint.held_snug ? snug_s(joint.group) : tighten_s(joint.group);
  }
  // What follows at once on the ring's last snug round: tack, check and tightening.
  int finish_s(int ring) const;
  // Of that, what comes after the group is tight.
  int tightening_after_s(int group) const;
};

int weight_g_of(const ScheduleProblem& problem, const base::UnitSet& units);

// Limits of the search, in what it looks at, so that the same job gets the same answer on every machine.
struct Effort {
  std::int64_t nodes = 300000;
  double work = 2e7;  // as WaysApart counts it: nodes of large jobs are dearer than those of small ones
  // Of a changed problem, one of many that are tried: another glue, another hand.
  static Effort trial() { return {300000, 3e6}; }
  // Of a changed problem whose first one wasn't proven with all the effort: a good answer is all to be had.
  static Effort glance() { return {300000, 3e5}; }
  static Effort unlimited() {
    return {INT64_MAX / 4, std::numeric_limits<double>::infinity()};
  }
};

struct PlannedJoin {
  base::UnitSet moving, staying;
  int removal = 0;  // `moving` comes against its direction
  int wiped_mm = 0;
  std::vector<int> joints;
};

struct PlannedStep {
  plan::StepKind kind = plan::StepKind::spread;
  int start_s = 0, end_s = 0;
  std::vector<int> people;  // from 1
  int joint = -1;           // spread
  int join = -1;            // join: index into Schedule::joins
  int group = -1;           // snug, tighten
  int ring = -1;            // check, and the wait before it: whose; -1: the inside check
  bool inside_check = false;
};

struct JointClock {
  int spread_start_s = 0, spread_end_s = 0, joined_s = 0, held_s = 0;
  int used_open_s = 0, used_total_s = 0;
  int slack_s = 0;  // smaller remainder of open, total and the shared budget's closed time
};

// Less is left of the joint's open time than of its total.
inline bool open_binds(const JointTime& time, const JointClock& used) {
  return time.open_s - used.used_open_s <= time.total_s - used.used_total_s;
}

// Why no order is told.
enum class NoOrder {
  locked,     // no movement takes the units apart
  too_heavy,  // every order has a join that nobody can lift
  stopped,    // by hand, before one was found
  cut_short   // none was found within the effort
};

struct Schedule {
  // proven: no schedule has more slack (in steps). bounded: none has more than bound_s. impossible:
  // no order at all, see no_order. A negative slack is a schedule that overruns by so much.
  plan::Proof status = plan::Proof::impossible;
  NoOrder no_order = NoOrder::stopped;  // of impossible: why
  std::vector<int> locked;              // impossible: the units that cannot be parted
  std::optional<int> bound_s;
  bool ties_settled =
      false;  // the best order and the shortest makespan of that slack are proven too
  int slack_s = 0, makespan_s = 0;
  // Later than this it can't be pulled apart: the least, over the joints, of spread start and open
  // time, or half the total time where that is more and it was closed in time (our choice).
  int pull_apart_by_s = 0;
  std::vector<PlannedJoin> joins;  // in order
  std::vector<PlannedStep> steps;  // by start, then person
  std::vector<JointClock> clocks;  // as joints
  int tightest = -1;               // joint with the least slack, lowest index; -1: none glued
  std::int64_t nodes = 0;

  bool in_time() const { return status != plan::Proof::impossible && slack_s >= 0; }
  // What a trial of its problem, changed, is worth.
  Effort trial_effort() const {
    return status == plan::Proof::bounded ? Effort::glance() : Effort::trial();
  }
};

// The schedule with most slack; among those by problem.ties; same result on every machine.
// REQUIRES: joints' spread_s > 0, people 1 to 4.
Schedule solve_schedule(const ScheduleProblem& problem, const Effort& effort = {},
                        KnownAssemblies known = {});

// Whether some schedule leaves no joint past its time; unknown: not within the effort.
enum class Fits { yes, no, unknown };
Fits fits_in_time(const ScheduleProblem& problem, const Effort& effort = {},
                  KnownAssemblies known = {});

// The slack of a joint whose spreading, joining and holding took place at these times.
int slack_of(const JointTime& joint, int spread_start_s, int joined_s, int held_s);

}  // namespace planner::order
