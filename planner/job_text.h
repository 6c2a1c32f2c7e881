// A job written out part by part.
#pragma once
#include <string>

#include "planner/job.h"

namespace planner {

// A job file without starters that read_job() makes the same job of, but for places and the
// starter's name: every length exact, every part, cut and override in the job's order, in its units
// and spelling.
std::string job_text(const Job& job);

}  // namespace planner
