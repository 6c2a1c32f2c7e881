// How hard a glue line wants to be pressed.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "planner/tables/glue.h"
#include "planner/tables/source.h"
#include "planner/tables/wood.h"

namespace planner::tables {

inline constexpr double kMPaPerPsi = 0.00689475729;  // 1 lbf/in2, exact to nine digits

// One row of pressures.csv. Rows that only a reader compares with (other sources, shares of the
// wood's strength) stand in the table too.
struct PressureRow {
  std::string id, applies_to, glue, note;
  std::optional<Range> specific_gravity;  // of the woods it is for, [lo, hi); nothing: any
  std::optional<WoodKind> wood_kind;      // it is for; nothing: any
  std::optional<Range> MPa;               // nothing where the row gives a share of the strength
  std::optional<double> share_of_compression_perpendicular;
  Range printed;     // in `unit`, as the source gives it
  std::string unit;  // "psi" or "kPa"
  Source source;
};
const std::vector<PressureRow>& pressure_rows();  // in the table's order

// What a line between two woods wants of a glue.
struct PressureRange {
  double lo_MPa = 0, hi_MPa = 0;
  std::string row;  // id of the row it comes from
  Source source;
};
// The row of the glue's own (GlueFamily::pressure_rows) that suits the softer wood, the one of
// lower specific gravity: its density class for water-based and powdered urea glues, softwood or
// hardwood for resorcinol (sheets as softwood). The other glues have one row for every wood.
PressureRange pressure_range(const GlueFamily& glue, const Wood& one, const Wood& other);

// What holds a line, whatever the wood: 25 psi (0.172 MPa), the low end of the published range for
// a 0.05-0.18 mm line (row sheet_any), or the low end of the glue's own lowest row where that is
// less. Our choice to apply it to every glue. Epoxy and hot hide give 0: closed all along is
// enough.
PressureRange hold_pressure(const GlueFamily& glue);

}  // namespace planner::tables
