#include "planner/advice/notes.h"

#include <doctest/doctest.h>

namespace planner::advice {
namespace {

template <class Note>
const Note* told(const plan::Plan& plan, const work::Job& job) {
  static std::vector<plan::Note> notes;
  notes = notes_for(plan, job, {}, work::find_motions({}, {}));
  for (const plan::Note& note : notes) {
    if (const auto* one = std::get_if<Note>(&note)) {
      return one;
    }
  }
  return nullptr;
}

}  // namespace

TEST_SUITE("planner/notes") {
  // Outside, closed form: of four sides at 45 degrees the saw's blade stands at 30
  TEST_CASE("how to saw sides that lean is told, of upright ones nothing") {
    work::Job job;
    job.even_ring.emplace();
    job.even_ring->sides = 4;
    CHECK(told<plan::LeaningSidesNote>({}, job) == nullptr);
    job.even_ring->slope_deg = -45;
    const auto* note = told<plan::LeaningSidesNote>({}, job);
    REQUIRE(note != nullptr);
    CHECK(note->slope_deg == 45);
    CHECK(note->blade_deg == doctest::Approx(30));
  }
  TEST_CASE("what is held lightly says where it is weakest: in a tenth of the joint at its ends, or along it") {
    plan::Plan plan;
    plan.joints.resize(1);
    plan::LinePressure& line = plan.pressure.emplace_back();
    line.level = plan::Level::light;
    line.size_mm = {500, 20};
    for (const auto& [at_mm, end] : {std::pair(20.0, true), {250.0, false}, {400.0, false}, {480.0, true}}) {
      line.samples = {{100, 0.2}, {at_mm, 0.1}, {300, 0.2}};
      const auto* note = told<plan::LightlyHeldNote>(plan, {});
      REQUIRE(note != nullptr);
      CHECK(note->at_an_end == end);
    }
  }
}

}  // namespace planner::advice
