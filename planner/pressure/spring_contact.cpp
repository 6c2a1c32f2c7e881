#include "planner/pressure/spring_contact.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace planner::pressure {
namespace {

constexpr int kHalvings = 50;

double largest_of(std::span<const double> closing_mm) {
  double largest = 0;
  for (const double c : closing_mm)
    largest = std::max(largest, std::abs(c));
  return largest;
}

}  // namespace

std::vector<char> closed_by(std::span<const double> closing_mm, double share) {
  const double least = share * largest_of(closing_mm);
  std::vector<char> closed(closing_mm.size());
  for (std::size_t i = 0; i < closed.size(); ++i)
    closed[i] = closing_mm[i] > least;
  return closed;
}

bool hold_rightly(std::span<const char> holding, std::span<const double> closing_mm, double share) {
  const double nothing = share * largest_of(closing_mm);
  for (std::size_t i = 0; i < holding.size(); ++i)
    if (holding[i] ? closing_mm[i] < -nothing : closing_mm[i] > nothing)
      return false;
  return true;
}

// The slope of the energy along the way rises from minus the stiffness of all that is closed at the
// start to nothing at the end, but for what opens or closes on the way.
double descent_step(std::span<const SpringOnTheWay> springs, double bending_N_mm) {
  double stiffness = bending_N_mm;
  for (const SpringOnTheWay& s : springs)
    if (s.closing_mm > 0)
      stiffness += s.stiffness_N_mm * s.change_mm * s.change_mm;
  const auto falls_at = [&](double step) {
    double slope = (step - 1) * stiffness;
    for (const SpringOnTheWay& s : springs) {
      const double then = s.closing_mm + step * s.change_mm;
      if ((s.closing_mm > 0) != (then > 0))
        slope += (then > 0 ? 1 : -1) * s.stiffness_N_mm * s.change_mm * then;
    }
    return slope <= 0;
  };
  if (falls_at(1))
    return 1;
  double falls = 0, rises = 1;
  for (int i = 0; i < kHalvings; ++i) {
    const double middle = (falls + rises) / 2;
    (falls_at(middle) ? falls : rises) = middle;
  }
  return rises;
}

}  // namespace planner::pressure
