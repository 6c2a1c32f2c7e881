#include "cli/html/html.h"

#include <cmath>
#include <regex>
#include <set>

#include <doctest/doctest.h>

#include "cli/html/svg_clamps.h"
#include "cli/html/svg_exploded.h"
#include "cli/html/svg_parts.h"
#include "cli/html/svg_strips.h"
#include "cli/model/line_drawing.h"
#include "cli/model/pressure_cells.h"
#include "cli/pictures/markup.h"
#include "cli/text/sample_plan.h"

using namespace cli;
using namespace cli::html;
using planner::plan::Plan;

namespace {

std::string sheet(const Plan& plan) {
  words::TextStyle style;
  style.wording.units = plan.units;
  style.wording.uk_words = plan.uk_words;
  return html_sheet(plan, style, html::Paper::a4);
}

bool has(const std::string& text, const std::string& piece) {
  return text.find(piece) != std::string::npos;
}

int count(const std::string& text, const std::string& piece) {
  int n = 0;
  for (std::size_t at = text.find(piece); at != std::string::npos; at = text.find(piece, at + 1)) {
    ++n;
  }
  return n;
}

// The text without what stands between such tags.
std::string without(std::string html, const std::string& tag) {
  const std::string open = "<" + tag + ">", close = "</" + tag + ">";
  for (std::size_t at = html.find(open); at != std::string::npos; at = html.find(open, at)) {
    html.erase(at, html.find(close, at) + close.size() - at);
  }
  return html;
}

// Tags that are opened are closed, in order; the text of style and script aside.
void check_balanced(const std::string& sheet) {
  const std::string html = without(without(sheet, "style"), "script");
  std::vector<std::string> open;
  for (std::size_t at = html.find('<'); at != std::string::npos; at = html.find('<', at + 1)) {
    const std::size_t end = html.find('>', at);
    REQUIRE(end != std::string::npos);
    const std::string tag = html.substr(at + 1, end - at - 1);
    if (tag.starts_with("!") || tag.ends_with("/")) {
      continue;
    }
    if (!tag.starts_with("/")) {
      open.push_back(tag.substr(0, tag.find(' ')));
      continue;
    }
    REQUIRE_FALSE(open.empty());
    CHECK("/" + open.back() == tag);
    open.pop_back();
  }
  CHECK(open.empty());
}

}  // namespace

