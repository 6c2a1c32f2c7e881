// What the plan's sentences say, as data: a kind, the parts and joints it is about, and amounts.
// Keys as docs/plan.schema.json has them under "fact".
#pragma once
#include <vector>

#include "cli/json/json_values.h"

namespace cli::json {

Json fact(const planner::plan::Plan& plan, const planner::plan::Note& note);
Json fact(const planner::plan::Plan& plan, const planner::plan::Caution& caution);
Json fact(const planner::plan::Plan& plan, const planner::plan::VerdictReason& reason);
Json fact(const planner::plan::Plan& plan, const planner::plan::Risk& risk);
Json fact(const planner::plan::Plan& plan, const planner::plan::OrderReason& reason);
Json fact(const planner::plan::Plan& plan, const planner::plan::StepReason& reason);

template <class Told>
Json facts(const planner::plan::Plan& plan, const std::vector<Told>& all) {
  Json out = Json::array();
  for (const Told& told : all) {
    out.push_back(fact(plan, told));
  }
  return out;
}

}  // namespace cli::json
