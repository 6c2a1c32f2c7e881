// The ways of taking groups of units in two, each described once for all who ask.
#pragma once
#include <deque>
#include <limits>
#include <memory>
#include <optional>
#include <span>
#include <unordered_map>
#include <vector>

#include "planner/order/assembly_splits.h"

namespace planner::order {

// A group taken into two. Putting it together again is the join: `moving` (0: first, 1: second)
// comes to the other against removals[removal].direction.
struct Split {
  base::UnitSet first, second;  // first holds the lower lowest unit
  int first_id = 0, second_id = 0;
  int moving = 0, removal = 0;
  int wiped_mm = 0;             // beyond the joints' own depth, summed over the pairs
  int out_of_order = 0;         // pairs (i in first, j in second) with i after j in the job's order
  std::span<const int> joints;  // what closes, ascending; as long as the graph lives
};

// Units that can stand for one another (shelves, legs) are explored once: a group is known by its
// canonical form, in which the lowest of each such kind stand for the others.
class WaysApart {
 public:
  // Ways apart by geometry alone: whether the halves come apart themselves isn't asked.
  struct Ways {
    std::vector<Split> splits;  // by `first`; the ids are numbers of forms
    std::vector<std::size_t>
        order;                // indices of splits, likeliest first: see AssemblyGraph::splits
    bool complete = true;     // false: a limit on the ways tried cut them short
    std::vector<int> joints;  // what the splits' own point into
  };

  // REQUIRES: problem.units between 1 and UnitSet::kCapacity, at most kMaxRemovals removals.
  explicit WaysApart(AssemblyProblem problem);
  WaysApart(const WaysApart&) = delete;
  WaysApart& operator=(const WaysApart&) = delete;

  const AssemblyProblem& problem() const { return problem_; }
  bool connected(const base::UnitSet& group) const { return finder_.connected(group); }

  // The number of the group's canonical form, from 0 in the order in which they were first met.
  int form_of(const base::UnitSet& group);
  const base::UnitSet& units_of(int form) const { return at(form).units; }
  const Ways& ways(int form);

  // Work done so far, by whoever asks for ways apart: in units of about ten nanoseconds, counted by what
  // was looked at, so that a limit on it gives the same answer on every machine. Once it is spent, or
  // somebody asks for an end, only the first few ways apart of a group are looked for.
  void work(double units) { done_ += units; }
  double done() const { return done_; }
  double left() const { return most_ - done_; }
  void grant(double units) { most_ = done_ + units; }
  bool spent() const { return done_ >= most_ || base::stop_requested(problem_.stop); }

  // The units of `group` that stand where those of `subset` stand in the group's form.
  base::UnitSet realise(const base::UnitSet& group, int form, const base::UnitSet& subset) const;

 private:
  struct Form {
    base::UnitSet units;
    std::optional<Ways> ways;
  };
  struct Hash {
    std::size_t operator()(const base::UnitSet& s) const { return s.hash(); }
  };
  // Of each unit, by the other one of the pair: few pairs of many are joined or wipe.
  struct JointWith {
    int other, joint;
  };
  struct WipeOn {
    int other, mm;
  };

  const Form& at(int form) const { return forms_[static_cast<std::size_t>(form)]; }
  base::UnitSet canonical(const base::UnitSet& group) const;
  void list_wipes();
  int wiped(int removal, const base::UnitSet& a, const base::UnitSet& b) const;
  int out_of_order(const base::UnitSet& a, const base::UnitSet& b) const;
  void choose_removal(Split& split, const RemovalSet& ways) const;
  void add_joints(const Split& split, std::vector<int>& joints) const;
  Split describe(const base::UnitSet& group, const RawSplit& raw);
  Ways find(const base::UnitSet& group);

  AssemblyProblem problem_;
  SplitFinder finder_;
  std::deque<Form> forms_;  // which stay where they are while more are met
  std::unordered_map<base::UnitSet, int, Hash> numbers_;
  std::vector<base::UnitSet> alike_;  // units that may stand for one another
  base::UnitSet replaceable_;         // all units of these
  std::vector<std::vector<JointWith>> joints_of_;
  std::vector<std::vector<WipeOn>> wipes_on_;  // [removal * units + unit that leaves]
  double done_ = 0, most_ = std::numeric_limits<double>::infinity();
};

// Whoever solves one job again and again with other glue, people or paces hands this on: problems
// that are equal as assemblies get the same ways apart. Copies share what is known, of the last few
// assemblies.
class KnownAssemblies {
 public:
  std::shared_ptr<WaysApart> ways_apart(AssemblyProblem problem);

  // What all who solved with these have done (WaysApart::work).
  void add_work(double units) { known_->done += units; }
  double work_done() const { return known_->done; }

 private:
  struct Known {
    std::deque<std::shared_ptr<WaysApart>> ways;
    double done = 0;
  };
  std::shared_ptr<Known> known_ = std::make_shared<Known>();
};

}  // namespace planner::order
