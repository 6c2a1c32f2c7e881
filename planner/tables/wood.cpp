#include "planner/tables/wood.h"

#include <cmath>
#include <stdexcept>

#include "geometry/elementary.h"
#include "planner/tables/csv.h"
#include "planner/tables/trade_name.h"

namespace planner::tables {

namespace {

// What a wood takes where its own row is blank.
struct WoodClass {
  WoodKind kind;
  double et, er, glr, glt;  // over E_L
  Source ratio_source;
  double crush_factor, crush_exponent;  // factor x specific gravity ^ exponent, MPa
  Source crush_source;
  double poisson;
  double e_over_moe;
  Source e_source;
};

WoodKind wood_kind_from(const Row& row) {
  return row.choice<WoodKind>("kind", {{"hardwood", WoodKind::hardwood},
                                       {"imported hardwood", WoodKind::hardwood},
                                       {"softwood", WoodKind::softwood},
                                       {"sheet", WoodKind::sheet}});
}

// Specific gravity at 12 % MC from the basic one (over the green volume): Wood Handbook ch. 4,
// G = Gb / (1 - 0.265 a Gb), a = (30 - MC) / 30, from memory. Sapele's 0.55 gives 0.603; its
// air-dry 673 kg/m3 are 0.601.
double at_12_percent(double basic) {
  return basic / (1 - 0.265 * (30 - 12) / 30 * basic);
}

Wood wood_from(const Row& row) {
  Wood wood;
  wood.id = row.text("id");
  wood.name = row.text("name");
  wood.botanical = row.text("botanical");
  wood.note = row.text("note");
  wood.also = row.list("also");
  wood.kind = wood_kind_from(row);
  wood.imported = row.text("kind").starts_with("imported");
  wood.specific_gravity = row.number("sg");
  wood.basic_gravity = row.text("sg_basis").starts_with("green");
  if (wood.basic_gravity)
    wood.specific_gravity = at_12_percent(wood.specific_gravity);
  wood.moe_MPa = row.number("moe_mpa");
  wood.compression_perpendicular_MPa = row.maybe("comp_perp_mpa");
  wood.shear_MPa = row.maybe("shear_par_mpa");
  wood.side_hardness_N = row.maybe("side_hardness_n");
  wood.strength_source = row.source("strength_source");
  wood.et_over_el = row.maybe("et_over_el");
  wood.er_over_el = row.maybe("er_over_el");
  wood.ratio_source = row.source("ratio_source");
  wood.glr_over_el = row.maybe("glr_over_el");
  wood.glt_over_el = row.maybe("glt_over_el");
  wood.shear_ratio_source = row.source("shear_ratio_source");
  wood.movement_radial = row.maybe("cr_per_pct_mc");
  wood.movement_tangential = row.maybe("ct_per_pct_mc");
  wood.movement_source = row.source("movement_source");
  if (!row.blank("iron_stain_risk"))
    wood.iron_stains = row.yes("iron_stain_risk");
  wood.stain_source = row.source("stain_source");
  wood.oily = row.yes("oily");
  wood.oily_source = row.source("oily_source");
  wood.bond_ease = row.text("bond_ease");
  wood.bond_source = row.source("bond_source");
  return wood;
}

WoodClass class_from(const Row& row) {
  return {.kind = wood_kind_from(row),
          .et = row.number("et_over_el"),
          .er = row.number("er_over_el"),
          .glr = row.number("glr_over_el"),
          .glt = row.number("glt_over_el"),
          .ratio_source = row.source("ratio_source"),
          .crush_factor = row.number("comp_perp_factor"),
          .crush_exponent = row.number("comp_perp_exponent"),
          .crush_source = row.source("comp_perp_source"),
          .poisson = row.number("poisson"),
          .e_over_moe = row.number("e_over_moe"),
          .e_source = row.source("e_source")};
}

const WoodClass& class_of(const Wood& wood) {
  static const std::vector<WoodClass> classes = typed_rows("wood_classes", class_from);
  for (const WoodClass& each : classes)
    if (each.kind == wood.kind)
      return each;
  throw std::logic_error("no class row for " + wood.id);
}

}  // namespace

const std::vector<Wood>& woods() {
  static const std::vector<Wood> all = typed_rows("woods", wood_from);
  return all;
}

const Wood* find_wood(std::string_view name) {
  return find_by_name(woods(), name);
}

Wood wood_from(const OwnWood& own) {
  const Source told{Mark::derived, "what the shop file says of it"};
  Wood wood;
  wood.id = wood.name = own.name;
  wood.kind = own.softwood ? WoodKind::softwood : WoodKind::hardwood;
  wood.specific_gravity = own.density_kg_per_m3 / 1120;  // of oven-dry mass: 12 % of it is water
  const double G = wood.specific_gravity;
  wood.moe_MPa = own.stiffness_MPa.value_or(
      1000 * (own.softwood ? 20.5 * geometry::power(G, 0.84) : 16.5 * geometry::power(G, 0.7)));
  wood.strength_source = told;
  // GTR-190 eq. 13-3 about 10 % moisture content, the fibre saturation point at 30.
  const auto movement = [](double shrinkage) { return 1 / (30 / shrinkage - 30 + 10); };
  if (own.shrinkage_radial) {
    wood.movement_radial = movement(*own.shrinkage_radial);
  }
  if (own.shrinkage_tangential) {
    wood.movement_tangential = movement(*own.shrinkage_tangential);
  }
  wood.movement_source = told;
  wood.oily = own.oily;
  wood.oily_source = told;
  return wood;
}

std::vector<std::string> wood_ids() {
  return ids_of(woods());
}

Elastic elastic_of(const Wood& wood) {
  const WoodClass& by_class = class_of(wood);
  const double el = by_class.e_over_moe * wood.moe_MPa;
  Elastic out;
  out.e_length_MPa = el;
  out.poisson = by_class.poisson;
  out.sources = {wood.strength_source, by_class.e_source};
  if (wood.kind == WoodKind::sheet) {
    out.e_width_MPa = el;
  } else {
    out.e_width_MPa = el * wood.et_over_el.value_or(by_class.et);
  }
  out.e_thickness_MPa = el * wood.er_over_el.value_or(by_class.er);
  out.g_length_width_MPa = el * wood.glt_over_el.value_or(by_class.glt);
  out.g_length_thickness_MPa = el * wood.glr_over_el.value_or(by_class.glr);
  if (wood.et_over_el)
    out.sources.push_back(wood.ratio_source);
  if (wood.glr_over_el)
    out.sources.push_back(wood.shear_ratio_source);
  out.from_class = !wood.et_over_el || !wood.er_over_el || !wood.glr_over_el || !wood.glt_over_el;
  if (out.from_class)
    out.sources.push_back(by_class.ratio_source);
  return out;
}

CrushStrength crush_strength_of(const Wood& wood) {
  if (wood.compression_perpendicular_MPa)
    return {*wood.compression_perpendicular_MPa, false, wood.strength_source};
  const WoodClass& by_class = class_of(wood);
  return {by_class.crush_factor * geometry::power(wood.specific_gravity, by_class.crush_exponent), true,
          by_class.crush_source};
}

double density_kg_per_m3(const Wood& wood) {
  const double water = wood.kind == WoodKind::sheet ? 1.0 : 1.12;  // 12 % on the oven-dry mass
  return 1000 * wood.specific_gravity * water;
}

}  // namespace planner::tables
