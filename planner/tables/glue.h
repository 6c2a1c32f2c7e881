// Glue families: their times, what they spread at, what they need; and how temperature changes
// their times where a curve is published.
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "planner/tables/source.h"

namespace planner::tables {

enum class Chemistry { pva, hide, polyurethane, epoxy, urea, resorcinol };

// Which sides the maker asks to be wetted. `separate`: resin on one face, hardener on the other.
enum class SpreadOn { one, two, separate };

// What is done with it before it is spread.
enum class Preparation { mix, dampen, heat, warm_wood };
// What is done with the bead.
enum class SqueezeOut { rubbery, warm_water, foam, thinner, scrape };

// One row of glues.csv. Times in minutes as printed; limits are planned on their low end.
struct GlueFamily {
  std::string id, name;
  std::vector<std::string> also;
  Chemistry chemistry = Chemistry::pva;
  std::string en204_class;
  std::optional<Range> open_min;  // spread until brought together
  Source open_source;
  Range total_min;                  // spread until pressed
  bool total_from_contact = false;  // the clock of `total_min` starts when the faces meet
  Source total_source;
  bool shared_budget = false;     // open/open_max + closed/closed_max <= 1
  std::optional<Range> wait_min;  // least wait before pressure
  Source wait_source;
  Range clamp_min;
  Source clamp_source;
  std::optional<double> full_cure_h;
  Source cure_source;
  std::optional<double> min_temperature_C, max_temperature_C;
  Source temperature_source;
  Range spread_g_per_m2;                 // of the glue line, however many faces it is divided over
  std::optional<Range> second_g_per_m2;  // the hardener, where it goes on the other face
  Source spread_source;
  double density_kg_per_l = 0;
  Source density_source;
  double max_gap_mm = 0;
  Source gap_source;
  std::optional<Range> pot_life_min;  // mixed glues only
  Source pot_source;
  bool mixed = false;  // from two components, in the label's ratio
  SpreadOn spread_on = SpreadOn::one;
  std::vector<std::string>
      pressure_rows;  // ids of pressures.csv: the one that suits the wood holds
  std::string water;  // what it stands up to: "dry rooms", "often damp", "rain", "under water"
  Source water_source;
  std::vector<Preparation> preparation;
  bool gloves = false;
  SqueezeOut squeeze_out = SqueezeOut::rubbery;
  Source handling_source;  // of the three above
  std::string surfaces, pressure_rule, temperature_rule, cautions;  // in words, for the sheet
};

const std::vector<GlueFamily>& glue_families();  // in the table's order

// By id ("pva_type2"), another name or the printed one. Null where the table has no such glue.
const GlueFamily* find_glue_family(std::string_view name);
std::vector<std::string> glue_ids();

// A glue's times at a shop temperature.
enum class Warmth {
  as_tabled,   // near room temperature, or no temperature given
  from_curve,  // read from the glue's published curve
  warm,        // times shorten, by how much nobody publishes; see `times_share`
  too_cold,    // below the glue's minimum: no, warm the wood and glue for a day
  too_warm     // beyond the published curve or maximum: no
};
struct GlueTimes {
  Warmth warmth = Warmth::as_tabled;
  std::optional<double> open_s;     // nothing: the sheet gives no open time
  double total_s = 0;               // from spreading, or from contact where the family says so
  double closed_max_s = 0;          // for the shared budget; else equal to total_s
  std::optional<Range> min_wait_s;  // before pressure
  Range clamp_s;
  std::optional<double> pot_life_s;
  // What of the table's open and total time hot or dry air leaves, counted in already: less than 1
  // of PVA alone (heat_share, dry_share).
  double times_share = 1;
  Source open_source, total_source, clamp_source;
};
// Short ends. `temperature_C` and `humidity` (relative, 0 to 1) nothing: as tabled. With too_cold
// and too_warm the times are the table's, and must not be planned on.
GlueTimes times_at(const GlueFamily& family, std::optional<double> temperature_C,
                   std::optional<double> humidity = {});

// What heat leaves of a PVA's open and total time: all up to 25 C, 0.7 at 30, half from 35 up,
// between by line. And what air of less than 30 % humidity does. That both shorten them is
// published (woodworkingnetwork.com, "Poor gluing in hot weather"); by how much isn't: these
// figures are ours.
double heat_share(double temperature_C);
double dry_share(double humidity);

// One published reading: `minutes` of `quantity` at a temperature, the faster hardener first.
struct CurvePoint {
  std::string glue, quantity;
  double celsius = 0;
  std::optional<double> fast_min, slow_min;
  Source source;
};
const std::vector<CurvePoint>& glue_curves();

// Minutes of `quantity` ("max open assembly" ...) at a temperature, interpolated linearly in the
// logarithm of time; towards a reading of 0 it is 0. From the readings of `first`, or the other
// hardener where the temperature is outside those. Nothing outside both: never extrapolated.
enum class Hardener { fast, slow };
std::optional<double> curve_minutes(std::string_view glue, std::string_view quantity,
                                    double celsius, Hardener first = Hardener::fast);

}  // namespace planner::tables
