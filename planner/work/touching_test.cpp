#include "planner/work/touching.h"

#include <cmath>
#include <vector>

#include <doctest/doctest.h>

#include "geometry/contact.h"

namespace planner::work {
namespace {

using geometry::Length;

bool touch(double apart_mm, const Job& job) {
  const Length zero, from = Length::nm(std::llround((100 + apart_mm) * 1e6));
  const std::vector<geometry::Solid> boards = {
      geometry::board({{zero, zero, zero},
                       {Length::whole_mm(100), Length::whole_mm(50), Length::whole_mm(20)}}),
      geometry::board({{from, zero, zero},
                       {Length::whole_mm(300), Length::whole_mm(50), Length::whole_mm(20)}})};
  return geometry::find_contacts(boards, {.max_gap_mm = touching_mm(job, 0.15)}).size() == 1;
}

TEST_SUITE("planner/touching") {
  TEST_CASE("parts of a drawing touch to 0.2 mm and a little noise, whatever the glue fills") {
    Job drawn;
    drawn.mesh = MeshSource();
    for (const double apart : {0.0, 1e-5, 0.1, 0.19, 0.2, 0.2 + 1e-5}) {
      CAPTURE(apart);
      CHECK(touch(apart, drawn));
    }
    CHECK_FALSE(touch(0.25, drawn));
    CHECK(touching_mm(drawn, 2) == 2);
    Job plies;
    plies.parts.resize(3);
    for (Part& ply : plies.parts) {
      ply.length = Length::whole_mm(500);
      ply.width = Length::whole_mm(100);
      ply.thickness = Length::whole_mm(2);
    }
    CHECK(touching_mm(plies, 2) == 1);  // not through the ply between
    CHECK(touching_mm(plies, 0.15) == 0.15);
  }

  TEST_CASE("parts given by their sizes touch as far as the glue fills") {
    CHECK(touch(0.15, Job()));
    CHECK_FALSE(touch(0.2, Job()));
  }
}

}  // namespace
}  // namespace planner::work
