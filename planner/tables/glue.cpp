#include "planner/tables/glue.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "geometry/elementary.h"
#include "planner/tables/csv.h"
#include "planner/tables/trade_name.h"

namespace planner::tables {

namespace {

// Above this the tables' room-temperature times are no longer a promise. Common practice.
constexpr double kWarmShopC = 25;

Preparation preparation_from(const std::string& word) {
  constexpr std::pair<std::string_view, Preparation> kWords[] = {
      {"mix", Preparation::mix},
      {"dampen", Preparation::dampen},
      {"heat", Preparation::heat},
      {"warm wood", Preparation::warm_wood}};
  for (const auto& [known, what] : kWords) {
    if (word == known) {
      return what;
    }
  }
  throw std::logic_error("glues: no preparation \"" + word + "\"");
}

GlueFamily family_from(const Row& row) {
  GlueFamily glue;
  glue.id = row.text("id");
  glue.name = row.text("family");
  glue.also = row.list("also");
  glue.chemistry = row.choice<Chemistry>("chemistry", {{"pva", Chemistry::pva},
                                                       {"hide", Chemistry::hide},
                                                       {"polyurethane", Chemistry::polyurethane},
                                                       {"epoxy", Chemistry::epoxy},
                                                       {"urea", Chemistry::urea},
                                                       {"resorcinol", Chemistry::resorcinol}});
  glue.en204_class = row.text("en204_class");
  glue.open_min = row.maybe_range("open_min_lo", "open_min_hi");
  glue.open_source = row.source("open_source");
  glue.total_min = row.range("total_assembly_min_lo", "total_assembly_min_hi");
  glue.total_from_contact = row.text("total_from") == "contact";
  glue.total_source = row.source("total_source");
  glue.shared_budget = row.yes("shared_budget");
  glue.wait_min = row.maybe_range("wait_min_lo", "wait_min_hi");
  glue.wait_source = row.source("wait_source");
  glue.clamp_min = row.range("clamp_min_lo", "clamp_min_hi");
  glue.clamp_source = row.source("clamp_source");
  glue.full_cure_h = row.maybe("full_cure_h");
  glue.cure_source = row.source("cure_source");
  glue.min_temperature_C = row.maybe("min_temp_c");
  glue.max_temperature_C = row.maybe("max_temp_c");
  glue.temperature_source = row.source("temp_source");
  glue.spread_g_per_m2 = row.range("spread_gsm_lo", "spread_gsm_hi");
  glue.second_g_per_m2 = row.maybe_range("second_gsm_lo", "second_gsm_hi");
  glue.spread_source = row.source("spread_source");
  glue.density_kg_per_l = row.number("density_kg_per_l");
  glue.density_source = row.source("density_source");
  glue.max_gap_mm = row.number("max_gap_mm");
  glue.gap_source = row.source("gap_source");
  glue.pot_life_min = row.maybe_range("pot_life_min_lo", "pot_life_min_hi");
  glue.pot_source = row.source("pot_source");
  glue.mixed = row.text("mix") == "label" && row.text("spread_on") != "separate";
  glue.spread_on = row.choice<SpreadOn>(
      "spread_on",
      {{"one", SpreadOn::one}, {"two", SpreadOn::two}, {"separate", SpreadOn::separate}});
  glue.pressure_rows = row.list("pressure_row");
  glue.water = row.text("water");
  glue.water_source = row.source("water_source");
  for (const std::string& word : row.list("prepare")) {
    glue.preparation.push_back(preparation_from(word));
  }
  glue.gloves = row.yes("gloves");
  glue.squeeze_out = row.choice<SqueezeOut>("squeeze_out", {{"rubbery", SqueezeOut::rubbery},
                                                            {"warm water", SqueezeOut::warm_water},
                                                            {"foam", SqueezeOut::foam},
                                                            {"thinner", SqueezeOut::thinner},
                                                            {"scrape", SqueezeOut::scrape}});
  glue.handling_source = row.source("handling_source");
  glue.surfaces = row.text("surfaces");
  glue.pressure_rule = row.text("pressure_rule");
  glue.temperature_rule = row.text("temperature_rule");
  glue.cautions = row.text("cautions");
  return glue;
}

CurvePoint point_from(const Row& row) {
  return {row.text("glue"),           row.text("quantity"),       row.number("temp_c"),
          row.maybe("fast_hardener"), row.maybe("slow_hardener"), row.source("source")};
}

// Minutes on one hardener's own readings, which the table lists from cold to warm.
std::optional<double> interpolated(std::string_view glue, std::string_view quantity, double celsius,
                                   std::optional<double> CurvePoint::*minutes) {
  const CurvePoint* below = nullptr;
  for (const CurvePoint& point : glue_curves()) {
    if (point.glue != glue || point.quantity != quantity || !(point.*minutes))
      continue;
    const double warm = *(point.*minutes);
    if (point.celsius == celsius)
      return warm;
    if (point.celsius < celsius) {
      below = &point;
      continue;
    }
    if (!below)
      return {};
    if (warm == 0)
      return 0;
    const double cold = *(below->*minutes);
    const double share = (celsius - below->celsius) / (point.celsius - below->celsius);
    return cold * geometry::power(warm / cold, share);
  }
  return {};
}

GlueTimes as_tabled(const GlueFamily& family) {
  GlueTimes times;
  if (family.open_min)
    times.open_s = 60 * family.open_min->lo;
  times.total_s = times.closed_max_s = 60 * family.total_min.lo;
  if (family.wait_min)
    times.min_wait_s = Range{60 * family.wait_min->lo, 60 * family.wait_min->hi};
  times.clamp_s = {60 * family.clamp_min.lo, 60 * family.clamp_min.hi};
  if (family.pot_life_min)
    times.pot_life_s = 60 * family.pot_life_min->lo;
  times.open_source = family.open_source;
  times.total_source = family.total_source;
  times.clamp_source = family.clamp_source;
  return times;
}

const Source* curve_source(const std::string& glue) {
  for (const CurvePoint& point : glue_curves())
    if (point.glue == glue)
      return &point.source;
  return nullptr;
}

// The table's times, with those that the curve gives put in their place.
GlueTimes on_curve(const GlueFamily& family, const Source& source, double celsius) {
  GlueTimes times = as_tabled(family);
  times.warmth = Warmth::from_curve;
  const auto open = curve_minutes(family.id, "max open assembly", celsius);
  const auto closed = curve_minutes(family.id, "max closed assembly", celsius);
  const auto contact = curve_minutes(family.id, "assembly after contact", celsius);
  const auto clamp = curve_minutes(family.id, "minimum clamping", celsius);
  const auto pot = curve_minutes(family.id, "pot (working) life", celsius);
  if (!closed && !contact) {
    times.warmth = Warmth::too_warm;
    return times;
  }
  if (open) {
    times.open_s = 60 * *open;
    times.open_source = source;
  }
  times.total_s = times.closed_max_s = 60 * (closed ? *closed : *contact);
  times.total_source = source;
  if (clamp) {
    const auto slow = curve_minutes(family.id, "minimum clamping", celsius, Hardener::slow);
    times.clamp_s = {60 * *clamp, 60 * *slow};
    times.clamp_source = source;
  }
  if (pot)
    times.pot_life_s = 60 * *pot;
  return times;
}

}  // namespace

const std::vector<GlueFamily>& glue_families() {
  static const std::vector<GlueFamily> all = typed_rows("glues", family_from);
  return all;
}

const GlueFamily* find_glue_family(std::string_view name) {
  return find_by_name(glue_families(), name);
}

std::vector<std::string> glue_ids() {
  return ids_of(glue_families());
}

const std::vector<CurvePoint>& glue_curves() {
  static const std::vector<CurvePoint> all = typed_rows("glue_temperature", point_from);
  return all;
}

std::optional<double> curve_minutes(std::string_view glue, std::string_view quantity,
                                    double celsius, Hardener first) {
  const auto own = first == Hardener::fast ? &CurvePoint::fast_min : &CurvePoint::slow_min;
  const auto other = first == Hardener::fast ? &CurvePoint::slow_min : &CurvePoint::fast_min;
  if (const auto minutes = interpolated(glue, quantity, celsius, own))
    return minutes;
  return interpolated(glue, quantity, celsius, other);
}

double heat_share(double temperature_C) {
  struct Point {
    double celsius, share;
  };
  constexpr Point kPoints[] = {{kWarmShopC, 1}, {30, 0.7}, {35, 0.5}};
  const Point* colder = nullptr;
  for (const Point& point : kPoints) {
    if (temperature_C <= point.celsius) {
      return colder == nullptr ? 1
                               : colder->share + (point.share - colder->share) *
                                                     (temperature_C - colder->celsius) /
                                                     (point.celsius - colder->celsius);
    }
    colder = &point;
  }
  return colder->share;
}

double dry_share(double humidity) {
  constexpr double kDry = 0.3, kLeft = 0.7;
  return humidity < kDry ? kLeft : 1;
}

namespace {

void shorten(GlueTimes& times, double share) {
  times.times_share = share;
  times.total_s *= share;
  times.closed_max_s *= share;
  if (times.open_s) {
    *times.open_s *= share;
  }
}

}  // namespace

GlueTimes times_at(const GlueFamily& family, std::optional<double> temperature_C,
                   std::optional<double> humidity) {
  GlueTimes times = as_tabled(family);
  const bool dries = family.chemistry == Chemistry::pva;
  if (dries) {
    shorten(times, (temperature_C ? heat_share(*temperature_C) : 1) *
                       (humidity ? dry_share(*humidity) : 1));
  }
  if (!temperature_C)
    return times;
  if (family.min_temperature_C && *temperature_C < *family.min_temperature_C) {
    times.warmth = Warmth::too_cold;
  } else if (family.max_temperature_C && *temperature_C > *family.max_temperature_C) {
    times.warmth = Warmth::too_warm;
  } else if (const Source* source = curve_source(family.id)) {
    times = on_curve(family, *source, *temperature_C);
  } else if (*temperature_C > kWarmShopC) {
    times.warmth = Warmth::warm;
  }
  return times;
}

}  // namespace planner::tables
