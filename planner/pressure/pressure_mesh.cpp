#include "planner/pressure/pressure_mesh.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>
#include <utility>

#include "planner/pressure/pressure_beam.h"

namespace planner::pressure {
namespace {

// Gauss, four points on [0, 1]: exact to degree 7, so for products of two cubic shapes.
constexpr std::array<double, 4> kGaussAt{0.069431844202973712, 0.33000947820757187,
                                         0.66999052179242813, 0.93056815579702629};
constexpr std::array<double, 4> kGaussWeight{0.17392742256872693, 0.32607257743127307,
                                             0.32607257743127307, 0.17392742256872693};

constexpr double kPoint_mm = 1e-3;  // a footprint shorter than this is a point

double overlap_mm(double from_a, double to_a, double from_b, double to_b) {
  return std::max(0.0, std::min(to_a, to_b) - std::max(from_a, from_b));
}

constexpr double kSameNode_mm = 1e-6;

// Fine enough that lumped springs are within a hundredth of the closed form; docs/clamping.md.
constexpr double kStepPerSpread = 0.15;

double longest_step_mm(const StackLine& line) {
  double step = line.step_mm;
  for (std::size_t i = 0; i < line.layers.size(); ++i) {
    const double below = i < line.beds.size() ? line.beds[i].stiffness_MPa : 0;
    const double above = i > 0 ? line.beds[i - 1].stiffness_MPa : 0;
    step = std::min(step, kStepPerSpread * spread_length_mm(line.layers[i], below + above));
  }
  return step;
}

// The halves of the elements beside node i that lie in [from, to].
double node_length_mm(const std::vector<double>& x, std::size_t i, double from, double to) {
  const double low = i > 0 ? (x[i - 1] + x[i]) / 2 : x[i];
  const double high = i + 1 < x.size() ? (x[i] + x[i + 1]) / 2 : x[i];
  return overlap_mm(low, high, from, to);
}

}  // namespace

std::vector<double> beam_nodes(const StackLine& line, std::vector<double> must_be_nodes_mm) {
  must_be_nodes_mm.push_back(0);
  must_be_nodes_mm.push_back(line.length_mm);
  std::sort(must_be_nodes_mm.begin(), must_be_nodes_mm.end());
  const double step = longest_step_mm(line);
  std::vector<double> nodes{0};
  for (const double end : must_be_nodes_mm) {
    const double start = nodes.back();
    if (end - start < kSameNode_mm)
      continue;
    const double pieces = std::ceil((end - start) / step - kSameNode_mm);
    for (double i = 1; i < pieces; ++i)
      nodes.push_back(start + (end - start) * i / pieces);
    nodes.push_back(end);
  }
  nodes.back() = line.length_mm;
  return nodes;
}

int StackMesh::Line::node(int layer, int i) const {
  return first + layer * static_cast<int>(nodes_mm.size()) + i;
}

int StackMesh::Line::nearest(double x_mm) const {
  const int i = element_at(x_mm);
  return x_mm - nodes_mm[at(i)] <= nodes_mm[at(i) + 1] - x_mm ? i : i + 1;
}

int StackMesh::Line::element_at(double x_mm) const {
  const auto beyond = std::upper_bound(nodes_mm.begin(), nodes_mm.end(), x_mm);
  const auto i = static_cast<int>(beyond - nodes_mm.begin()) - 1;
  return std::clamp(i, 0, static_cast<int>(nodes_mm.size()) - 2);
}

StackMesh::StackMesh(const StackSystem& system) {
  cut(system);
  number(system.ties);
  system_.fixed_load_N.assign(at(system_.freedoms), 0);
  add_beams();
  add_springs(system);
  add_couplings(system);
  system_.springs_hold = system.springs == Springs::lumped;
  if (!system_.springs_hold)
    add_consistent(system);
  pin_floating_stacks(system);
}

void StackMesh::cut(const StackSystem& system) {
  int first = 0;
  for (std::size_t n = 0; n < system.lines.size(); ++n) {
    const StackLine& line = system.lines[n];
    std::vector<double> must;
    for (const SpringBed& bed : line.beds) {
      must.push_back(std::clamp(bed.from_mm, 0.0, line.length_mm));
      must.push_back(std::clamp(bed.to_mm, 0.0, line.length_mm));
    }
    for (const Tie& tie : system.ties)
      for (const Spot& spot : {tie.a, tie.b})
        if (at(spot.line) == n)
          must.push_back(spot.x_mm);
    std::vector<BeamLayer> beams = line.layers;
    for (const BesideBeam& beside : line.beside)
      beams.push_back(beside.beam);
    lines_.push_back(
        {beam_nodes(line, std::move(must)), std::move(beams), line.layers.size(), first});
    first += static_cast<int>(lines_.back().nodes_mm.size() * lines_.back().layers.size());
  }
  deflection_.resize(at(first));
  rotation_.resize(at(first));
}

void StackMesh::number(const std::vector<Tie>& ties) {
  std::vector<std::size_t> leader(deflection_.size());
  std::iota(leader.begin(), leader.end(), std::size_t{0});
  const auto find = [&leader](std::size_t i) {
    while (leader[i] != i)
      i = leader[i];
    return i;
  };
  const auto node_at = [this](const Spot& spot) {
    const Line& line = lines_[at(spot.line)];
    return at(line.node(spot.layer, line.nearest(spot.x_mm)));
  };
  for (const Tie& tie : ties) {
    const std::size_t a = find(node_at(tie.a)), b = find(node_at(tie.b));
    leader[std::max(a, b)] = std::min(a, b);
  }
  system_.numbered_along = true;
  // A tied deflection is numbered with the last of its nodes: the lines before carry only it along,
  // not all that it is joined to.
  std::vector<std::size_t> still_to_come(leader.size(), 0);
  for (std::size_t i = 0; i < leader.size(); ++i)
    ++still_to_come[find(i)];
  for (const std::size_t i : nodes_along()) {
    if (--still_to_come[find(i)] == 0)
      deflection_[find(i)] = system_.freedoms++;
    rotation_[i] = system_.freedoms++;
  }
  for (std::size_t i = 0; i < leader.size(); ++i)
    deflection_[i] = deflection_[find(i)];
}

// Line by line, and in a line from end to end through all its layers: what a beam or spring joins
// is then only a few numbers apart.
std::vector<std::size_t> StackMesh::nodes_along() const {
  std::vector<std::size_t> nodes;
  nodes.reserve(deflection_.size());
  for (const Line& line : lines_)
    for (std::size_t i = 0; i < line.nodes_mm.size(); ++i)
      for (std::size_t layer = 0; layer < line.layers.size(); ++layer)
        nodes.push_back(at(line.node(static_cast<int>(layer), static_cast<int>(i))));
  return nodes;
}

std::array<int, 4> StackMesh::freedoms_of(const Line& line, int layer, int i) const {
  const std::size_t a = at(line.node(layer, i)), b = a + 1;
  return {deflection_[a], rotation_[a], deflection_[b], rotation_[b]};
}

void StackMesh::add(int row, int column, double value) {
  if (row >= column)
    system_.fixed.push_back({row, column, value});
}

void StackMesh::add_beams() {
  for (const Line& line : lines_)
    for (std::size_t layer = 0; layer < line.layers.size(); ++layer)
      for (std::size_t i = 0; i + 1 < line.nodes_mm.size(); ++i)
        system_.beams.push_back({freedoms_of(line, static_cast<int>(layer), static_cast<int>(i)),
                                 line.layers[layer], line.nodes_mm[i + 1] - line.nodes_mm[i]});
}

void StackMesh::add_springs(const StackSystem& system) {
  for (std::size_t n = 0; n < lines_.size(); ++n) {
    const std::vector<double>& x = lines_[n].nodes_mm;
    for (std::size_t b = 0; b < system.lines[n].beds.size(); ++b) {
      const SpringBed& bed = system.lines[n].beds[b];
      const bool on_base = b + 1 == lines_[n].stacked;
      for (std::size_t i = 0; i < x.size(); ++i) {
        const double length = node_length_mm(x, i, bed.from_mm, bed.to_mm);
        if (length < kPoint_mm)
          continue;
        const std::size_t upper = at(lines_[n].node(static_cast<int>(b), static_cast<int>(i)));
        const int lower = on_base ? kBase : deflection_[upper + x.size()];
        samples_.push_back({static_cast<int>(n), static_cast<int>(b), x[i], length, bed.width_mm});
        system_.springs.push_back({deflection_[upper], lower, bed.stiffness_MPa * length,
                                   bed.gap_mm(x[i]), length * bed.width_mm});
      }
    }
  }
}

void StackMesh::add_couplings(const StackSystem& system) {
  for (std::size_t n = 0; n < lines_.size(); ++n) {
    const Line& line = lines_[n];
    const std::vector<double>& x = line.nodes_mm;
    for (std::size_t b = 0; b < system.lines[n].beside.size(); ++b) {
      const BesideBeam& beside = system.lines[n].beside[b];
      for (std::size_t i = 0; i < x.size(); ++i) {
        const double k = beside.coupling_MPa * node_length_mm(x, i, 0, x.back());
        const int node = static_cast<int>(i);
        const int of_layer = deflection_[at(line.node(beside.layer, node))];
        const int of_beside = deflection_[at(line.node(static_cast<int>(line.stacked + b), node))];
        add(of_layer, of_layer, k);
        add(of_beside, of_beside, k);
        add(std::max(of_layer, of_beside), std::min(of_layer, of_beside), -k);
      }
    }
  }
}

void StackMesh::add_consistent(const StackSystem& system) {
  for (std::size_t n = 0; n < lines_.size(); ++n)
    for (std::size_t b = 0; b < system.lines[n].beds.size(); ++b) {
      const SpringBed& bed = system.lines[n].beds[b];
      const std::vector<double>& x = lines_[n].nodes_mm;
      for (std::size_t i = 0; i + 1 < x.size(); ++i)
        if (overlap_mm(x[i], x[i + 1], bed.from_mm, bed.to_mm) > (x[i + 1] - x[i]) / 2)
          add_consistent(lines_[n], static_cast<int>(b), static_cast<int>(i), bed);
    }
}

void StackMesh::add_consistent(const Line& line, int upper_layer, int i, const SpringBed& bed) {
  const bool on_base = at(upper_layer) + 1 == line.stacked;
  const double from = line.nodes_mm[at(i)], l = line.nodes_mm[at(i) + 1] - from;
  const auto upper = freedoms_of(line, upper_layer, i);
  const auto lower = on_base ? upper : freedoms_of(line, upper_layer + 1, i);
  for (std::size_t g = 0; g < kGaussAt.size(); ++g) {
    const double k = bed.stiffness_MPa * l * kGaussWeight[g];
    const double gap = bed.gap_mm(from + kGaussAt[g] * l);
    const BeamVector up = beam_shape(line.layers[at(upper_layer)], l, kGaussAt[g]);
    const BeamVector low =
        on_base ? BeamVector{} : beam_shape(line.layers[at(upper_layer) + 1], l, kGaussAt[g]);
    for (std::size_t r = 0; r < 4; ++r) {
      system_.fixed_load_N[at(upper[r])] += k * gap * up[r];
      system_.fixed_load_N[at(lower[r])] -= k * gap * low[r];
      for (std::size_t c = 0; c < 4; ++c) {
        add(upper[r], upper[c], k * up[r] * up[c]);
        if (on_base)
          continue;
        add(lower[r], lower[c], k * low[r] * low[c]);
        add(std::max(lower[r], upper[c]), std::min(lower[r], upper[c]), -k * low[r] * up[c]);
      }
    }
  }
}

// A stack pressed from both sides floats; two pins on its last layer take what equilibrium leaves
// for them, which is nothing.
void StackMesh::pin_floating_stacks(const StackSystem& system) {
  for (std::size_t n = 0; n < lines_.size(); ++n) {
    const StackLine& line = system.lines[n];
    if (line.beds.size() == line.layers.size())
      continue;
    double pin = 1;
    for (const SpringBed& bed : line.beds)
      pin = std::max(pin, bed.stiffness_MPa * line.length_mm);
    const int last = static_cast<int>(line.layers.size()) - 1;
    for (const int i : {0, static_cast<int>(lines_[n].nodes_mm.size()) - 1}) {
      const int dof = deflection_[at(lines_[n].node(last, i))];
      add(dof, dof, pin);
    }
  }
}

BeamVector StackMesh::point_load(const Push& push, int i, double x_mm, double force_N) const {
  const Line& line = lines_[at(push.at.line)];
  const double from = line.nodes_mm[at(i)], l = line.nodes_mm[at(i) + 1] - from;
  BeamVector load = beam_shape(line.layers[at(push.at.layer)], l, (x_mm - from) / l);
  for (double& f : load)
    f *= force_N;
  return load;
}

NodeLoads StackMesh::loads(std::span<const Push> pushes) const {
  NodeLoads f;
  for (const Push& push : pushes) {
    const Line& line = lines_[at(push.at.line)];
    const auto add_load = [&](int element, const BeamVector& load) {
      const auto freedoms = freedoms_of(line, push.at.layer, element);
      for (std::size_t r = 0; r < 4; ++r)
        f.push_back({freedoms[r], load[r]});
    };
    const std::vector<double>& x = line.nodes_mm;
    const double half = std::min({push.length_mm / 2, push.at.x_mm, x.back() - push.at.x_mm});
    if (half < kPoint_mm) {
      const int i = line.element_at(push.at.x_mm);
      add_load(i, point_load(push, i, push.at.x_mm, push.force_N));
      continue;
    }
    const double from = push.at.x_mm - half, to = push.at.x_mm + half;
    for (int i = line.element_at(from); i <= line.element_at(to); ++i) {
      const double begin = x[at(i)], end = x[at(i) + 1];
      const double a = std::max(from, begin), piece = overlap_mm(from, to, begin, end);
      BeamVector spread{};
      for (std::size_t g = 0; g < kGaussAt.size(); ++g) {
        const BeamVector load = point_load(push, i, a + piece * kGaussAt[g],
                                           push.force_N * kGaussWeight[g] * piece / (to - from));
        for (std::size_t r = 0; r < 4; ++r)
          spread[r] += load[r];
      }
      add_load(i, spread);
    }
  }
  return f;
}

}  // namespace planner::pressure
