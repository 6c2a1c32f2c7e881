// Glue-ups for the tests of the clamp rooms: parts, solids, joints and glue in one.
#pragma once
#include <string>
#include <vector>

#include "planner/clamps/layout/clamp_layout.h"

namespace planner::clamps::layout {

struct TestWork {
  work::Job job;
  std::vector<geometry::Solid> solids;
  std::vector<work::Joint> joints;
  work::GlueInUse glue;

  // Everything in one stage.
  ClampProblem problem(const work::Shop& shop) const;
};

// A chest of 14 x 9 x 8 in, 3/4 in cherry; rabbets 3/8 in deep and 3/4 in wide on lid, bottom and
// the ends of front and back. Parts: bottom, back, left, right, front, lid.
TestWork hive_tool_chest();

// Six cherry boards of 3 x 7/8 in and 48 in length, edge to edge along y.
TestWork bench_panel();

// Two sides 300 x 600 x 18 mm with `shelves` shelves 564 mm long between them, in dadoes 9 mm deep.
TestWork shelf_case(int shelves);

// A job file's work, in one stage. REQUIRES: the file has no mistakes.
TestWork work_of_text(const std::string& job_text);

// `count` clamps of a kind with an opening, with the table's throat, jaw and force.
work::OwnedClamp some(const std::string& kind, int count, double opening_mm);
work::Shop shop_with(std::vector<work::OwnedClamp> clamps);

}  // namespace planner::clamps::layout
