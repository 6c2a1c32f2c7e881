#include "planner/tables/listing.h"

#include <array>
#include <span>

#include "planner/tables/csv.h"

namespace planner::tables {
namespace {

// One value of a row: the cells it is made of, what goes between them, and where it comes from.
struct Column {
  std::string_view label, unit;
  std::array<std::string_view, 2> cells;  // one or two
  std::string_view between;               // "-" for a range, " x " for a size
  std::string_view source;
};

struct Table {
  std::string_view name;  // its own and its file's
  std::string_view title, reading;
  std::string_view row_name;  // the cell that names a row
  std::span<const Column> columns;
  std::span<const std::string_view> notes;
};

constexpr Column kWoods[] = {
    {"specific gravity", "", {"sg"}, "", "strength_source"},
    {"MOE", "MPa", {"moe_mpa"}, "", "strength_source"},
    {"compression across grain", "MPa", {"comp_perp_mpa"}, "", "strength_source"},
    {"shear along grain", "MPa", {"shear_par_mpa"}, "", "strength_source"},
    {"side hardness", "N", {"side_hardness_n"}, "", "strength_source"},
    {"ET/EL", "", {"et_over_el"}, "", "ratio_source"},
    {"ER/EL", "", {"er_over_el"}, "", "ratio_source"},
    {"GLR/EL", "", {"glr_over_el"}, "", "shear_ratio_source"},
    {"GLT/EL", "", {"glt_over_el"}, "", "shear_ratio_source"},
    {"radial movement", "per 1 % MC", {"cr_per_pct_mc"}, "", "movement_source"},
    {"tangential movement", "per 1 % MC", {"ct_per_pct_mc"}, "", "movement_source"},
    {"iron stains it", "", {"iron_stain_risk"}, "", "stain_source"},
    {"oily", "", {"oily"}, "", "oily_source"},
    {"bonds", "", {"bond_ease"}, "", "bond_source"},
};
constexpr std::string_view kWoodsNotes[] = {"sg_basis", "note"};
constexpr Column kGlues[] = {
    {"open time", "min", {"open_min_lo", "open_min_hi"}, "-", "open_source"},
    {"total assembly time",
     "min",
     {"total_assembly_min_lo", "total_assembly_min_hi"},
     "-",
     "total_source"},
    {"wait before pressure", "min", {"wait_min_lo", "wait_min_hi"}, "-", "wait_source"},
    {"clamp time", "min", {"clamp_min_lo", "clamp_min_hi"}, "-", "clamp_source"},
    {"full cure", "h", {"full_cure_h"}, "", "cure_source"},
    {"lowest temperature", "C", {"min_temp_c"}, "", "temp_source"},
    {"highest temperature", "C", {"max_temp_c"}, "", "temp_source"},
    {"spread", "g/m2", {"spread_gsm_lo", "spread_gsm_hi"}, "-", "spread_source"},
    {"hardener", "g/m2", {"second_gsm_lo", "second_gsm_hi"}, "-", "spread_source"},
    {"density", "kg/l", {"density_kg_per_l"}, "", "density_source"},
    {"widest gap", "mm", {"max_gap_mm"}, "", "gap_source"},
    {"pot life", "min", {"pot_life_min_lo", "pot_life_min_hi"}, "-", "pot_source"},
    {"first", "", {"prepare"}, "", "handling_source"},
    {"gloves", "", {"gloves"}, "", "handling_source"},
    {"squeeze-out", "", {"squeeze_out"}, "", "handling_source"},
    {"stands up to", "", {"water"}, "", "water_source"},
};
constexpr std::string_view kGluesNotes[] = {"surfaces", "pressure_rule", "temperature_rule",
                                            "cautions"};
constexpr Column kClamps[] = {
    {"force, typical", "N", {"force_n_typ"}, "", "force_source"},
    {"force, weak to strong", "N", {"force_n_lo", "force_n_hi"}, "-", "force_source"},
    {"jaw face", "mm", {"pad_w_mm", "pad_h_mm"}, " x ", "pad_source"},
    {"throat", "mm", {"throat_mm_lo", "throat_mm_hi"}, "-", "pad_source"},
    {"openings", "mm", {"openings_mm"}, "", "body_source"},
    {"bar", "mm", {"bar_w_mm", "bar_d_mm"}, " x ", "body_source"},
    {"head", "mm", {"head_mm"}, "", "body_source"},
    {"fixed jaw", "mm", {"fixed_jaw_mm"}, "", "body_source"},
    {"screw travel", "mm", {"travel_mm"}, "", "body_source"},
    {"mass without bar", "kg", {"mass_kg"}, "", "body_source"},
    {"mass of bar", "kg/m", {"mass_kg_per_m"}, "", "body_source"},
    {"bare iron", "", {"bare_iron"}, "", "iron_source"},
    {"wooden jaws", "", {"wooden_jaws"}, "", "jaws_source"},
    {"time to snug", "s", {"snug_s"}, "", "snug_source"},
};
constexpr std::string_view kClampsNotes[] = {"note"};
constexpr Column kPressures[] = {
    {"pressure", "", {"lo", "hi"}, "-", "source"},
    {"share of compression across grain", "", {"share_of_comp_perp"}, "", "source"},
    {"specific gravity from, to under", "", {"sg_lo", "sg_hi"}, "-", "source"},
};
constexpr std::string_view kPressuresNotes[] = {"glue", "note"};

constexpr Table kTables[] = {
    {"woods", "Woods and sheet goods",
     "Blank ratios and strengths take the values of their class, and a plan that rests on them "
     "says so. E along the grain is 1.1 x the tabulated MOE.",
     "name", kWoods, kWoodsNotes},
    {"glues", "Glues",
     "Limits are planned on the low end of a range, waits and quantities on the high end. The "
     "label's own value wins.",
     "family", kGlues, kGluesNotes},
    {"clamps", "Clamps",
     "Force is what a person applies by hand, weak to strong: the typical one is planned on.",
     "kind", kClamps, kClampsNotes},
    {"pressures", "Pressures on the glue line",
     "Full pressure is the low end of the planner's row for the softer wood, or of the glue's "
     "own row; 25 psi (sheet_any) or the glue's own low end holds a line.",
     "applies_to", kPressures, kPressuresNotes},
};

std::string joined(const Row& row, const Column& column) {
  std::string text;
  for (const std::string_view cell : column.cells) {
    const std::string part = cell.empty() ? "" : row.text(cell);
    if (part.empty() || (column.between == "-" && part == text)) {
      continue;  // a range whose ends are one is one value
    }
    text += text.empty() ? part : std::string(column.between) + part;
  }
  for (std::size_t at = text.find(';'); at != std::string::npos; at = text.find(';', at)) {
    text.replace(at, 1, ", ");
  }
  return text;
}

ListedRow listed(const Row& row, const Table& table) {
  ListedRow out;
  out.id = row.text("id");
  out.name = row.text(table.row_name);
  if (table.name != "pressures") {
    out.also = row.list("also");
  }
  for (const Column& column : table.columns) {
    std::string text = joined(row, column);
    if (text.empty()) {
      continue;
    }
    // Pressures stand in the unit of their source.
    std::string unit(column.label == "pressure" ? std::string_view(row.text("unit")) : column.unit);
    out.values.push_back(
        {std::string(column.label), std::move(text), std::move(unit), row.source(column.source)});
  }
  for (const std::string_view note : table.notes) {
    if (!row.blank(note)) {
      out.notes.push_back(row.text(note));
    }
  }
  return out;
}

}  // namespace

const std::vector<std::string>& listing_names() {
  static const std::vector<std::string> names = [] {
    std::vector<std::string> out;
    for (const Table& table : kTables) {
      out.emplace_back(table.name);
    }
    return out;
  }();
  return names;
}

std::optional<Listing> listing(std::string_view name) {
  for (const Table& table : kTables) {
    if (table.name != name) {
      continue;
    }
    Listing out{std::string(table.title), std::string(table.reading), {}};
    for (const Row& row : read_csv(embedded(table.name))) {
      out.rows.push_back(listed(row, table));
    }
    return out;
  }
  return {};
}

}  // namespace planner::tables
