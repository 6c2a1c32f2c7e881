// When stages begin: a second end while the first is in its clamps, where the rack has enough; the whole
// once both are out of theirs.
#include <algorithm>
#include <string>

#include <doctest/doctest.h>

#include "planner/files/job_file.h"
#include "planner/files/shop_file.h"
#include "planner/make_plan.h"
#include "planner/verify/verify_plan.h"

using namespace planner;

namespace {

struct Table {
  work::Job job;
  work::Shop shop;
  plan::Plan plan;
  explicit Table(int clamps) {
    job = *files::read_job("job.toml",
                           "units = \"mm\"\n[table_base]\noutside = [1200, 650, 720]\nleg = 60\n"
                           "rail_width = 90\nrail_thickness = 24\nsetback = 6\nstretcher = 150\nspecies = \"beech\"\n[glue]\nuse = \"pva_type2\"\n")
               .job;
    shop = *files::read_shop("shop.toml",
                             "units = \"mm\"\n[[clamp]]\nkind = \"pipe_3_4\"\ncount = " + std::to_string(clamps) +
                                 "\nopening = 1500\n")
                .shop;
    plan = *make_plan(job, shop, {}).plan;
    REQUIRE(plan.stages.size() == 3);
  }
  double off_s(std::size_t stage) const {
    const plan::Stage& s = plan.stages[stage];
    return s.starts_s + s.makespan_s + s.clamp_time_s;
  }
  bool fails(const std::string& words) const {
    const auto faults = verify::verify_plan(job, shop, plan);
    return std::ranges::any_of(faults, [&](const std::string& f) { return f.find(words) != std::string::npos; });
  }
};

}  // namespace

TEST_SUITE("plans/stage starts") {
  TEST_CASE("the second end goes on while the first is in its clamps, if there are enough") {
    const Table few(2), many(8);
    for (const Table* table : {&few, &many}) {
      CHECK(verify::verify_plan(table->job, table->shop, table->plan).empty());
      CHECK(table->plan.stages[2].starts_s >= std::max(table->off_s(0), table->off_s(1)));
    }
    const std::size_t each = many.plan.stages[0].clamps.size();
    REQUIRE(each + many.plan.stages[1].clamps.size() <= 8);
    CHECK(many.plan.stages[1].starts_s == many.plan.stages[0].makespan_s);
    CHECK(few.plan.stages[1].starts_s >= few.off_s(0));
    const auto& row = many.plan.inventory.front();
    CHECK(row.used == static_cast<int>(each + many.plan.stages[1].clamps.size()));
    CHECK(few.plan.inventory.front().used <= 2);
  }

  TEST_CASE("without a shop file nobody borrows clamps to begin sooner") {
    Table table(8);
    table.plan = *make_plan(table.job, work::Shop(), {}).plan;
    REQUIRE(table.plan.stages.size() == 3);
    CHECK(table.plan.stages[1].starts_s >= table.off_s(0));
  }

  TEST_CASE("the verifier sees a stage that begins too soon") {
    Table table(2);
    table.plan.stages[1].starts_s = table.plan.stages[0].makespan_s;
    CHECK(table.fails("in use than are on the rack"));
    table.plan.stages[1].starts_s = 10;
    CHECK(table.fails("before the hands are free"));
    Table whole(8);
    whole.plan.stages[2].starts_s -= 60;
    CHECK(whole.fails("builds on is out of its clamps"));
  }
}
