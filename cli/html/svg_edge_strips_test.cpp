#include "cli/html/svg_edge_strips.h"

#include <regex>

#include <doctest/doctest.h>

#include "cli/html/svg_parts.h"
#include "cli/text/sample_plan.h"

using namespace cli;
using namespace cli::html;
using planner::plan::Plan;

namespace {

constexpr words::Wording kInch{planner::base::Units::inch, false, false};

std::vector<double> places_of(const std::string& svg) {
  std::vector<double> all;
  const std::regex at("data-at=\"([0-9.]+)\"");
  for (std::sregex_iterator i(svg.begin(), svg.end(), at), end; i != end; ++i) {
    all.push_back(std::stod((*i)[1]));
  }
  return all;
}

bool has(const std::string& text, const std::string& piece) {
  return text.find(piece) != std::string::npos;
}

}  // namespace

TEST_SUITE("cli/html/edge_strips") {
  TEST_CASE("every clamp is marked on one strip") {
    const Plan plan = text::sample::chest();
    std::vector<int> marked;
    for (const model::EdgeStrip& strip : model::edge_strips(plan, plan.stages[0], kInch)) {
      for (const model::StripMark& mark : strip.marks) {
        CHECK(mark.clamps.size() == strip.places.size());
        marked.insert(marked.end(), mark.clamps.begin(), mark.clamps.end());
      }
    }
    std::sort(marked.begin(), marked.end());
    std::vector<int> planned;
    for (const planner::plan::PlannedClamp& clamp : plan.stages[0].clamps) {
      planned.push_back(clamp.n);
    }
    CHECK(marked == planned);
  }

  TEST_CASE("a strip's line begins where its zero is, and says what the table has there if it isn't 0") {
    const Plan plan = text::sample::chest();
    const geometry::Point corner{0, 0, 0};
    for (const model::EdgeStrip& strip : model::edge_strips(plan, plan.stages[0], kInch)) {
      REQUIRE(strip.lines.size() == strip.places.size());
      for (std::size_t i = 0; i < strip.lines.size(); ++i) {
        const model::StripLine& line = strip.lines[i];
        const geometry::Direction along = line.to - line.from;
        CHECK(geometry::length(along) == doctest::Approx(strip.length_mm));
        CHECK(dot(line.from - corner, geometry::unit(along)) == doctest::Approx(line.zero_mm));
        CHECK(has(strip.places[i], "the table has") == (line.zero_mm > 0.5));
      }
    }
  }

  TEST_CASE("pieces begin every 170 mm, and a mark is as far along as its clamp") {
    model::EdgeStrip strip;
    strip.places = {"no. 1-3: on front"};
    strip.length_mm = 600;
    for (const double at : {20.0, 200.0, 590.0}) {
      strip.marks.push_back({{static_cast<int>(at)}, at, {30, 18, 19}, {}, 0});
    }
    const std::vector<std::string> pieces = html::strip_pieces_svg(strip, kInch);
    REQUIRE(pieces.size() == 3);  // nothing stands between 340 and 510 mm
    CHECK(places_of(pieces[0]) == std::vector<double>{20});
    CHECK(places_of(pieces[1]) == std::vector<double>{30});
    CHECK(places_of(pieces[2]) == std::vector<double>{80});
    CHECK(has(pieces[2], "20 1/16 in"));  // 510 mm
    CHECK(has(pieces[2], "end, 23 5/8 in"));
  }

  TEST_CASE("a pad that reaches onto the next piece is drawn on both") {
    model::EdgeStrip strip;
    strip.places = {"no. 1 and 2: on front"};
    strip.length_mm = 300;
    strip.marks = {{{1}, 165, {30, 18, 19}, {}, 0}, {{2}, 290, {30, 18, 19}, {}, 0}};
    const std::vector<std::string> pieces = html::strip_pieces_svg(strip, kInch);
    REQUIRE(pieces.size() == 2);
    CHECK(has(pieces[0], "class=\"pad\" x=\"150\" y=\"0.5\" width=\"20\""));
    CHECK(has(pieces[1], "class=\"pad\" x=\"0\" y=\"0.5\" width=\"10\""));
  }

  TEST_CASE("the check rule is a hundred millimetres and four inches of 25.4") {
    const std::string rule = html::check_rule_svg();
    CHECK(has(rule, "viewBox=\"0 0 180 26\""));
    CHECK(has(rule, "M0.5 8L100.5 8"));
    CHECK(has(rule, "M0.5 18L102.1 18"));
  }

  TEST_CASE("a part that gets glue is opened out with its joints' marks") {
    const Plan plan = text::sample::chest();
    const planner::plan::Stage& stage = plan.stages[0];
    const std::vector<planner::work::PartId> parts = html::spread_parts(plan, stage);
    CHECK(parts == std::vector<planner::work::PartId>{0, 1, 4, 5});  // front, back, bottom, top
    for (const planner::work::PartId id : {4UL, 5UL}) {  // the sample draws no cuts in its walls
      const std::string svg = html::opened_part_svg(plan, stage, id);
      CHECK(has(svg, "class=\"glue\""));
      CHECK(has(svg, "A</text>"));
      CHECK(has(svg, "B</text>"));
    }
  }
}
