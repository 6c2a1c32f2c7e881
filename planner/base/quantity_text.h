// Lengths, times, temperatures and the like, as people write them. Exact as far as the text is: a
// decimal is read as the decimal it is, a fraction as the fraction it is, never through a double.
#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "geometry/length.h"

namespace planner::base {

enum class Units { mm, inch };

// What was read, or what is wrong with the text and what to write instead.
template <class Value>
struct Reading {
  std::optional<Value> value;
  std::string wrong;   // "the comma", "over 30 m" ...; empty on success
  std::string remedy;  // may be empty
};

// Nothing longer is glued up in one piece, and it keeps every product of two lengths in range.
inline constexpr geometry::Length kLongest = geometry::Length::whole_mm(30'000);

// "19 mm", "1.9 cm", "3/4 in", "23 13/16 in", "23-13/16\"", "1' 11 13/16\"", glyph fractions, smart
// quotes, en dashes; or a number or fraction alone, which takes `bare`. Rounded half away from zero
// to the nanometre. Either sign, up to 30 m.
Reading<geometry::Length> length_from(std::string_view text, Units bare);

// The length as someone working in `units` would write it, exact, so that length_from() gives it
// back: "23 13/16 in" where it is a whole number of sixty-fourths, else decimals of a millimetre.
std::string to_text(geometry::Length length, Units units);

// For messages about sizes that were computed: hundredths of a millimetre, or sixty-fourths of an
// inch where it is one to a micrometre, else thousandths of an inch.
std::string short_text(double mm, Units units);

Reading<double> seconds_from(std::string_view text);      // "10 min", "90 s", "1 h 30 min", "8:30"
Reading<double> celsius_from(std::string_view text);      // "20 C", "68 F"
Reading<double> share_from(std::string_view text);        // "40 %" is 0.4
Reading<double> millilitres_from(std::string_view text);  // "250 ml", "0.5 l", "8 fl oz" (US)
Reading<double> degrees_from(std::string_view text);      // "45 deg", "45"
Reading<double> kilograms_from(std::string_view text);    // "10 kg", "20 lb"
Reading<double> newtons_from(std::string_view text);      // "1000 N", "1 kN", "400 lbf", "100 kgf"
Reading<double> seconds_per_mm_from(std::string_view text);   // "15 s per ft"
Reading<double> seconds_per_mm2_from(std::string_view text);  // "60 s per sq ft"

}  // namespace planner::base
