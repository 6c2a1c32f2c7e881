// Solids and contacts of the fixtures against the sums in their worked.md.
#include <algorithm>
#include <cmath>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "planner/work/built_job_test.h"
#include "planner/work/part_solid.h"
#include "tests/source_dir.h"

namespace planner::work {
namespace {

constexpr double kIn2 = 25.4 * 25.4, kIn3 = 25.4 * 25.4 * 25.4;

std::string fixture(const std::string& name) {
  std::ifstream file(source_dir() + "/fixtures/" + name + "/job.toml");
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

// A job with nothing wrong about it.
struct Built : BuiltJob {
  explicit Built(const std::string& text) : BuiltJob(text) { REQUIRE(mistakes == ""); }
};

void check_areas(const std::vector<double>& found, const std::vector<double>& wanted) {
  REQUIRE(found.size() == wanted.size());
  for (std::size_t i = 0; i < found.size(); ++i) {
    CHECK(found[i] == doctest::Approx(wanted[i]).epsilon(1e-12));
  }
}

const std::string kBox =
    "units = 'mm'\n[box]\noutside = [400, 260, 120]\nstock = 15\nspecies = 'red maple'\n";

TEST_SUITE("planner/part_solid") {
  // Outside, closed form: sums of boxes and rectangles (fixtures/hive_tool_chest/worked.md)
  TEST_CASE("the hive-tool chest has the volumes and faces of its hand sums") {
    const Built chest(fixture("hive_tool_chest"));
    CHECK(chest.volume_mm3("front") == doctest::Approx(72.046875 * kIn3).epsilon(1e-12));
    CHECK(chest.volume_mm3("left") == doctest::Approx(44.859375 * kIn3).epsilon(1e-12));
    CHECK(chest.volume_mm3("top") == doctest::Approx(82.40625 * kIn3).epsilon(1e-12));
    CHECK(chest.contacts.size() == 24);
    for (const char* wall : {"front", "back"}) {
      for (const char* end : {"left", "right"}) {
        check_areas(chest.faces(wall, end, 1), {5.4375 * kIn2});
        check_areas(chest.faces(wall, end, 0), {2.71875 * kIn2});
      }
    }
    for (const char* lid : {"top", "bottom"}) {
      check_areas(chest.faces(lid, "front", 2), {9.9375 * kIn2});
      check_areas(chest.faces(lid, "back", 1), {4.6875 * kIn2});
      check_areas(chest.faces(lid, "left", 2), {6.1875 * kIn2});
      check_areas(chest.faces(lid, "right", 0), {2.8125 * kIn2});
    }
    CHECK(chest.total_mm2() == doctest::Approx(127.125 * kIn2).epsilon(1e-12));
  }

  TEST_CASE("the bench top's boards meet in five edges") {
    const Built top(fixture("benchtop_panel"));
    CHECK(top.contacts.size() == 5);
    check_areas(top.faces("board 3", "board 4", 1), {56'000});
    CHECK(top.total_mm2() == doctest::Approx(280'000).epsilon(1e-12));
  }

  // Outside, closed form: sums of boxes and rectangles (fixtures/shelf_and_sides/worked.md)
  TEST_CASE("the shelf sits in its dadoes with three faces each") {
    const Built shelf(fixture("shelf_and_sides"));
    CHECK(shelf.volume_mm3("left side") == doctest::Approx(2'352'240).epsilon(1e-12));
    check_areas(shelf.faces("left side", "shelf", 0), {3'960});
    check_areas(shelf.faces("right side", "shelf", 2), {1'320, 1'320});
    CHECK(shelf.total_mm2() == doctest::Approx(13'200).epsilon(1e-12));
  }

  // Outside, closed form: sums of boxes and rectangles (fixtures/captured_bottom_box/worked.md)
  TEST_CASE("the tray's bottom touches its grooves above and below, and no floor") {
    const Built tray(fixture("captured_bottom_box"));
    CHECK(tray.volume_mm3("front") == doctest::Approx(507'780).epsilon(1e-12));
    CHECK(tray.volume_mm3("left end") == doctest::Approx(320'616).epsilon(1e-12));
    check_areas(tray.faces("front", "left end", 1), {1'314});
    check_areas(tray.faces("back", "right end", 0), {588});
    check_areas(tray.faces("bottom", "front", 2), {1'850, 1'850});
    check_areas(tray.faces("bottom", "left end", 2), {1'200, 1'200});
    CHECK(tray.total_mm2() == doctest::Approx(7'608 + 12'200).epsilon(1e-12));
  }

  // Outside, closed form: trapezia (fixtures/mitred_frame/worked.md, fixtures/hexagon_frame/worked.md)
  TEST_CASE("the mitred and the six-sided frame meet in their mitres") {
    const Built frame(fixture("mitred_frame"));
    CHECK(frame.contacts.size() == 4);
    CHECK(frame.volume_mm3("left stile") == doctest::Approx(319'500).epsilon(1e-12));
    CHECK(frame.volume_mm3("top rail") == doctest::Approx(499'500).epsilon(1e-12));
    CHECK(frame.total_mm2() == doctest::Approx(4 * 45 * std::sqrt(2.0) * 20).epsilon(1e-9));
    const Built rim(fixture("hexagon_frame"));
    CHECK(rim.contacts.size() == 6);
    CHECK(rim.volume_mm3("north") == doctest::Approx(127'372.3).epsilon(1e-6));
    CHECK(rim.area_mm2("north", "north-west") == doctest::Approx(831.384).epsilon(1e-6));
    CHECK(rim.total_mm2() == doctest::Approx(4'988.306).epsilon(1e-6));
  }

  // Outside, closed form: frusta of hexagons (fixtures/heather_tub/worked.md)
  TEST_CASE("sides that lean hold the wood between two hexagons that narrow, and stand level") {
    const Built tub(fixture("heather_tub"));
    double volume = 0;
    for (const Part& part : tub.job.parts) {
      volume += tub.volume_mm3(part.name);
      const geometry::Box box = bounds(make_solid(part));
      CHECK(box.lo[2] == doctest::Approx(0).epsilon(1e-6));
      CHECK(box.hi[2] == doctest::Approx(240).epsilon(1e-8));
    }
    CHECK(volume == doctest::Approx(4'345'536.213).epsilon(1e-7));
    CHECK(tub.total_mm2() == doctest::Approx(33'768.393).epsilon(1e-7));
  }

  // Outside, closed form: sums of rectangles (fixtures/cupboard_door/worked.md)
  TEST_CASE("the door's tenons are glued on five faces, its panel on none") {
    const Built door(fixture("cupboard_door"));
    check_areas(door.faces("left stile", "top rail", 0), {930});
    check_areas(door.faces("left stile", "top rail", 1), {240, 180});
    check_areas(door.faces("right stile", "bottom rail", 2), {1'400, 1'400});
    CHECK(door.area_mm2("panel") == doctest::Approx(29'818).epsilon(1e-12));
    CHECK(door.total_mm2() == doctest::Approx(16'600 + 29'818).epsilon(1e-12));
    CHECK(door.job.overrides.size() == 4);
  }

  // Outside, closed form: sums of boxes and rectangles (fixtures/brood_box/worked.md)
  TEST_CASE("the brood box's corners touch in twelve planes") {
    const Built box(fixture("brood_box"));
    check_areas(box.faces("front", "left", 2), std::vector<double>(10, 484.0));
    CHECK(box.area_mm2("back", "right") == doctest::Approx(10'186).epsilon(1e-9));
    CHECK(box.contacts.size() == 48);
    double volume = 0;
    for (const Part& part : box.job.parts) {
      volume += box.volume_mm3(part.name);
    }
    CHECK(volume == doctest::Approx(9'376'884).epsilon(1e-9));
  }

  // Outside, closed form: sums of rectangles (fixtures/tool_drawer/worked.md)
  TEST_CASE("the drawer's joints have the faces of their sums, its bottom stays dry at the back") {
    const Built drawer(fixture("tool_drawer"));
    CHECK(drawer.area_mm2("front", "left side") == doctest::Approx(2'496).epsilon(1e-12));
    CHECK(drawer.area_mm2("back", "right side") == doctest::Approx(2'160).epsilon(1e-12));
    CHECK(drawer.area_mm2("bottom", "left side") == doctest::Approx(6'080).epsilon(1e-12));
    CHECK(drawer.area_mm2("bottom", "front") == doctest::Approx(5'264).epsilon(1e-12));
    CHECK(drawer.area_mm2("bottom", "back") == doctest::Approx(4'608).epsilon(1e-12));
    CHECK(drawer.total_mm2() == doctest::Approx(26'736 + 4'608).epsilon(1e-12));
    REQUIRE(drawer.job.overrides.size() == 1);
    CHECK(drawer.job.overrides[0].between[1] == "back");
  }

  // Outside, closed form: sums of rectangles (fixtures/bent_runner/worked.md, extractor_table/worked.md)
  TEST_CASE("the runner's layers and the table's tenons have the areas of their sums") {
    const Built runner(fixture("bent_runner"));
    CHECK(runner.contacts.size() == 4);
    CHECK(runner.total_mm2() == doctest::Approx(216'000).epsilon(1e-12));
    const Built table(fixture("extractor_table"));
    CHECK(table.area_mm2("front left leg", "front rail") ==
          doctest::Approx(7'131.5).epsilon(1e-12));
    CHECK(table.job.parts[table.index("lower left rail")].length ==
          geometry::Length::whole_mm(553));
    CHECK(table.total_mm2() == doctest::Approx(114'104).epsilon(1e-12));
  }

  TEST_CASE("a butted box touches with the ends' ends") {
    const Built box(kBox + "corners = 'butt'\nbottom = 'inset'\ntop = 'butt'\n");
    check_areas(box.faces("front", "left", 1), {15.0 * 105});
    check_areas(box.faces("bottom", "front", 1), {15.0 * 370});
    check_areas(box.faces("bottom", "left", 0), {15.0 * 230});
    check_areas(box.faces("top", "front", 2), {15.0 * 400});
    check_areas(box.faces("top", "left", 2), {15.0 * 230});
  }

  // Outside, closed form: a square's diagonal
  TEST_CASE("a mitred corner is as wide as the stock's diagonal") {
    const Built box(kBox + "corners = 'mitre'\nbottom = 'rabbet'\n");
    double mitres = 0;
    for (const geometry::Contact& c : box.contacts) {
      if (std::abs(c.normal.x) > 0.5 && std::abs(c.normal.y) > 0.5) {
        mitres += c.area_mm2;
      }
    }
    CHECK(mitres == doctest::Approx(4 * 15 * std::sqrt(2.0) * 112.5).epsilon(1e-9));
    check_areas(box.faces("bottom", "front", 2), {(400.0 + 370) / 2 * 15});
    check_areas(box.faces("bottom", "front", 1), {370 * 7.5});
  }

  // Outside, closed form: sums of rectangles from the sizes alone
  TEST_CASE("finger corners touch on every side of every finger") {
    // 7 pieces of 120/7 mm, the last a nanometre or so wider: 6 sides of 15 x 15 between them, and
    // all of the 15 x 120 corner once as an end or a cheek of the front and once of the end.
    const Built box(kBox + "corners = 'finger'\n");
    double corner = 0;
    for (const geometry::Contact& c : box.contacts) {
      const bool front_left =
          box.job.parts[c.a].name == "front" && box.job.parts[c.b].name == "left";
      corner += front_left ? c.area_mm2 : 0;
    }
    CHECK(corner == doctest::Approx(15.0 * 120 + 6 * 15 * 15).epsilon(1e-6));
  }

  TEST_CASE("a panel in grooves touches their cheeks, and their floors only if it is glued") {
    const std::string grooved = kBox + "bottom = 'groove'\n";
    for (const char* corners : {"butt", "rabbet", "miter", "finger"}) {
      CAPTURE(corners);
      const Built floating(grooved + "corners = '" + corners + "'\n");
      CHECK(floating.faces("bottom", "front", 1).empty());
      CHECK(floating.faces("bottom", "front", 2).size() == 2);
      const Built glued(grooved + "corners = '" + corners + "'\nbottom_fit = 'glue'\n");
      // 5 deep, a third of the stock: the front's floor is 380 long, but for the 5 at each end that
      // a rabbet 7.5 deep has taken.
      const double floor = std::string(corners) == "rabbet" ? 370 : 380;
      check_areas(glued.faces("bottom", "front", 1), {floor * 6});
    }
  }

  TEST_CASE("grain follows the part's turn") {
    Part part;
    part.along = 0;
    part.turns = {{2, 90, {}}};
    CHECK(grain_of(part).y == doctest::Approx(1));
    part.turns = {{0, 90, {}}};
    CHECK(grain_of(part).x == 1);
    part.along = 1;
    CHECK(grain_of(part).z == doctest::Approx(1));
    part.turns.push_back({1, 90, {}});
    CHECK(grain_of(part).x == doctest::Approx(1));
  }
}

}  // namespace
}  // namespace planner::work
