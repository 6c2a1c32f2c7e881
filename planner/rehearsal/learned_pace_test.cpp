#include "planner/rehearsal/learned_pace.h"

#include <doctest/doctest.h>

#include "planner/files/shop_file.h"

using namespace planner;
using namespace planner::rehearsal;

namespace {

plan::Step step(int n, plan::StepKind kind, double start_s, double end_s) {
  plan::Step s;
  s.n = n;
  s.kind = kind;
  s.start_s = start_s;
  s.end_s = end_s;
  return s;
}

work::Joint joint_between(work::PartId a, work::PartId b, work::JointKind kind) {
  work::Joint joint;
  joint.kind = kind;
  joint.parts = {a, b};
  work::GlueFace face;
  face.contact.length_mm = 304.8;
  face.contact.width_mm = 19;
  face.contact.normal = {0, 0, 1};
  joint.faces = {face};
  return joint;
}

// Three joins of boards of 2 ft at 20 s each, one of two tongues at 30, a check at 45, two clamps.
plan::Plan plan_of_joins() {
  plan::Plan plan;
  for (int part = 0; part < 5; ++part) {
    plan::PlanPart board;
    board.bounds = {{0, 0, 0}, {600, 100, 20}};
    plan.parts.push_back(board);
  }
  plan.joints = {joint_between(0, 1, work::JointKind::rabbet),
                 joint_between(1, 2, work::JointKind::rabbet),
                 joint_between(2, 3, work::JointKind::rabbet),
                 joint_between(3, 4, work::JointKind::dado),
                 joint_between(0, 4, work::JointKind::dado)};
  plan::Stage stage;
  stage.steps = {step(1, plan::StepKind::join, 0, 20), step(2, plan::StepKind::join, 20, 40),
                 step(3, plan::StepKind::join, 40, 60), step(4, plan::StepKind::join, 60, 90),
                 step(5, plan::StepKind::check, 90, 135), step(6, plan::StepKind::snug, 135, 165)};
  stage.steps[0].joints = {0};
  stage.steps[1].joints = {1};
  stage.steps[2].joints = {2};
  stage.steps[3].joints = {3, 4};
  stage.steps[4].check = plan::Check::outside_diagonals;
  stage.steps[5].clamps = {1, 2};
  for (int n = 1; n <= 2; ++n) {
    plan::PlannedClamp clamp;
    clamp.n = n;
    clamp.kind = "f_heavy";
    stage.clamps.push_back(clamp);
  }
  plan.stages = {stage};
  return plan;
}

std::vector<LogLine> log_of(std::vector<double> ends) {
  const plan::Plan plan = plan_of_joins();
  std::vector<LogLine> log;
  double start = 0;
  for (std::size_t i = 0; i < ends.size(); ++i) {
    const plan::Step& s = plan.stages[0].steps[i];
    log.push_back({s.n, s.start_s, s.end_s, start, ends[i], ""});
    start = ends[i];
  }
  return log;
}

PaceChange change(const char* key, const char* to) {
  return {key, 0, 0, "", to, 3, 0};
}
PaceChange join_at_30() {
  return change("join", "30 s");
}

}  // namespace

