#include "cli/json/json.h"

#include <doctest/doctest.h>

#include "cli/text/sample_plan.h"

using namespace cli;
using namespace cli::json;

namespace {
bool has(const std::string& text, const std::string& piece) {
  return text.find(piece) != std::string::npos;
}
}  // namespace

TEST_SUITE("cli/sheet/json") {
  TEST_CASE("the same plan gives the same bytes") {
    CHECK(json::json_sheet(text::sample::chest()) == json::json_sheet(text::sample::chest()));
    CHECK(json::is_json(json::json_sheet(text::sample::chest())));
  }

  TEST_CASE("numbers are rounded to what means something, once") {
    planner::plan::Plan plan = text::sample::chest();
    plan.stages[0].clamps[0].opening_mm = 279.40000000000003;
    plan.stages[0].clamps[0].force_N = 3999.96;
    plan.pressure[0].min_MPa = -1e-9;
    const std::string json = json::json_sheet(plan);
    CHECK(has(json, "\"opening_mm\": 279.4,"));
    CHECK(has(json, "\"force_N\": 4000.0,"));
    CHECK(has(json, "\"min_MPa\": 0.0,"));
  }

  TEST_CASE("words don't follow the user's spelling or units") {
    planner::plan::Plan plan = text::sample::chest();
    const std::string us = json::json_sheet(plan);
    plan.uk_words = true;
    plan.units = planner::base::Units::mm;
    CHECK(json::json_sheet(plan) == us);
  }

  TEST_CASE("a title that is no UTF-8 is still JSON") {
    planner::plan::Plan plan = text::sample::chest();
    plan.title = "\xFF\xFE \"quoted\" </script>";
    CHECK(json::is_json(json::json_sheet(plan)));
  }

  TEST_CASE("bad input is told to machines too") {
    const std::string json = json::json_failure({{planner::base::Severity::error,
                                                  {"job.toml", 12, 9},
                                                  "no wood \"chery\"",
                                                  "write cherry"}});
    CHECK(json::is_json(json));
    CHECK(has(json, "\"line\": 12,"));
    CHECK(has(json, "no wood \\\"chery\\\""));
  }

  TEST_CASE("half a document is no JSON") {
    CHECK_FALSE(json::is_json("{\"a\": "));
    CHECK_FALSE(json::is_json("title = \"chest\""));
    CHECK(json::is_json("{}"));
  }
}
