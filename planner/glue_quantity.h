// Glue faces to what to spread, what to have ready and what to mix.
#pragma once
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "planner/joint.h"
#include "planner/shop.h"

namespace planner {

// A glue as it will be used: the family's table row, with the label's own values where the shop
// gives them. Times in seconds; where a table gives a range, the short end.
struct GlueInUse {
  std::string name;    // as the user calls it, or the family's
  std::string family;  // id of the glue table
  double open_s = 0, total_s = 0, clamp_s = 0, cure_s = 0;
  bool open_from_label = false, total_from_label = false;
  double min_wait_s = 0;       // before pressure (resorcinol); 0 for most
  bool shared_budget = false;  // open/open_max + closed/closed_max <= 1
  double spread_g_per_m2 = 0;  // of the glue line, single or double
  double density_g_per_ml = 0;
  double max_gap_mm = 0;
  bool both_faces = false;
  double hold_MPa = 0;
  std::optional<double> min_temperature_C;
  std::optional<double> left_ml;
  std::optional<double> pot_life_s;
};

struct FaceGlue {
  JointId joint = 0;
  std::size_t face = 0;
  double area_mm2 = 0, net_g = 0;
  double size_coat_g = 0;  // on glued end grain, before the clock starts
};

struct GlueBatch {
  double ml = 0, g = 0;
};

struct GlueNeed {
  GlueInUse glue;
  std::vector<FaceGlue> faces;
  double area_mm2 = 0;
  double net_g = 0, net_ml = 0;  // on the faces, size coat included
  double size_coat_g = 0;
  double waste_ml = 0;               // max(15 %, 10 ml): brush, cup, squeeze-out; common practice
  double ready_ml = 0, ready_g = 0;  // rounded up to something measurable
  std::vector<GlueBatch> mix;        // two-part glues: batches within half the pot life
  bool enough_left = true;           // against what is left in the bottle, where the shop says
};

// The glue that a name stands for: a name in the shop file first, then an id of the glue table.
// Nothing, with the nearest name as remedy in `problem`, when it is neither.
struct GlueChoice {
  std::optional<GlueInUse> glue;
  Diagnostics problem;
};
GlueChoice choose_glue(const Job& job, const Shop& shop);

// REQUIRES: every glued joint's faces have an area.
GlueNeed glue_quantity(std::span<const Joint> joints, const GlueInUse& glue);

}  // namespace planner
