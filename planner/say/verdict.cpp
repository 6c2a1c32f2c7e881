#include "planner/say/verdict.h"

#include <algorithm>
#include <cmath>

#include "planner/base/side_words.h"
#include "planner/order/comfort.h"
#include "planner/work/joint_fit.h"

namespace planner::say {
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

plan::Comfort comfort_of(const plan::FaceLimit* worst) {
  if (worst == nullptr) {
    return plan::Comfort::comfortable;  // nothing is glued
  }
  if (worst->slack_s() < 0) {
    return plan::Comfort::no;
  }
  const bool open_binds =
      worst->open_s - worst->used_open_s <= worst->total_s - worst->used_total_s;
  const double limit = open_binds ? worst->open_s : worst->total_s;
  return order::comfortable(worst->slack_s(), limit) ? plan::Comfort::comfortable
                                                     : plan::Comfort::tight;
}

bool is_main(const plan::LinePressure& line, const plan::Plan& plan) {
  return main_face(plan.joints[line.joint]) == line.face;
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

std::string name_of(work::JointId joint, const plan::Plan& plan, const work::Job& job) {
  return joint_name(plan.joints[joint], job);
}

void add_time_reason(const plan::Plan& plan, const work::Job& job, const plan::FaceLimit* worst,
                     plan::Verdict& verdict) {
  if (worst == nullptr || verdict.comfort == plan::Comfort::comfortable) {
    return;
  }
  const bool open_binds =
      worst->open_s - worst->used_open_s <= worst->total_s - worst->used_total_s;
  const std::string what =
      name_of(worst->joint, plan, job) + (open_binds ? ": open time" : ": total time");
  if (verdict.comfort == plan::Comfort::no) {
    verdict.reasons.push_back(what + " is over its limit by " +
                              base::seconds_text(-worst->slack_s()));
  } else {
    verdict.reasons.push_back(what + " has only " + base::seconds_text(worst->slack_s()) +
                              " to spare");
  }
}

void add_pressure_reasons(const plan::Plan& plan, const work::Job& job, plan::Verdict& verdict) {
  std::vector<std::string> short_joints;
  for (const plan::LinePressure& line : plan.pressure) {
    if (is_main(line, plan) && line.level == plan::Level::short_of_hold) {
      short_joints.push_back(name_of(line.joint, plan, job));
    }
  }
  if (!short_joints.empty()) {
    std::string text = short_joints[0];
    if (short_joints.size() > 1) {
      text += " and " + std::to_string(short_joints.size() - 1) + " more";
    }
    verdict.reasons.push_back("the clamps don't hold " + text + " all along");
  }
}

std::string risk_of(const plan::Plan& plan, const work::Job& job, const plan::Verdict& verdict) {
  if (!verdict.reasons.empty()) {
    return verdict.reasons.front();
  }
  for (const plan::Stage& stage : plan.stages) {
    if (!stage.by_hand.empty()) {
      return "no clamp to close the shoulders " + base::axis_words(stage.by_hand.front().axis) +
             "; see Watch out";
    }
  }
  const auto cross = std::find_if(plan.cross_grain.begin(), plan.cross_grain.end(),
                                  [](const work::CrossGrainNote& note) { return note.warning; });
  if (cross != plan.cross_grain.end()) {
    return name_of(cross->joint, plan, job) + " is glued across the grain and will move";
  }
  if (plan.needs_square) {
    return "clamps pull it out of square; check while the glue still moves";
  }
  if (plan.end_mm2 > 0) {
    return "end grain drinks the glue; size it first and let it tack";
  }
  return "boards slip as they are clamped; snug, align, then tighten";
}

}  // namespace

plan::Verdict judge(const plan::Plan& plan, const work::Job& job, const std::string& impossible,
                    std::vector<plan::WayOut> ways_out) {
  plan::Verdict verdict;
  const plan::FaceLimit* worst = tightest(plan);
  const bool cold = plan.glue.glue.warmth == tables::Warmth::too_cold;
  const bool hot = plan.glue.glue.warmth == tables::Warmth::too_warm;
  verdict.comfort = impossible.empty() && !cold && !hot ? comfort_of(worst) : plan::Comfort::no;
  verdict.pressure = pressure_of(plan);
  verdict.time = verdict.comfort == plan::Comfort::no ? plan::TimeVerdict::too_slow
                 : plan.stages.size() > 1             ? plan::TimeVerdict::stages
                                                      : plan::TimeVerdict::one_go;
  if (!impossible.empty()) {
    verdict.reasons.push_back(impossible);
  } else if (cold) {
    verdict.reasons.push_back(
        "too cold for this glue: warm the shop, the wood and the glue for a day first");
  } else if (hot) {
    verdict.reasons.push_back("too warm for this glue: no time for it is published; cool the shop");
  } else if (verdict.comfort == plan::Comfort::no) {
    add_time_reason(plan, job, worst, verdict);
  }
  add_pressure_reasons(plan, job, verdict);
  if (!plan.glue.enough_left) {
    verdict.reasons.push_back("the bottle holds less glue than this job needs");
  }
  for (plan::WayOut& way : ways_out) {
    way.mends &= verdict.reasons.size() <= 1;  // of several, each way takes away one
  }
  if (verdict.reasons.empty()) {
    add_time_reason(plan, job, worst, verdict);  // tight: a reason to hurry, not to stay away
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
  verdict.risk = risk_of(plan, job, verdict);
  return verdict;
}

}  // namespace planner::say
