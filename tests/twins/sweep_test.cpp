// Blocking against moving the parts there, step by step: every fixture and 300 random assemblies.
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <numbers>
#include <sstream>

#include <doctest/doctest.h>

#include "geometry/blocking.h"
#include "planner/files/job_file.h"
#include "planner/files/mesh_parts.h"
#include "planner/work/motion.h"
#include "planner/work/part_solid.h"
#include "scenes/random_parts.h"
#include "tests/source_dir.h"
#include "twins/sweep_twin.h"

using geometry::Blocking;
using geometry::Direction;
using geometry::Solid;

namespace {

struct Tally {
  int stopped = 0, missed = 0, free = 0;
};

// What the sweep meets is blocked; what it misses although it is blocked is counted.
void compare(const std::vector<Solid>& solids, const std::vector<Direction>& ways, int steps,
             Tally& tally) {
  const Blocking blocking = find_blocking(solids, ways, {});
  std::vector<twins::SweptBody> bodies;
  for (const Solid& solid : solids) {
    bodies.emplace_back(solid);
  }
  for (std::size_t way = 0; way < ways.size(); ++way) {
    for (std::size_t i = 0; i < solids.size(); ++i) {
      for (std::size_t j = 0; j < solids.size(); ++j) {
        if (i == j) {
          continue;
        }
        const bool blocked = blocking.blocked(way, i, j);
        const bool met = bodies[i].runs_into(bodies[j], unit(ways[way]), steps);
        CAPTURE(way);
        CAPTURE(i);
        CAPTURE(j);
        CHECK((blocked || !met));
        tally.stopped += blocked ? 1 : 0;
        tally.missed += blocked && !met ? 1 : 0;
        tally.free += blocked ? 0 : 1;
      }
    }
  }
}

std::string text_of(const std::filesystem::path& file) {
  std::ifstream in(file);
  std::stringstream text;
  text << in.rdbuf();
  return text.str();
}

planner::work::Job read(const std::filesystem::path& folder) {
  planner::files::JobReading reading =
      planner::files::read_job("job.toml", text_of(folder / "job.toml"));
  REQUIRE(reading.job);
  if (reading.job->mesh) {
    std::vector<planner::files::MeshBytes> meshes;
    for (const std::string& file : reading.job->mesh->files) {
      meshes.push_back({file, text_of(folder / file)});
    }
    CHECK(planner::files::add_mesh_parts(*reading.job, meshes).empty());
  }
  return *reading.job;
}

}  // namespace

TEST_SUITE("tests/twins") {
  TEST_CASE("a part moved step by step is stopped by what blocking says, in every fixture") {
    Tally tally;
    const std::filesystem::path root = source_dir() + "/fixtures";
    for (const auto& entry : std::filesystem::directory_iterator(root)) {
      if (!std::filesystem::exists(entry.path() / "job.toml")) {
        continue;
      }
      CAPTURE(entry.path().string());
      const planner::work::Job job = read(entry.path());
      const auto solids = planner::work::make_solids(job.parts);
      const auto joints = classify_joints(job, find_contacts(solids, {}));
      compare(solids, planner::work::find_motions(solids, joints).directions(), 100, tally);
    }
    MESSAGE(tally.stopped << " stopped, " << tally.missed << " missed, " << tally.free << " free");
    CHECK(tally.stopped > 500);
    CHECK(tally.free > 500);
    CHECK(tally.missed <= tally.stopped / 100);
  }

  TEST_CASE(
      "a part moved step by step is stopped by what blocking says, in 300 random assemblies") {
    Tally tally;
    for (std::uint64_t seed = 6001; seed <= 6300; ++seed) {
      CAPTURE(seed);
      scenes::Dice dice(seed);
      const scenes::Assembly assembly =
          seed % 2 == 0 ? scenes::random_assembly(dice) : scenes::random_lattice_assembly(dice);
      std::vector<Direction> ways = {geometry::kAxis[dice.from_to(0, 2)]};
      ways.push_back(-ways.front());
      for (int i = 0; i < 2; ++i) {
        ways.push_back({static_cast<double>(dice.from_to(-5, 5)) + 0.5,
                        static_cast<double>(dice.from_to(-5, 5)),
                        static_cast<double>(dice.from_to(-5, 5))});
      }
      compare(scenes::make(assembly), ways, 100, tally);
    }
    MESSAGE(tally.stopped << " stopped, " << tally.missed << " missed, " << tally.free << " free");
    CHECK(tally.stopped > 1500);
    CHECK(tally.free > 1500);
    CHECK(tally.missed <= tally.stopped / 100);
  }

  TEST_CASE("what folds for certain meets nothing when turned degree by degree") {
    int certain = 0, refused = 0, met = 0;
    for (std::uint64_t seed = 7001; seed <= 7150; ++seed) {
      CAPTURE(seed);
      scenes::Dice dice(seed);
      const std::vector<Solid> solids = scenes::make(
          seed % 2 == 0 ? scenes::random_assembly(dice) : scenes::random_lattice_assembly(dice));
      std::vector<twins::SweptBody> bodies;
      for (const Solid& solid : solids) {
        bodies.emplace_back(solid);
      }
      // About an edge of a contact, as two boards might be hinged.
      for (const geometry::Contact& c : find_contacts(solids, {})) {
        const double angle = static_cast<double>(dice.from_to(20, 120));
        const double sense = dice.one_in(2) ? 1 : -1;
        const geometry::Hinge hinge{
            c.centroid + (sense * c.width_mm / 2) * cross(c.normal, c.along), c.along};
        const Direction off = turned_about(hinge, c.normal, angle * std::numbers::pi / 360);
        for (const double way : {1.0, -1.0}) {
          const geometry::Hinge either{hinge.at, way * hinge.along};
          const bool sure = surely_unfolds(solids[c.b], solids[c.a], either, angle, off, {});
          const bool meets = bodies[c.b].turns_into(bodies[c.a], either, angle, 120);
          CHECK_FALSE((sure && meets));
          certain += sure ? 1 : 0;
          refused += sure ? 0 : 1;
          met += meets ? 1 : 0;
        }
      }
    }
    MESSAGE(certain << " certain, " << refused << " refused, of which " << met << " meet");
    CHECK(certain > 20);
    CHECK(met > 200);
  }
}
