// Directions, places and lists in words; directions as seen from the front: x to the right, y to
// the back, z up.
#pragma once
#include <string>
#include <vector>

#include "geometry/vector.h"
#include "planner/base/quantity_text.h"

namespace planner::base {

// "to the right", "up": the way a direction looks, by its greatest part.
std::string way_word(const geometry::Direction& direction);

// "left", "top": the end that a direction looks to.
std::string end_word(const geometry::Direction& direction);

// "from left to right", "from bottom to top".
std::string axis_words(const geometry::Direction& axis);

// "at x = 40, z = 9.5 mm": where a line along the axis runs.
std::string place_words(const geometry::Point& point, const geometry::Direction& axis, Units units);

// "back", "back and left", "back, left and right".
std::string list_words(const std::vector<std::string>& items);

// As a rule reads: whole millimetres, sixteenths of an inch.
std::string rule_words(double mm, Units units);

// Of a gap: tenths of a millimetre, thousandths of an inch.
std::string gap_words(double mm, Units units);

// "1650 N", "370 lbf"; to 10 N or 5 lbf.
std::string force_words(double force_N, Units units);

// "1 min 5 s".
std::string seconds_text(double seconds);

}  // namespace planner::base