TEST_SUITE("cli/html/html") {
  TEST_CASE("one file, nothing fetched") {
    const std::string html = sheet(text::sample::chest());
    CHECK(html.starts_with("<!doctype html>"));
    CHECK(has(html, "default-src &#39;none&#39;"));
    for (const char* fetched :
         {" src=", " href=", "@import", "http:", "https:", "url(h", "url(/"}) {
      CHECK_FALSE(has(html, fetched));
    }
    CHECK(html.size() < 400'000);
    check_balanced(html);
    check_balanced(sheet(text::sample::short_chest()));
    check_balanced(sheet(text::sample::staged_chest()));
  }

  TEST_CASE("a part named like a tag is a part with a funny name") {
    Plan plan = text::sample::chest();
    plan.parts[0].name = "<script>alert(1)</script>";
    plan.title = "\"><img src=x onerror=alert(1)>";
    const std::string html = sheet(plan);
    CHECK(count(html, "<script>") == 1);  // our own
    CHECK_FALSE(has(html, "<img"));
    CHECK(has(html, "&lt;script&gt;alert(1)&lt;/script&gt;"));
    check_balanced(html);
  }

  TEST_CASE("every step, clamp and tick is there without the script") {
    const Plan plan = text::sample::chest();
    const std::string html = without(sheet(plan), "script");
    for (const planner::plan::Step& step : plan.stages[0].steps) {
      CHECK(count(html, "id=\"step-" + std::to_string(step.n) + "\"") == 1);
    }
    for (const planner::plan::PlannedClamp& clamp : plan.stages[0].clamps) {
      CHECK(count(html, "data-clamp=\"" + std::to_string(clamp.n) + "\"") == 1);
    }
    CHECK(count(html, "type=\"checkbox\"") > 8);
    CHECK(has(html, "Lower the top onto front, back, left and right."));
  }

  TEST_CASE("the clock's data say when a joint is wet, together and pressed") {
    const std::string html = sheet(text::sample::chest());
    // back - bottom: spread in step 1, together in 2; no round lists it, so 0.
    CHECK(has(html, "data-joint=\"back - bottom\" data-spread=\"1\" data-join=\"2\""));
    CHECK(has(html, "data-open=\"300\" data-total=\"600\""));
    CHECK(has(html, "data-pull-apart-by=\"300\""));
  }

  TEST_CASE("a clamp is drawn where it stands, to half a millimetre") {
    const Plan plan = text::sample::chest();
    const planner::plan::Stage& stage = plan.stages[0];
    for (int axis = 0; axis < 3; ++axis) {
      const std::string svg = html::clamp_view_svg(plan, stage, geometry::kAxis[axis],
                                                   {planner::base::Units::inch, false, false});
      std::smatch found;
      REQUIRE(std::regex_search(svg, found, std::regex("data-scale=\"([0-9.]+)\"")));
      const double scale = std::stod(found[1]);
      REQUIRE(std::regex_search(svg, found,
                                std::regex("class=\"corner\" cx=\"([0-9.]+)\" cy=\"([0-9.]+)\"")));
      const double u0 = std::stod(found[1]), v0 = std::stod(found[2]);
      for (const planner::plan::PlannedClamp& clamp : stage.clamps) {
        const bool here = std::abs(clamp.axis[static_cast<std::size_t>(axis)]) > 0.9;
        const std::string n = std::to_string(clamp.n);
        const bool drawn =
            std::regex_search(svg, found,
                              std::regex("badge clamp\" data-n=\"" + n +
                                         "\"><circle cx=\"([0-9.]+)\" cy=\"([0-9.]+)\""));
        CHECK(drawn == here);
        if (drawn) {
          // The chest's corner is the origin, so a place is its own measure.
          const model::Point2 mm = model::axis_view(axis).at(clamp.at);
          CHECK(std::abs((std::stod(found[1]) - u0) / scale - mm.u) < 0.5);
          CHECK(std::abs((v0 - std::stod(found[2])) / scale - mm.v) < 0.5);
        }
      }
    }
  }

  TEST_CASE("seen from any side, the front and the top are told, or that they face you") {
    const Plan plan = text::sample::chest();
    const planner::plan::Stage& stage = plan.stages[0];
    CHECK(has(html::exploded_svg(plan, stage), ">FRONT</text>"));
    CHECK(has(html::exploded_svg(plan, stage), ">TOP</text>"));
    const auto view = [&](std::size_t axis) {
      return html::clamp_view_svg(plan, stage, geometry::kAxis[axis], {planner::base::Units::inch, false, false});
    };
    CHECK((has(view(0), ">FRONT</text>") && has(view(0), ">TOP</text>")));
    CHECK((has(view(1), ">FRONT faces you</text>") && has(view(1), ">TOP</text>")));
    CHECK((has(view(2), ">FRONT</text>") && has(view(2), ">TOP faces you</text>")));
  }

  TEST_CASE("a clamp that presses askew gets a picture along its line") {
    Plan plan = text::sample::chest();
    planner::plan::Stage& stage = plan.stages[0];
    const std::size_t straight = html::clamp_ways(stage).size();
    planner::plan::PlannedClamp& clamp = stage.clamps.back();
    clamp.axis = {0.5, std::sqrt(0.75), 0};
    clamp.pad_along = {0, 0, 1};
    clamp.bar_side = {0, 0, 1};
    const std::vector<geometry::Direction> ways = html::clamp_ways(stage);
    CHECK(ways.size() >= straight);
    CHECK(html::presses_along(clamp, ways.back()));
    const std::string svg =
        html::clamp_view_svg(plan, stage, ways.back(), {planner::base::Units::inch, false, false});
    CHECK(count(svg, "data-clamp=\"") == 1);
    CHECK(has(svg, "data-clamp=\"" + std::to_string(clamp.n) + "\""));
    CHECK(html::seen_text(ways.back()) == "the way they press");
    int drawn = 0;
    for (const geometry::Direction& way : ways) {
      drawn +=
          count(html::clamp_view_svg(plan, stage, way, {planner::base::Units::inch, false, false}),
                "data-clamp=\"");
    }
    CHECK(drawn == static_cast<int>(stage.clamps.size()));
  }

  TEST_CASE("more clamps than there is room for measures are still all drawn") {
    Plan plan = text::sample::chest();
    planner::plan::Stage& stage = plan.stages[0];
    const planner::plan::PlannedClamp one = stage.clamps.front();
    stage.clamps.assign(60, one);
    for (int i = 0; i < 60; ++i) {
      stage.clamps[static_cast<std::size_t>(i)].n = i + 1;
      stage.clamps[static_cast<std::size_t>(i)].at.z += 3.0 * i;
    }
    const geometry::Direction way = html::clamp_ways(stage).front();
    const std::string svg =
        html::clamp_view_svg(plan, stage, way, {planner::base::Units::mm, false, false});
    CHECK(count(svg, "data-clamp=\"") == 60);
    CHECK(count(svg, "text-anchor=\"end\"") > 5);
    CHECK(count(svg, "text-anchor=\"end\"") < 60);
  }

  TEST_CASE("one's own clamps are drawn apart from the plan's, and judged") {
    Plan plan = text::sample::chest();
    CHECK_FALSE(has(sheet(plan), "id=\"placed\""));
    planner::plan::PlacedTrial trial;
    trial.clamps = {plan.stages[0].clamps.front()};
    trial.clamps[0].n = 1;
    plan.parts[0].name = "<lid>";
    trial.findings = {planner::plan::DentingClamp{1, 0, 0, 1.5}};
    plan.placed = trial;
    const std::string html = sheet(plan);
    const std::string own = html.substr(html.find("id=\"placed\""));
    CHECK(has(own, "They don&#39;t hold"));
    CHECK(has(own, "No. 1 dents the &lt;lid&gt;"));
    CHECK(has(own, "data-clamp=\"1\""));
    check_balanced(html);
  }

  TEST_CASE("a clamp that presses nothing leaves the trial of one's own without a table") {
    Plan plan = text::sample::chest();
    plan.placed = planner::plan::PlacedTrial{};
    const std::string html = sheet(plan);
    CHECK(has(html, "id=\"placed\""));
    CHECK_FALSE(has(html, "Places of your own clamps"));
    check_balanced(html);
  }

  TEST_CASE("where no order was found the sheet says so, and has no clock to start") {
    Plan plan = text::sample::short_chest();
    plan.stages.front().steps.clear();
    const std::string html = sheet(plan);
    CHECK(has(html, "There is no order to go by: see Why not."));
    CHECK_FALSE(has(html, "<p>Pull it apart by"));
    CHECK_FALSE(has(html, "The order:"));
    CHECK_FALSE(has(html, "in the order below"));
    check_balanced(html);
  }

  TEST_CASE("the exploded view letters the parts in the order they go") {
    const Plan plan = text::sample::chest();
    const std::string svg = html::exploded_svg(plan, plan.stages[0]);
    for (const char letter : {'A', 'B', 'C', 'D', 'E', 'F'}) {
      CHECK(count(svg, std::string("badge part\" data-n=\"") + letter + "\"") == 1);
    }
    // bottom 4, back 1, left 2, right 3, front 0, top 5
    CHECK(html::placing_order(plan.stages[0]) ==
          std::vector<planner::work::PartId>{4, 1, 2, 3, 0, 5});
    CHECK(count(svg, "class=\"head\"") == 5);  // an arrow a join
  }

  TEST_CASE("a weak stretch of a line looks weak") {
    planner::plan::LinePressure line = text::sample::chest().pressure[0];
    CHECK_FALSE(has(html::pressure_svg(line, 5, "front - bottom"), "url(#weak)"));
    line.samples[2][1] = 0.01;
    CHECK(has(html::pressure_svg(line, 5, "front - bottom"), "url(#weak)"));
    line.samples[2][1] = 0;
    CHECK(has(html::pressure_svg(line, 5, "front - bottom"), "url(#open)"));
  }

  TEST_CASE("a stretch pressed harder than the wood bears looks crushed") {
    const Plan plan = text::sample::chest();
    planner::plan::LinePressure line = plan.pressure[0];
    // Black cherry (Wood Handbook, Table 5-3a).
    const double limit_MPa = model::crush_limit_MPa(plan, line);
    CHECK(limit_MPa == doctest::Approx(4.8));
    CHECK_FALSE(has(html::pressure_svg(line, limit_MPa, "front - bottom"), "url(#crushed)"));
    line.samples[2][1] = 5.2;
    CHECK(has(html::pressure_svg(line, limit_MPa, "front - bottom"), "url(#crushed)"));
  }

  TEST_CASE("markup escapes what it is given") {
    pictures::Markup m;
    m.open("p", {{"title", "5' 3\" & <lid>"}}).text("a < b\x01").close();
    CHECK(m.str() == "<p title=\"5&#39; 3&quot; &amp; &lt;lid&gt;\">a &lt; b?</p>\n");
    CHECK(pictures::coordinate(-0.001) == "0");
    CHECK(pictures::coordinate(12.345678) == "12.35");
  }
}
