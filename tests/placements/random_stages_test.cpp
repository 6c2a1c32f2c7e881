// Clamps laid out for random glue-ups, put back through the pressure model one by one.
#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <random>

#include <doctest/doctest.h>

#include "planner/clamps/axis/clamp_shortfall.h"
#include "planner/clamps/axis/clamps_at.h"
#include "planner/clamps/layout/clamp_work_test.h"
#include "planner/files/job_file.h"
#include "planner/tables/clamp.h"

namespace planner {
namespace {

class Dice {
 public:
  explicit Dice(unsigned seed) : from_(seed) {}
  int whole(int low, int high) {
    return low + static_cast<int>(from_() % static_cast<unsigned>(high - low + 1));
  }
  std::string one_of(std::initializer_list<const char*> words) {
    return *(words.begin() + whole(0, static_cast<int>(words.size()) - 1));
  }

 private:
  std::mt19937 from_;
};

std::string sizes(std::initializer_list<int> mm) {
  std::string out;
  for (const int size : mm) {
    out += (out.empty() ? "[" : ", ") + std::to_string(size);
  }
  return out + "]";
}

std::string random_job(Dice& dice) {
  std::string text = "title = \"random\"\nunits = \"mm\"\n";
  const std::string wood =
      "species = \"" + dice.one_of({"black_cherry", "hard_maple", "red_oak", "western_redcedar"}) +
      "\"\n";
  const int thick = dice.whole(12, 22);
  const std::string stock = "stock = " + std::to_string(thick) + "\n";
  switch (dice.whole(0, 3)) {
    case 0:
      text += "[box]\noutside = " +
              sizes({dice.whole(150, 500), dice.whole(120, 350), dice.whole(60, 250)}) + "\n" +
              stock + wood + "corners = \"" + dice.one_of({"butt", "rabbet"}) + "\"\ntop = \"" +
              dice.one_of({"none", "rabbet", "butt"}) + "\"\nbottom = \"" +
              dice.one_of({"none", "rabbet"}) + "\"\n";
      break;
    case 1:
      text += "[panel]\nlength = " + std::to_string(dice.whole(200, 1200)) + "\nboards = [";
      for (int n = dice.whole(2, 6); n > 0; --n) {
        text += std::to_string(dice.whole(40, 140)) + (n > 1 ? ", " : "]\n");
      }
      text += "thickness = " + std::to_string(thick) + "\n" + wood;
      break;
    case 2:
      text += "[carcass]\noutside = " +
              sizes({dice.whole(300, 900), dice.whole(150, 350), dice.whole(300, 900)}) + "\n" +
              stock + wood + "shelves = " + std::to_string(dice.whole(1, 3)) + "\n";
      break;
    default:
      text += "[frame]\noutside = " + sizes({dice.whole(250, 700), dice.whole(200, 600)}) +
              "\nthickness = " + std::to_string(thick) +
              "\nmember = " + std::to_string(dice.whole(35, 70)) + "\ncorners = \"mitre\"\n" + wood;
  }
  return text + "[glue]\nuse = \"" + dice.one_of({"pva_type1", "pva_type2"}) + "\"\n";
}

bool straps(const clamps::layout::PressingAxis& round) {
  return !round.clamps.empty() && !round.clamps.front().round.empty();
}

// The planned clamps of an axis, stood on the work anew.
void check_put_back(const clamps::layout::TestWork& work,
                    const clamps::layout::ClampProblem& problem,
                    const clamps::layout::PressingAxis& round) {
  const pressure::Work all = pressure::work_of(problem.parts, work.solids);
  const auto axes = clamps::axis::round_axes(work.joints, problem.stage_joints, work.job);
  const auto axis = std::find_if(axes.begin(), axes.end(), [&](const clamps::axis::RoundAxis& a) {
    return std::abs(dot(a.axis, round.axis)) > 0.9999 && a.seat() == round.seat;
  });
  REQUIRE(axis != axes.end());
  const clamps::axis::AxisQuestion question{work.job, work.joints, all, *axis, work.glue, {}};
  std::vector<clamps::axis::TrialClamp> clamps;
  double caul_mm = 0;
  for (const plan::PlannedClamp& c : round.clamps) {
    clamps::axis::TrialClamp t;
    t.on_line = c.at;
    const tables::ClampKind& kind = *tables::find_clamp_kind(c.kind);
    t.pad = c.caul ? plan::PadSize{kind.pad_width_mm, c.caul->across_mm, 0} : c.pad;
    t.force_N = t.most_N = c.force_N;
    caul_mm = c.caul ? c.caul->thick_mm : 0;
    clamps.push_back(t);
    CHECK(c.force_N <= kind.force_typ_N * 1.0001);
    CHECK(c.bearing_MPa <= c.bearing_limit_MPa * 1.001);
  }
  const auto plan = clamps::axis::ClampsAt(question).with(clamps, {}, caul_mm);
  REQUIRE(plan);
  const clamps::axis::AxisState state = state_of(*plan);
  CHECK(state.share > 0.998);
  CHECK(state.crush <= 1.001);
  CHECK(state.off <= 1.001);
}

}  // namespace

TEST_SUITE("placements/random_stages") {
  TEST_CASE(
      "what random glue-ups are clamped with, put back through the model, keeps every limit") {
    const char* asked = std::getenv("GLUEUP_STAGES");
    const int stages = asked != nullptr ? std::atoi(asked) : 40;
    Dice dice(6);
    int rounds = 0, put_back = 0;
    for (int n = 0; n < stages; ++n) {
      const std::string text = random_job(dice);
      CAPTURE(n);
      CAPTURE(text);
      REQUIRE(files::read_job("job.toml", text).job);
      const clamps::layout::TestWork work = clamps::layout::work_of_text(text);
      const work::Shop market;
      const clamps::layout::ClampProblem problem = work.problem(market);
      for (const clamps::layout::PressingAxis& round :
           lay_out_clamps(problem, plan::Level::hold).rounds) {
        const bool cambered =
            std::any_of(round.clamps.begin(), round.clamps.end(),
                        [](const plan::PlannedClamp& c) { return c.caul_camber_mm > 0; });
        rounds += round.seat ? 0 : 1;
        for (const plan::LinePressure& line : round.lines) {
          if (line.level == plan::Level::hold || line.level == plan::Level::full) {
            REQUIRE(0.9 * line.min_MPa >= line.hold_MPa);
          }
        }
        const bool holds = round.level == plan::Level::hold || round.level == plan::Level::full;
        if (!round.seat && !cambered && !straps(round) && holds) {
          check_put_back(work, problem, round);
          ++put_back;
        }
      }
    }
    CHECK(put_back > rounds / 3);
  }
}

}  // namespace planner
