// Which springs of a contact hold: Newton's method on the energy of what bends on springs that can
// push and not pull. That energy is convex and quadratic in pieces, a piece for each set of springs
// that are closed; with each step taken only so far as the energy falls, the method ends at the one
// answer (Sun, Annals of Operations Research 76 (1998), from memory).
#pragma once
#include <span>
#include <vector>

namespace planner::pressure {

// A value a spring in all that follows; how far each is closed, in mm: below 0 it stands open.

// Those closed by more than `share` of the largest.
std::vector<char> closed_by(std::span<const double> closing_mm, double share);

// None that holds pulls, and none that is open overlaps, by more than `share` of the largest: rounding.
bool hold_rightly(std::span<const char> holding, std::span<const double> closing_mm, double share);

struct SpringOnTheWay {
  double stiffness_N_mm = 0;
  double closing_mm = 0;  // at the start
  double change_mm = 0;   // over the whole way
};

// How much of the way from the start to the answer for the springs closed at the start is to be
// gone: until the energy falls no further, 1 at most. `bending_N_mm` is the way's own stiffness
// without springs, w' K w >= 0. Never 0 unless the way leads nowhere.
double descent_step(std::span<const SpringOnTheWay> springs, double bending_N_mm);

}  // namespace planner::pressure
