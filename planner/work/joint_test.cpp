#include "planner/work/joint.h"

#include <fstream>
#include <map>
#include <sstream>

#include <doctest/doctest.h>

#include "planner/files/job_file.h"
#include "planner/plan/plan_parts.h"
#include "planner/work/joint_fit.h"
#include "planner/work/joint_kind.h"
#include "planner/work/motion.h"
#include "planner/work/part_solid.h"
#include "planner/work/square.h"
#include "tests/source_dir.h"

using namespace planner;
using namespace planner::work;

namespace {

constexpr double kIn2 = 25.4 * 25.4;

struct Found {
  work::Job job;
  std::vector<geometry::Solid> solids;
  std::vector<work::Joint> joints;

  work::PartId part(const std::string& name) const {
    for (work::PartId p = 0; p < job.parts.size(); ++p) {
      if (job.parts[p].name == name) {
        return p;
      }
    }
    FAIL("no part called ", name);
    return 0;
  }
  const work::Joint& between(const std::string& a, const std::string& b) const {
    for (const work::Joint& joint : joints) {
      if ((joint.parts[0] == part(a) && joint.parts[1] == part(b)) ||
          (joint.parts[0] == part(b) && joint.parts[1] == part(a))) {
        return joint;
      }
    }
    FAIL("no joint between ", a, " and ", b);
    return joints.front();
  }
};

Found found_in(const std::string& toml) {
  const files::JobReading reading = files::read_job("job.toml", toml);
  for (const base::Diagnostic& d : reading.diagnostics) {
    INFO(to_text(d));
    CHECK(d.severity == base::Severity::warning);
  }
  REQUIRE(reading.job);
  Found found{*reading.job, {}, {}};
  found.solids = work::make_solids(found.job.parts);
  found.joints = classify_joints(found.job, find_contacts(found.solids, {}));
  return found;
}

Found fixture(const std::string& name) {
  std::ifstream in(source_dir() + "/fixtures/" + name + "/job.toml");
  std::stringstream text;
  text << in.rdbuf();
  return found_in(text.str());
}

// A board of explicit sizes, for joints too small for a fixture.
std::string board(const std::string& name, const std::string& sizes, const std::string& axes,
                  const std::string& at, const std::string& cuts = "") {
  return "[[part]]\nname = \"" + name + "\"\nspecies = \"black_cherry\"\n" + sizes + "\n" + axes +
         "\nat = " + at + "\n" + cuts;
}

}  // namespace

