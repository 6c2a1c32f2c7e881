// A job written out part by part.
#pragma once
#include <string>

#include "planner/work/job.h"

namespace planner::files {

// A job file without starters that read_job() makes the same job of, but for places and the
// starter's name: every length exact, every part, cut and override in the job's order, in its units
// and spelling.
std::string job_text(const work::Job& job);

}  // namespace planner::files
