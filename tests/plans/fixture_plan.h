// A fixture's job planned with one of the fixtures' shops.
#pragma once
#include <string>

#include "planner/make_plan.h"

struct FixturePlan {
  planner::work::Job job;
  planner::work::Shop shop;
  planner::plan::Plan plan;

  planner::work::PartId part(const std::string& name) const;
  // Clamps whose line of action runs along an axis, 0 x to 2 z, through all stages.
  std::vector<const planner::plan::PlannedClamp*> along(int axis) const;
};

std::string read_fixture(const std::string& path);  // below fixtures/

// `shop` is a file's name in fixtures/shops, or "" for no shop file. Fails the test when either
// file has a mistake. Planned once a pair and kept.
const FixturePlan& fixture_plan(const std::string& job, const std::string& shop);
