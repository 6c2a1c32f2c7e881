// A stack system cut into beam elements: degrees of freedom, springs and the entries of its
// stiffness matrix, without a way to solve it (pressure_system.cpp does).
#pragma once
#include <array>
#include <span>
#include <vector>

#include "planner/pressure_system.h"

namespace planner {

inline constexpr int kBase = -1;  // in place of a degree of freedom: the rigid base

// A spring that can open: a bed gathered at a node.
struct NodeSpring {
  int upper = 0, lower = kBase;  // the deflections it joins
  double stiffness_N_mm = 0, gap_mm = 0;
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

class StackMesh {
 public:
  explicit StackMesh(const StackSystem& system);

  int freedoms() const { return freedoms_; }
  const std::vector<BedSample>& samples() const { return samples_; }
  // One a sample, in the same order. With consistent springs they only read the deflections.
  const std::vector<NodeSpring>& springs() const { return springs_; }
  const std::vector<BeamElement>& elements() const { return elements_; }
  // What is neither beam nor a spring that can open: consistent springs, pins of floating stacks.
  const std::vector<MatrixEntry>& fixed_entries() const { return fixed_entries_; }
  // What the gaps push through consistent springs.
  const std::vector<double>& gap_load_N() const { return gap_load_N_; }
  // Nodal forces of the pushes; force and moment are kept exactly.
  std::vector<double> load_N(std::span<const Push> pushes) const;

 private:
  struct Line {
    std::vector<double> nodes_mm;
    std::vector<BeamLayer> layers;
    int first = 0;  // number of the first layer's first node
    int node(int layer, int i) const;
    int nearest(double x_mm) const;
    int element_at(double x_mm) const;
  };

  void cut(const StackSystem& system);
  void number(const std::vector<Tie>& ties);
  void add_beams();
  void add_springs(const StackSystem& system);
  void add_consistent(const StackSystem& system);
  void add_consistent(const Line& line, int upper_layer, int element, const SpringBed& bed);
  void pin_floating_stacks(const StackSystem& system);
  void add(int row, int column, double value);
  std::array<int, 4> freedoms_of(const Line& line, int layer, int i) const;
  void push_point(std::vector<double>& f, const Push& push, double x_mm, double force_N) const;

  std::vector<Line> lines_;
  std::vector<int> deflection_, rotation_;  // degree of freedom of every node; tied nodes share one
  int freedoms_ = 0;
  std::vector<BedSample> samples_;
  std::vector<NodeSpring> springs_;
  std::vector<BeamElement> elements_;
  std::vector<MatrixEntry> fixed_entries_;
  std::vector<double> gap_load_N_;
};

}  // namespace planner
