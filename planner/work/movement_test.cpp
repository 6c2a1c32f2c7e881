#include "planner/work/movement.h"

#include <doctest/doctest.h>

#include "planner/tables/wood.h"

using namespace planner;
using namespace planner::work;
using geometry::Point;

namespace {

work::Part board(const char* name, const char* species, double length, double width,
                 double thickness, int along, int face) {
  work::Part part;
  part.name = name;
  part.species = species;
  const auto um = [](double mm) { return geometry::Length::nm(static_cast<std::int64_t>(mm * 1000) * 1000); };
  part.length = um(length);
  part.width = um(width);
  part.thickness = um(thickness);
  part.along = along;
  part.face = face;
  return part;
}

// Two boards glued over a rectangle in the plane across z, `x` by `y` mm.
work::Joint glued_flat(double x, double y) {
  work::GlueFace face;
  face.contact.normal = {0, 0, 1};
  face.contact.regions = {{{Point{0, 0, 0}, {x, 0, 0}, {x, y, 0}, {0, y, 0}}, {}}};
  face.contact.area_mm2 = x * y;
  work::Joint joint;
  joint.parts = {0, 1};
  joint.faces = {face};
  return joint;
}

std::vector<work::CrossGrainNote> notes(work::Part lower, work::Part upper,
                                        const work::Joint& joint) {
  work::Job job;
  job.parts = {std::move(lower), std::move(upper)};
  return cross_grain_notes(job, std::vector{joint}, work::kSeasonalChange_percent);
}

}  // namespace

TEST_SUITE("planner/movement") {
  // Wood Handbook (GTR-190) p. 13-17: a flatsawn white fir board 232 mm wide, CT 0.00245, from 8 to
  // 11 % moisture content grows by 1.7 mm.
  // Outside, handbook: GTR-190 p. 13-17, its worked board
  TEST_CASE("the handbook's white fir board grows by 1.7 mm") {
    const tables::Wood& fir = *tables::find_wood("white_fir");
    CHECK(work::movement_mm(232, *fir.movement_tangential, 3) == doctest::Approx(1.7052));
    CHECK(232 + work::movement_mm(232, *fir.movement_tangential, 3) ==
          doctest::Approx(233.7).epsilon(1e-4));
  }

  // Outside, handbook: GTR-190 eq. 13-2 and Table 13-5
  TEST_CASE("a cherry board 9 in wide moves 2.3 mm over 4 %") {
    CHECK(work::movement_mm(228.6, *tables::find_wood("cherry")->movement_tangential, 4) ==
          doctest::Approx(2.3).epsilon(0.02));
  }

  TEST_CASE("a cherry lid across the end wall of its box is warned of") {
    const auto found =
        notes(board("end", "black_cherry", 228.6, 190, 19, 1, 0),
              board("lid", "black_cherry", 355, 228.6, 19, 0, 2), glued_flat(19, 228.6));
    REQUIRE(found.size() == 1);
    CHECK(found[0].moving == 1);
    CHECK(found[0].glued_mm == doctest::Approx(228.6));
    CHECK(found[0].movement_mm == doctest::Approx(2.268).epsilon(0.001));
    CHECK(found[0].warning);
  }

  TEST_CASE("boards laminated with their grain alike are not spoken of") {
    CHECK(notes(board("a", "beech", 600, 120, 30, 0, 2), board("b", "beech", 600, 120, 30, 0, 2),
                glued_flat(600, 120))
              .empty());
  }

  // Outside, handbook: GTR-190 eq. 13-2 and Table 13-5: white oak
  TEST_CASE("a breadboard end across a panel moves against the panel's whole width") {
    // The panel's end grain meets the end piece's edge: seen along x, the end piece's length runs
    // across the panel's width.
    const auto found = notes(board("panel", "white_oak", 800, 400, 22, 2, 1),
                             board("end", "white_oak", 400, 60, 22, 0, 1), glued_flat(400, 22));
    REQUIRE(found.size() == 1);
    CHECK(found[0].moving == 0);
    CHECK(found[0].movement_mm == doctest::Approx(400 * 0.00365 * 4));
    CHECK(found[0].warning);
  }

  TEST_CASE("glued in the middle only, the same end piece is no worry") {
    work::Joint joint = glued_flat(400, 22);
    joint.middle_mm = 30;
    CHECK(notes(board("panel", "white_oak", 800, 400, 22, 2, 1),
                board("end", "white_oak", 400, 60, 22, 0, 1), joint)
              .empty());
  }

  TEST_CASE("two sheets of plywood move alike whichever way their face grain runs") {
    CHECK(notes(board("a", "plywood_birch", 2000, 1000, 18, 0, 2),
                board("b", "plywood_birch", 2000, 1000, 18, 1, 2), glued_flat(1000, 1000))
              .empty());
  }

  // Outside, handbook: GTR-190 eq. 13-2 and Table 13-5: beech
  TEST_CASE("solid lipping along the edge of plywood keeps still, a wide board on it does not") {
    CHECK(notes(board("ply", "plywood_birch", 800, 500, 18, 0, 2),
                board("lipping", "beech", 800, 18, 6, 0, 2), glued_flat(800, 18))
              .empty());
    const auto found = notes(board("ply", "plywood_birch", 800, 500, 18, 0, 2),
                             board("board", "beech", 800, 200, 20, 0, 2), glued_flat(800, 200));
    REQUIRE(found.size() == 1);
    CHECK(found[0].moving == 1);
    CHECK(found[0].movement_mm == doctest::Approx(200 * (0.00431 - 0.0002) * 4));
  }
}
