// A stack system cut into beam elements and springs, for pressure_contact to solve.
#pragma once
#include <array>
#include <span>
#include <vector>

#include "planner/pressure/pressure_system.h"

namespace planner::pressure {

// The beam's nodes: 0, the line's length, every place that must be a node, and even steps between.
// Ascending; places nearer than 1 nm to one another are one.
std::vector<double> beam_nodes(const StackLine& line, std::vector<double> must_be_nodes_mm);

class StackMesh {
 public:
  explicit StackMesh(const StackSystem& system);

  const std::vector<BedSample>& samples() const { return samples_; }
  // A spring a sample, in the same order.
  const SpringSystem& springs() const { return system_; }
  // Nodal forces of the pushes; force and moment are kept exactly.
  NodeLoads loads(std::span<const Push> pushes) const;

 private:
  struct Line {
    std::vector<double> nodes_mm;
    std::vector<BeamLayer> layers;  // and after them the beams beside
    std::size_t stacked = 0;        // how many of them are layers
    int first = 0;                  // number of the first layer's first node
    int node(int layer, int i) const;
    int nearest(double x_mm) const;
    int element_at(double x_mm) const;
  };

  void cut(const StackSystem& system);
  void number(const std::vector<Tie>& ties);
  std::vector<std::size_t> nodes_along() const;
  void add_beams();
  void add_springs(const StackSystem& system);
  void add_couplings(const StackSystem& system);
  void add_consistent(const StackSystem& system);
  void add_consistent(const Line& line, int upper_layer, int element, const SpringBed& bed);
  void pin_floating_stacks(const StackSystem& system);
  void add(int row, int column, double value);
  std::array<int, 4> freedoms_of(const Line& line, int layer, int i) const;
  // On a layer's element: (w1, theta1, w2, theta2) of a point force.
  BeamVector point_load(const Push& push, int element, double x_mm, double force_N) const;

  std::vector<Line> lines_;
  std::vector<int> deflection_, rotation_;  // degree of freedom of every node; tied nodes share one
  std::vector<BedSample> samples_;
  SpringSystem system_;
};

}  // namespace planner::pressure
