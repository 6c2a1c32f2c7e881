#include "planner/base/quantity_text.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <numeric>
#include <utility>
#include <vector>

#include "planner/base/amount_text.h"
#include "planner/base/units.h"

namespace planner::base {
namespace {

struct Unit {
  std::string_view name;
  std::int64_t factor;  // of the kind's base unit
};

// Exact: the inch is 25.4 mm (international yard and pound agreement, 1959).
constexpr std::array<Unit, 25> kLengthUnits = {{
    {"mm", 1'000'000},           {"millimetre", 1'000'000},   {"millimetres", 1'000'000},
    {"millimeter", 1'000'000},   {"millimeters", 1'000'000},  {"cm", 10'000'000},
    {"centimetre", 10'000'000},  {"centimetres", 10'000'000}, {"centimeter", 10'000'000},
    {"centimeters", 10'000'000}, {"m", 1'000'000'000},        {"metre", 1'000'000'000},
    {"metres", 1'000'000'000},   {"meter", 1'000'000'000},    {"meters", 1'000'000'000},
    {"in", 25'400'000},          {"inch", 25'400'000},        {"inches", 25'400'000},
    {"ins", 25'400'000},         {"\"", 25'400'000},          {"ft", 304'800'000},
    {"foot", 304'800'000},       {"feet", 304'800'000},       {"'", 304'800'000},
    {"dm", 100'000'000},
}};

std::optional<std::int64_t> length_unit(std::string_view name) {
  const auto unit = std::find_if(kLengthUnits.begin(), kLengthUnits.end(),
                                 [&](const Unit& u) { return u.name == name; });
  return unit == kLengthUnits.end() ? std::nullopt : std::optional<std::int64_t>(unit->factor);
}

constexpr std::int64_t kFoot = 304'800'000, kInch = 25'400'000;

// Rounded half away from zero. REQUIRES a non-negative fraction.
Wide rounded(Wide num, Wide den) {
  return (2 * num + den) / (2 * den);
}

template <class Value>
Reading<Value> failed(std::string wrong, std::string remedy) {
  return {std::nullopt, std::move(wrong), std::move(remedy)};
}
template <class Value>
Reading<Value> failed(const AmountScanner::Failure& f) {
  return {std::nullopt, f.wrong, f.remedy};
}

// A unit as the user wrote it: what is read is in lower case.
std::string as_written(const std::string& unit, std::string_view text) {
  const auto lower = [](char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  };
  const auto found = std::search(text.begin(), text.end(), unit.begin(), unit.end(),
                                 [&](char a, char b) { return lower(a) == b; });
  return found == text.end() ? unit
                             : std::string(found, found + static_cast<std::ptrdiff_t>(unit.size()));
}

Reading<geometry::Length> within_reach(Wide nm, bool negative) {
  if (nm > kLongest.nanometres()) {
    return failed<geometry::Length>("it is over 30 m", "check the unit");
  }
  const auto n = static_cast<std::int64_t>(nm);
  return {geometry::Length::nm(negative ? -n : n), {}, {}};
}

constexpr const char* kLengthForms =
    "write a length such as \"19 mm\", \"3/4 in\" or \"23 13/16 in\"";

// `1' 11 13/16"`: whole feet, then inches.
Reading<geometry::Length> feet_and_inches(const Amount& feet, AmountScanner& scan) {
  const Amount inches = scan.amount();
  if (scan.failure()) {
    return failed<geometry::Length>(*scan.failure());
  }
  const bool in_inches = length_unit(inches.unit) == kInch;
  if (!in_inches || feet.size.den != 1 || !scan.at_end()) {
    return failed<geometry::Length>("it is not whole feet and then inches",
                                    "write it like 1' 11 13/16\"");
  }
  if (feet.size.num > 100'000) {
    return failed<geometry::Length>("it is over 30 m", "check the unit");
  }
  const Wide num = inches.size.num * kInch + feet.size.num * kFoot * inches.size.den;
  return within_reach(rounded(num, inches.size.den), feet.negative);
}

}  // namespace

Reading<geometry::Length> length_from(std::string_view text, Units bare) {
  const std::string read = plain(text);
  if (read.empty()) {
    return failed<geometry::Length>("it is empty", kLengthForms);
  }
  if (read == "nan" || read == "inf" || read == "+inf" || read == "-inf") {
    return failed<geometry::Length>("it is not a length", kLengthForms);
  }
  AmountScanner scan(read);
  const Amount amount = scan.amount();
  if (scan.failure()) {
    const AmountScanner::Failure& f = *scan.failure();
    return failed<geometry::Length>(f.wrong, f.remedy.empty() ? kLengthForms : f.remedy);
  }
  const std::string& unit = amount.unit;
  const std::optional<std::int64_t> nm =
      unit.empty() ? (bare == Units::inch ? kInch : 1'000'000) : length_unit(unit);
  if (!nm) {
    return failed<geometry::Length>("\"" + as_written(unit, text) + "\" is not a unit of length",
                                    "write mm, cm, m, in or ft");
  }
  if (!scan.at_end() && *nm == kFoot) {
    return feet_and_inches(amount, scan);
  }
  if (!scan.at_end()) {
    return failed<geometry::Length>("it holds more than one length", kLengthForms);
  }
  return within_reach(rounded(amount.size.num * *nm, amount.size.den), amount.negative);
}

namespace {

// A number of parts, `scale` to the whole, as a decimal, without its last noughts.
std::string decimal(std::int64_t n, std::int64_t scale) {
  const std::int64_t size = n < 0 ? -n : n;
  std::string places = std::to_string(scale + size % scale).substr(1);
  places.erase(places.find_last_not_of('0') + 1);
  return (n < 0 ? "-" : "") + std::to_string(size / scale) + (places.empty() ? "" : "." + places);
}

std::string in_inches(std::int64_t sixty_fourths) {
  const std::int64_t whole = sixty_fourths / 64, part = sixty_fourths % 64;
  if (part == 0) {
    return std::to_string(whole) + " in";
  }
  const std::int64_t common = std::gcd(part, std::int64_t{64});
  return (whole == 0 ? "" : std::to_string(whole) + " ") + std::to_string(part / common) + "/" +
         std::to_string(64 / common) + " in";
}

}  // namespace

std::string to_text(geometry::Length length, Units units) {
  constexpr std::int64_t k64th = 396'875;
  const std::int64_t nm = length.nanometres();
  const std::int64_t size = nm < 0 ? -nm : nm;
  const bool inches = units == Units::inch && size % k64th == 0;
  return (nm < 0 ? "-" : "") +
         (inches ? in_inches(size / k64th) : decimal(size, 1'000'000) + " mm");
}

std::string short_text(double mm, Units units) {
  if (units == Units::mm) {
    return decimal(std::llround(mm * 100), 100) + " mm";
  }
  const std::int64_t sixty_fourths = std::llround(mm / kMmPerInch * 64);
  if (std::abs(static_cast<double>(sixty_fourths) * kMmPerInch / 64 - mm) < 1e-3) {
    return to_text(geometry::Length::in_64ths(sixty_fourths), units);
  }
  return decimal(std::llround(mm / kMmPerInch * 1000), 1000) + " in";
}

namespace {

struct ScaledUnit {
  std::string_view name;
  double factor;
  double offset = 0;  // added before the factor: degrees Fahrenheit
};
using ScaledUnits = std::vector<ScaledUnit>;

const ScaledUnits kTimes = {
    {"s", 1},       {"sec", 1},      {"secs", 1},    {"second", 1},   {"seconds", 1},
    {"min", 60},    {"mins", 60},    {"minute", 60}, {"minutes", 60}, {"h", 3600},
    {"hr", 3600},   {"hrs", 3600},   {"hour", 3600}, {"hours", 3600}, {"d", 86400},
    {"day", 86400}, {"days", 86400},
};
const ScaledUnits kTemperatures = {
    {"c", 1},
    {"deg c", 1},
    {"celsius", 1},
    {"f", kCelsiusPerFahrenheit, -kFahrenheitAtZero},
    {"deg f", kCelsiusPerFahrenheit, -kFahrenheitAtZero},
    {"fahrenheit", kCelsiusPerFahrenheit, -kFahrenheitAtZero},
};
const ScaledUnits kShares = {{"%", 0.01}, {"percent", 0.01}};
// US fluid ounce, pint, quart, gallon: 231 cubic inches a gallon (NIST Handbook 44, appendix C).
const ScaledUnits kVolumes = {
    {"ml", 1},
    {"millilitre", 1},
    {"millilitres", 1},
    {"cl", 10},
    {"l", 1000},
    {"litre", 1000},
    {"litres", 1000},
    {"liter", 1000},
    {"liters", 1000},
    {"fl oz", kMlPerFluidOunce},
    {"floz", kMlPerFluidOunce},
    {"pt", kMlPerPint},
    {"pint", kMlPerPint},
    {"qt", kMlPerQuart},
    {"quart", kMlPerQuart},
    {"gal", kMlPerGallon},
    {"gallon", kMlPerGallon},
};
const ScaledUnits kAngles = {{"", 1}, {"deg", 1}, {"degree", 1}, {"degrees", 1}};
const ScaledUnits kForces = {
    {"n", 1},
    {"newton", 1},
    {"newtons", 1},
    {"kn", 1000},
    {"lbf", kNewtonPerLbf},
    {"lb", kNewtonPerLbf},
    {"lbs", kNewtonPerLbf},
    {"kgf", kNewtonPerKgf},
};
const ScaledUnits kMasses = {
    {"kg", 1}, {"g", 0.001}, {"lb", kKgPerPound}, {"lbs", kKgPerPound},
};
const ScaledUnits kRunningLengths = {
    {"mm", 1},          {"cm", 10},           {"m", 1000}, {"in", kMmPerInch}, {"inch", kMmPerInch},
    {"ft", kMmPerFoot}, {"foot", kMmPerFoot},
};
const ScaledUnits kAreas = {
    {"sq ft", kMmPerFoot* kMmPerFoot},
    {"square foot", kMmPerFoot* kMmPerFoot},
    {"ft2", kMmPerFoot* kMmPerFoot},
    {"sq in", kMmPerInch* kMmPerInch},
    {"square inch", kMmPerInch* kMmPerInch},
    {"in2", kMmPerInch* kMmPerInch},
    {"sq m", 1e6},
    {"square metre", 1e6},
    {"square meter", 1e6},
    {"m2", 1e6},
    {"sq cm", 100},
    {"cm2", 100},
    {"sq mm", 1},
    {"mm2", 1},
};

const ScaledUnit* find_unit(const ScaledUnits& units, std::string_view name) {
  const auto unit =
      std::find_if(units.begin(), units.end(), [&](const ScaledUnit& u) { return u.name == name; });
  return unit == units.end() ? nullptr : &*unit;
}

struct Kind {
  const ScaledUnits& units;
  std::string what, forms;  // "a time", how to write one
};

// One amount, or a sum of several ("1 h 30 min") where the kind is summed.
enum class Amounts { one, summed };

Reading<double> scaled_from(std::string_view text, const Kind& kind, Amounts amounts) {
  const std::string read = plain(text);
  if (read.empty()) {
    return failed<double>("it is empty", kind.forms);
  }
  AmountScanner scan(read);
  double total = 0;
  do {
    const Amount amount = scan.amount();
    if (scan.failure()) {
      const AmountScanner::Failure& f = *scan.failure();
      return failed<double>(f.wrong, f.remedy.empty() ? kind.forms : f.remedy);
    }
    const ScaledUnit* unit = find_unit(kind.units, amount.unit);
    if (unit == nullptr) {
      return failed<double>(amount.unit.empty() ? "it has no unit"
                                                : "\"" + as_written(amount.unit, text) +
                                                      "\" is not a unit of " + kind.what,
                            kind.forms);
    }
    const double number = amount.negative ? -amount.size.value() : amount.size.value();
    total += (number + unit->offset) * unit->factor;
  } while (amounts == Amounts::summed && !scan.at_end());
  if (!scan.at_end()) {
    return failed<double>("it holds more than one " + kind.what, kind.forms);
  }
  return {total, {}, {}};
}

// "8:30", minutes and seconds as a kitchen clock shows them.
std::optional<Reading<double>> clock_from(const std::string& read) {
  const std::size_t colon = read.find(':');
  if (colon == std::string::npos) {
    return std::nullopt;
  }
  const std::string minutes = read.substr(0, colon), seconds = read.substr(colon + 1);
  const auto all_digits = [](const std::string& s) {
    return s.find_first_not_of("0123456789") == std::string::npos;
  };
  if (minutes.empty() || minutes.size() > 5 || seconds.size() != 2 ||
      !all_digits(minutes + seconds)) {
    return failed<double>("it is not minutes and seconds", "write it like \"8:30\"");
  }
  if (std::stoi(seconds) > 59) {
    return failed<double>("it has more than 59 seconds", "write it like \"8:30\"");
  }
  return Reading<double>{std::stoi(minutes) * 60.0 + std::stoi(seconds), {}, {}};
}

// `time` per `units`: seconds over the base unit of `per`.
Reading<double> rate_from(std::string_view text, const Kind& per) {
  const std::string read = plain(text);
  const std::size_t word = read.find(" per "), slash = read.find('/');
  const bool has_word = word != std::string::npos;
  if (!has_word && slash == std::string::npos) {
    return failed<double>("it has no \"per\"", per.forms);
  }
  const Reading<double> time = seconds_from(read.substr(0, has_word ? word : slash));
  if (!time.value) {
    return failed<double>(time.wrong, per.forms);
  }
  if (*time.value <= 0) {
    return failed<double>("a time must be above zero", per.forms);
  }
  const std::string below = read.substr(has_word ? word + 5 : slash + 1);
  const std::size_t start = std::min(below.find_first_not_of(' '), below.size());
  const bool counted = start < below.size() &&
                       std::string_view("0123456789").find(below[start]) != std::string_view::npos;
  const Reading<double> unit =
      scaled_from((counted ? "" : "1 ") + below.substr(start), per, Amounts::one);
  if (!unit.value || *unit.value <= 0) {
    return failed<double>(unit.value ? "it is per nothing" : unit.wrong, per.forms);
  }
  return {*time.value / *unit.value, {}, {}};
}

}  // namespace

Reading<double> seconds_from(std::string_view text) {
  const std::string read = plain(text);
  if (const auto clock = clock_from(read)) {
    return *clock;
  }
  return scaled_from(text, {kTimes, "time", "write \"10 min\", \"90 s\", \"1 h\" or \"8:30\""},
                     Amounts::summed);
}

Reading<double> celsius_from(std::string_view text) {
  return scaled_from(text, {kTemperatures, "temperature", "write \"20 C\" or \"68 F\""},
                     Amounts::one);
}

Reading<double> share_from(std::string_view text) {
  return scaled_from(text, {kShares, "share", "write \"40 %\""}, Amounts::one);
}

Reading<double> millilitres_from(std::string_view text) {
  return scaled_from(text, {kVolumes, "volume", "write \"250 ml\" or \"8 fl oz\""}, Amounts::one);
}

Reading<double> degrees_from(std::string_view text) {
  return scaled_from(text, {kAngles, "angle", "write \"45 deg\""}, Amounts::one);
}

Reading<double> kilograms_from(std::string_view text) {
  return scaled_from(text, {kMasses, "mass", "write \"10 kg\" or \"20 lb\""}, Amounts::one);
}

Reading<double> newtons_from(std::string_view text) {
  return scaled_from(text, {kForces, "force", "write \"1000 N\" or \"400 lbf\""}, Amounts::one);
}

Reading<double> seconds_per_mm_from(std::string_view text) {
  return rate_from(text, {kRunningLengths, "length", "write it like \"15 s per ft\""});
}

Reading<double> seconds_per_mm2_from(std::string_view text) {
  return rate_from(text, {kAreas, "area", "write it like \"60 s per sq ft\""});
}

}  // namespace planner::base
