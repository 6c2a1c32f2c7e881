#include "planner/verify/verify_plan.h"

#include <algorithm>

#include "geometry/contact.h"
#include "planner/verify/verify_backing.h"
#include "planner/verify/verify_clamps.h"
#include "planner/verify/verify_lying.h"
#include "planner/verify/verify_means.h"
#include "planner/verify/verify_mitres.h"
#include "planner/verify/verify_placed.h"
#include "planner/verify/verify_setting.h"
#include "planner/verify/verify_starts.h"
#include "planner/verify/verify_steps.h"
#include "planner/work/part_solid.h"
#include "planner/work/touching.h"

namespace planner::verify {
namespace {

bool near(double a, double b, double relative) {
  return std::abs(a - b) <= relative * std::max({std::abs(a), std::abs(b), 1e-9});
}

void verify_parts(VerifyContext& c) {
  c.require(c.plan.parts.size() == c.job.parts.size(), "the plan has other parts than the job");
  for (std::size_t i = 0; i < std::min(c.plan.parts.size(), c.job.parts.size()); ++i) {
    const plan::PlanPart& part = c.plan.parts[i];
    c.require(part.name == c.job.parts[i].name, "part " + part.name + " is not the job's");
    c.require(near(part.volume_mm3, volume_mm3(c.solids[i]), 1e-9),
              part.name + ": volume is not that of its solid");
  }
}

void verify_joints(VerifyContext& c) {
  c.require(c.plan.joints.size() == c.joints.size(), "the plan has other joints than the geometry");
  for (std::size_t j = 0; j < std::min(c.plan.joints.size(), c.joints.size()); ++j) {
    const work::Joint& told = c.plan.joints[j];
    const work::Joint& found = c.joints[j];
    const std::string name = "joint " + joint_name(found, c.job);
    c.require(told.parts == found.parts && told.glued == found.glued, name + " is told otherwise");
    c.require(told.faces.size() == found.faces.size(), name + " has another number of faces");
    for (std::size_t f = 0; f < std::min(told.faces.size(), found.faces.size()); ++f) {
      c.require(near(told.faces[f].contact.area_mm2, found.faces[f].contact.area_mm2, 1e-9),
                name + ": a face's area is told as " + shown(told.faces[f].contact.area_mm2) +
                    ", it is " + shown(found.faces[f].contact.area_mm2));
    }
  }
}

void verify_glue(VerifyContext& c) {
  const work::GlueNeed& need = c.plan.glue;
  double area = 0, net = 0;
  for (const work::Joint& joint : c.joints) {
    area += joint.glued_area_mm2();
  }
  for (const work::FaceGlue& face : need.faces) {
    net += face.net_g + face.size_coat_g;
  }
  c.require(near(need.area_mm2, area, 1e-9),
            "the glued area is told as " + shown(need.area_mm2) + ", it is " + shown(area));
  c.require(near(need.net_g, net, 1e-9), "the glue's faces don't add up to its whole");
  c.require(need.ready_ml >= need.net_ml + need.waste_ml - 1e-6,
            "less glue is to be ready than is spread and wasted");
  c.require(near(c.plan.long_mm2 + c.plan.cross_mm2 + c.plan.end_mm2, area, 1e-9),
            "long, cross and end grain don't add up to the glued area");
}

}  // namespace

std::string shown(double value) {
  const double rounded = std::round(value * 1000) / 1000;
  std::string text = std::to_string(rounded);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') {
    text.pop_back();
  }
  return text;
}

std::vector<std::string> verify_plan(const work::Job& job, const work::Shop& shop,
                                     const plan::Plan& plan) {
  VerifyContext c{job, shop, plan, {}, {}, {}};
  c.solids = work::make_solids(job.parts);
  geometry::Tolerance tolerance;
  tolerance.max_gap_mm = work::touching_mm(job, plan.glue.glue.max_gap_mm);
  c.joints = classify_joints(job, find_contacts(c.solids, tolerance));
  verify_parts(c);
  verify_joints(c);
  verify_glue(c);
  if (c.violations.empty()) {  // the rest indexes parts and joints
    verify_means(c);
    verify_steps(c);
    verify_clampless(c);
    verify_clamps(c);
    verify_backing(c);
    verify_mitres(c);
    verify_lying(c);
    verify_setting(c);
    verify_starts(c);
    verify_placed(c);
  }
  return c.violations;
}

}  // namespace planner::verify
