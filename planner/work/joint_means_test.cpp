#include "planner/work/joint_means.h"

#include <doctest/doctest.h>

#include "planner/work/built_job_test.h"

namespace planner::work {
namespace {

struct Held : BuiltJob {
  explicit Held(const std::string& text, const std::string& glue_id = "pva_yellow",
                const Shop& shop = {})
      : BuiltJob(text), joints(classify_joints(job, contacts)) {
    take_means(joints, job, shop, *glue_named(glue_id, {}, shop).glue);
  }
  // The same, its parts listed the other way round.
  Held reversed() const {
    Held other = *this;
    std::ranges::reverse(other.job.parts);
    other.solids = make_solids(other.job.parts);
    other.contacts = geometry::find_contacts(other.solids, {});
    other.joints = classify_joints(other.job, other.contacts);
    take_means(other.joints, other.job, {}, *glue_named("pva_yellow", {}, {}).glue);
    return other;
  }
  HeldBy by(const std::string& a, const std::string& b) const {
    for (const Joint& joint : joints) {
      const std::string& one = job.parts[joint.parts[0]].name;
      const std::string& other = job.parts[joint.parts[1]].name;
      if ((one == a && other == b) || (one == b && other == a)) {
        return joint.held_by;
      }
    }
    FAIL("no such joint");
    return HeldBy::clamps;
  }
  std::vector<Joint> joints;
};

std::string box(const std::string& size, const std::string& stock, const std::string& more) {
  return "title = \"box\"\nunits = \"mm\"\n[box]\noutside = " + size + "\nstock = " + stock +
         "\nspecies = \"black_cherry\"\n" + more;
}

std::string bookcase(const std::string& more) {
  return "title = \"case\"\nunits = \"mm\"\n[carcass]\noutside = [600, 250, 700]\nstock = 18\n"
         "shelves = 1\nback = \"rabbet\"\nspecies = \"black_cherry\"\n" +
         more;
}

}  // namespace

TEST_SUITE("planner/joint_means") {
  TEST_CASE("a thin ply back is pinned, in its rabbets and on the shelf's edge; the case is clamped") {
    const Held held(bookcase("back_species = \"plywood_birch\"\n"));
    CHECK(held.by("back", "left side") == HeldBy::pins);
    CHECK(held.by("back", "shelf 1") == HeldBy::pins);
    CHECK(held.by("left side", "shelf 1") == HeldBy::clamps);
  }
  TEST_CASE("not so a back of solid wood, a thick one, one whose outside shows, or one the job has glued") {
    CHECK(Held(bookcase("")).by("back", "left side") == HeldBy::clamps);
    CHECK(Held(bookcase("back_species = \"plywood_birch\"\nback_thickness = 12\n"))
              .by("back", "left side") == HeldBy::clamps);
    CHECK(Held(bookcase("back_species = \"plywood_birch\"\n[[part]]\nname = \"back\"\n"
                        "show = [\"+y\"]\n"))
              .by("back", "left side") == HeldBy::clamps);
    CHECK(Held(bookcase("back_species = \"plywood_birch\"\nback_fit = \"glue\"\n"))
              .by("back", "left side") == HeldBy::clamps);
  }
  TEST_CASE("a thin bottom is pinned, a thin top, which shows, is not") {
    const Held held(box("[300, 200, 90]", "15",
                        "corners = \"rabbet\"\nbottom = \"rabbet\"\ntop = \"rabbet\"\n"
                        "bottom_thickness = 6\ntop_thickness = 6\n"
                        "bottom_species = \"plywood_birch\"\ntop_species = \"plywood_birch\"\n"));
    CHECK(held.by("bottom", "left") == HeldBy::pins);
    CHECK(held.by("top", "left") == HeldBy::clamps);
  }
  TEST_CASE("the job's word wins, and the last of two") {
    const std::string screws = "[[joint]]\nbetween = [\"shelf 1\", \"back\"]\nheld_by = \"screws\"\n";
    const Held held(
        bookcase("back_species = \"plywood_birch\"\nback_fit = \"pins\"\n" + screws));
    CHECK(held.by("back", "shelf 1") == HeldBy::screws);
    CHECK(held.by("back", "left side") == HeldBy::pins);
  }
  TEST_CASE("a bottom in grooves all round asks for nothing; a shelf in two dadoes is clamped home") {
    const Held held(box("[300, 200, 90]", "15",
                        "corners = \"rabbet\"\nbottom = \"groove\"\nbottom_species = \"plywood_birch\"\n"));
    for (const Held& listed : {held, held.reversed()}) {
      CHECK(listed.by("bottom", "left") == HeldBy::fit);
      CHECK(listed.by("bottom", "front") == HeldBy::fit);
    }
    CHECK(held.by("front", "left") == HeldBy::clamps);
    const std::string ply_shelf = "[[part]]\nname = \"shelf 1\"\nspecies = \"plywood_birch\"\n";
    CHECK(Held(bookcase("back_species = \"plywood_birch\"\n" + ply_shelf))
              .by("left side", "shelf 1") == HeldBy::clamps);
  }
  TEST_CASE("tape folds small mitred boxes: 12 in and 1/2 in at most, and where there is tape") {
    const std::string mitred = "corners = \"mitre\"\n";
    CHECK(Held(box("[150, 100, 60]", "9", mitred)).by("front", "left") == HeldBy::tape);
    CHECK(Held(box("[320, 100, 60]", "9", mitred)).by("back", "right") == HeldBy::clamps);
    CHECK(Held(box("[150, 100, 60]", "15", mitred)).by("front", "left") == HeldBy::clamps);
    Shop bare;
    bare.tape = false;
    CHECK(Held(box("[150, 100, 60]", "9", mitred), "pva_yellow", bare).by("front", "left") ==
          HeldBy::clamps);
    CHECK(Held("title = \"frame\"\nunits = \"mm\"\n[frame]\noutside = [250, 200]\nthickness = 10\n"
               "member = 30\ncorners = \"mitre\"\nspecies = \"red_oak\"\n")
              .by("left stile", "top rail") == HeldBy::clamps);
  }
  // Common practice: a sash's bars are halved over each other, and its stiles press their tenons.
  TEST_CASE("glazing bars hold where they cross, once both their ends are let in") {
    const Held sash("title = \"sash\"\nunits = \"mm\"\n[frame]\noutside = [500, 700]\nthickness = 30\nmember = 50\n"
                    "corners = \"mortise\"\nmuntins = 1\nmuntins_across = 1\nspecies = \"black_cherry\"\n");
    int crossings = 0;
    for (const Joint& joint : sash.joints) {
      crossings += joint.kind == JointKind::half_lap ? 1 : 0;
      CHECK(joint.held_by == (joint.kind == JointKind::half_lap ? HeldBy::fit : HeldBy::clamps));
    }
    CHECK(crossings == 1);
  }
  TEST_CASE("short edges are rubbed in hot hide glue only") {
    const auto boards = [](const std::string& length) {
      return "title = \"board\"\nunits = \"mm\"\n[panel]\nlength = " + length +
             "\nthickness = 8\nboards = [75, 75]\nspecies = \"sitka_spruce\"\n";
    };
    CHECK(Held(boards("320"), "hide_hot").by("board 1", "board 2") == HeldBy::hand);
    CHECK(Held(boards("320")).by("board 1", "board 2") == HeldBy::clamps);
    CHECK(Held(boards("650"), "hide_hot").by("board 1", "board 2") == HeldBy::clamps);
  }
  TEST_CASE("veneers go into the bag, or under weights; thick skins never under those, boards into neither") {
    const auto veneered = [](const std::string& face) {
      return "title = \"door\"\nunits = \"mm\"\n[veneer]\nsize = [600, 400]\ncore = 16\nface = " + face +
             "\nspecies = \"black_walnut\"\ncore_species = \"mdf\"\n";
    };
    const auto by = [&](const std::string& face, const Shop& shop) {
      return Held(veneered(face), "pva_yellow", shop).by("core", "face 2");
    };
    CHECK(by("0.9", Shop{}) == HeldBy::vacuum);  // with no shop file, there is all
    Shop bare;
    bare.unlimited_rack = false;
    CHECK(by("0.9", bare) == HeldBy::clamps);
    Shop weights = bare;
    weights.weights.push_back({10, 8, {}});
    CHECK(by("0.9", weights) == HeldBy::weights);
    CHECK(by("2", weights) == HeldBy::clamps);
    weights.vacuum = true;
    CHECK(by("0.9", weights) == HeldBy::vacuum);
    CHECK(by("2", weights) == HeldBy::vacuum);
    CHECK(by("6", weights) == HeldBy::clamps);
  }
}

}  // namespace planner::work
