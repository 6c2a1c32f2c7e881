// Conversion factors, exact by definition: the inch and the pound of the international agreement of
// 1959, standard gravity of 1901, the US gallon of 231 cubic inches. Every other factor is derived
// from these.
#pragma once

namespace planner::base {

inline constexpr double kMmPerInch = 25.4;
inline constexpr double kMmPerFoot = 12 * kMmPerInch;

inline constexpr double kKgPerPound = 0.45359237;
inline constexpr double kGramPerPound = 1000 * kKgPerPound;
inline constexpr double kGramPerOunce = kGramPerPound / 16;

inline constexpr double kGravity_m_s2 = 9.80665;
inline constexpr double kNewtonPerKgf = kGravity_m_s2;
inline constexpr double kNewtonPerLbf = kKgPerPound * kGravity_m_s2;

inline constexpr double kMPaPerPsi = kNewtonPerLbf / (kMmPerInch * kMmPerInch);
inline constexpr double kNmmPerFootPound = kNewtonPerLbf * kMmPerFoot;

inline constexpr double kMlPerGallon = 231 * kMmPerInch * kMmPerInch * kMmPerInch / 1000;
inline constexpr double kMlPerQuart = kMlPerGallon / 4;
inline constexpr double kMlPerPint = kMlPerGallon / 8;
inline constexpr double kMlPerFluidOunce = kMlPerGallon / 128;

inline constexpr double kCelsiusPerFahrenheit = 5 / 9.0;
inline constexpr double kFahrenheitAtZero = 32;  // Celsius
inline constexpr double fahrenheit_of(double celsius) {
  return celsius * 9 / 5 + kFahrenheitAtZero;
}

}  // namespace planner::base
