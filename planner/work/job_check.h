// Mistakes in a drawing that only its solids show.
#pragma once
#include <span>

#include "geometry/contact.h"
#include "geometry/solid.h"
#include "planner/work/job.h"

namespace planner::work {

// More parts than one glue-up is planned with, at the file.
inline constexpr std::size_t kMostParts = 128;
base::Diagnostics check_part_count(const Job& job);

// Parts whose cuts leave nothing or several pieces; pairs that share volume, with how much, at the
// later part's header; saw lines beside the work; where there are any of these, parts far off from
// all others too, so that all is told at once. By place. find_contacts() may be called when
// there is no error. REQUIRES: solids are make_solids() of the parts.
base::Diagnostics check_solids(const Job& job, std::span<const geometry::Solid> solids);

// Parts, or groups of them, that neither touch the rest nor are captured by it, with the nearest
// part and how far off it is; overrides of joints that are none (warnings). By place.
base::Diagnostics check_touching(const Job& job, std::span<const geometry::Solid> solids,
                                 std::span<const geometry::Contact> contacts);

}  // namespace planner::work
