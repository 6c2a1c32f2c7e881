// Systems of springs that were built before, and what each push on them does: the trials of a stage set up
// the same lines over and over, for other needs and other racks.
#pragma once
#include <cstddef>
#include <deque>
#include <memory>
#include <span>
#include <vector>

#include "planner/pressure/pressure_line.h"

namespace planner::clamps::axis {

class KnownSystem {
 public:
  explicit KnownSystem(pressure::StackSystem stack) : stack_(std::move(stack)), system_(stack_) {}

  const pressure::StackSystem& stack() const { return stack_; }
  const pressure::PressureSystem& system() const { return system_; }

  // What each entry's pushes add to the pressure at rest, MPa at each sample. Solved for once; valid until
  // the system goes.
  std::vector<const double*> influences_MPa(std::span<const std::vector<pressure::Push>> pushes);

  std::size_t values() const { return influences_.size() * system_.samples().size(); }  // kept

 private:
  pressure::StackSystem stack_;
  pressure::PressureSystem system_;
  std::vector<std::vector<pressure::Push>> pushes_;
  std::deque<std::vector<double>> influences_;  // of each; they stay where they are
};

// As many as a bound on memory allows: then the oldest goes, for whom it isn't in use.
class KnownSystems {
 public:
  std::shared_ptr<KnownSystem> of(pressure::StackSystem stack);

 private:
  static constexpr std::size_t kMostValues = 2'000'000;  // 16 MB
  std::deque<std::shared_ptr<KnownSystem>> known_;
};

}  // namespace planner::clamps::axis
