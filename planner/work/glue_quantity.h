// Glue faces to what to spread, what to have ready and what to mix.
#pragma once
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "planner/tables/glue.h"
#include "planner/work/joint.h"
#include "planner/work/shop.h"

namespace planner::work {

// A glue as it will be used: the family's table row (find_glue_family(family), for ranges, sources
// and cautions), with the label's own values where the shop gives them. Times in seconds.
struct GlueInUse {
  std::string name;    // as the user calls it, or the family's
  std::string family;  // id of the glue table
  tables::Warmth warmth =
      tables::Warmth::as_tabled;  // too_cold, too_warm: no glue-up; the times mean nothing
  // Limits: the short end. Where the sheet gives no open time, its assembly time stands for both.
  double open_s = 0, total_s = 0;
  double clamp_s = 0, cure_s = 0;  // waits: the long end
  bool open_from_label = false, total_from_label = false, clamp_from_label = false;
  double min_wait_s = 0;       // before pressure (resorcinol); 0 for most
  bool shared_budget = false;  // open/open_s + closed/total_s <= 1
  double spread_g_per_m2 = 0;  // of the glue line, single or double: the high end, to have enough
  double second_g_per_m2 = 0;  // hardener for the other face, of glues applied apart
  double density_g_per_ml = 0;
  double max_gap_mm = 0;
  bool both_faces = false;  // the maker asks for it; it divides the same total
  bool mixed = false;       // from two components, in the label's ratio
  double hold_MPa = 0;
  std::optional<double> min_temperature_C;
  std::optional<double> left_ml;
  std::optional<double> pot_life_s;
};

struct FaceGlue {
  JointId joint = 0;
  std::size_t face = 0;
  double area_mm2 = 0, net_g = 0;
  double size_coat_g = 0;  // on glued end grain, each side that shows it, before the clock starts
};

struct GlueBatch {
  double ml = 0, g = 0;  // measurable
};

struct GlueNeed {
  GlueInUse glue;
  std::vector<FaceGlue> faces;  // by joint and face; dry faces are left out
  double area_mm2 = 0;
  double net_g = 0, net_ml = 0;  // on the faces, size coat included
  double size_coat_g = 0;
  double waste_ml = 0;
  double ready_ml = 0, ready_g = 0, ready_fl_oz = 0;  // each rounded up to something measurable
  double hardener_ready_g = 0;  // of glues applied apart: resin on one face, this on the other
  std::vector<GlueBatch> mix;   // two-part glues: equal batches, each spread in half the pot life
  bool enough_left = true;      // need and waste against what is left, where the shop says
};

// The glue that `name` stands for: a name in the shop file first, then an id or other name of the
// glue table (the shop's first bottle of that family, if it has one: its label wins); at the shop's
// temperature. Nothing, with the nearest name as remedy in `problem`
// (placed at `place`), when it is neither.
struct GlueChoice {
  std::optional<GlueInUse> glue;
  base::Diagnostics problem;
};
GlueChoice glue_named(const std::string& name, const base::Place& place, const Shop& shop);

// The job's glue: the one it names, else the shop's first, else pva_type2. `problem` tells of the
// glues that joints name for themselves too.
GlueChoice choose_glue(const Job& job, const Shop& shop);

// Of the joints that take the job's glue or name this one. The pace tells how much one batch of a
// two-part glue can spread.
GlueNeed glue_quantity(std::span<const Joint> joints, const GlueInUse& glue, const Pace& pace);

// Brush, cup and squeeze-out: 15 % or 10 ml, whichever is more. Common practice.
double waste_ml(double net_ml);

// The next mark that a kitchen measure has: 5 ml up to 100, 10 up to 500, 50 beyond; grams alike.
double measurable_up(double ml_or_g);

double measurable_fl_oz_up(double ml);  // to the next quarter ounce

}  // namespace planner::work
