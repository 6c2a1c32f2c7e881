#include "planner/work/panel_room.h"

#include <doctest/doctest.h>

#include "planner/advice/notes.h"
#include "planner/work/built_job_test.h"
#include "planner/work/movement.h"

namespace planner::work {
namespace {

using doctest::Approx;

struct Panelled : BuiltJob {
  std::vector<Joint> joints;
  std::vector<PanelRoom> rooms;
  std::vector<plan::Note> notes;

  explicit Panelled(const std::string& text)
      : BuiltJob(text),
        joints(classify_joints(job, contacts)),
        rooms(panel_rooms(job, solids, joints, kSeasonalChange_percent)),
        notes(advice::panel_notes(rooms)) {}
};

// A door of beech (CT 0.00431), its panel 400 - 100 + 2 x (10 - 1.5) = 317 mm across the grain.
std::string door(const std::string& panel) {
  return "units = 'mm'\nspecies = 'beech'\n[frame]\noutside = [400, 700]\nthickness = 20\nmember = "
         "50\ncorners = 'mortise'\n" +
         panel;
}

TEST_SUITE("planner/panel_room") {
  TEST_CASE("a panel with just the room that it may want is told nothing, one with a millimetre less is") {
    const auto told = [](double room_mm) {
      PanelRoom room;
      room.movement_mm = 5;
      room.room_mm = room_mm;
      return advice::panel_notes(std::vector{room}).size();
    };
    CHECK(told(5) == 0);
    CHECK(told(4) == 1);
  }
  TEST_CASE("a solid panel glued into its frame is proposed to float, with the reason") {
    const Panelled glued(door("panel = 'glue'\npanel_thickness = 6\n"));
    REQUIRE(glued.mistakes == "");
    REQUIRE(glued.rooms.size() == 1);
    CHECK(glued.rooms[0].sides == 4);
    CHECK(glued.rooms[0].across_mm == 320);
    CHECK(glued.rooms[0].movement_mm == Approx(320 * 0.00431 * 4));
    CHECK(glued.rooms[0].glued.size() == 2);  // the rails lie across its grain, the stiles along it
    REQUIRE(glued.notes.size() == 1);
    const auto& note = std::get<plan::PanelGluedNote>(glued.notes[0]);
    CHECK(note.sides == 4);
    CHECK(note.joints == glued.rooms[0].glued);
    CHECK(note.movement_mm == Approx(5.5).epsilon(0.01));
  }

  TEST_CASE("plywood may be glued in, and a shelf between two sides is no panel") {
    CHECK(Panelled(door("panel = 'glue'\npanel_thickness = 6\npanel_species = 'plywood_birch'\n"))
              .rooms.empty());
    CHECK(Panelled("units = 'mm'\nspecies = 'beech'\n[carcass]\noutside = [700, 220, 900]\nstock = "
                   "18\nshelves = 2\n")
              .rooms.empty());
  }

  TEST_CASE("a floating panel's room is what its grooves leave on both sides") {
    const Panelled floats(door("panel = 'float'\npanel_thickness = 6\n"));
    REQUIRE(floats.mistakes == "");
    REQUIRE(floats.rooms.size() == 1);
    CHECK(floats.rooms[0].glued.empty());
    CHECK(floats.rooms[0].across_mm == 317);
    REQUIRE(floats.rooms[0].room_mm);
    CHECK(*floats.rooms[0].room_mm == Approx(3));
    CHECK(*floats.rooms[0].engaged_mm == Approx(8.5));
    REQUIRE(floats.notes.size() == 1);
    const auto& note = std::get<plan::PanelRoomNote>(floats.notes[0]);
    CHECK(note.movement_mm == Approx(5.5).epsilon(0.01));
    CHECK(note.room_mm == Approx(3));
  }

  TEST_CASE(
      "a wide panel in usual grooves is told to be too tight, one in shallow ones to drop out") {
    std::string wide = door("panel = 'float'\npanel_thickness = 6\n");
    wide.replace(wide.find("[400, 700]"), 10, "[800, 900]");
    const Panelled tight(wide);
    REQUIRE(tight.notes.size() == 1);
    const auto& note = std::get<plan::PanelRoomNote>(tight.notes[0]);
    CHECK(note.movement_mm - note.room_mm == Approx(9.4).epsilon(0.01));
    CHECK(note.room_mm < note.movement_mm / 2);  // so it is to be made narrower, whenever glued up
    const Panelled shallow(door("panel = 'float'\npanel_thickness = 6\npanel_depth = 4\n"));
    REQUIRE(shallow.notes.size() == 2);
    CHECK(std::get<plan::PanelDepthNote>(shallow.notes[1]).engaged_mm == Approx(2.5));
  }

  TEST_CASE("glued in its middle only, a panel is free to move") {
    std::string text = door("panel = 'glue'\npanel_thickness = 6\n");
    for (const char* rail : {"bottom rail", "top rail"}) {
      text += "[[joint]]\nbetween = ['panel', '" + std::string(rail) + "']\nmiddle = 50\n";
    }
    CHECK(Panelled(text).rooms[0].glued.empty());
  }
}

}  // namespace
}  // namespace planner::work
