// The statics of mitres against frames solved by finite elements with contact and friction
// (CalculiX 2.20; tests/reference/mitre_cases.json says how).
#include <array>
#include <cmath>
#include <fstream>
#include <numbers>
#include <string>

#include <doctest/doctest.h>
#include <nlohmann/json.hpp>

#include "planner/pressure/mitre_press.h"
#include "tests/source_dir.h"

namespace planner::pressure {
namespace {

using nlohmann::json;

constexpr double kCos45 = std::numbers::sqrt2 / 2;
constexpr double kRight = std::numbers::pi / 2, kHex = std::numbers::pi / 3;
constexpr double kClose = 0.002;  // of the force: springs of the cases' restraints take that much

const json& cases() {
  static const json all =
      json::parse(std::ifstream(source_dir() + "/tests/reference/mitre_cases.json"));
  return all["cases"];
}

// Bars in line with the rails: what each axis is pressed with in the end, after any sliding.
std::array<double, 2> axis_forces(const json& one) {
  if (one.contains("axis_forces_after_N")) {
    return {one["axis_forces_after_N"][0], one["axis_forces_after_N"][1]};
  }
  return {one["params"]["Fx"], one["params"]["Fy"]};
}

bool bars_in_line(const json& one) {
  const json& p = one["params"];
  return p.contains("Fx") && p["Fx"].is_number() && !p.contains("at");
}

bool begins(const json& one, const char* what) {
  return one["id"].get<std::string>().rfind(what, 0) == 0;
}

void check_normal(const json& one, double expected) {
  for (const json& face : one["faces"]) {
    CAPTURE(one["id"].get<std::string>());
    CHECK(face["N_N"].get<double>() == doctest::Approx(expected).epsilon(kClose));
  }
}

}  // namespace

TEST_SUITE("planner/mitre_reference") {
  // Outside, solver: CalculiX 2.20 with friction (mitre_cases.json): normal forces
  TEST_CASE("bars on both axes press a mitre with their sum over the root of two") {
    int seen = 0;
    for (const json& one : cases()) {
      if (bars_in_line(one)) {
        const auto [x, y] = axis_forces(one);
        check_normal(one, mitre_force(x, y, kCos45, kCos45).normal_N);
        ++seen;
      }
    }
    CHECK(seen >= 28);
  }
  // Outside, solver: CalculiX 2.20 with friction (mitre_cases.json): which frames slide
  TEST_CASE("a mitre slides exactly where the axes differ by more than friction of their sum") {
    for (const json& one : cases()) {
      if (bars_in_line(one)) {
        const json& p = one["params"];
        const MitreForce planned = mitre_force(p["Fx"], p["Fy"], kCos45, kCos45);
        CAPTURE(one["id"].get<std::string>());
        CHECK(slides(planned, p["mu"]) == one["slides_freely"].get<bool>());
      }
    }
  }
  // Outside, solver: CalculiX 2.20 with friction (mitre_cases.json): frames between unlike bars
  TEST_CASE("each corner of bars unlike one another has its own normal force and shear") {
    for (const json& one : cases()) {
      if (begins(one, "g_two_bars")) {
        for (std::size_t i = 0; i < 4; ++i) {
          const MitreForce f =
              mitre_force(one["params"]["Fx"][i < 2 ? 0 : 1], one["params"]["Fy"], kCos45, kCos45);
          CHECK(one["faces"][i]["N_N"].get<double>() ==
                doctest::Approx(f.normal_N).epsilon(0.005));
          CHECK(one["faces"][i]["shear_ratio"].get<double>() ==
                doctest::Approx(f.shear_N / f.normal_N).epsilon(0.02));
        }
      }
    }
  }
  // Outside, solver: CalculiX 2.20 with friction (mitre_cases.json): straps bare and over notched cauls
  TEST_CASE("straps: T cos(pi/n) bare, T / cos(pi/n) under notched cauls") {
    for (const json& one : cases()) {
      if (begins(one, "d_bare_even") || begins(one, "d_bare_patch") || begins(one, "m_d")) {
        check_normal(one, 1000 * bare_strap_share(kRight));
      } else if (begins(one, "h_hex_bare_even")) {
        check_normal(one, 1000 * bare_strap_share(kHex));
      } else if (begins(one, "e_") && !begins(one, "e_blocks_capstan")) {
        check_normal(one, 1000 * notched_strap_share(kRight));
      } else if (begins(one, "h_hex_blocks")) {
        check_normal(one, 1000 * notched_strap_share(kHex));
      }
    }
  }
  // Outside, solver: CalculiX 2.20 with friction (mitre_cases.json): a strap that slides round corners
  TEST_CASE("friction takes from a strap's corners: the mean of the two legs presses, less where they slide") {
    const double leg = std::exp(-0.3 * kRight);
    for (const json& one : cases()) {
      if (begins(one, "d_bare_capstan_mu0.3")) {
        const double near = 1000 * (1 + leg) / 2, far = near * leg;
        CHECK(one["faces"][0]["N_N"].get<double>() ==
              doctest::Approx(near * bare_strap_share(kRight)).epsilon(0.08));
        CHECK(one["faces"][2]["N_N"].get<double>() ==
              doctest::Approx(far * bare_strap_share(kRight)).epsilon(0.08));
      }
    }
  }
  // Outside, solver: CalculiX 2.20 with friction (mitre_cases.json): bars beside their rails
  TEST_CASE("bars off their rails move the resultant towards the heel; beyond a third of the width it opens") {
    for (const json& one : cases()) {
      const bool holds = begins(one, "f_pos20") || begins(one, "f_pos30") || begins(one, "f_pos40");
      if (!holds) {
        continue;
      }
      const double off = one["params"]["pos"].get<double>() - 20;
      const std::array<FrameBar, 2> bars{{{off, 360}, {off, 260}}};
      const json& face = one["faces"][0];
      CHECK(face["resultant_at"].get<double>() ==
            doctest::Approx(mitre_resultant(bars, 40)).epsilon(0.05));
      CHECK((off <= mitre_reach_mm(40)) == (face["open_share"].get<double>() < 0.1));
    }
  }
}

}  // namespace planner::pressure
