// What the pressure of a glue line costs: building its system, one clamp's influence, and the
// clamps pressed with springs that can open; beside a dense solve of the same equations.
#include <Eigen/Dense>
#include <vector>

#include "bench/table.h"
#include "planner/pressure/pressure_line.h"
#include "planner/pressure/pressure_mesh.h"
#include "planner/pressure/pressure_plate.h"

namespace {

using namespace planner;

const WoodStiffness kOak{13750, 2117.5, 1127.5, 1223.75, 1113.75, 275, 0.35, 0.448, 0.56};

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
  Eigen::VectorXd f = Eigen::VectorXd::Zero(springs.freedoms);
  for (const NodeLoad& load : mesh.loads(pushes))
    f(load.freedom) += load.force_N;
  volatile double kept = 0;
  for (int i = 0; i < rounds; ++i)
    kept = k.ldlt().solve(f).sum();
  (void)kept;
}

void show(const std::string& name, const StackLine& line, const std::vector<Push>& pushes) {
  const StackSystem system{.lines = {line}, .ties = {}};
  const PressureSystem built(system);
  const int rounds = built.press(pushes).rounds;
  const double whole = bench::median_ms([&] {
    const PressureSystem one(system);
    one.influence_MPa(pushes);
    one.press(pushes);
  });
  const double dense = bench::median_ms([&] { solve_densely(system, pushes, rounds); });
  bench::row_beside(name + ", " + std::to_string(rounds) + " rounds", "0.3 ms", whole,
                    "the same finite elements, dense", dense);
}

std::vector<double> even_spots(double length_mm, int clamps) {
  std::vector<double> spots;
  for (int i = 0; i < clamps; ++i)
    spots.push_back((i + 0.5) * length_mm / clamps);
  return spots;
}

void show_edge(const std::string& name, double length_mm, int clamps, double width_mm) {
  const LineModuli oak = moduli_in(kOak, kBoardPressedOnEdge);
  const EdgePanel panel = edge_panel(length_mm, std::vector<EdgeBoard>(2, {width_mm, 19, oak}));
  std::vector<Push> pushes;
  for (const double x : even_spots(length_mm, clamps))
    for (const Push& push : edge_clamp(panel, 0, x, 30, 1000))
      pushes.push_back(push);
  show(name, panel.line, pushes);
}

void show_panel(const std::string& name, double bow_mm) {
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
  const double ms = bench::median_ms([&] { FaceSystem(plate).press(pushes); });
  bench::row("lamination 600 x 120, 6 cauls, every 10 mm", "60 ms", bench::ms(ms));
}

}  // namespace

int main() {
  show_edge("glue line of 600 mm, 4 clamps, all closed", 600, 4, 100);
  show_edge("glue line of 1200 mm, 3 clamps, parts open", 1200, 3, 60);
  show_panel("panel on a strip of 360 mm", 0);
  show_panel("the same, bowed by 1 mm", 1);
  show_face();
}
