// Quantities and lists in the words of the bench: one formatter a quantity, and one rounding rule.
// Numbers are rounded here and in cli/json/json_values.h, nowhere else.
#pragma once
#include <array>
#include <optional>
#include <string>
#include <vector>

#include "planner/work/job.h"

namespace cli::words {

// How the user is spoken to. The plain form (ASCII) is complete; `unicode` only makes it prettier.
struct Wording {
  planner::base::Units units = planner::base::Units::mm;
  bool uk_words = false;
  bool unicode = false;
};

// A length as a rule reads it, to the nearest 1/16 in or whole millimetre: "23 13/16".
std::string length_number(double mm, const Wording& wording);
std::string length_text(double mm, const Wording& wording);  // with its unit: "3/4 in", "19 mm"
// "2 x 1 1/4 x 3/4 in"
std::string size_text(const std::vector<double>& mm, const Wording& wording);
// Gaps and movement, finer than a rule reads, to 0.001 in or 0.01 mm: "0.006 in", "0.15 mm".
std::string gap_text(double mm, const Wording& wording);

// To 5 lbf; to 10 N below 1000 N, 50 N below 10 kN and 0.1 kN from there, as no hand on a clamp is
// surer: "370 lbf", "980 N", "1650 N", "12.4 kN".
std::string force_text(double newton, const Wording& wording);
// To 1 psi or 0.01 MPa: "25 psi", "0.17 MPa".
std::string pressure_text(double MPa, const Wording& wording);
// To 1 lbf ft or 1 N m.
std::string moment_text(double Nmm, const Wording& wording);
std::string temperature_text(double C, const Wording& wording);  // to a degree: "64 F", "18 C"
// Up to the next mark of a kitchen measure, 1/4 fl oz (from 3 % over the one below) or 1 ml: "3 1/4 fl oz",
// "95 ml".
std::string volume_text(double ml, const Wording& wording);
// To 0.1 oz below a pound and 0.1 lb from there; to 1 g below 1 kg and 0.1 kg from there.
std::string mass_text(double g, const Wording& wording);
// Glue to pour: "1 fl oz (30 ml, 33 g)", "30 ml (33 g)".
std::string glue_text(double ml, double g, const Wording& wording);
std::string gram_text(double g);  // "1.4 g"; small amounts, any units
// To 0.1 sq in or 0.1 cm2: "127.2 sq in", "819.4 cm2".
std::string area_text(double mm2, const Wording& wording);

std::string clock_text(double seconds);  // "4:05", "1:02:30"
// To the second below an hour, to the minute from there.
std::string duration_text(double seconds);  // "45 s", "2 min 5 s", "1 h 30 min", "24 h"
// The time of day so long after `start_minute` (minutes from midnight): "14:37", "14:37 next day".
std::string time_of_day_text(int start_minute, double seconds);

// "front", "front and back", "front, back and left"
std::string list_text(const std::vector<std::string>& items);
// Numbered names that follow one another as one: "shelf 1", "shelf 2", "shelf 3" is "shelf 1-3".
std::vector<std::string> runs_of_names(const std::vector<std::string>& names);
// "1-4, 7 and 9-11", in the order given: "3, 1 and 4-6".
std::string numbers_text(const std::vector<int>& numbers);
// "1 clamp", "4 clamps"; "no clamps" for none.
std::string count_text(int n, const std::string& noun);
std::string plural(const std::string& noun);

// Capital letter in front and a full stop behind, where it lacks them.
std::string as_sentence(const std::string& text);

// The text with control characters and broken UTF-8 as '?', so that a name can't drive the reader's
// terminal.
std::string printable(const std::string& text);

// Columns that UTF-8 text takes on a terminal.
int columns(const std::string& text);
std::string padded(const std::string& text, int width);         // blanks after
std::string right_aligned(const std::string& text, int width);  // blanks before

// Lines of at most `width` columns, broken at blanks, or inside a word longer than a line.
// REQUIRES: width >= 2.
std::vector<std::string> wrapped(const std::string& text, int width);
// The first wording that fits in `width` columns; the last one cut short with "..." if none does.
std::string fullest_that_fits(const std::vector<std::string>& wordings, int width);

}  // namespace cli::words
