// The elementary functions by sums, products, quotients and roots alone. C libraries differ in their last bits, and a
// last bit may decide between two plans: with these every build gives the same. Within two last places.
#pragma once
#include <cmath>

namespace geometry {

inline double hypotenuse(double x, double y) {
  return std::sqrt(x * x + y * y);
}

// Of angles in radians. REQUIRES: no more than a million of them.
double sine(double x);
double cosine(double x);
double tangent(double x);

double arc_tangent(double t);
double arc_tangent(double y, double x);  // of the direction x, y: from -pi to pi
double arc_sine(double s);               // REQUIRES: -1 to 1
double arc_cosine(double c);             // REQUIRES: -1 to 1

double exponential(double x);           // REQUIRES: -700 to 700
double logarithm(double x);             // natural. REQUIRES: above 0
double power(double base, double exponent);  // REQUIRES: base above 0

}  // namespace geometry
