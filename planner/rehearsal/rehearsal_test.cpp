#include "planner/rehearsal/rehearsal.h"

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

// Three parts placed at 25 s each, the last one closing at 45, a check at 45.
plan::Plan plan_of_joins() {
  plan::Plan plan;
  plan::Stage stage;
  stage.steps = {step(1, plan::StepKind::join, 0, 25), step(2, plan::StepKind::join, 25, 50),
                 step(3, plan::StepKind::join, 50, 75), step(4, plan::StepKind::join, 75, 120),
                 step(5, plan::StepKind::check, 120, 165)};
  plan.stages = {stage};
  return plan;
}

std::vector<rehearsal::LogLine> log_of(std::vector<double> ends) {
  const plan::Plan plan = plan_of_joins();
  std::vector<rehearsal::LogLine> log;
  double start = 0;
  for (std::size_t i = 0; i < ends.size(); ++i) {
    const plan::Step& s = plan.stages[0].steps[i];
    log.push_back({s.n, s.start_s, s.end_s, start, ends[i], ""});
    start = ends[i];
  }
  return log;
}

rehearsal::PaceChange place_at_30() {
  return {"place", 25, 30, "25 s", "30 s", 3, 0};
}

}  // namespace

TEST_SUITE("planner/rehearsal") {
  TEST_CASE("a log line is read as it was written") {
    const rehearsal::LogLine line{7, 60, 95.5, 61.2, 99, "lost\tthe mallet\nagain"};
    const std::string text = to_text(line);
    CHECK(text == "7\t60\t95.5\t61.2\t99\tlost the mallet again\n");
    const rehearsal::LogReading read = rehearsal::read_log("log", text);
    REQUIRE(read.lines.size() == 1);
    CHECK(read.lines[0].n == 7);
    CHECK(read.lines[0].end_s == 99);
    CHECK(read.lines[0].note == "lost the mallet again");
  }

  TEST_CASE("a line that a kill cut off is left out, and the last of two lines counts") {
    const rehearsal::LogReading read =
        rehearsal::read_log("log", "# for people\n1\t0\t5\t0\t6\t\n1\t0\t5\t0\t7\t\n2\t5\t1");
    CHECK(read.diagnostics.empty());
    REQUIRE(read.lines.size() == 1);
    CHECK(read.lines[0].end_s == 7);
  }

  TEST_CASE(
      "the bench sheet's log is read: no line end behind the last line, no end of the last step") {
    const rehearsal::LogReading read =
        rehearsal::read_log("log", "1\t0\t5\t0\t6\t\n2\t5\t10\t6\t\tstuck");
    CHECK(read.diagnostics.empty());
    REQUIRE(read.lines.size() == 2);
    CHECK_FALSE(read.lines[1].end_s.has_value());
    CHECK(read.lines[1].note == "stuck");
  }

  TEST_CASE("a line that is none is told by its number") {
    const rehearsal::LogReading read = rehearsal::read_log("log", "1\t0\t5\t0\t6\t\nhello\n");
    REQUIRE(read.diagnostics.size() == 1);
    CHECK(read.diagnostics[0].place.line == 2);
    CHECK(read.diagnostics[0].place.column == 1);
    CHECK(has_errors(
        rehearsal::read_log("log", "1\t0\t5\t9\t6\t\n").diagnostics));  // ends before it starts
    CHECK(has_errors(rehearsal::read_log("log", "1\t0\t5\t0\tnan\t\n").diagnostics));
  }

  TEST_CASE("the pace learned is the middle one, whatever one slip took") {
    // Places took 30, 32 and 90 s (3.6 times): the median is 32. Closing took 54, the check 36.
    const auto changes = learn_pace(plan_of_joins(), log_of({30, 62, 152, 206, 242}), work::Pace{});
    REQUIRE(changes.size() == 3);
    CHECK(changes[0].key == "place");
    CHECK(changes[0].new_value == doctest::Approx(32));
    CHECK(changes[0].seen == 3);
    CHECK(changes[1].key == "close");
    CHECK(changes[1].new_value == doctest::Approx(54));
    CHECK(changes[2].key == "check");
    CHECK(changes[2].new_text == "36 s");
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
    const std::string after = "  place  = '25 s'  # slow\r\ncheck = \"45 s\"\r\n";
    const auto text = with_pace("shop.toml", before + after, std::vector{place_at_30()});
    REQUIRE(text);
    CHECK(*text == before + "  place  = '30 s'  # slow\r\ncheck = \"45 s\"\r\n");
  }

  TEST_CASE("a missing key goes under [pace], a missing [pace] to the end") {
    const std::string clamps = "[[clamp]]\nkind = 'f_heavy'\ncount = 1\nopening = 600\n";
    CHECK(
        with_pace("s", "units = 'mm'\n[pace]\ncheck = '9 s'\n" + clamps, std::vector{place_at_30()})
            .value_or("refused") ==
        "units = 'mm'\n[pace]\nplace = \"30 s\"\ncheck = '9 s'\n" + clamps);
    CHECK(with_pace("s", "units = 'mm'", std::vector{place_at_30()}).value_or("refused") ==
          "units = 'mm'\n\n[pace]\nplace = \"30 s\"\n");
  }

  TEST_CASE("a pace written in a way that can't be changed safely is left alone") {
    CHECK_FALSE(
        with_pace("s", "units = 'mm'\npace = { check = '9 s' }\n", std::vector{place_at_30()})
            .has_value());
    CHECK_FALSE(
        with_pace("s", "units = 'mm'\npace.place = \"\"\"25 s\"\"\"\n", std::vector{place_at_30()})
            .has_value());
  }

  TEST_CASE("the median of an even number is the mean of the middle two") {
    CHECK(rehearsal::median({9, 1, 3, 5}) == 4);
    CHECK(rehearsal::median({9, 1, 3}) == 3);
  }
}
