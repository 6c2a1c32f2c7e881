#include "planner/files/mesh_units.h"

#include <algorithm>
#include <array>
#include <utility>
#include <vector>

namespace planner::files {
namespace {

const std::array<DrawnUnit, 3>& units() {
  using geometry::Length;
  static const std::array<DrawnUnit, 3> all = {{{"mm", "millimeters", Length::whole_mm(1)},
                                                {"in", "inches", Length::nm(25'400'000)},
                                                {"m", "meters", Length::whole_mm(1000)}}};
  return all;
}

// How many times too large or too small the work would be, as the product of its longest part's
// length and its middling part's thickness. One unit is about 25 times another, so that this is 600
// times another's.
double oddness(double product_mm2) {
  constexpr double kUsual_mm2 = 700 * 18;  // a shelf's side; ours
  return std::max(product_mm2 / kUsual_mm2, kUsual_mm2 / product_mm2);
}

}  // namespace

UnitGuess guessed_unit(std::span<const geometry::Direction> sizes) {
  UnitGuess guess;
  std::vector<double> thick;
  for (const geometry::Direction& size : sizes) {
    guess.longest = std::max({guess.longest, size.x, size.y, size.z});
    thick.push_back(std::min({size.x, size.y, size.z}));
  }
  std::sort(thick.begin(), thick.end());
  const double product = guess.longest * thick[thick.size() / 2];
  std::vector<std::pair<double, const DrawnUnit*>> by_oddness;
  for (const DrawnUnit& unit : units()) {
    by_oddness.emplace_back(oddness(product * unit.length.mm() * unit.length.mm()), &unit);
  }
  std::sort(by_oddness.begin(), by_oddness.end());
  guess.likely = by_oddness[0].second;
  guess.other = by_oddness[1].second;
  // Ours: work a fourth as odd in one unit as in the next was drawn in that one.
  guess.is_clear = by_oddness[1].first >= 4 * by_oddness[0].first;
  return guess;
}

}  // namespace planner::files
