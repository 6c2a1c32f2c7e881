#include "planner/make_plan.h"

#include <doctest/doctest.h>

#include "planner/files/job_file.h"

namespace planner {

TEST_SUITE("planner/make plan") {
  TEST_CASE("the first plan of work that is soon planned is its plan") {
    const files::JobReading read = files::read_job("job.toml",
                                                   "units = \"mm\"\n[panel]\nlength = 600\nthickness = 20\n"
                                                   "boards = 3\nwidth = 300\nspecies = \"beech\"\n");
    REQUIRE(read.job);
    const Planned first = make_first_plan(*read.job, work::Shop{}, {}), whole = make_plan(*read.job, work::Shop{}, {});
    REQUIRE(first.plan);
    CHECK(!first.plan->verdict.stopped);
    REQUIRE(first.plan->stages.size() == whole.plan->stages.size());
    CHECK(first.plan->stages[0].steps.size() == whole.plan->stages[0].steps.size());
    CHECK(first.plan->stages[0].clamps.size() == whole.plan->stages[0].clamps.size());
  }
}

}  // namespace planner
