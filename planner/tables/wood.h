// Woods and sheet goods: strength, stiffness, movement and how they take glue.
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "planner/tables/source.h"

namespace planner::tables {

enum class WoodKind { hardwood, softwood, sheet };

// One row of woods.csv. Blank cells of the handbooks are nothing here; elastic_of() and
// crush_strength_of() fill them from the class and say so.
struct Wood {
  std::string id, name, botanical, note;
  std::vector<std::string> also;  // other names it goes by
  WoodKind kind = WoodKind::hardwood;
  bool imported = false;
  double specific_gravity = 0;  // oven-dry mass over the volume at 12 % MC; sheets as sold
  bool basic_gravity = false;   // printed over the green volume, and converted to 12 % here
  double moe_MPa = 0;           // as tabulated, from bending tests
  std::optional<double> compression_perpendicular_MPa;  // proportional limit, mean of clear wood
  std::optional<double> shear_MPa;                      // along the grain
  std::optional<double> side_hardness_N;
  Source strength_source;  // of the five above
  std::optional<double> et_over_el, er_over_el;
  Source ratio_source;
  std::optional<double> glr_over_el, glt_over_el;
  Source shear_ratio_source;
  // Change of size for each 1 % of moisture content, 6 to 14 %, radial and tangential.
  std::optional<double> movement_radial, movement_tangential;
  Source movement_source;
  std::optional<bool> iron_stains;  // wet glue and bare iron stain it badly
  Source stain_source;
  bool oily = false;  // wiped or planed fresh before it is glued
  Source oily_source;
  std::string bond_ease;  // "easily", "well", "satisfactorily", "with difficulty" or blank
  Source bond_source;
};

// In the table's order. Read once, from the compiled-in text.
const std::vector<Wood>& woods();

// By id ("black_cherry"), by another name ("cherry") or by the handbook's ("Cherry, black"), in any
// case and with UK or US spelling. Null where the table has no such wood.
const Wood* find_wood(std::string_view name);

// A wood that the table hasn't, from what its user knows of it. Left out, its stiffness is that of woods as
// dense (GTR-190 Table 5-11a, at 12 %: 16.5 G^0.7 GPa of hardwoods, 20.5 G^0.84 of softwoods), and its
// movement, like all else, is not known.
struct OwnWood {
  std::string name;
  bool softwood = false;
  double density_kg_per_m3 = 0;         // at 12 % moisture content
  std::optional<double> stiffness_MPa;  // along the grain, from bending tests
  // From green to oven-dry, 0 to 1: of their handbooks' shrinkage.
  std::optional<double> shrinkage_radial, shrinkage_tangential;
  bool oily = false;
};
Wood wood_from(const OwnWood& own);

// Ids of all woods, for the nearest to a misspelt one.
std::vector<std::string> wood_ids();

// Elastic constants of a board taken flatsawn: its width tangential, its thickness radial. Sheets
// are equal both ways in their plane.
struct Elastic {
  double e_length_MPa = 0, e_width_MPa = 0, e_thickness_MPa = 0;
  double g_length_width_MPa = 0, g_length_thickness_MPa = 0;
  double poisson = 0;           // along to across, either way
  bool from_class = false;      // some ratio is its class's, not the wood's own: the plan says so
  std::vector<Source> sources;  // of the wood's strength, the ratios and the 1.1 of E_L
};
Elastic elastic_of(const Wood& wood);

// Compression perpendicular to the grain at the proportional limit, MPa: the wood's own, or its
// class's regression on specific gravity.
struct CrushStrength {
  double MPa = 0;
  bool from_class = false;
  Source source;
};
CrushStrength crush_strength_of(const Wood& wood);

// At 12 % moisture content, in kg/m3; sheets as sold.
double density_kg_per_m3(const Wood& wood);

}  // namespace planner::tables
