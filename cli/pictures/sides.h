// What a face of a part is in the whole work: looking at another part across a gap, or shown to the world.
#pragma once
#include <vector>

#include "planner/plan/plan.h"

namespace cli::pictures {

// Tells inside from outside.
class Insides {
 public:
  explicit Insides(const planner::plan::Plan& plan);
  // Whether straight out from the middle of the facet there is another part, with a gap in between (ours).
  bool looks_inward(planner::work::PartId part, const geometry::Facet& facet) const;

 private:
  bool meets(planner::work::PartId part, const geometry::Point& from, const geometry::Direction& way) const;

  const planner::plan::Plan& plan_;
  std::vector<std::vector<geometry::Point>> triangles_;  // of each part, three points each
};

// The looped mark that a pencil leaves on a show face, as triangles: one on each of the part's show faces.
std::vector<geometry::Point> show_marks(const planner::plan::PlanPart& part);

}  // namespace cli::pictures
