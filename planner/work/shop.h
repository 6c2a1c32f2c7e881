// What the shop has: clamps, glue, people, temperature and pace.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "geometry/length.h"
#include "planner/base/diagnostic.h"
#include "planner/base/units.h"

namespace planner::work {

// Clamps of one kind and opening on the rack. What the file leaves out is filled in from the table.
struct OwnedClamp {
  std::string kind;  // id of the clamp table
  int count = 0;
  geometry::Length opening;
  geometry::Length throat;
  geometry::Length pad_width, pad_height;  // of the jaw's face
  double force_N = 0;                      // what a person can apply with it
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

// How fast these people work. Defaults are common practice (docs/method.md "Pace"), until a
// rehearsal says otherwise.
struct Pace {
  double narrow_s_per_mm =
      15.0 / base::kMmPerFoot;  // spreading a narrow joint, all its faces, along its length
  double joint_s = 4;           // on top, a joint
  double wide_s_per_mm2 =
      60.0 / (base::kMmPerFoot * base::kMmPerFoot);  // faces wider than 50 mm, by brush
  double place_s = 25;
  double close_s = 45;           // the part that closes the assembly
  std::optional<double> snug_s;  // a clamp with its pad; else by kind: 30, one-handed 20, pipe 40
  double tighten_s = 10;
  double check_s = 45, check_small_s = 20;  // for square or wind; of what is under 20 in
  double flush_s = 5;                       // a joint
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
  Pace pace;
};

}  // namespace planner::work
