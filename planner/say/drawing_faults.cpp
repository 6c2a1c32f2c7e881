#include "planner/say/drawing_faults.h"

#include <algorithm>
#include <cmath>

namespace planner::say {
namespace {

void add_across(const plan::Plan& plan, std::vector<DrawingFault>& out) {
  DrawingFault across{FaultKind::across_grain, {}, {}, 0};
  for (const work::CrossGrainNote& note : plan.cross_grain) {
    const bool known =
        std::find(across.joints.begin(), across.joints.end(), note.joint) != across.joints.end();
    if (note.warning && !known) {
      across.joints.push_back(note.joint);
    }
  }
  if (!across.joints.empty()) {
    out.push_back(std::move(across));
  }
}

void add_gaps(const plan::Plan& plan, std::vector<DrawingFault>& out) {
  std::vector<DrawingFault> gaps;
  for (work::JointId id = 0; id < plan.joints.size(); ++id) {
    const double gap = drawn_gap_mm(plan.joints[id]);
    if (!plan.joints[id].glued || gap <= 0) {
      continue;
    }
    const auto same = std::find_if(gaps.begin(), gaps.end(), [gap](const DrawingFault& other) {
      return std::abs(other.gap_mm - gap) < kDrawnGap_mm;
    });
    if (same == gaps.end()) {
      gaps.push_back({FaultKind::gap, {}, {id}, gap});
    } else {
      same->joints.push_back(id);
    }
  }
  std::stable_sort(gaps.begin(), gaps.end(), [](const DrawingFault& a, const DrawingFault& b) {
    return a.gap_mm > b.gap_mm;
  });
  out.insert(out.end(), gaps.begin(), gaps.end());
}

}  // namespace

double drawn_gap_mm(const work::Joint& joint) {
  double widest = 0;
  for (const work::GlueFace& face : joint.faces) {
    widest = std::max(widest, face.contact.gap_mm);
  }
  return widest < kDrawnGap_mm ? 0 : widest;
}

std::vector<DrawingFault> drawing_faults(const plan::Plan& plan) {
  std::vector<DrawingFault> out;
  if (!plan.locked.empty()) {
    out.push_back({FaultKind::locked, plan.locked, {}, 0});
  }
  add_across(plan, out);
  add_gaps(plan, out);
  return out;
}

}  // namespace planner::say
