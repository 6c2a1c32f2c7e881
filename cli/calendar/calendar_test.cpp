#include "cli/calendar/calendar.h"

#include <set>
#include <sstream>
#include <vector>

#include <doctest/doctest.h>

#include "planner/plan/stage_starts.h"

namespace cli::calendar {
namespace {

using namespace std::chrono_literals;

planner::plan::Plan two_stages(const std::string& title) {
  planner::plan::Plan plan;
  plan.title = title;
  plan.glue.glue.family = "uf_powder";  // no rule of the cool shop
  for (const double tight_s : {600.0, 900.0}) {
    planner::plan::Stage stage;
    stage.makespan_s = tight_s;
    stage.clamp_time_s = 8 * 3600;
    stage.clamps.emplace_back();
    plan.stages.push_back(stage);
  }
  plan.no_shop_file = true;  // one after the other
  set_starts(plan);
  return plan;
}

Moment at(std::chrono::year_month_day day, std::chrono::minutes minute) {
  return std::chrono::local_days(day) + minute;
}

// Unfolded, as RFC 5545 3.1 has it: a line break and a blank go.
std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::string raw;
  for (std::istringstream in(text); std::getline(in, raw);) {
    REQUIRE(raw.ends_with('\r'));
    raw.pop_back();
    CHECK(raw.size() <= 75);
    if (raw.starts_with(' ')) {
      lines.back() += raw.substr(1);
    } else {
      lines.push_back(raw);
    }
  }
  return lines;
}

std::vector<std::string> values(const std::string& text, const std::string& name) {
  std::vector<std::string> out;
  for (const std::string& line : lines_of(text)) {
    if (line.starts_with(name + ":")) {
      out.push_back(line.substr(name.size() + 1));
    }
  }
  return out;
}

TEST_SUITE("cli/calendar") {
  TEST_CASE("each stage begins and comes out of its clamps at its time, over the end of the year too") {
    const std::string text =
        calendar_file(two_stages("Honey cabinet"), {}, at(2027y / 12 / 31, 20h + 30min));
    CHECK(values(text, "DTSTART") == std::vector<std::string>{"20271231T203000", "20280101T044000",
                                                              "20280101T044000", "20280101T125500"});
    CHECK(values(text, "DTEND")[0] == "20271231T204000");
    CHECK(values(text, "SUMMARY") == std::vector<std::string>{
                                         "Open the glue: stage 1 of 2 of Honey cabinet",
                                         "Take the clamps off: stage 1 of 2 of Honey cabinet",
                                         "Open the glue: stage 2 of 2 of Honey cabinet",
                                         "Take the clamps off: stage 2 of 2 of Honey cabinet"});
    CHECK(values(text, "TRIGGER").size() == 4);
  }

  TEST_CASE("a title with the standard's own marks, or longer than its lines, comes through whole") {
    const std::string title = "Crate, the tall one; with \\ and \xC3\xA4\xC3\xB6\xC3\xBC for the jars of the "
                              "whole club, twelve and a lid that nobody may lose again";
    const std::string text = calendar_file(two_stages(title), {}, at(2027y / 3 / 6, 9h));
    const std::string summary = values(text, "SUMMARY")[0];
    std::string back;
    for (std::size_t i = 0; i < summary.size(); ++i) {
      i += summary[i] == '\\' ? 1 : 0;
      back += summary[i];
    }
    CHECK(back == "Open the glue: stage 1 of 2 of " + title);
    const std::vector<std::string> ids = values(text, "UID");
    CHECK(std::set<std::string>(ids.begin(), ids.end()).size() == 4);
    CHECK(is_calendar(text));
  }
}

}  // namespace
}  // namespace cli::calendar
