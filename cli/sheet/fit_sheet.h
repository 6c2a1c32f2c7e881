// What the dry fit says to cut and to mend, or what there is to measure.
#pragma once
#include <string>

#include "cli/sheet/text.h"
#include "planner/fit.h"
#include "planner/job.h"

namespace cli {

std::string fit_sheet(const planner::Job& job, const planner::Fit& fit, const TextStyle& style);

// Finer than length_text: tenths of a millimetre, or 1/64 in. "203.1 mm", "16 41/64 in".
std::string fine_text(double mm, const Wording& wording);

}  // namespace cli