TEST_SUITE("planner/learned_pace") {
  TEST_CASE("the pace learned is the middle one, whatever one slip took") {
    // Joins took 22, 24 and 66 s; the one of two tongues 45, one and a half times as long as planned.
    const auto changes =
        learn_pace(plan_of_joins(), log_of({22, 46, 112, 157, 193, 217}), work::Pace{});
    REQUIRE(changes.size() == 4);
    CHECK(changes[0].key == "join");
    CHECK(changes[0].old_value == 20);
    CHECK(changes[0].new_value == doctest::Approx(27));  // of 22, 24, 30 and 66
    CHECK(changes[0].seen == 4);
    CHECK(changes[1].key == "next");
    CHECK(changes[1].new_value == doctest::Approx(15));
    CHECK(changes[2].key == "check");
    CHECK(changes[2].new_text == "36 s");
    CHECK(changes[3].key == "snug.f_heavy");
    CHECK(changes[3].new_text == "12 s");
  }

  TEST_CASE("pins, screws, weights, the bag, folding and rubbing teach their own keys") {
    plan::Plan plan;
    plan.joints = {joint_between(0, 1, work::JointKind::rabbet),
                   joint_between(1, 2, work::JointKind::mitre),
                   joint_between(2, 3, work::JointKind::edge)};
    plan.parts.resize(4);
    plan.joints[1].held_by = work::HeldBy::tape;
    plan.joints[2].held_by = work::HeldBy::hand;
    const auto learned_of = [&](plan::StepKind kind, work::JointId joint, double planned_s,
                                double taken_s) {
      plan::Plan one = plan;
      plan::Stage stage;
      stage.steps = {step(1, kind, 0, planned_s)};
      stage.steps[0].joints = {joint};
      stage.fastenings = {{0, 1, one.joints[0].held_by, std::vector<geometry::Point>(6), 100}};
      stage.loadings = {{one.joints[0].held_by, {0}, 4, 40, 0.01}};
      one.stages = {stage};
      return learn_pace(one, std::vector<LogLine>{{1, 0, planned_s, 0, taken_s, ""}}, work::Pace{});
    };
    const auto check = [](const std::vector<PaceChange>& changes, const char* key, double value) {
      REQUIRE(!changes.empty());
      CHECK(changes[0].key == key);
      CHECK(changes[0].new_value == doctest::Approx(value));
    };
    plan.joints[0].held_by = work::HeldBy::pins;
    check(learned_of(plan::StepKind::fasten, 0, 30, 60), "pin", 10);
    plan.joints[0].held_by = work::HeldBy::screws;
    check(learned_of(plan::StepKind::fasten, 0, 60, 90), "screw", 15);
    plan.joints[0].held_by = work::HeldBy::weights;
    check(learned_of(plan::StepKind::load, 0, 20, 40), "weight", 10);
    plan.joints[0].held_by = work::HeldBy::vacuum;
    const auto bag = learned_of(plan::StepKind::load, 0, 180, 270);
    check(bag, "bag", 180);
    REQUIRE(bag.size() == 2);
    CHECK(bag[1].key == "pump");
    CHECK(bag[1].new_value == doctest::Approx(90));
    check(learned_of(plan::StepKind::join, 1, 10, 20), "fold", 20);
    check(learned_of(plan::StepKind::join, 2, 5, 10), "rub", 10);
  }

  TEST_CASE("turning, tightening, cauls, easing and spreading teach theirs, waiting nothing") {
    const work::Pace pace;
    const auto learned_of = [&](plan::StepKind kind, double planned_s) {
      plan::Plan plan = plan_of_joins();
      plan.stages[0].steps = {step(1, kind, 0, planned_s)};
      plan.stages[0].steps[0].joints = {0};
      return learn_pace(plan, std::vector<LogLine>{{1, 0, planned_s, 0, 2 * planned_s, ""}}, pace);
    };
    const auto check = [&](plan::StepKind kind, const char* key, double pace_s) {
      const std::vector<PaceChange> changes = learned_of(kind, pace_s);
      REQUIRE(changes.size() == 1);
      CHECK(changes[0].key == key);
      CHECK(changes[0].new_value == doctest::Approx(2 * pace_s));
    };
    check(plan::StepKind::turn, "turn", pace.turn_s);
    check(plan::StepKind::tighten, "tighten", pace.tighten_s);
    check(plan::StepKind::cauls, "caul_pair", pace.caul_pair_s);
    check(plan::StepKind::ease, "flush", pace.flush_s);
    CHECK(!learned_of(plan::StepKind::spread, 10).empty());
    CHECK(learned_of(plan::StepKind::wait, 10).empty());
  }

  TEST_CASE("of a shop that has one pace for all clamps that one is learned") {
    work::Pace pace;
    pace.any_snug_s = 15;
    const auto changes = learn_pace(plan_of_joins(), log_of({20, 40, 60, 90, 135, 159}), pace);
    CHECK(changes.back().key == "snug");
  }

  TEST_CASE("a telephone call in the middle of a step teaches nothing") {
    const auto changes = learn_pace(plan_of_joins(), log_of({30, 60, 360}), work::Pace{});
    REQUIRE(changes.size() == 1);
    CHECK(changes[0].new_value == doctest::Approx(30));
    CHECK(changes[0].ignored == 1);
  }

  TEST_CASE("steps side by side teach nothing") {
    plan::Plan plan = plan_of_joins();
    plan.stages[0].steps[1].start_s = 0;
    const auto changes = learn_pace(plan, log_of({30, 60}), work::Pace{});
    CHECK(changes.empty());
  }

  TEST_CASE("the shop file keeps every byte but the pace's") {
    const std::string before = "# ours\r\nunits = \"in\"\r\n\r\n[pace]   # by hand\r\n";
    const std::string after = "  join  = '25 s'  # slow\r\nsnug.sash = '9 s'\r\ncheck = \"45 s\"\r\n";
    const auto text = with_pace("shop.toml", before + after,
                                std::vector{join_at_30(), change("snug.sash", "12 s")});
    REQUIRE(text);
    CHECK(*text ==
          before + "  join  = '30 s'  # slow\r\nsnug.sash = '12 s'\r\ncheck = \"45 s\"\r\n");
  }

  TEST_CASE("a key by its old name keeps it") {
    const auto text = with_pace("s", "units = 'mm'\n[pace]\nplace = '25 s'\n", std::vector{join_at_30()});
    CHECK(text.value_or("refused") == "units = 'mm'\n[pace]\nplace = '30 s'\n");
  }

  TEST_CASE("a missing key goes under [pace], a missing [pace] to the end") {
    const std::string clamps = "[[clamp]]\nkind = 'f_heavy'\ncount = 1\nopening = 600\n";
    CHECK(with_pace("s", "units = 'mm'\n[pace]\ncheck = '9 s'\n" + clamps, std::vector{join_at_30()})
              .value_or("refused") ==
          "units = 'mm'\n[pace]\njoin = \"30 s\"\ncheck = '9 s'\n" + clamps);
    CHECK(with_pace("s", "units = 'mm'", std::vector{change("snug.sash", "30 s")})
              .value_or("refused") == "units = 'mm'\n\n[pace]\nsnug.sash = \"30 s\"\n");
  }

  TEST_CASE("a pace written in a way that can't be changed safely is left alone") {
    CHECK_FALSE(
        with_pace("s", "units = 'mm'\npace = { check = '9 s' }\n", std::vector{join_at_30()})
            .has_value());
    CHECK_FALSE(
        with_pace("s", "units = 'mm'\npace.join = \"\"\"25 s\"\"\"\n", std::vector{join_at_30()})
            .has_value());
  }

  TEST_CASE("the median of an even number is the mean of the middle two") {
    CHECK(median({9, 1, 3, 5}) == 4);
    CHECK(median({9, 1, 3}) == 3);
  }
}
