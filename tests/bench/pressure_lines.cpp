// What the pressure of a glue line costs: building its system, one clamp's influence, and the
// clamps pressed with springs that can open; beside a dense solve of the same equations.
//   pressure_lines
#include <Eigen/Dense>
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <vector>

#include "planner/pressure_line.h"
#include "planner/pressure_mesh.h"
#include "planner/pressure_plate.h"

namespace {

using namespace planner;

const WoodStiffness kOak{13750, 2117.5, 1127.5, 1223.75, 1113.75, 275, 0.35, 0.448, 0.56};

// Median of the wall times of some runs, ms.
template <class Work>
double median_ms(const Work& work) {
  using Clock = std::chrono::steady_clock;
  std::vector<double> times;
  for (int i = 0; i < 21; ++i) {
    const Clock::time_point start = Clock::now();
    work();
    times.push_back(std::chrono::duration<double, std::milli>(Clock::now() - start).count());
  }
  std::nth_element(times.begin(), times.begin() + 10, times.end());
  return times[10];
}

// The same equations as a full matrix, factored once for the influence and once more a round.
void solve_densely(const StackSystem& system, const std::vector<Push>& pushes, int rounds) {
  const StackMesh mesh(system);
  const SpringSystem& springs = mesh.springs();
  Eigen::MatrixXd k = Eigen::MatrixXd::Zero(springs.freedoms, springs.freedoms);
  for (const BeamElement& e : springs.beams) {
    const BeamMatrix one = beam_stiffness(e.layer, e.length_mm);
    for (std::size_t r = 0; r < 4; ++r)
      for (std::size_t c = 0; c < 4; ++c)
        k(e.freedoms[r], e.freedoms[c]) += one[r][c];
  }
  for (const NodeSpring& s : springs.springs) {
    k(s.upper, s.upper) += s.stiffness_N_mm;
    if (s.lower == kBase)
      continue;
    k(s.lower, s.lower) += s.stiffness_N_mm;
    k(s.upper, s.lower) -= s.stiffness_N_mm;
    k(s.lower, s.upper) -= s.stiffness_N_mm;
  }
  const std::vector<double> load = mesh.load_N(pushes);
  const Eigen::Map<const Eigen::VectorXd> f(load.data(), static_cast<Eigen::Index>(load.size()));
  volatile double kept = 0;
  for (int i = 0; i < rounds; ++i)
    kept = k.ldlt().solve(f).sum();
  (void)kept;
}

void show(const char* name, const StackLine& line, const std::vector<Push>& pushes) {
  const StackSystem system{.lines = {line}, .ties = {}};
  const PressureSystem built(system);
  const int rounds = built.press(pushes).rounds;
  const double whole = median_ms([&] {
    const PressureSystem one(system);
    one.influence_MPa(pushes);
    one.press(pushes);
  });
  const double influence = median_ms([&] { built.influence_MPa(pushes); });
  const double dense = median_ms([&] { solve_densely(system, pushes, rounds); });
  std::printf(
      "%-34s %8.3f ms a line, %.3f ms a candidate more, %d rounds; dense %.1f times as long\n",
      name, whole, influence, rounds, dense / whole);
}

std::vector<double> even_spots(double length_mm, int clamps) {
  std::vector<double> spots;
  for (int i = 0; i < clamps; ++i)
    spots.push_back((i + 0.5) * length_mm / clamps);
  return spots;
}

void show_edge(const char* name, double length_mm, int clamps, double width_mm) {
  const LineModuli oak = moduli_in(kOak, kBoardPressedOnEdge);
  const EdgePanel panel = edge_panel(length_mm, std::vector<EdgeBoard>(2, {width_mm, 19, oak}));
  std::vector<Push> pushes;
  for (const double x : even_spots(length_mm, clamps))
    for (const Push& push : edge_clamp(panel, 0, x, 30, 1000))
      pushes.push_back(push);
  show(name, panel.line, pushes);
}

void show_panel(const char* name, double bow_mm) {
  PanelOnStrip joint;
  joint.length_mm = 360;
  joint.panel_thickness_mm = joint.strip_width_mm = 19;
  joint.panel_reach_mm = 130;
  joint.mating_depth_mm = 100;
  joint.panel = moduli_in(kOak, kPanelGrainAlongLine);
  joint.mating = moduli_in(kOak, kBoardPressedOnEdge);
  joint.clamps = 3;
  joint.bow_mm = bow_mm;
  std::vector<Push> pushes;
  for (const double x : even_spots(360, 3))
    pushes.push_back(panel_clamp(joint, 0, x, 30, 600));
  show(name, panel_line(joint), pushes);
}

void show_face() {
  FacePlate plate;
  plate.length_mm = 600;
  plate.width_mm = 120;
  plate.thickness_mm = 19;
  plate.moduli = moduli_in(kOak, kPanelGrainAlongLine);
  std::vector<FacePush> pushes;
  for (int n = 0; n < 6; ++n) {
    plate.cauls.push_back(
        {CaulRun::crosswise, 50 + 100.0 * n, {38, 38, moduli_in(kOak, kBoardPressedOnEdge)}});
    for (const double y : {0.0, 120.0})
      pushes.push_back({n, 0, y, 30, 30, 1500});
  }
  int rounds = 0;
  const double ms = median_ms([&] { rounds = FaceSystem(plate).press(pushes).rounds; });
  std::printf("%-34s %8.1f ms a face, %d rounds\n", "lamination 600 x 120, 6 cauls, 10 mm", ms,
              rounds);
}

}  // namespace

int main() {
  show_edge("edge 600, 4 clamps, all closed", 600, 4, 100);
  show_edge("edge 1200, 3 clamps, parts open", 1200, 3, 60);
  show_panel("panel on a strip 360", 0);
  show_panel("the same, bowed 1 mm", 1);
  show_face();
}
