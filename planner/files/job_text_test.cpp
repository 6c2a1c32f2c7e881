#include "planner/files/job_text.h"

#include <fstream>
#include <sstream>
#include <string>

#include <doctest/doctest.h>

#include "planner/files/job_file.h"
#include "planner/work/cut.h"
#include "tests/source_dir.h"

namespace planner::files {
namespace {

work::Job job_of(const std::string& text) {
  const JobReading read = read_job("job.toml", text);
  for (const base::Diagnostic& d : read.diagnostics) {
    MESSAGE(to_text(d));
  }
  REQUIRE(read.job.has_value());
  return *read.job;
}

void check_same(const work::Part& a, const work::Part& b) {
  CAPTURE(a.name);
  CHECK(a.name == b.name);
  CHECK(a.species == b.species);
  CHECK(std::tie(a.length, a.width, a.thickness, a.along, a.face, a.at) ==
        std::tie(b.length, b.width, b.thickness, b.along, b.face, b.at));
  CHECK((a.show == b.show && a.bow == b.bow && a.cup == b.cup && a.hollow == b.hollow));
  REQUIRE(a.turns.size() == b.turns.size());
  for (std::size_t i = 0; i < a.turns.size(); ++i) {
    CHECK(std::tie(a.turns[i].axis, a.turns[i].angle_deg, a.turns[i].about) ==
          std::tie(b.turns[i].axis, b.turns[i].angle_deg, b.turns[i].about));
  }
  REQUIRE(a.cuts.size() == b.cuts.size());
  for (std::size_t i = 0; i < a.cuts.size(); ++i) {
    CHECK(kind_of(a.cuts[i]) == kind_of(b.cuts[i]));
    const work::CutTools one = tools_of(a, a.cuts[i]), other = tools_of(b, b.cuts[i]);
    REQUIRE(one.boxes.size() == other.boxes.size());
    for (std::size_t k = 0; k < one.boxes.size(); ++k) {
      CHECK((one.boxes[k].lo == other.boxes[k].lo && one.boxes[k].hi == other.boxes[k].hi));
    }
    REQUIRE(one.prisms.size() == other.prisms.size());
    for (std::size_t k = 0; k < one.prisms.size(); ++k) {
      REQUIRE(one.prisms[k].size() == other.prisms[k].size());
      for (std::size_t side = 0; side < one.prisms[k].size(); ++side) {
        CHECK(one.prisms[k][side].normal == other.prisms[k][side].normal);
        CHECK(one.prisms[k][side].through == other.prisms[k][side].through);
      }
    }
    REQUIRE(one.keep.has_value() == other.keep.has_value());
    if (one.keep) {
      CHECK((one.keep->normal == other.keep->normal && one.keep->through == other.keep->through));
    }
  }
}

void check_same(const work::Job& a, const work::Job& b) {
  CHECK(a.title == b.title);
  CHECK(a.units == b.units);
  CHECK(a.uk_words == b.uk_words);
  CHECK(a.glue == b.glue);
  REQUIRE(a.parts.size() == b.parts.size());
  for (std::size_t i = 0; i < a.parts.size(); ++i) {
    check_same(a.parts[i], b.parts[i]);
  }
  REQUIRE(a.overrides.size() == b.overrides.size());
  for (std::size_t i = 0; i < a.overrides.size(); ++i) {
    const work::JointOverride &one = a.overrides[i], &other = b.overrides[i];
    CHECK(std::tie(one.between, one.glued, one.glue, one.faces, one.middle, one.loose, one.held_by, one.pocket) ==
          std::tie(other.between, other.glued, other.glue, other.faces, other.middle, other.loose, other.held_by,
                   other.pocket));
  }
  REQUIRE(a.saw_later.size() == b.saw_later.size());
  for (std::size_t i = 0; i < a.saw_later.size(); ++i) {
    CHECK(std::tie(a.saw_later[i].axis, a.saw_later[i].at, a.saw_later[i].kerf) ==
          std::tie(b.saw_later[i].axis, b.saw_later[i].at, b.saw_later[i].kerf));
  }
  REQUIRE(a.stages.size() == b.stages.size());
  for (std::size_t i = 0; i < a.stages.size(); ++i) {
    CHECK(a.stages[i].name == b.stages[i].name);
    CHECK(a.stages[i].parts == b.stages[i].parts);
  }
  REQUIRE(a.placed.size() == b.placed.size());
  for (std::size_t i = 0; i < a.placed.size(); ++i) {
    CHECK(std::tie(a.placed[i].axis, a.placed[i].at, a.placed[i].kind, a.placed[i].force_N,
                   a.placed[i].pad) == std::tie(b.placed[i].axis, b.placed[i].at, b.placed[i].kind,
                                                b.placed[i].force_N, b.placed[i].pad));
  }
  REQUIRE(a.dry_fit.has_value() == b.dry_fit.has_value());
  if (a.dry_fit) {
    CHECK(a.dry_fit->diagonals == b.dry_fit->diagonals);
    CHECK(a.dry_fit->openings == b.dry_fit->openings);
  }
}

void check_round_trip(const std::string& text) {
  const work::Job job = job_of(text);
  const std::string written = job_text(job);
  CAPTURE(written);
  const work::Job again = job_of(written);
  CHECK(again.starter.empty());
  check_same(job, again);
  CHECK(job_text(again) == written);
}

TEST_SUITE("planner/job_text") {
  TEST_CASE("every fixture, written out part by part, reads back as the same job") {
    for (const char* name :
         {"hive_tool_chest", "benchtop_panel", "shelf_and_sides", "captured_bottom_box",
          "mitred_frame", "cupboard_door", "extractor_table", "hexagon_frame", "brood_box",
          "tool_drawer", "bent_runner", "record_box", "cage_box", "comb_tray", "jar_frame", "shed_door",
          "strap_drawer", "cutting_board", "heather_tub", "hive_window"}) {
      CAPTURE(name);
      std::ifstream file(source_dir() + "/fixtures/" + name + "/job.toml");
      std::stringstream text;
      text << file.rdbuf();
      check_round_trip(text.str());
    }
  }

  TEST_CASE("starters of every kind of cut read back as the same job") {
    const std::string mm = "units = 'mm'\nspecies = 'beech'\n";
    check_round_trip(
        mm + "[box]\noutside=[401.37, 260, 120]\nstock=15\ncorners='finger'\nbottom='groove'\n");
    check_round_trip(
        mm + "[box]\noutside=[400, '1 ft', 120]\nstock='3/4 in'\ncorners='miter'\ntop='rebate'\n");
    check_round_trip(
        mm +
        "[frame]\noutside=[400, 700]\nthickness=20\nmember=60\ncorners='mortise'\npanel='float'\n");
    check_round_trip(
        "units = 'in'\nspecies = 'beech'\n[frame]\noutside=[20, 30]\nthickness='3/4'\nmember='2 "
        "1/4'\n"
        "corners='bridle'\npanel='glue'\n");
    check_round_trip(mm +
                     "[carcass]\noutside=[800, 300, "
                     "1200]\nstock=18\nshelves=3\ndividers=1\nstop=20\nback='rabbet'\n");
    check_round_trip(mm + "[drawer]\noutside=[400, 450, 120]\nstock=12\ncorners='housing'\n");
  }

  TEST_CASE("stages asked for are kept") {
    check_round_trip(
        "units = 'mm'\nspecies = 'beech'\n[panel]\nlength=600\nthickness=20\nboards=[80, 80, 80, 80]\n"
        "[[stage]]\nname='left'\nparts=['board 1', 'board 2']\n"
        "[[stage]]\nname='most'\nparts=['left', 'board 3']\n");
  }

  TEST_CASE("what was said of parts, joints, clamps and the dry fit is kept to the last digit") {
    check_round_trip(
        "title = \"\\\"Top\\\" \\\\ \\t\\u0007 of the 3'\"\nunits = 'in'\nspecies = 'beech'\n"
        "[panel]\nlength=30\nthickness='3/4'\nboards=[3, '3 1/64', '80.123456 mm']\n"
        "[[part]]\nname='board 1'\nspecies='red oak'\nbow='1/32'\nhollow='+z'\nshow=['-y','+z']\n"
        "[[part]]\nname='clip'\nlength=3\nwidth=1\nthickness='1/"
        "2'\nalong='x'\nface='z'\nat=[0,0,'-1/2']\n"
        "turn={axis='z', angle=33.333333333333336, about=[1,2,0.123]}\n"
        "[[joint]]\nbetween=['board 1','board 2']\nglue='shop bottle'\nfaces=2\nmiddle='4 in'\n"
        "[[joint]]\nbetween=['board 2','board 3']\nglue=true\nfit='loose'\n[glue]\nuse='waterproof'\n"
        "[[saw_later]]\naxis='x'\nat=10\n[[my_clamp]]\naxis='y'\nat=[3,0,'3/8']\nforce='420 "
        "lbf'\npad=[2,1]\n"
        "[[my_clamp]]\naxis='y'\nat=[9,0,'3/8']\nkind='sash'\n[dry_fit]\ndiagonals=['16 5/8', '16 "
        "11/16']\n");
  }
}

}  // namespace
}  // namespace planner::files
