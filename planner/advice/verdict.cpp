#include "planner/advice/verdict.h"

#include <algorithm>
#include <optional>
#include <tuple>

#include "planner/order/comfort.h"
#include "planner/work/joint_fit.h"

namespace planner::advice {
namespace {

const plan::FaceLimit* tightest(const plan::Plan& plan) {
  const plan::FaceLimit* worst = nullptr;
  for (const plan::Stage& stage : plan.stages) {
    for (const plan::FaceLimit& limit : stage.limits) {
      if (worst == nullptr || limit.slack_s() < worst->slack_s()) {
        worst = &limit;
      }
    }
  }
  return worst;
}

// Less is left of the open limit than of the total.
bool open_binds(const plan::FaceLimit& face) {
  return face.open_s - face.used_open_s <= face.total_s - face.used_total_s;
}

// The face whose limit leaves least of those that leave too little for comfort.
std::optional<plan::OutOfTime> least_comfort(const plan::Plan& plan) {
  std::optional<plan::OutOfTime> least;
  for (const plan::Stage& stage : plan.stages) {
    for (const plan::FaceLimit& face : stage.limits) {
      for (const auto& [open, limit_s, used_s] :
           {std::tuple(true, face.open_s, face.used_open_s),
            std::tuple(false, face.total_s, face.used_total_s)}) {
        const double slack_s = limit_s - used_s;
        if (!order::comfortable(slack_s, limit_s) && (!least || slack_s < least->slack_s)) {
          least = {face.joint, open, slack_s};
        }
      }
    }
  }
  return least;
}

plan::Comfort comfort_of(const plan::Plan& plan) {
  const plan::FaceLimit* worst = tightest(plan);
  if (worst == nullptr) {
    return plan::Comfort::comfortable;  // nothing is glued
  }
  if (worst->slack_s() < 0) {
    return plan::Comfort::no;
  }
  // Nobody publishes by how much heat and dry air shorten the times: no comfort is claimed then.
  const bool estimated = plan.glue.glue.times_share < 1;
  return estimated || least_comfort(plan) ? plan::Comfort::tight : plan::Comfort::comfortable;
}

// The face that a joint is held by; of one that only has to come home any that doesn't.
bool is_main(const plan::LinePressure& line, const plan::Plan& plan) {
  const auto main = main_face(plan.joints[line.joint]);
  return main ? *main == line.face : line.level == plan::Level::short_of_hold;
}

// The worst level that a glued joint's main face reaches; joints that only want closing don't
// count.
plan::Level pressure_of(const plan::Plan& plan) {
  const bool fitted =
      std::any_of(plan.joints.begin(), plan.joints.end(),
                  [](const work::Joint& joint) { return joint.glued && !main_face(joint); });
  plan::Level worst = fitted ? plan::Level::hold : plan::Level::full;
  for (const plan::LinePressure& line : plan.pressure) {
    if (is_main(line, plan) && line.level > worst) {
      worst = line.level;
    }
  }
  return worst == plan::Level::seat ? plan::Level::hold : worst;
}

plan::OutOfTime out_of_time(const plan::FaceLimit& worst) {
  return {worst.joint, open_binds(worst), worst.slack_s()};
}

void add_not_held(const plan::Plan& plan, plan::Verdict& verdict) {
  plan::NotHeld short_of_hold{{}, true};
  for (const plan::LinePressure& line : plan.pressure) {
    if (!is_main(line, plan) || line.level != plan::Level::short_of_hold) {
      continue;
    }
    short_of_hold.too_slight &= line.too_slight;
    // A mitre has a line on each of the axes that press it.
    if (std::ranges::find(short_of_hold.joints, line.joint) == short_of_hold.joints.end()) {
      short_of_hold.joints.push_back(line.joint);
    }
  }
  if (!short_of_hold.joints.empty()) {
    verdict.reasons.push_back(std::move(short_of_hold));
  }
}

plan::Risk risk_of(const plan::Plan& plan, const plan::Verdict& verdict) {
  if (!verdict.reasons.empty()) {
    return verdict.reasons.front();
  }
  for (const plan::Stage& stage : plan.stages) {
    if (!stage.by_hand.empty()) {
      return plan::ShouldersRisk{stage.by_hand.front().axis};
    }
  }
  const auto cross = std::find_if(plan.cross_grain.begin(), plan.cross_grain.end(),
                                  [](const work::CrossGrainNote& note) { return note.warning; });
  if (cross != plan.cross_grain.end()) {
    return plan::CrossGrainRisk{cross->joint};
  }
  if (plan.needs_square) {
    return plan::SquareRisk{};
  }
  if (plan.end_mm2 > 0) {
    return plan::EndGrainRisk{};
  }
  return plan::SlipRisk{};
}

}  // namespace

plan::Verdict judge(const plan::Plan& plan, std::optional<plan::VerdictReason> impossible,
                    std::vector<plan::WayOut> ways_out) {
  plan::Verdict verdict;
  const bool cold = plan.glue.glue.warmth == tables::Warmth::too_cold;
  const bool hot = plan.glue.glue.warmth == tables::Warmth::too_warm;
  verdict.comfort = !impossible && !cold && !hot ? comfort_of(plan) : plan::Comfort::no;
  verdict.pressure = pressure_of(plan);
  verdict.time = verdict.comfort == plan::Comfort::no ? plan::TimeVerdict::too_slow
                 : plan.stages.size() > 1             ? plan::TimeVerdict::stages
                                                      : plan::TimeVerdict::one_go;
  if (impossible) {
    verdict.reasons.push_back(std::move(*impossible));
  } else if (cold) {
    verdict.reasons.push_back(plan::TooCold{plan.temperature_C.value_or(0),
                                            plan.glue.glue.min_temperature_C.value_or(0)});
  } else if (hot) {
    verdict.reasons.push_back(plan::TooWarm{});
  } else if (verdict.comfort == plan::Comfort::no) {
    verdict.reasons.push_back(out_of_time(*tightest(plan)));
  }
  add_not_held(plan, verdict);
  if (!plan.glue.enough_left) {
    verdict.reasons.push_back(
        plan::TooLittleGlue{plan.glue.ready_ml, plan.glue.glue.left_ml.value_or(0)});
  }
  for (plan::WayOut& way : ways_out) {
    way.mends &= verdict.reasons.size() <= 1;  // of several, each way takes away one
  }
  if (verdict.reasons.empty() && verdict.comfort == plan::Comfort::tight) {
    // A reason to hurry, not to stay away.
    verdict.reasons.push_back(least_comfort(plan).value_or(out_of_time(*tightest(plan))));
  }
  verdict.ok = verdict.comfort != plan::Comfort::no &&
               verdict.pressure != plan::Level::short_of_hold && plan.glue.enough_left;
  std::stable_sort(
      ways_out.begin(), ways_out.end(),
      [](const plan::WayOut& a, const plan::WayOut& b) { return a.trouble < b.trouble; });
  if (ways_out.size() > 3) {
    ways_out.resize(3);
  }
  verdict.ways_out = std::move(ways_out);
  verdict.risk = risk_of(plan, verdict);
  return verdict;
}

}  // namespace planner::advice
