// What the dry fit says to cut and to mend, or what there is to measure.
#pragma once
#include <string>

#include "cli/text/text.h"
#include "planner/dry_fit/fit.h"
#include "planner/work/job.h"

namespace cli::text {

std::string fit_sheet(const planner::work::Job& job, const planner::dry_fit::Fit& fit,
                      const words::TextStyle& style);

// Finer than length_text: tenths of a millimetre, or 1/64 in. "203.1 mm", "16 41/64 in".
std::string fine_text(double mm, const words::Wording& wording);

}  // namespace cli::text
