#include "planner/base/stop.h"

#include <fstream>
#include <sstream>
#include <string>

#include <doctest/doctest.h>

#include "planner/files/job_file.h"
#include "planner/files/shop_file.h"
#include "planner/make_plan.h"
#include "planner/verify/verify_plan.h"

using namespace planner;
using namespace planner::base;

namespace {

// Shelves and dividers: its orders are too many to look at them all.
constexpr const char* kGrid =
    "units = 'mm'\n[carcass]\noutside = [900, 300, 900]\nstock = 18\ntop = 'rabbet'\n"
    "bottom = 'dado'\nshelves = 3\ndividers = 2\nspecies = 'plywood_birch'\n[glue]\nuse = "
    "'pva_type1'\n";

// A torsion box: two rails, three ribs, two skins.
constexpr const char* kSkins =
    "units = 'mm'\nspecies = 'black_cherry'\n"
    "[[part]]\nname = 'rail 1'\nlength = 1200\nwidth = 80\nthickness = 18\nalong = 'x'\nface = 'y'\n"
    "at = [0, 0, 6]\n"
    "[[part]]\nname = 'rail 2'\nlength = 1200\nwidth = 80\nthickness = 18\nalong = 'x'\nface = 'y'\n"
    "at = [0, 582, 6]\n"
    "[[part]]\nname = 'rib 1'\nlength = 564\nwidth = 80\nthickness = 18\nalong = 'y'\nface = 'x'\n"
    "at = [0, 18, 6]\n"
    "[[part]]\nname = 'rib 2'\nlength = 564\nwidth = 80\nthickness = 18\nalong = 'y'\nface = 'x'\n"
    "at = [591, 18, 6]\n"
    "[[part]]\nname = 'rib 3'\nlength = 564\nwidth = 80\nthickness = 18\nalong = 'y'\nface = 'x'\n"
    "at = [1182, 18, 6]\n"
    "[[part]]\nname = 'skin 1'\nlength = 1200\nwidth = 600\nthickness = 6\nalong = 'x'\nface = 'z'\n"
    "at = [0, 0, 0]\n"
    "[[part]]\nname = 'skin 2'\nlength = 1200\nwidth = 600\nthickness = 6\nalong = 'x'\nface = 'z'\n"
    "at = [0, 0, 86]\n";

work::Job job_of(const char* text) {
  const files::JobReading read = files::read_job("job.toml", text);
  REQUIRE(read.job);
  return *read.job;
}

work::Job grid() {
  return job_of(kGrid);
}

// An end is asked for once it has been polled so many times.
Planned stopped_after(const work::Job& job, const work::Shop& shop, long polls,
                      stage::PlanOptions options = {}) {
  options.stop = [left = polls]() mutable { return left-- <= 0; };
  return make_plan(job, shop, options);
}

std::size_t clamps_of(const plan::Plan& plan) {
  std::size_t clamps = 0;
  for (const plan::Stage& stage : plan.stages) {
    clamps += stage.clamps.size();
  }
  return clamps;
}

}  // namespace

TEST_SUITE("stop") {
  TEST_CASE("nobody who can't ask has asked") {
    const base::Stop none, yes = [] { return true; };
    CHECK_FALSE(base::stop_requested(nullptr));
    CHECK_FALSE(base::stop_requested(&none));
    CHECK(base::stop_requested(&yes));
  }

  TEST_CASE("stopped at any moment it leaves a plan that can be followed, and says that it was") {
    const work::Job job = grid();
    const work::Shop shop = files::unlimited_shop();
    for (const long polls : {0L, 1L, 10L, 100L, 1000L}) {
      CAPTURE(polls);
      const Planned planned = stopped_after(job, shop, polls);
      CHECK(planned.stopped);
      REQUIRE(planned.plan);
      CHECK(planned.plan->verdict.stopped);
      CHECK(planned.plan->verdict.ways_out.empty());
      CHECK(verify::verify_plan(job, shop, *planned.plan).empty());
      CHECK(clamps_of(*planned.plan) > 0);
      for (const plan::Stage& stage : planned.plan->stages) {
        CHECK(stage.status == plan::Proof::bounded);
      }
    }
  }

  TEST_CASE("stopped at once, no part is asked to come in past a clamp") {
    // Skins on both sides of a frame: clamps that are on already stand in the way of the last.
    const work::Job job = job_of(kSkins);
    for (const long polls : {0L, 100L, 1000L}) {
      CAPTURE(polls);
      const Planned planned = stopped_after(job, files::unlimited_shop(), polls);
      REQUIRE(planned.plan);
      for (const std::string& violation :
           verify::verify_plan(job, files::unlimited_shop(), *planned.plan)) {
        FAIL_CHECK(violation);
      }
    }
  }

  TEST_CASE("one that nobody stops is the plan that it was") {
    const work::Job job = grid();
    const Planned alone = make_plan(job, files::unlimited_shop(), {});
    stage::PlanOptions watched;
    watched.stop = [] { return false; };
    const Planned planned = make_plan(job, files::unlimited_shop(), watched);
    REQUIRE((alone.plan && planned.plan));
    CHECK_FALSE(planned.stopped);
    CHECK_FALSE(planned.plan->verdict.stopped);
    CHECK(planned.plan->stages.front().slack_s == alone.plan->stages.front().slack_s);
    CHECK(planned.plan->stages.front().makespan_s == alone.plan->stages.front().makespan_s);
    CHECK(clamps_of(*planned.plan) == clamps_of(*alone.plan));
  }

  TEST_CASE("a glue that was not tried long enough isn't said to be out") {
    stage::PlanOptions options;
    options.try_glues = true;
    CHECK(stopped_after(grid(), files::unlimited_shop(), 0, options).glue_trials.empty());
  }

  TEST_CASE("where no order was found yet there is no plan, and no mistake either") {
    // Oak beams of 120 kg each: one person lifts none of them, which takes long to be sure of.
    std::string heavy = "units = 'mm'\n[glue]\nuse = 'pva_type1'\n";
    for (int i = 0; i < 9; ++i) {
      heavy += "[[part]]\nname = 'beam " + std::to_string(i) +
               "'\nspecies = 'white_oak'\nlength = 6000\nwidth = 300\nthickness = 100\nalong = "
               "'x'\nface = 'z'\nat = [0, 0, " +
               std::to_string(100 * i) + "]\n";
    }
    const files::JobReading read = files::read_job("heavy.toml", heavy);
    REQUIRE(read.job);
    const Planned planned = stopped_after(*read.job, files::unlimited_shop(), 0);
    CHECK(planned.stopped);
    CHECK_FALSE(planned.plan);
    CHECK_FALSE(has_errors(planned.diagnostics));
  }
}
