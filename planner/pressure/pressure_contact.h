// Beams and plates held by springs that can push and not pull: the equations behind every pressure,
// and which springs hold. What the beams and springs stand for is the business of pressure_mesh
// (lines) and pressure_plate (faces).
#pragma once
#include <array>
#include <cstddef>
#include <memory>
#include <span>
#include <vector>

#include "planner/pressure/pressure_beam.h"

namespace planner::pressure {

inline constexpr int kBase = -1;  // in place of a degree of freedom: the rigid base

// A degree of freedom, node or line as a place in a vector; not kBase.
inline std::size_t at(int i) {
  return static_cast<std::size_t>(i);
}

// A spring that can open: what lies around a node.
struct NodeSpring {
  int upper = 0, lower = kBase;  // the deflections it joins
  double stiffness_N_mm = 0, gap_mm = 0;
  double area_mm2 = 0;  // that its force presses
};

// A beam between two nodes: its degrees of freedom (w1, theta1, w2, theta2).
struct BeamElement {
  std::array<int, 4> freedoms{};
  BeamLayer layer;
  double length_mm = 0;
};

// One addend of the symmetric stiffness matrix, row >= column.
struct MatrixEntry {
  int row = 0, column = 0;
  double value = 0;
};

// A force on one degree of freedom; more than one on the same add up.
struct NodeLoad {
  int freedom = 0;
  double force_N = 0;
};
using NodeLoads = std::vector<NodeLoad>;

struct SpringSystem {
  int freedoms = 0;
  bool numbered_along = false;  // neighbours have near numbers: factors in that order stay sparse
  std::vector<BeamElement> beams;
  std::vector<NodeSpring> springs;
  std::vector<MatrixEntry> fixed;    // what is neither a beam nor a spring that can open
  std::vector<double> fixed_load_N;  // a value a degree of freedom
  bool springs_hold = true;          // false: they carry nothing and only tell the closing there
};

// A value a spring.
struct ContactSolution {
  std::vector<double> pressure_MPa;  // 0 where open
  std::vector<double> gap_mm;        // what stays open, 0 where closed
  int rounds = 0;                    // systems solved
  bool settled = false;  // false: no set of holding springs was found in the round limit
};

class ContactSolver {
 public:
  explicit ContactSolver(SpringSystem system);
  ContactSolver(ContactSolver&&) noexcept;
  ContactSolver& operator=(ContactSolver&&) noexcept;
  ~ContactSolver();

  // With every spring holding, pull as well as push: under no force, and what a load adds.
  const std::vector<double>& pressure_at_rest_MPa() const;
  std::vector<double> influence_MPa(const NodeLoads& load) const;
  // Of many loads at once, each for itself: quicker than one by one.
  std::vector<std::vector<double>> influences_MPa(std::span<const NodeLoads> loads) const;

  // With springs that cannot pull. REQUIRES: springs_hold.
  ContactSolution press(const NodeLoads& load) const;

 private:
  struct Model;
  std::unique_ptr<Model> model_;
};

}  // namespace planner::pressure
