#include "planner/work/rack_words.h"

#include <algorithm>
#include <cmath>

#include "planner/base/quantity_text.h"
#include "planner/tables/clamp.h"

namespace planner::work {

std::string count_of(int n, std::string noun) {
  if (n != 1) {
    noun.insert(std::min(noun.find(" ("), noun.size()), "s");
  }
  return std::to_string(n) + " " + noun;
}

std::string opening_text(double mm, base::Units units) {
  const double step = units == base::Units::inch ? 25.4 / 4 : 1;
  return short_text(step * std::ceil(mm / step - 1e-3), units);
}

std::string clamps_that_open(const std::string& kind, int count, double opening_mm,
                             base::Units units) {
  const tables::ClampKind* row = tables::find_clamp_kind(kind);
  return count_of(count, row != nullptr ? row->name : kind) + " that open" +
         (count == 1 ? "s " : " ") + opening_text(opening_mm, units) + " or more";
}

std::string pressure_text(double MPa, base::Units units) {
  constexpr double kPerPsi_MPa = 0.00689476;
  if (units == base::Units::inch) {
    return std::to_string(std::lround(MPa / kPerPsi_MPa)) + " psi";
  }
  const long hundredths = std::lround(100 * MPa);
  const std::string cents = std::to_string(hundredths % 100);
  return std::to_string(hundredths / 100) + "." + (cents.size() < 2 ? "0" : "") + cents + " MPa";
}

}  // namespace planner::work
