#include "planner/verdict.h"

#include <algorithm>
#include <cmath>

#include "planner/joint_fit.h"
#include "planner/side_words.h"

namespace planner {
namespace {

const FaceLimit* tightest(const Plan& plan) {
  const FaceLimit* worst = nullptr;
  for (const Stage& stage : plan.stages) {
    for (const FaceLimit& limit : stage.limits) {
      if (worst == nullptr || limit.slack_s() < worst->slack_s()) {
        worst = &limit;
      }
    }
  }
  return worst;
}

Comfort comfort_of(const FaceLimit* worst) {
  if (worst == nullptr) {
    return Comfort::comfortable;  // nothing is glued
  }
  if (worst->slack_s() < 0) {
    return Comfort::no;
  }
  const bool open_binds =
      worst->open_s - worst->used_open_s <= worst->total_s - worst->used_total_s;
  const double limit = open_binds ? worst->open_s : worst->total_s;
  return worst->slack_s() >= kComfortableShare * limit ? Comfort::comfortable : Comfort::tight;
}

bool is_main(const LinePressure& line, const Plan& plan) {
  return main_face(plan.joints[line.joint]) == line.face;
}

// The worst level that a glued joint's main face reaches; joints that only want closing don't
// count.
Level pressure_of(const Plan& plan) {
  const bool fitted = std::any_of(plan.joints.begin(), plan.joints.end(), [](const Joint& joint) {
    return joint.glued && !main_face(joint);
  });
  Level worst = fitted ? Level::hold : Level::full;
  for (const LinePressure& line : plan.pressure) {
    if (is_main(line, plan) && line.level > worst) {
      worst = line.level;
    }
  }
  return worst == Level::seat ? Level::hold : worst;
}

std::string name_of(JointId joint, const Plan& plan, const Job& job) {
  return joint_name(plan.joints[joint], job);
}

void add_time_reason(const Plan& plan, const Job& job, const FaceLimit* worst, Verdict& verdict) {
  if (worst == nullptr || verdict.comfort == Comfort::comfortable) {
    return;
  }
  const bool open_binds =
      worst->open_s - worst->used_open_s <= worst->total_s - worst->used_total_s;
  const std::string what =
      name_of(worst->joint, plan, job) + (open_binds ? ": open time" : ": total time");
  if (verdict.comfort == Comfort::no) {
    verdict.reasons.push_back(what + " is over its limit by " + seconds_text(-worst->slack_s()));
  } else {
    verdict.reasons.push_back(what + " has only " + seconds_text(worst->slack_s()) + " to spare");
  }
}

void add_pressure_reasons(const Plan& plan, const Job& job, Verdict& verdict) {
  std::vector<std::string> short_joints;
  for (const LinePressure& line : plan.pressure) {
    if (is_main(line, plan) && line.level == Level::short_of_hold) {
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

std::string risk_of(const Plan& plan, const Job& job, const Verdict& verdict) {
  if (!verdict.reasons.empty()) {
    return verdict.reasons.front();
  }
  for (const Stage& stage : plan.stages) {
    if (!stage.by_hand.empty()) {
      return "no clamp to close the shoulders " + axis_words(stage.by_hand.front().axis) +
             "; see Watch out";
    }
  }
  const auto cross = std::find_if(plan.cross_grain.begin(), plan.cross_grain.end(),
                                  [](const CrossGrainNote& note) { return note.warning; });
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

std::string seconds_text(double seconds) {
  const long whole = std::lround(seconds);
  if (whole < 60) {
    return std::to_string(whole) + " s";
  }
  const std::string minutes = std::to_string(whole / 60) + " min";
  return whole % 60 == 0 ? minutes : minutes + " " + std::to_string(whole % 60) + " s";
}

Verdict judge(const Plan& plan, const Job& job, const std::string& impossible,
              std::vector<WayOut> ways_out) {
  Verdict verdict;
  const FaceLimit* worst = tightest(plan);
  const bool cold = plan.glue.glue.warmth == Warmth::too_cold;
  const bool hot = plan.glue.glue.warmth == Warmth::too_warm;
  verdict.comfort = impossible.empty() && !cold && !hot ? comfort_of(worst) : Comfort::no;
  verdict.pressure = pressure_of(plan);
  verdict.time = verdict.comfort == Comfort::no ? TimeVerdict::too_slow
                 : plan.stages.size() > 1       ? TimeVerdict::stages
                                                : TimeVerdict::one_go;
  if (!impossible.empty()) {
    verdict.reasons.push_back(impossible);
  } else if (cold) {
    verdict.reasons.push_back(
        "too cold for this glue: warm the shop, the wood and the glue for a day first");
  } else if (hot) {
    verdict.reasons.push_back("too warm for this glue: no time for it is published; cool the shop");
  } else if (verdict.comfort == Comfort::no) {
    add_time_reason(plan, job, worst, verdict);
  }
  add_pressure_reasons(plan, job, verdict);
  if (!plan.glue.enough_left) {
    verdict.reasons.push_back("the bottle holds less glue than this job needs");
  }
  for (WayOut& way : ways_out) {
    way.mends &= verdict.reasons.size() <= 1;  // of several, each way takes away one
  }
  if (verdict.reasons.empty()) {
    add_time_reason(plan, job, worst, verdict);  // tight: a reason to hurry, not to stay away
  }
  verdict.ok = verdict.comfort != Comfort::no && verdict.pressure != Level::short_of_hold &&
               plan.glue.enough_left;
  std::stable_sort(ways_out.begin(), ways_out.end(),
                   [](const WayOut& a, const WayOut& b) { return a.trouble < b.trouble; });
  if (ways_out.size() > 3) {
    ways_out.resize(3);
  }
  verdict.ways_out = std::move(ways_out);
  verdict.risk = risk_of(plan, job, verdict);
  return verdict;
}

}  // namespace planner
