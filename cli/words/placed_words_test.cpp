#include "cli/words/placed_words.h"

#include <doctest/doctest.h>

#include "cli/text/sample_plan.h"

using namespace cli;
using namespace cli::words;
using planner::plan::PlacedTrial;
using planner::plan::StarvedJoint;

TEST_SUITE("cli/placed_words") {
  TEST_CASE("of many joints that fare alike their number is told, not each name") {
    const planner::plan::Plan plan = text::sample::chest();
    PlacedTrial trial;
    for (int i = 0; i < 7; ++i) {
      trial.findings.emplace_back(StarvedJoint{});
    }
    CHECK(finding_texts(plan, trial) ==
          std::vector<std::string>{"the 7 joints that are not held, below: no pressure at all"});
    trial.findings.resize(1);
    CHECK(finding_texts(plan, trial).front().ends_with(": no pressure at all"));
  }
}
