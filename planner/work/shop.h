// What the shop has: clamps, glue, people, temperature and pace.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "geometry/length.h"
#include "planner/base/diagnostic.h"
#include "planner/work/pace.h"
#include "planner/work/part.h"

namespace planner::work {

// Clamps of one kind and opening on the rack. What the file leaves out is filled in from the table.
struct OwnedClamp {
  std::string kind;  // id of the clamp table
  int count = 0;
  geometry::Length opening;
  geometry::Length throat;
  geometry::Length pad_width, pad_height;  // of the jaw's face
  double force_N = 0;                      // what a person can apply with it
  std::optional<double> snug_force_N;      // of a clamp that is just snug; nothing: as plan::snug_N has it
  base::Place place;
};

// A bottle in the shop. What the label says (open, total, clamp) wins over the family's table row.
struct ShopGlue {
  std::string name;
  std::string family;  // id of the glue table
  std::optional<double> open_s, total_s, clamp_s;
  std::optional<double> left_ml;
  base::Place place;
};

// Weights alike, to be laid on flat work.
struct OwnedWeight {
  double mass_kg = 0;
  int count = 0;
  base::Place place;
};

inline constexpr int kMostPeople = 4;

struct Shop {
  std::string file;  // empty: no shop file, an unlimited rack of every kind in the table
  bool unlimited_rack = true;
  int people = 1;
  std::optional<double> temperature_C;
  std::optional<double> humidity;  // relative, of the air: 0 to 1
  std::vector<OwnedClamp> clamps;  // in the file's order
  std::vector<ShopGlue> glues;
  std::vector<OwnedWeight> weights;
  OwnWoods woods;  // that the table hasn't
  bool vacuum = false;  // a bag with its pump
  double planer_mm = 304.8;  // the widest that goes through it: 12 in where nothing is said (common practice)
  bool tape = true;     // at hand, as pins and screws are
  Pace pace;
};

}  // namespace planner::work
