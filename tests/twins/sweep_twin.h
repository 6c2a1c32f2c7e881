// What stops what, by moving it there: triangles of the mover, step by step along the motion,
// against an axis-aligned box tree of the other's.
#pragma once
#include <memory>

#include "geometry/folding.h"

namespace twins {

// A solid's convex pieces as triangles, drawn in by a twentieth of a millimetre all round, so that
// faces that only touch stay apart.
class SweptBody {
 public:
  explicit SweptBody(const geometry::Solid& solid);
  ~SweptBody();
  SweptBody(SweptBody&&) noexcept;

  // True where the mover meets `other` at one of `steps` places on its way along the unit vector d,
  // from where it is to where their boxes are past each other. May miss what is thinner than a step
  // is long; never meets what is not there.
  bool runs_into(const SweptBody& other, const geometry::Direction& d, int steps) const;

  // The same for a turn by `angle_deg` about the hinge, at the middle of each of `steps` stretches.
  bool turns_into(const SweptBody& other, const geometry::Hinge& hinge, double angle_deg,
                  int steps) const;

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace twins
