#include "planner/files/job_file.h"

#include <fstream>
#include <sstream>
#include <string>

#include <doctest/doctest.h>

#include "tests/source_dir.h"

namespace planner::files {
namespace {

std::string fixture(const std::string& name) {
  std::ifstream file(source_dir() + "/fixtures/" + name);
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

work::Job job_of(const std::string& text) {
  const JobReading read = read_job("job.toml", text);
  for (const base::Diagnostic& d : read.diagnostics) {
    MESSAGE(to_text(d));
  }
  REQUIRE(read.job.has_value());
  return *read.job;
}

std::string said(const std::string& text) {
  const JobReading read = read_job("job.toml", text);
  CHECK(read.job.has_value() != has_errors(read.diagnostics));
  std::string all;
  for (const base::Diagnostic& d : read.diagnostics) {
    all += to_text(d) + "\n";
  }
  return all;
}

bool has(const std::string& text, const std::string& part) {
  CAPTURE(text);
  return text.find(part) != std::string::npos;
}

const work::Part& named(const work::Job& job, const std::string& name) {
  for (const work::Part& part : job.parts) {
    if (part.name == name) {
      return part;
    }
  }
  FAIL("no part named ", name);
  return job.parts.front();
}

geometry::Length inches(std::int64_t sixty_fourths) {
  return geometry::Length::in_64ths(sixty_fourths);
}

const std::string kBox =
    "units = 'in'\n[box]\noutside = [14, 9, 8]\nstock = '3/4'\nspecies = 'cherry'\n";

TEST_SUITE("planner/job_file") {
  TEST_CASE("work as small as a thimble in mm, or longer than a room in inches, is questioned") {
    const auto box = [](const char* units, const char* outside) {
      return said(std::string("units = \"") + units + "\"\n[box]\noutside = " + outside +
                  "\nstock = 0.75\ncorners = \"rabbet\"\nspecies = \"black_cherry\"\nbottom = \"butt\"\n"
                  "top = \"none\"\n");
    };
    CHECK(has(box("mm", "[14, 9, 8]"), "job.toml:1:1: warning: the longest part is 14 mm: are these inches"));
    CHECK(has(box("in", "[400, 300, 200]"), "are these millimeters"));
    CHECK_FALSE(has(box("in", "[14, 9, 8]"), "are these"));
    CHECK_FALSE(has(box("mm", "[360, 230, 200]"), "are these"));
  }

  TEST_CASE("the twelve lines of the hive-tool chest are six parts that fit its outside") {
    const work::Job job = job_of(fixture("hive_tool_chest/job.toml"));
    CHECK(job.title == "Hive-tool chest");
    CHECK(job.starter == "box");
    CHECK(job.glue == "pva_type2");
    REQUIRE(job.parts.size() == 6);
    const work::Part& front = named(job, "front");
    CHECK(front.length == inches(14 * 64));
    CHECK(front.width == inches(7 * 64 + 16));  // 8 less 3/8 seated in top and bottom
    CHECK(front.thickness == inches(48));
    CHECK(front.species == "black_cherry");
    CHECK(front.at[2] == inches(24));
    const work::Part& right = named(job, "right");
    CHECK(right.length == inches(8 * 64 + 16));  // 9 less two shoulders of 3/8
    CHECK(right.along == 1);
    CHECK(right.at[0] == inches(13 * 64 + 16));
    CHECK(right.at[1] == inches(24));
    const work::Part& lid = named(job, "top");
    CHECK(lid.length == inches(14 * 64));
    CHECK(lid.width == inches(9 * 64));
    CHECK(lid.at[2] == inches(7 * 64 + 16));
    CHECK(lid.cuts.size() == 4);
    const auto& rabbet = std::get<work::Rabbet>(lid.cuts[0].shape);
    CHECK(rabbet.width == inches(48));
    CHECK(rabbet.depth == inches(24));
    CHECK(rabbet.on == work::Face{2, false});
    CHECK(named(job, "bottom").at[2] == geometry::Length());
  }

  TEST_CASE("every fixture is a job without a complaint") {
    for (const char* name :
         {"hive_tool_chest", "benchtop_panel", "shelf_and_sides", "captured_bottom_box",
          "mitred_frame", "cupboard_door", "extractor_table", "hexagon_frame", "brood_box",
          "tool_drawer", "bent_runner", "swarm_bow", "heather_tub", "hive_window"}) {
      CAPTURE(name);
      CHECK(said(fixture(std::string(name) + "/job.toml")) == "");
    }
  }

  TEST_CASE("a butted open box has its ends between front and back") {
    const work::Job job = job_of(kBox + "corners = 'butt'\nbottom = 'inset'\n");
    CHECK(job.parts.size() == 5);
    CHECK(named(job, "left").length == inches(9 * 64 - 96));
    CHECK(named(job, "left").width == inches(8 * 64));
    CHECK(named(job, "bottom").length == inches(14 * 64 - 96));
    CHECK(named(job, "bottom").at[0] == inches(48));
    CHECK(named(job, "front").cuts.empty());
  }

  TEST_CASE("a lid that is butted on takes its thickness from the walls' height") {
    const work::Job job = job_of(kBox + "corners = 'butt'\ntop = 'butt'\ntop_thickness = '1/2'\n");
    CHECK(named(job, "front").width == inches(7 * 64 + 32));
    CHECK(named(job, "top").at[2] == inches(7 * 64 + 32));
    CHECK(named(job, "top").cuts.empty());
  }

  TEST_CASE("a plywood bottom in a groove is glued, a solid one floats with room to swell") {
    const std::string grooved = kBox + "corners = 'rabbet'\nbottom = 'groove'\n";
    const work::Job solid = job_of(grooved);
    CHECK(solid.overrides.size() == 4);
    CHECK(solid.overrides[0].glued == false);
    // Between walls 12 1/2, plus 1/4 into each groove, less 1/16 of room on each side.
    CHECK(named(solid, "bottom").length == inches(12 * 64 + 32 + 32 - 8));
    const work::Job sheet = job_of(grooved + "bottom_species = 'plywood_birch'\n");
    CHECK(sheet.overrides.empty());
    CHECK(named(sheet, "bottom").length == inches(13 * 64));
    CHECK(named(sheet, "bottom").thickness == inches(16));
    const auto& groove = std::get<work::Channel>(named(sheet, "front").cuts.back().shape);
    CHECK(groove.from == inches(32));  // stopped where the panel ends
    CHECK(groove.to == inches(14 * 64 - 32));
    CHECK(groove.offset == inches(16));
  }

  TEST_CASE("finger corners mesh: front keeps what the ends lose") {
    const work::Job job = job_of(kBox + "corners = 'finger'\n");
    const auto& front = std::get<work::Fingers>(named(job, "front").cuts[0].shape);
    const auto& left = std::get<work::Fingers>(named(job, "left").cuts[0].shape);
    CHECK(front.count == 11);  // 8 in of 3/4 stock: 10.67 pieces, made odd
    CHECK(left.count == 11);
    CHECK(front.first_kept);
    CHECK_FALSE(left.first_kept);
    CHECK(has(said(kBox + "corners = 'finger'\nfinger_width = '3/4'\n"), "do not divide by it"));
    CHECK(named(job_of(kBox + "corners = 'finger'\nfinger_width = 1\n"), "front").cuts.size() == 2);
  }

  TEST_CASE("a box that cannot be made is refused with the reason") {
    CHECK(has(said(kBox + "corners = 'rabbet'\nrabbet_depth = '3/4'\n"),
              "job.toml:7:1: a rabbet 3/4 in deep goes through stock of 3/4 in\n  half the stock "
              "is usual"));
    CHECK(has(said("units='in'\n[box]\noutside=[14, 1.5, "
                   "8]\nstock='3/4'\nspecies='cherry'\ncorners='butt'\n"),
              "leave no room"));
    CHECK(has(said(kBox + "corners = 'butt'\ntop = 'butt'\ntop_thickness = 8\n"),
              "take all of its height 8 in"));
    CHECK(has(said(kBox + "corners = 'butt'\ntop = 'rabbet'\ntop_depth = 1\n"),
              "a rabbet 1 in deep goes through a top of 3/4 in"));
    CHECK(has(said(kBox + "corners = 'butt'\nrabbet_depth = '3/8'\n"),
              "it means nothing without corners"));
    CHECK(has(said(kBox + "corners = 'butt'\nbottom = 'groove'\nbottom_offset = 7.9\n"),
              "have no room"));
    CHECK(has(said(kBox + "corners = 'butt'\nbottom = 'groove'\nbottom_depth = '1/16'\n"),
              "does not hold a panel"));
  }

  TEST_CASE("a panel's boards lie side by side, whatever their widths") {
    const work::Job job = job_of(fixture("benchtop_panel/job.toml"));
    REQUIRE(job.parts.size() == 6);
    CHECK(job.parts[5].name == "board 6");
    CHECK(job.parts[5].at[1] == geometry::Length::whole_mm(450));
    const work::Job equal = job_of(
        "units='mm'\n[panel]\nlength=900\nthickness=20\nspecies='red oak'\n"
        "boards=3\nwidth=100\n" +
        std::string());
    CHECK(equal.parts[0].width == geometry::Length::nm(33'333'333));
    CHECK(equal.parts[2].width ==
          geometry::Length::nm(33'333'334));  // the last takes what division leaves
  }

  TEST_CASE("what was measured replaces what was drawn, in a starter as in a part") {
    const work::Job job = job_of(
        kBox + "corners = 'rabbet'\nmeasured = { stock = '23/32', outside = [14, '9 1/32', 8] }\n");
    CHECK(named(job, "front").thickness == inches(46));
    CHECK(named(job, "back").at[1] == inches(9 * 64 + 2 - 46));
    CHECK(has(said(kBox + "corners = 'butt'\nmeasured = { stok = '23/32' }\n"),
              "job.toml:7:14: [box] has no key \"stok\"\n  did you mean \"stock\"?"));
    CHECK(has(said(kBox + "corners = 'butt'\nmeasured = '23/32'\n"),
              "measured \"23/32\" is a text, not a table"));
  }

  TEST_CASE("UK words are understood and remembered") {
    const work::Job job =
        job_of(kBox + "corners = 'rebate'\ntop = 'rebate'\nrebate_depth = '1/4'\n");
    CHECK(job.uk_words);
    CHECK(std::get<work::Rabbet>(named(job, "front").cuts[0].shape).depth == inches(16));
    CHECK_FALSE(job_of(kBox + "corners = 'miter'\n").uk_words);
    CHECK(job_of(kBox + "corners = 'mitre'\n").uk_words);
  }

  TEST_CASE("keys by their old names are read, with one notice a name") {
    const std::string two =
        "units='mm'\n[trestle]\noutside=[800,400,600]\nleg=57\nrail_width=100\n"
        "rail_thickness=25\nspecies='beech'\n";
    const JobReading read =
        read_job("old.toml", two +
                                 "[[placed]]\naxis='x'\nat=[0,20,550]\nforce='500 N'\n"
                                 "[[joint]]\nbetween=['front left leg','front rail']\nsurfaces=2\n"
                                 "[[joint]]\nbetween=['back left leg','back rail']\nsurfaces=1\n");
    REQUIRE(read.job);
    CHECK(read.job->starter == "table_base");
    CHECK(read.job->placed.size() == 1);
    CHECK(read.job->overrides.at(1).faces == 1);
    std::string notices;
    for (const base::Diagnostic& d : read.diagnostics) {
      CHECK(d.severity == base::Severity::warning);
      notices += to_text(d) + "\n";
    }
    CHECK(notices ==
          "old.toml:2:2: warning: \"trestle\" is called \"table_base\" now\n"
          "old.toml:8:3: warning: \"placed\" is called \"my_clamp\" now\n"
          "old.toml:14:1: warning: \"surfaces\" is called \"faces\" now\n");
    CHECK(has(said(two + "[table_base]\n"), "\"table_base\" is given twice"));
  }

  TEST_CASE(
      "a part of a starter may be amended by its name, and only in what it turned out to be") {
    const work::Job job = job_of(
        kBox + "corners='butt'\ntop='butt'\n[[part]]\nname='top'\nbow='1/32'\nhollow='-z'\n");
    CHECK(named(job, "top").bow == inches(2));
    CHECK(job.parts.size() == 5);
    CHECK(has(said(kBox + "corners='butt'\n[[part]]\nname='front'\nlength=3\n"),
              "[[part]] of a part that the starter makes has no key \"length\""));
  }

  TEST_CASE("all mistakes of a file are told in one go, in its order") {
    const std::string all = said(
        "title = 'x'\nunits = 'mm'\n[[part]]\nname = 'side'\nspecies = 'red oak'\nlenght = 300\n"
        "width = -3\nthickness = '1/0'\nalong = 'x'\nface = 'x'\nat = [0, 0]\n[[part]]\nname = "
        "'side'\n"
        "species = 'balsa'\n[glue]\nuse = 7\n[gleu]\n");
    for (const char* part :
         {"job.toml:6:1: [[part]] has no key \"lenght\"\n  did you mean \"length\"?",
          "job.toml:7:9: width -3: a size must be above zero", "job.toml:8:13: thickness \"1/0\"",
          "job.toml:10:8: face \"x\"", "job.toml:11:6: at has 2 values, not 3",
          "job.toml:13:8: two parts are named \"side\"\n  the first one stands at line 3",
          "job.toml:14:11: species \"balsa\"", "job.toml:16:7: use 7 is a number, not a text",
          "job.toml:17:2: the job file has no key \"gleu\"\n  did you mean \"glue\"?"}) {
      CAPTURE(part);
      CHECK(has(all, part));
    }
  }

  TEST_CASE("cuts that are not on their part are refused where they stand") {
    const std::string part =
        "units='mm'\n[[part]]\nname='a'\nspecies='cherry'\nlength=400\nwidth=162\nthickness=18\n"
        "along='x'\nface='y'\nat=[0,0,0]\n[[part.cut]]\n";
    CHECK(has(said(part + "kind='rabbet'\non='+y'\nside='-x'\nwidth=18\ndepth=18\n"),
              "job.toml:16:7: rabbet in \"a\": its depth 18 mm goes through the 18 mm"));
    CHECK(has(said(part + "kind='rabbet'\non='+y'\nside='-y'\nwidth=18\ndepth=9\n"),
              "not square to its face"));
    CHECK(has(said(part + "kind='groove'\non='+y'\nruns='x'\noffset=160\nwidth=6\ndepth=6\n"),
              "it lies off the part along z: 160 mm to 166 mm of 0 to 162 mm"));
    CHECK(has(said(part + "kind='dado'\non='+y'\nruns='y'\noffset=10\nwidth=6\ndepth=6\n"),
              "let it run along x or z"));
    CHECK(has(said(part + "kind='notch'\nfrom=[0,0,0]\nsize=[400,18,162]\n"),
              "takes the whole part"));
    CHECK(has(said(part + "kind='mortise'\non='+y'\nfrom=[10,-1]\nsize=[6,6]\ndepth=20\n"),
              "is more than the 18 mm"));
    CHECK(has(said(part + "kind='tenon'\non='+x'\nlength=30\nfrom=[0,0]\nsize=[18,162]\n"),
              "no shoulder"));
    CHECK(has(said(part + "kind='miter'\nside='+x'\nlong='-y'\nangle=95\n"), "between 0 and 90"));
    CHECK(has(said(part + "kind='fingers'\nside='+y'\ndepth=6\ncount=5\n"), "broad face"));
    CHECK(has(said(part + "kind='dovetail'\n"), "kind \"dovetail\": not one of those known"));
    CHECK(said(part + "kind='mortice'\non='+y'\nfrom=[10,10]\nsize=[40,6]\ndepth=18\n" +
               "[[part]]\nname='b'\nspecies='cherry'\nlength=4\nwidth=16\nthickness=18\nalong='x'"
               "\nface='y'\nat=[0,0,0]\n")
              .empty());
    CHECK(has(said(part.substr(0, part.find("[[part.cut"))), "one part alone"));
  }

  TEST_CASE("overrides, saw lines and placed clamps are read in the file's units") {
    const work::Job job =
        job_of(kBox +
               "corners='butt'\ntop='butt'\n[[joint]]\nbetween=['top','front']\nmiddle='4 "
               "in'\nfaces=2\n"
               "[[saw_later]]\naxis='z'\nat=6\n[[my_clamp]]\naxis='y'\nat=[7,0,4]\nkind='G-cramp'\n"
               "pad=[2,2]\n[dry_fit]\ndiagonals=['16 5/8','16 5/8']\n");
    CHECK(job.overrides[0].middle == inches(256));
    CHECK(job.overrides[0].faces == 2);
    CHECK(job.saw_later[0].kerf == inches(8));
    CHECK(job.placed[0].kind == "c_clamp_100");
    CHECK(job.dry_fit->diagonals[1] == inches(16 * 64 + 40));
    CHECK(has(said(kBox + "corners='butt'\n[[joint]]\nbetween=['frnot','back']\n"),
              "no part is named \"frnot\"\n  did you mean \"front\"?"));
  }

  TEST_CASE("a file that describes nothing says what to add") {
    CHECK(has(said(""), "add units"));
    CHECK(has(said("units='mm'\n"), "job.toml: the job has no parts"));
    CHECK(has(said("units='mm'\n[part]\nname='a'\n"), "write [[part]], with two brackets"));
  }
}

}  // namespace
}  // namespace planner::files
