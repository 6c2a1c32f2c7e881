#include "planner/stage/glue_trial.h"

#include <algorithm>
#include <cmath>

#include <doctest/doctest.h>

#include "planner/files/job_file.h"
#include "planner/files/shop_file.h"
#include "planner/make_plan.h"

using namespace planner;
using namespace planner::stage;

namespace {

constexpr const char* kBox =
    "units='in'\n[box]\noutside=[14,9,8]\nstock='3/4'\ncorners='rabbet'\ntop='rabbet'\n"
    "bottom='rabbet'\nspecies='black_cherry'\n[glue]\nuse='pva_type2'\n";

struct Tried {
  plan::Plan plan;
  std::vector<stage::GlueTrial> trials;

  explicit Tried(const std::string& job, const std::string& shop_text = "") {
    const files::JobReading read = files::read_job("job.toml", job);
    REQUIRE(read.job);
    const work::Shop shop = shop_text.empty() ? files::unlimited_shop()
                                              : *files::read_shop("shop.toml", shop_text).shop;
    Planned planned = make_plan(*read.job, shop, {.try_glues = true});
    REQUIRE(planned.plan);
    plan = *planned.plan;
    trials = planned.glue_trials;
  }

  const stage::GlueTrial& of(const std::string& family) const {
    const auto found =
        std::find_if(trials.begin(), trials.end(),
                     [&](const stage::GlueTrial& trial) { return trial.glue.family == family; });
    REQUIRE(found != trials.end());
    return *found;
  }
};

bool against(const stage::GlueTrial& trial, stage::GlueObstacle::Kind kind) {
  return std::any_of(trial.against.begin(), trial.against.end(),
                     [kind](const stage::GlueObstacle& o) { return o.kind == kind; });
}

}  // namespace

TEST_SUITE("planner/glue_trial") {
  TEST_CASE("the job's own glue comes first and has the plan's own slack") {
    const Tried tried(kBox);
    REQUIRE(tried.plan.stages.size() == 1);
    CHECK(tried.trials.front().jobs_own);
    CHECK(tried.trials.front().glue.family == "pva_type2");
    CHECK(tried.trials.front().slack_s == std::lround(tried.plan.stages[0].slack_s));
    CHECK(tried.trials.front().against.empty());
    CHECK(tried.trials.size() == tables::glue_families().size());
  }

  TEST_CASE("five-minute epoxy is too quick for a chest, by what its limit lacks") {
    const Tried tried(kBox);
    const stage::GlueTrial& fast = tried.of("epoxy_fast");
    REQUIRE(against(fast, stage::GlueObstacle::Kind::total_time));
    const stage::GlueObstacle& over = fast.against.front();
    CHECK(over.limit == 180);  // three minutes, the short end of its row
    CHECK(over.is - over.limit == -fast.slack_s);
  }

  TEST_CASE("a slower glue has more to spare than a quicker one") {
    const Tried tried(kBox);
    CHECK(tried.of("pva_type1").slack_s > tried.of("pva_type2").slack_s);
    CHECK(tried.of("pva_type1").comfortable);
  }

  TEST_CASE("a cold shop puts out what wants it warmer, and says how warm") {
    const Tried tried(kBox, "units='mm'\ntemperature='12 C'\n");
    const stage::GlueTrial& urea = tried.of("uf_powder");
    REQUIRE(against(urea, stage::GlueObstacle::Kind::too_cold));
    CHECK(!against(tried.of("pva_type1"), stage::GlueObstacle::Kind::too_cold));  // from 8 C
    CHECK(against(tried.of("pva_type2"), stage::GlueObstacle::Kind::too_cold));   // from 13 C
  }

  TEST_CASE("a gap that only epoxy bridges puts the others out") {
    const std::string gaping =
        "units='mm'\n[[part]]\nname='a'\nspecies='beech'\nlength=400\nwidth=60\nthickness=19\n"
        "along='x'\nface='z'\nat=[0,0,0]\n[[part]]\nname='b'\nspecies='beech'\nlength=400\n"
        "width=60\nthickness=19\nalong='x'\nface='z'\nat=[0,61,0]\n[glue]\nuse='epoxy_slow'\n";
    const Tried tried(gaping);
    CHECK(!against(tried.of("epoxy_slow"), stage::GlueObstacle::Kind::gap));
    REQUIRE(against(tried.of("pva_white"), stage::GlueObstacle::Kind::gap));
    const auto& obstacles = tried.of("pva_white").against;
    const auto gap = std::find_if(
        obstacles.begin(), obstacles.end(),
        [](const stage::GlueObstacle& o) { return o.kind == stage::GlueObstacle::Kind::gap; });
    CHECK(gap->is == doctest::Approx(1.0));
  }

  TEST_CASE("bottles on the shelf go by their label and come before the table's rows") {
    const Tried tried(kBox,
                      "units='mm'\n[[glue]]\nname='slow bottle'\nfamily='pva_white'\n"
                      "open='20 min'\ntotal='30 min'\nleft='5 ml'\n");
    REQUIRE(tried.trials.size() >= 2);
    CHECK(tried.trials[1].on_shelf);
    CHECK(tried.trials[1].glue.name == "slow bottle");
    CHECK(tried.trials[1].slack_s > tried.trials[0].slack_s);
    CHECK(against(tried.trials[1], stage::GlueObstacle::Kind::bottle));
    CHECK(tried.trials.size() == tables::glue_families().size());  // its family isn't told twice
  }
}