TEST_SUITE("planner/joint") {
  // Areas by hand: fixtures/hive_tool_chest/worked.md, from the sizes alone.
  // Outside, closed form: sums of rectangles by grain (fixtures/hive_tool_chest/worked.md)
  TEST_CASE("the chest has twelve rabbet joints and 127 1/8 square inches of glue") {
    const Found chest = fixture("hive_tool_chest");
    CHECK(chest.joints.size() == 12);
    double area = 0;
    for (const work::Joint& joint : chest.joints) {
      CHECK(joint.kind == work::JointKind::rabbet);
      CHECK(joint.faces.size() == 2);
      area += joint.glued_area_mm2();
    }
    CHECK(area / kIn2 == doctest::Approx(127.125).epsilon(1e-12));
    const plan::GrainShares shares = plan::grain_shares(chest.joints);
    CHECK(shares.long_mm2 / kIn2 == doctest::Approx(58.5).epsilon(1e-12));
    CHECK(shares.cross_mm2 / kIn2 == doctest::Approx(24.75).epsilon(1e-12));
    CHECK(shares.end_mm2 / kIn2 == doctest::Approx(43.875).epsilon(1e-12));
  }

  TEST_CASE("a chest corner is held across and seated along, and the rabbet gets the glue") {
    const Found chest = fixture("hive_tool_chest");
    const work::Joint& corner = chest.between("front", "left");
    CHECK(corner.faces[0].contact.area_mm2 / kIn2 == doctest::Approx(5.4375).epsilon(1e-12));
    CHECK(std::abs(corner.faces[0].contact.normal.y) == 1);
    CHECK(corner.faces[1].contact.area_mm2 / kIn2 == doctest::Approx(2.71875).epsilon(1e-12));
    CHECK(std::abs(corner.faces[1].contact.normal.x) == 1);
    const bool front_first = corner.parts[0] == chest.part("front");
    CHECK(corner.spread[front_first ? 0 : 1]);
    CHECK_FALSE(corner.spread[front_first ? 1 : 0]);
  }

  TEST_CASE("the lid drops on freely, an end dropped between standing walls is refused") {
    const Found chest = fixture("hive_tool_chest");
    CHECK(chest.between("front", "top").depth_mm == doctest::Approx(9.525));  // 3/8 in
    CHECK(wiped_mm(chest.between("front", "left"), {0, 0, 1}) == doctest::Approx(7.25 * 25.4));
    const work::Motions motions = find_motions(chest.solids, chest.joints);
    const auto up = [&](work::PartId i, work::PartId j) { return motions.leaves(4, i, j); };
    REQUIRE(motions.directions()[4] == geometry::Direction{0, 0, 1});
    CHECK(up(chest.part("top"), chest.part("front")));
    CHECK_FALSE(up(chest.part("left"), chest.part("front")));
  }

  TEST_CASE("a closed box is checked across its walls before the top goes on") {
    const Found chest = fixture("hive_tool_chest");
    std::vector<geometry::Box> boxes;
    for (const auto& solid : chest.solids) {
      boxes.push_back(bounds(solid));
    }
    const auto ring = find_ring(chest.joints, boxes);
    REQUIRE(ring);
    CHECK(ring->normal_axis == 2);
    CHECK(ring->inside_mm[0] == doctest::Approx(12.5 * 25.4));
    CHECK(ring->inside_mm[1] == doctest::Approx(7.5 * 25.4));
    CHECK(closing_part(*ring, chest.joints, boxes) == chest.part("top"));
  }

  TEST_CASE("every ring that nothing else keeps square is measured, cells by their outline") {
    const auto normals = [](const char* name) {
      const Found job = fixture(name);
      std::vector<geometry::Box> boxes;
      for (const auto& solid : job.solids) {
        boxes.push_back(bounds(solid));
      }
      std::vector<int> all;
      for (const work::Ring& ring : find_rings(job.joints, boxes)) {
        all.push_back(ring.normal_axis);
      }
      std::ranges::sort(all);
      return all;
    };
    // The chest's bottom, lid and walls keep each other square where the walls are.
    CHECK(normals("hive_tool_chest") == std::vector{2});
    CHECK(normals("eight_shelves") == std::vector{1});
    // Rails high and low: two ends, two long sides, and the legs in plan.
    CHECK(normals("extractor_table") == std::vector{0, 0, 1, 1, 2});
    CHECK(normals("mitred_frame") == std::vector{2});
    CHECK(normals("benchtop_panel").empty());
  }

  TEST_CASE("a bottom that three walls carry shuts a box, so that the lid goes on last") {
    // Left, right, front, back (which ends above the bottom), bottom, lid.
    const std::vector<geometry::Box> boxes = {{{0, 0, 0}, {10, 200, 100}},   {{290, 0, 0}, {300, 200, 100}},
                                              {{10, 0, 0}, {290, 10, 100}},  {{10, 190, 20}, {290, 200, 100}},
                                              {{5, 5, 10}, {295, 200, 16}},  {{0, 0, 100}, {300, 200, 110}}};
    std::vector<work::Joint> joints;
    for (const auto& parts : {std::array<work::PartId, 2>{0, 2}, {0, 3}, {0, 4}, {0, 5}, {1, 2}, {1, 3}, {1, 4}, {1, 5},
                              {2, 4}, {2, 5}, {3, 5}}) {
      work::Joint joint;
      joint.parts = parts;
      joints.push_back(joint);
    }
    CHECK(closing_part({{0, 2, 1, 3}, 2, {280, 180}, {300, 200}}, joints, boxes) == work::PartId{5});
  }

  TEST_CASE("a bottom in three grooves is kept by what shuts them; a shelf in two dadoes isn't") {
    for (const work::Joint& joint : fixture("shelf_and_sides").joints) {
      CHECK_FALSE(joint.driven);
    }
    const Found drawer = fixture("tool_drawer");
    const work::PartId bottom = drawer.part("bottom");
    long grooves = 0;
    for (const work::Joint& joint : drawer.joints) {
      if (std::ranges::count(joint.parts, bottom) > 0 && joint.kind == work::JointKind::groove) {
        ++grooves;
        CHECK(joint.driven);
      }
    }
    CHECK(grooves == 3);
  }

  TEST_CASE("an end let in whole: short it is a stub tenon, long a stopped dado or groove, by the grain") {
    const auto kind = [](int wide, const char* along) {
      const std::string size = "[" + std::to_string(wide) + ", 12]";
      return found_in(std::string("units = 'mm'\nspecies = 'beech'\n[[part]]\nname = 'plate'\nlength = 300\n"
                                  "width = 300\nthickness = 30\nalong = '") +
                      along + "'\nface = 'z'\nat = [0, 0, 0]\n[[part.cut]]\nkind = 'mortise'\non = '+z'\nfrom = [50, 50]\n" +
                      "size = " + size + "\ndepth = 10\n[[part]]\nname = 'end'\nlength = 100\nwidth = " +
                      std::to_string(wide) + "\nthickness = 12\nalong = 'z'\nface = 'y'\nat = [50, 50, 20]\n")
          .joints.at(0)
          .kind;
    };
    CHECK(kind(30, "x") == work::JointKind::mortise_and_tenon);
    CHECK(kind(120, "x") == work::JointKind::groove);
    CHECK(kind(120, "y") == work::JointKind::dado);
  }

  TEST_CASE("open slots at a frame's corners are bridles") {
    const Found frame = found_in(
        "units = 'mm'\nspecies = 'beech'\n[frame]\noutside = [300, 400]\nthickness = 24\nmember = 50\ncorners = 'bridle'\n");
    CHECK(frame.joints.size() == 4);
    for (const work::Joint& joint : frame.joints) {
      CHECK(joint.kind == work::JointKind::bridle);
    }
  }

  TEST_CASE("an octagon's every second side is no leg between two rails: it has no diagonals to measure") {
    const Found tub = found_in(
        "units = \"mm\"\nspecies = \"beech\"\n[ring]\nsides = 8\nacross = 300\nheight = 200\nthickness = 18\n");
    std::vector<geometry::Box> boxes;
    for (const auto& solid : tub.solids) {
      boxes.push_back(bounds(solid));
    }
    CHECK(find_rings(tub.joints, boxes).empty());
  }

  TEST_CASE("a shelf let into two sides sits in dadoes") {
    const Found shelf = fixture("shelf_and_sides");
    CHECK(shelf.joints.size() == 2);
    for (const work::Joint& joint : shelf.joints) {
      CHECK(joint.kind == work::JointKind::dado);
      CHECK(joint.faces.size() == 3);
      CHECK(joint.depth_mm == doctest::Approx(6));
    }
  }

  TEST_CASE("boards of a bench top meet in edge joints") {
    const Found top = fixture("benchtop_panel");
    CHECK(top.joints.size() == 5);
    for (const work::Joint& joint : top.joints) {
      CHECK(joint.kind == work::JointKind::edge);
      CHECK(joint.faces[0].contact.area_mm2 == doctest::Approx(1400.0 * 40));
    }
  }

  TEST_CASE("a bottom in grooves round the tray stays dry where the file says so") {
    const Found tray = fixture("captured_bottom_box");
    CHECK(tray.between("bottom", "front").kind == work::JointKind::groove);
    CHECK_FALSE(tray.between("bottom", "front").glued);
    CHECK(tray.between("front", "left end").kind == work::JointKind::rabbet);
  }

  // Outside, closed form: sums of rectangles from the sizes alone
  TEST_CASE("a tenon in its mortise is known by its cheeks and shoulders") {
    const std::string job =
        "units = \"mm\"\n" +
        board("post", "length = 200\nwidth = 50\nthickness = 50", "along = \"z\"\nface = \"x\"",
              "[0, 0, 0]",
              "[[part.cut]]\nkind = \"mortise\"\non = \"+x\"\nfrom = [15, 80]\nsize = [20, 40]\n"
              "depth = 30\n") +
        board("rail", "length = 230\nwidth = 60\nthickness = 40", "along = \"x\"\nface = \"y\"",
              "[20, 5, 70]",
              "[[part.cut]]\nkind = \"tenon\"\non = \"-x\"\nlength = 30\nfrom = [10, 10]\n"
              "size = [20, 40]\n");
    const Found frame = found_in(job);
    REQUIRE(frame.joints.size() == 1);
    const work::Joint& joint = frame.joints[0];
    CHECK(joint.kind == work::JointKind::mortise_and_tenon);
    CHECK(joint.depth_mm == doctest::Approx(30));
    // Four cheeks 30 deep on a 20 x 40 tenon, its end on the mortise's floor, the shoulder round
    // it.
    CHECK(joint.glued_area_mm2() ==
          doctest::Approx(2 * 30 * 20 + 2 * 30 * 40 + 20 * 40 + (40 * 60 - 20 * 40)));
  }

  TEST_CASE("dovetails go together one way, and nothing need press them") {
    const Found box = found_in(
        "units = \"mm\"\nspecies = \"beech\"\n[box]\noutside = [300, 200, 100]\nstock = 12\n"
        "corners = \"dovetail\"\n");
    const work::Joint& corner = box.between("front", "left");
    CHECK(corner.kind == work::JointKind::dovetail);
    CHECK(corner.driven);
    CHECK(corner.depth_mm == doctest::Approx(12));
    CHECK(corner.spread == std::array{true, true});
    CHECK_FALSE(main_face(corner));
    const work::Motions motions = find_motions(box.solids, box.joints);
    for (std::size_t d = 0; d < motions.directions().size(); ++d) {
      CHECK(motions.leaves(d, box.part("left"), box.part("front")) ==
            (motions.directions()[d] == geometry::Direction{-1, 0, 0}));
    }
  }

  TEST_CASE("loose dovetails are pressed the way they go in") {
    const Found box = found_in(
        "units = \"mm\"\nspecies = \"beech\"\n[box]\noutside = [300, 200, 100]\nstock = 12\n"
        "corners = \"dovetail\"\n[[joint]]\nbetween = [\"front\", \"left\"]\nfit = \"loose\"\n");
    const work::Joint& corner = box.between("front", "left");
    CHECK_FALSE(corner.driven);
    for (std::size_t f = 0; f < corner.faces.size(); ++f) {
      const geometry::Direction& n = corner.faces[f].contact.normal;
      CHECK(fit_pressed(corner, f) == (std::abs(n.x) < 0.9));
    }
  }

  TEST_CASE("a sliding dovetail and a tapered tenon are no dovetailed corner") {
    work::Joint joint;
    const auto add = [&](geometry::Direction n) {
      joint.faces.emplace_back();
      joint.faces.back().contact.normal = unit(n);
    };
    add({0, 1, 8});
    add({0, 1, -8});
    add({0, 1, 0});
    CHECK_FALSE(dovetail_run(joint));  // open at both ends
    add({1, 0, 0});
    REQUIRE(dovetail_run(joint));
    CHECK(std::abs(dovetail_run(joint)->x) == doctest::Approx(1));
    add({-1, 0, 0});
    CHECK_FALSE(dovetail_run(joint));  // between walls
    joint.faces.pop_back();
    add({8, 1, 0});
    CHECK_FALSE(dovetail_run(joint));  // tapered all round
  }

  TEST_CASE("two boards face to face are a lamination, partly so a lap") {
    const std::string lower = board("lower", "length = 300\nwidth = 80\nthickness = 20",
                                    "along = \"x\"\nface = \"z\"", "[0, 0, 0]");
    const std::string over = board("upper", "length = 300\nwidth = 80\nthickness = 20",
                                   "along = \"x\"\nface = \"z\"", "[0, 0, 20]");
    const std::string aside = board("upper", "length = 300\nwidth = 80\nthickness = 20",
                                    "along = \"x\"\nface = \"z\"", "[150, 0, 20]");
    CHECK(found_in("units = \"mm\"\n" + lower + over).joints[0].kind ==
          work::JointKind::lamination);
    CHECK(found_in("units = \"mm\"\n" + lower + aside).joints[0].kind == work::JointKind::lap);
  }

  TEST_CASE("long grain glued across long grain is told as cross grain") {
    const std::string lower = board("lower", "length = 300\nwidth = 80\nthickness = 20",
                                    "along = \"x\"\nface = \"z\"", "[0, 0, 0]");
    const std::string over = board("batten", "length = 80\nwidth = 40\nthickness = 20",
                                   "along = \"y\"\nface = \"z\"", "[100, 0, 20]");
    const Found found = found_in("units = \"mm\"\n" + lower + over);
    CHECK(found.joints[0].faces[0].crossed);
    CHECK(found.joints[0].kind == work::JointKind::lap);
  }
}
