#include "cli/pictures/turning.h"

#include <string>

#include <doctest/doctest.h>

#include "cli/pictures/sides.h"
#include "cli/text/sample_plan.h"

using namespace cli;
using geometry::Point;

namespace {

// Every side of the front that looks along a direction, and whether it looks at another part.
bool inward(const planner::plan::Plan& plan, const geometry::Direction& way) {
  const pictures::Insides insides(plan);
  const planner::plan::PlanPart& front = plan.parts[0];
  bool any = false;
  for (const geometry::Facet& facet : front.facets) {
    any = any || (dot(facet.normal, way) > 0.99 && insides.looks_inward(0, facet));
  }
  return any;
}

}  // namespace

TEST_SUITE("cli/pictures/turning") {
  TEST_CASE("a region with a bay and a hole comes to triangles of its area, none the wrong way round") {
    const geometry::Direction up{0, 0, 1};
    const geometry::Polygon region{{{0, 0, 3}, {50, 0, 3}, {50, 40, 3}, {30, 40, 3}, {25, 10, 3}, {20, 40, 3},
                                    {0, 40, 3}},
                                   {{{5, 5, 3}, {5, 9, 3}, {12, 9, 3}, {12, 5, 3}}}};
    const std::vector<Point> corners = pictures::triangles_of(region, up);
    REQUIRE(corners.size() % 3 == 0);
    double area = 0;
    for (std::size_t i = 0; i < corners.size(); i += 3) {
      const double twice = dot(cross(corners[i + 1] - corners[i], corners[i + 2] - corners[i]), up);
      CHECK(twice > -1e-9);
      CHECK(corners[i].z == doctest::Approx(3));
      area += twice / 2;
    }
    // 50 x 40, less a wedge of 10 x 30 / 2, less 7 x 4.
    CHECK(area == doctest::Approx(2000 - 150 - 28));
  }

  TEST_CASE("a model has every part, and numbers alone but for colours") {
    const planner::plan::Plan plan = text::sample::chest();
    const std::string model =
        pictures::turning_model(plan, std::vector<geometry::Direction>(plan.parts.size()));
    std::size_t parts = 0;
    for (std::size_t at = model.find("\"c\":\"red\""); at != std::string::npos;
         at = model.find("\"c\":\"red\"", at + 1)) {
      ++parts;
    }
    CHECK(parts == plan.parts.size());  // all of cherry
    CHECK(model.find("nan") == std::string::npos);
    CHECK(model.find("\"bench\":[1,0,0,0,1,0,0,0,1]") != std::string::npos);
  }

  TEST_CASE("the back of a chest's front looks inward, its front doesn't, and a mark lies on each show face") {
    planner::plan::Plan plan = text::sample::chest();
    CHECK(inward(plan, {0, 1, 0}));
    CHECK_FALSE(inward(plan, {0, -1, 0}));
    plan.parts[0].show = {{1, false}};
    const std::vector<Point> mark = pictures::show_marks(plan.parts[0]);
    REQUIRE(!mark.empty());
    for (const Point& p : mark) {
      CHECK(p.y == doctest::Approx(plan.parts[0].bounds.lo.y - 0.5));
      CHECK((p.x > plan.parts[0].bounds.lo.x && p.x < plan.parts[0].bounds.hi.x));
    }
    plan.parts[0].show.clear();
    CHECK(pictures::show_marks(plan.parts[0]).empty());
  }
}
