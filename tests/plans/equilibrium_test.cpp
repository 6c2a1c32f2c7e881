// Load paths through whole assemblies: of every plan of the fixtures, on every axis with larger
// faces, what the clamps press into a part is what its glue lines carry on. From the plan and the
// solids alone.
#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include <doctest/doctest.h>

#include "fixture_plan.h"
#include "geometry/crossing.h"
#include "planner/clamps/axis/pressing_axes.h"
#include "planner/work/part_solid.h"

using namespace planner;

namespace {

using geometry::Direction;

// Force along the axis on each part of a stage, from jaws and lines; and the sum of all clamps.
struct Balance {
  std::map<work::PartId, double> force_N;
  double clamped_N = 0;
};

bool same_axis(const Direction& a, const Direction& b) {
  return std::abs(dot(a, b)) > 0.9998;
}

// Of each part, what it is one piece with when the stage begins, told by its first part.
std::vector<work::PartId> pieces_before(const FixturePlan& f, const plan::Stage& stage) {
  std::vector<work::PartId> piece(f.plan.parts.size());
  std::iota(piece.begin(), piece.end(), work::PartId{0});
  for (const plan::Stage& earlier : f.plan.stages) {
    if (&earlier == &stage) {
      break;
    }
    for (const work::JointId joint : earlier.joints) {
      const auto [a, b] = f.plan.joints[joint].parts;
      std::ranges::replace(piece, std::max(piece[a], piece[b]), std::min(piece[a], piece[b]));
    }
  }
  return piece;
}

Balance balance_of(const FixturePlan& f, const std::vector<geometry::Solid>& solids,
                   const plan::Stage& stage, const Direction& axis) {
  Balance out;
  const std::vector<work::PartId> piece = pieces_before(f, stage);
  std::vector<geometry::Solid> work;
  for (const work::PartId part : stage.parts) {
    work.push_back(solids[part]);
  }
  for (const plan::PlannedClamp& clamp : stage.clamps) {
    if (same_axis(clamp.axis, axis)) {
      const auto path = geometry::crossings(work, clamp.at, clamp.axis);
      REQUIRE_FALSE(path.empty());
      out.force_N[piece[stage.parts[path.front().solid]]] += clamp.force_N;
      out.force_N[piece[stage.parts[path.back().solid]]] -= clamp.force_N;
      out.clamped_N += clamp.force_N;
    }
  }
  for (const plan::LinePressure& line : f.plan.pressure) {
    const work::Joint& joint = f.plan.joints[line.joint];
    const bool here =
        std::find(stage.joints.begin(), stage.joints.end(), line.joint) != stage.joints.end();
    if (!here || !same_axis(line.axis, axis)) {
      continue;
    }
    const geometry::Contact& contact = joint.faces[line.face].contact;
    const double tilt = dot(contact.normal, axis);
    const double force = line.mean_MPa * contact.area_mm2 * std::abs(tilt);
    const bool first_low = tilt > 0;  // the normal looks out of the first part
    out.force_N[piece[joint.parts[first_low ? 0 : 1]]] -= force;
    out.force_N[piece[joint.parts[first_low ? 1 : 0]]] += force;
  }
  return out;
}

}  // namespace

TEST_SUITE("plans/equilibrium") {
  TEST_CASE("every part of every plan is in balance: force in is force out") {
    int parts = 0;
    for (const char* job : {"hive_tool_chest", "benchtop_panel", "brood_box", "captured_bottom_box",
                            "tool_drawer", "shelf_and_sides", "bent_runner"}) {
      for (const char* shop : {"enough.toml", ""}) {
        const FixturePlan& f = fixture_plan(job, shop);
        const auto solids = work::make_solids(f.job.parts);
        for (const plan::Stage& stage : f.plan.stages) {
          for (const clamps::axis::RoundAxis& round :
               clamps::axis::round_axes(f.plan.joints, stage.joints, f.job)) {
            if (round.seat()) {
              continue;
            }
            const Balance balance = balance_of(f, solids, stage, round.axis);
            for (const auto& on : balance.force_N) {
              const auto& [part, force] = on;
              CAPTURE(std::string(job));
              CAPTURE(std::string(shop));
              CAPTURE(f.job.parts[on.first].name);
              CAPTURE(round.axis.x);
              CAPTURE(round.axis.y);
              CAPTURE(round.axis.z);
              CHECK(std::abs(force) <= 1e-6 * balance.clamped_N + 1e-6);
              ++parts;
            }
          }
        }
      }
    }
    CHECK(parts > 50);
  }

  // The middle third: textbook statics.
  TEST_CASE("no plan's own clamps press a joint outside its middle third") {
    for (const char* job : {"hive_tool_chest", "benchtop_panel", "brood_box", "captured_bottom_box",
                            "tool_drawer", "shelf_and_sides", "bent_runner"}) {
      for (const plan::LinePressure& line : fixture_plan(job, "enough.toml").plan.pressure) {
        if (line.level != plan::Level::seat && line.level != plan::Level::short_of_hold) {
          CAPTURE(job);
          CHECK(std::abs(line.off_mm[0]) <= line.size_mm[0] / 6 + 1e-6);
          CHECK(std::abs(line.off_mm[1]) <= line.size_mm[1] / 6 + 1e-6);
        }
      }
    }
  }

  TEST_CASE("bars across a panel stand above and below in turn") {
    const auto clamps = fixture_plan("benchtop_panel", "").along(1);
    REQUIRE(clamps.size() > 2);
    for (std::size_t i = 1; i < clamps.size(); ++i) {
      CHECK(clamps[i]->bar_side.z * clamps[i - 1]->bar_side.z < 0);
    }
  }
}
