// What the verifier works out for itself before it reads a plan: solids and joints, from the job
// alone.
#pragma once
#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <vector>

#include "planner/plan/plan.h"

namespace planner::verify {

struct VerifyContext {
  const work::Job& job;
  const work::Shop& shop;
  const plan::Plan& plan;
  std::vector<geometry::Solid> solids;
  std::vector<work::Joint> joints;
  std::vector<std::string> violations;

  void require(bool holds, const std::string& sentence) {
    if (!holds) {
      violations.push_back(sentence);
    }
  }
};

inline bool is_in(work::PartId part, const std::vector<work::PartId>& parts) {
  return std::find(parts.begin(), parts.end(), part) != parts.end();
}

// A value as a violation tells it; a thousandth is enough to find it again.
std::string shown(double value);

}  // namespace planner::verify
