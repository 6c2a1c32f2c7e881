#include "planner/pressure/pressure_system.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>
#include <random>
#include <vector>

#include <doctest/doctest.h>

#include "planner/pressure/pressure_line.h"
#include "planner/pressure/pressure_profile.h"

TEST_SUITE_BEGIN("planner/pressure_system");

namespace planner::pressure {
namespace {

// Hetenyi, Beams on Elastic Foundation (1946): the set k = 10 N/mm2, E I = 1e9 N mm2, P = 1000 N,
// whose rows were worked out and solved again as boundary-value problems (docs/clamping.md).
constexpr double kFoundation_MPa = 10, kBending_Nmm2 = 1e9, kLoad_N = 1000;
const double kBeta = std::pow(kFoundation_MPa / (4 * kBending_Nmm2), 0.25);

StackSystem foundation_beam(double length_mm, double step_mm) {
  StackLine line;
  line.length_mm = length_mm;
  line.step_mm = step_mm;
  line.layers = {{kBending_Nmm2}};
  line.beds.push_back({.stiffness_MPa = kFoundation_MPa, .width_mm = 1, .gaps = {}});
  return {.lines = {line}, .ties = {}, .springs = Springs::consistent};
}

// Bilateral deflections at the nodes, from pressures on a foundation 1 mm wide.
std::vector<double> deflections_mm(double length_mm, double step_mm, std::vector<double> loads_at) {
  const PressureSystem system(foundation_beam(length_mm, step_mm));
  std::vector<Push> pushes;
  for (const double x : loads_at)
    pushes.push_back({{0, 0, x}, 0, kLoad_N});
  std::vector<double> y = system.influence_MPa(pushes);
  for (double& value : y)
    value /= kFoundation_MPa;
  return y;
}

// Moment about node `at` of the foundation's reaction to its left, by Simpson's rule.
double reaction_moment(const std::vector<double>& y, std::size_t at, double step_mm) {
  double sum = 0;
  for (std::size_t i = 0; i <= at; ++i) {
    const double weight = i == 0 || i == at ? 1 : (i % 2 == 1 ? 4 : 2);
    sum += weight * kFoundation_MPa * y[i] * static_cast<double>(at - i) * step_mm;
  }
  return sum * step_mm / 3;
}

// Outside, closed form: Hetenyi, Beams on Elastic Foundation (1946): infinite beam, y = P beta / 2k
TEST_CASE("Hetenyi: a long beam under one force spreads it as the closed form says") {
  const double step = 3 * std::numbers::pi / (4 * kBeta) / 160;  // the zero falls on a node
  const double length = 3200 * step;
  const std::vector<double> y = deflections_mm(length, step, {length / 2});
  REQUIRE(y.size() == 3201);
  CHECK(y[1600] == doctest::Approx(0.353553390593).epsilon(1e-6));
  CHECK(std::abs(y[1600 + 160]) < 1e-6 * y[1600]);
  CHECK(160 * step == doctest::Approx(333.216).epsilon(1e-6));
  CHECK(reaction_moment(y, 1600, step) == doctest::Approx(35355.339059).epsilon(1e-6));
}

// Outside, closed form: Hetenyi, Beams on Elastic Foundation (1946): semi-infinite beam, y = 2 P beta / k
TEST_CASE("Hetenyi: a long beam pressed at its end") {
  const double step = std::numbers::pi / (4 * kBeta) / 60;
  const double length = 3000 * step;
  const std::vector<double> y = deflections_mm(length, step, {0});
  CHECK(y[0] == doctest::Approx(1.41421356237).epsilon(1e-6));
  CHECK(std::abs(y[120]) < 1e-6 * y[0]);
  const double moment = kLoad_N * 60 * step - reaction_moment(y, 60, step);
  const double closed_form = kLoad_N / kBeta * std::exp(-std::numbers::pi / 4) * std::sqrt(0.5);
  CHECK(moment == doctest::Approx(closed_form).epsilon(1e-6));
  CHECK(moment == doctest::Approx(0.3224 * kLoad_N / kBeta).epsilon(2e-5));  // as printed, rounded
}

// Outside, closed form: Hetenyi, Beams on Elastic Foundation (1946): finite beam with free ends
TEST_CASE("Hetenyi: short beams under a middle force") {
  struct Row {
    double length_mm, middle_mm, end_mm, moment_Nmm;
  };
  for (const Row row :
       {Row{100, 1.003119, 0.995322, 12482.67}, Row{200, 0.524267, 0.463702, 24461.53},
        Row{400, 0.385910, 0.054975, 38197.37}, Row{600, 0.379143, -0.092345, 36772.52}}) {
    CAPTURE(row.length_mm);
    const double step = row.length_mm / 160;
    const std::vector<double> y = deflections_mm(row.length_mm, step, {row.length_mm / 2});
    REQUIRE(y.size() == 161);
    CHECK(std::abs(y[80] - row.middle_mm) < 1e-6);
    CHECK(std::abs(y[0] - row.end_mm) < 1e-6);
    CHECK(y[160] == doctest::Approx(y[0]));
    CHECK(reaction_moment(y, 80, step) == doctest::Approx(row.moment_Nmm).epsilon(1e-6));
  }
}

// Outside, closed form: Hetenyi, Beams on Elastic Foundation (1946): equal forces at equal distances
TEST_CASE("Hetenyi: equal clamps on a long beam press as evenly as their spacing allows") {
  struct Row {
    double beta_s, under_clamp, midway;
  };
  for (const Row row :
       {Row{1.0, 1.0055, 0.9952}, Row{1.5, 1.0278, 0.9757}, Row{2.0, 1.0856, 0.9254},
        Row{2.5, 1.1987, 0.8283}, Row{3.0, 1.3781, 0.6775}, Row{std::numbers::pi, 1.4407, 0.6260},
        Row{4.0, 1.8978, 0.2735}, Row{5.0, 2.4769, -0.0796}}) {
    CAPTURE(row.beta_s);
    constexpr int kClamps = 41, kNodes = 80;  // nodes a spacing
    const double spacing = row.beta_s / kBeta, step = spacing / kNodes;
    std::vector<double> at;
    for (int i = 0; i < kClamps; ++i)
      at.push_back((i + 0.5) * spacing);
    const std::vector<double> y = deflections_mm(kClamps * spacing, step, at);
    const double mean = kLoad_N / spacing / kFoundation_MPa;
    const std::size_t middle = (y.size() - 1) / 2;
    CHECK(std::abs(y[middle] / mean - row.under_clamp) < 6e-5);
    CHECK(std::abs(y[middle + kNodes / 2] / mean - row.midway) < 6e-5);
  }
}

// Outside, closed form: Hetenyi, Beams on Elastic Foundation (1946): infinite beam
TEST_CASE("Hetenyi: lumped springs come within a hundredth of the closed form") {
  StackSystem system = foundation_beam(3000, 10);
  system.springs = Springs::lumped;
  const std::vector<Push> pushes{{{0, 0, 1500}, 0, kLoad_N}};
  const PressureSystem solved(system);
  const std::vector<double> p = solved.influence_MPa(pushes);
  CHECK(*std::max_element(p.begin(), p.end()) == doctest::Approx(3.53553).epsilon(0.01));
}

// --- Properties over random stacks ---------------------------------------------------------------

struct RandomStack {
  StackSystem system;
  std::vector<Push> clamps;
  double force_N = 0, moment_Nmm = 0;
};

class Dice {
 public:
  explicit Dice(unsigned seed) : from_(seed) {}
  double real(double low,
              double high) {  // std::uniform_real_distribution differs between libraries
    return low + (high - low) * static_cast<double>(from_() >> 5) / 134217728.0;
  }
  int whole(int low, int high) {
    return low + static_cast<int>(from_() % static_cast<unsigned>(high - low + 1));
  }

