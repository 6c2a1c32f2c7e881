#include "planner/stage/clock_ways_out.h"

#include <algorithm>
#include <string>

#include <doctest/doctest.h>

#include "planner/files/job_file.h"
#include "planner/files/shop_file.h"
#include "planner/make_plan.h"

using namespace planner;
using namespace planner::stage;

namespace {

constexpr const char* kBox =
    "units='mm'\n[box]\noutside=[400,250,200]\nstock=18\ncorners='rabbet'\ntop='rabbet'\n"
    "bottom='rabbet'\nspecies='black_cherry'\n[glue]\nuse='uf_two_part'\n";

plan::Verdict judged(const std::string& job, int people, double celsius, int stages = 0) {
  const files::JobReading read = files::read_job("job.toml", job);
  REQUIRE(read.job);
  work::Shop shop = files::unlimited_shop();
  shop.people = people;
  shop.temperature_C = celsius;
  PlanOptions options;
  options.stages = stages;
  const Planned planned = make_plan(*read.job, shop, options);
  REQUIRE(planned.plan);
  return planned.plan->verdict;
}

template <class Way>
const plan::WayOut* way(const plan::Verdict& verdict) {
  const auto found =
      std::find_if(verdict.ways_out.begin(), verdict.ways_out.end(),
                   [](const plan::WayOut& w) { return std::holds_alternative<Way>(w.change); });
  return found == verdict.ways_out.end() ? nullptr : &*found;
}

// How many more people are told to be enough; 0 where none are.
int helpers(const plan::Verdict& verdict) {
  const plan::WayOut* told = way<plan::HelpersWay>(verdict);
  return told == nullptr ? 0 : std::get<plan::HelpersWay>(told->change).helpers;
}

}  // namespace

TEST_SUITE("clock_ways_out") {
  // The two-part urea glue is to be closed within 10 min at 20 C, 5 at 25: aircraft
  // construction manual rev. 4 (2002), appendix D, p. D-2, in planner/tables.
  TEST_CASE("a warm shop is told how far to cool, and not a degree farther") {
    const plan::Verdict warm = judged(kBox, 1, 25);
    REQUIRE_FALSE(warm.ok);
    const plan::WayOut* told = way<plan::CoolerWay>(warm);
    REQUIRE(told != nullptr);
    CHECK(told->mends);
    const double to = std::get<plan::CoolerWay>(told->change).temperature_C;
    CHECK(judged(kBox, 1, to, 1).time == plan::TimeVerdict::one_go);
    CHECK(judged(kBox, 1, to + 1, 1).time != plan::TimeVerdict::one_go);
  }

  TEST_CASE("a helper who can lift it mends nothing alone where the clamps don't hold either") {
    // Faces of 600 x 1000 mm: no clamps press them.
    const auto beams = [](const std::string& wide) {
      const std::string one = "along='x'\nface='z'\nlength=1000\nthickness=200\nwidth=" + wide +
                              "\nspecies='eastern_white_pine'\n";
      return "units='mm'\n[[part]]\nname='a'\nat=[0,0,0]\n" + one +
             "[[part]]\nname='b'\nat=[0,0,200]\n" + one + "[glue]\nuse='pva_type1'\n";
    };
    const plan::Verdict alone = judged(beams("600"), 1, 20);
    REQUIRE(alone.reasons.size() == 2);
    REQUIRE(helpers(alone) == 1);
    CHECK_FALSE(way<plan::HelpersWay>(alone)->mends);
    CHECK_FALSE(judged(beams("600"), 2, 20).ok);
  }

  TEST_CASE("as many helpers are told as are enough") {
    const plan::Verdict alone = judged(kBox, 1, 24);
    const int more = helpers(alone);
    REQUIRE((more == 1 || more == 2));
    CHECK(judged(kBox, 1 + more, 24).ok);
  }

  // 400 x 60 x 2000 mm of beech is 34 kg, and one person lifts 25.
  TEST_CASE("a board too heavy for one is a job for two, whatever the glue allows") {
    const std::string slab =
        "units='mm'\n[panel]\nlength=2000\nthickness=60\nboards=[400,400]\n"
        "species='american_beech'\n[glue]\nuse='pva_type1'\n";
    const plan::Verdict alone = judged(slab, 1, 20);
    CHECK_FALSE(alone.ok);
    CHECK(std::holds_alternative<plan::TooHeavy>(alone.reasons.front()));
    REQUIRE(helpers(alone) == 1);
    CHECK(judged(slab, 2, 20).ok);
  }
}
