#include "planner/tables/pressure_range.h"

#include <stdexcept>
#include <string_view>

#include "planner/tables/csv.h"

namespace planner::tables {

namespace {


PressureRow row_from(const Row& row) {
  PressureRow out;
  out.id = row.text("id");
  out.applies_to = row.text("applies_to");
  out.glue = row.text("glue");
  out.note = row.text("note");
  out.specific_gravity = row.maybe_range("sg_lo", "sg_hi");
  if (row.text("wood_kind") == "softwood")
    out.wood_kind = WoodKind::softwood;
  if (row.text("wood_kind") == "hardwood")
    out.wood_kind = WoodKind::hardwood;
  out.share_of_compression_perpendicular = row.maybe("share_of_comp_perp");
  out.unit = row.text("unit");
  out.source = row.source("source");
  if (const auto printed = row.maybe_range("lo", "hi")) {
    const double to_MPa = out.unit == "psi" ? kMPaPerPsi : 0.001;
    out.printed = *printed;
    out.MPa = Range{to_MPa * printed->lo, to_MPa * printed->hi};
  }
  return out;
}

const PressureRow& named(std::string_view id) {
  for (const PressureRow& row : pressure_rows())
    if (row.id == id && row.MPa)
      return row;
  throw std::logic_error("no pressure row " + std::string(id));
}

bool suits(const PressureRow& row, const Wood& wood) {
  if (row.wood_kind && (*row.wood_kind == WoodKind::hardwood) != (wood.kind == WoodKind::hardwood))
    return false;
  return !row.specific_gravity || (wood.specific_gravity >= row.specific_gravity->lo &&
                                   wood.specific_gravity < row.specific_gravity->hi);
}

PressureRange range_of(const PressureRow& row) {
  return {row.MPa->lo, row.MPa->hi, row.id, row.source};
}

}  // namespace

const std::vector<PressureRow>& pressure_rows() {
  static const std::vector<PressureRow> all = typed_rows("pressures", row_from);
  return all;
}

PressureRange pressure_range(const GlueFamily& glue, const Wood& one, const Wood& other) {
  const Wood& softer = other.specific_gravity < one.specific_gravity ? other : one;
  for (const std::string& id : glue.pressure_rows)
    if (const PressureRow& row = named(id); suits(row, softer))
      return range_of(row);
  throw std::logic_error("no pressure row of " + glue.id + " suits " + softer.id);
}

PressureRange hold_pressure(const GlueFamily& glue) {
  PressureRange least = range_of(named("sheet_any"));
  for (const std::string& id : glue.pressure_rows)
    if (const PressureRange own = range_of(named(id)); own.lo_MPa < least.lo_MPa)
      least = own;
  return least;
}

}  // namespace planner::tables