 private:
  std::mt19937 from_;
};

LineModuli random_wood(Dice& dice) {
  LineModuli m;
  m.E_x_MPa = dice.real(8000, 16000);
  m.E_y_MPa = m.E_x_MPa * dice.real(0.05, 0.2);
  m.E_z_MPa = m.E_x_MPa * dice.real(0.03, 0.1);
  m.G_xz_MPa = m.E_x_MPa * dice.real(0.04, 0.12);
  m.nu_xz = 0.4;
  return m;
}

void add_clamp(RandomStack& stack, const std::vector<Push>& pushes) {
  stack.clamps.insert(stack.clamps.end(), pushes.begin(), pushes.end());
  stack.force_N += pushes.front().force_N;
  stack.moment_Nmm += pushes.front().force_N * pushes.front().at.x_mm;
}

RandomStack random_edge_panel(Dice& dice) {
  std::vector<EdgeBoard> boards;
  for (int n = dice.whole(2, 6); n > 0; --n)
    boards.push_back({dice.real(30, 180), dice.real(12, 40), random_wood(dice)});
  const double length = dice.real(200, 1500);
  const EdgePanel panel = edge_panel(length, boards);
  RandomStack stack;
  stack.system.lines = {panel.line};
  for (int n = dice.whole(1, 6); n > 0; --n)
    add_clamp(stack,
              edge_clamp(panel, 0, dice.real(0, length), dice.real(0, 80), dice.real(100, 5000)));
  return stack;
}

RandomStack random_panel_line(Dice& dice) {
  PanelOnStrip joint;
  joint.length_mm = dice.real(150, 900);
  joint.panel_thickness_mm = dice.real(9, 30);
  joint.lip_thickness_mm = joint.panel_thickness_mm * dice.real(0.4, 1);
  joint.strip_width_mm = dice.real(8, 40);
  joint.panel_reach_mm = joint.strip_width_mm + dice.real(20, 300);
  joint.mating_depth_mm = dice.real(20, 200);
  joint.panel = random_wood(dice);
  joint.mating = random_wood(dice);
  joint.clamps = dice.whole(1, 6);
  joint.bow_mm = dice.whole(0, 2) == 0 ? dice.real(-1, 1) : 0;
  if (dice.whole(0, 1) == 1)
    joint.caul = Caul{dice.real(20, 60), dice.real(20, 80), random_wood(dice)};
  RandomStack stack;
  stack.system.lines = {panel_line(joint)};
  for (int n = joint.clamps; n > 0; --n)
    add_clamp(stack, {panel_clamp(joint, 0, dice.real(0, joint.length_mm), dice.real(10, 60),
                                  dice.real(100, 5000))});
  return stack;
}

TEST_CASE("force in is force out through every layer, and so is its moment: 2000 random stacks") {
  Dice dice(1);
  for (int n = 0; n < 2000; ++n) {
    CAPTURE(n);
    const RandomStack stack = n % 2 == 0 ? random_edge_panel(dice) : random_panel_line(dice);
    const StackLine& line = stack.system.lines[0];
    const PressureSystem system(stack.system);
    const ContactSolution pressed = system.press(stack.clamps);
    REQUIRE(pressed.settled);
    for (std::size_t bed = 0; bed < line.beds.size(); ++bed) {
      const LineProfile profile = profile_of(0, static_cast<int>(bed), system.samples(),
                                             pressed.pressure_MPa, pressed.gap_mm);
      REQUIRE(std::abs(profile.force_N - stack.force_N) < 1e-9 * stack.force_N);
      const double off = profile.centre_mm * profile.force_N - stack.moment_Nmm;
      REQUIRE(std::abs(off) < 1e-9 * stack.force_N * line.length_mm);
    }
    for (std::size_t i = 0; i < pressed.gap_mm.size(); ++i)
      REQUIRE((pressed.pressure_MPa[i] == 0 || pressed.gap_mm[i] == 0));
    REQUIRE(*std::min_element(pressed.pressure_MPa.begin(), pressed.pressure_MPa.end()) >= 0);
  }
}

TEST_CASE(
    "influences add up, and are the pressure itself wherever nothing opens: 2000 random stacks") {
  Dice dice(2);
  int all_closed = 0;
  for (int n = 0; n < 2000; ++n) {
    CAPTURE(n);
    const RandomStack stack = n % 2 == 0 ? random_edge_panel(dice) : random_panel_line(dice);
    const PressureSystem system(stack.system);
    std::vector<double> sum = system.pressure_at_rest_MPa();
    double largest = 0;
    for (const Push& push : stack.clamps) {
      const std::vector<double> one = system.influence_MPa({&push, 1});
      for (std::size_t i = 0; i < sum.size(); ++i)
        sum[i] += one[i];
    }
    const std::vector<double> together = system.influence_MPa(stack.clamps);
    for (const double p : together)
      largest = std::max(largest, std::abs(p));
    for (std::size_t i = 0; i < sum.size(); ++i)
      REQUIRE(std::abs(system.pressure_at_rest_MPa()[i] + together[i] - sum[i]) < 1e-7 * largest);
    if (*std::min_element(sum.begin(), sum.end()) < 0)
      continue;
    ++all_closed;
    const ContactSolution pressed = system.press(stack.clamps);
    CHECK(pressed.rounds == 1);
    for (std::size_t i = 0; i < sum.size(); ++i)
      REQUIRE(std::abs(pressed.pressure_MPa[i] - sum[i]) < 1e-7 * largest);
  }
  CHECK(all_closed > 100);
}

TEST_CASE("mirrored clamps give mirrored pressure: 2000 random stacks") {
  Dice dice(3);
  for (int n = 0; n < 2000; ++n) {
    CAPTURE(n);
    const RandomStack stack = n % 2 == 0 ? random_edge_panel(dice) : random_panel_line(dice);
    const PressureSystem system(stack.system);
    std::vector<Push> mirrored = stack.clamps;
    for (Push& push : mirrored)
      push.at.x_mm = stack.system.lines[0].length_mm - push.at.x_mm;
    const ContactSolution a = system.press(stack.clamps), b = system.press(mirrored);
    const double largest = *std::max_element(a.pressure_MPa.begin(), a.pressure_MPa.end());
    std::size_t from = 0;
    while (from < system.samples().size()) {  // bed by bed
      std::size_t to = from;
      while (to < system.samples().size() && system.samples()[to].bed == system.samples()[from].bed)
        ++to;
      for (std::size_t i = from; i < to; ++i)
        REQUIRE(std::abs(a.pressure_MPa[i] - b.pressure_MPa[to - 1 - (i - from)]) < 1e-6 * largest);
      from = to;
    }
  }
}

// --- Rims
// ------------------------------------------------------------------------------------------

// A lid 360 x 260 on four walls: long lines over the corners, short ones between them.
StackSystem lid_rim() {
  PanelOnStrip joint;
  joint.length_mm = 360;
  joint.panel_thickness_mm = joint.strip_width_mm = 19;
  joint.panel_reach_mm = 130;
  joint.mating_depth_mm = 100;
  joint.panel = {10000, 900, 1500, 800, 900, 200, 0.4, 0.35, 0.5};
  joint.mating = {10000, 1500, 900, 900, 800, 200, 0.35, 0.4, 0.5};
  joint.clamps = 3;
  StackLine along = panel_line(joint);
  joint.length_mm = 260 - 2 * 19;
  StackLine across = panel_line(joint);
  StackSystem rim{.lines = {along, along, across, across}, .ties = {}};
  const double far = joint.length_mm;
  rim.ties = {{{0, 0, 9.5}, {2, 0, 0}},
              {{0, 0, 350.5}, {3, 0, 0}},
              {{1, 0, 9.5}, {2, 0, far}},
              {{1, 0, 350.5}, {3, 0, far}}};
  return rim;
}

double rim_force_N(const PressureSystem& system, const ContactSolution& pressed) {
  double sum = 0;
  for (std::size_t i = 0; i < pressed.pressure_MPa.size(); ++i)
    sum += pressed.pressure_MPa[i] * system.samples()[i].length_mm * system.samples()[i].width_mm;
  return sum;
}

TEST_CASE("a clamp over a lid's corner feeds both lines there, and its force counts once") {
  const PressureSystem system(lid_rim());
  const std::vector<Push> corner{{{0, 0, 9.5}, 30, 2000}};
  std::vector<Push> corners;
  for (const int line : {0, 1})
    for (const double x : {9.5, 350.5})
      corners.push_back({{line, 0, x}, 30, 2000});
  const auto shares = [&](const std::vector<Push>& clamps) {
    const ContactSolution pressed = system.press(clamps);
    REQUIRE(pressed.settled);
    const double pushed_N = 2000.0 * static_cast<double>(clamps.size());
    CHECK(std::abs(rim_force_N(system, pressed) - pushed_N) < 1e-9 * pushed_N);
    std::vector<double> forces;
    for (const int line : {0, 1, 2, 3})
      forces.push_back(
          profile_of(line, 0, system.samples(), pressed.pressure_MPa, pressed.gap_mm).force_N);
    return forces;
  };
  const std::vector<double> one = shares(corner), four = shares(corners);
  CHECK(one[2] > 200);  // the lid tips, and the short wall's end takes what it can
  CHECK(one[1] + one[3] < 1);
  CHECK(four[0] == doctest::Approx(four[1]).epsilon(1e-7));
  CHECK(four[2] == doctest::Approx(four[3]).epsilon(1e-7));
  CHECK(four[2] > 800);
  CHECK(four[0] > four[2]);  // the long wall runs under the corner itself
}

TEST_CASE("a rim pressed alike on all sides stays its own mirror image") {
  const PressureSystem system(lid_rim());
  std::vector<Push> clamps;
  for (const int line : {0, 1})
    for (const double x : {60.0, 180.0, 300.0})
      clamps.push_back({{line, 0, x}, 35, 2000});
  for (const int line : {2, 3})
    clamps.push_back({{line, 0, 111}, 35, 2000});
  const ContactSolution pressed = system.press(clamps);
  REQUIRE(pressed.settled);
  CHECK(rim_force_N(system, pressed) == doctest::Approx(16000).epsilon(1e-9));
  const auto profile = [&](int line) {
    return profile_of(line, 0, system.samples(), pressed.pressure_MPa, pressed.gap_mm);
  };
  CHECK(profile(0).min_MPa == doctest::Approx(profile(1).min_MPa).epsilon(1e-7));
  CHECK(profile(2).min_MPa == doctest::Approx(profile(3).min_MPa).epsilon(1e-7));
  CHECK(profile(0).centre_mm == doctest::Approx(180).epsilon(1e-7));
}

TEST_CASE("a line glued only in its middle is pressed only there") {
  StackSystem system = lid_rim();
  system.lines.resize(1);
  system.ties.clear();
  system.lines[0].beds[0].from_mm = 130;
  system.lines[0].beds[0].to_mm = 230;
  const PressureSystem solved(system);
  CHECK(solved.samples().front().x_mm == doctest::Approx(130));
  CHECK(solved.samples().back().x_mm == doctest::Approx(230));
  const ContactSolution pressed = solved.press(std::vector<Push>{{{0, 0, 180}, 35, 2000}});
  CHECK(rim_force_N(solved, pressed) == doctest::Approx(2000).epsilon(1e-9));
}

TEST_CASE("a bow takes its beam's force before any reaches the middle of the line") {
  // Simply supported beam, force at the middle: closes a parabola of rise e when P = 48 E I e /
  // L^3.
  StackLine line;
  line.length_mm = 400;
  line.step_mm = 5;
  line.layers = {{1e9}};
  line.beds.push_back({.stiffness_MPa = 4000, .width_mm = 20, .gaps = {{0.5, 400}}});
  const PressureSystem system({.lines = {line}, .ties = {}});
  const double closes_N = 48 * 1e9 * 0.5 / (400.0 * 400 * 400);
  const auto middle_gap = [&](double force_N) {
    const ContactSolution pressed = system.press(std::vector<Push>{{{0, 0, 200}, 0, force_N}});
    REQUIRE(pressed.settled);
    return pressed.gap_mm[40];
  };
  CHECK(middle_gap(0.5 * closes_N) == doctest::Approx(0.25).epsilon(0.05));
  CHECK(middle_gap(0.9 * closes_N) > 0);
  CHECK(middle_gap(1.3 * closes_N) == 0);
}

}  // namespace
}  // namespace planner::pressure

TEST_SUITE_END();
