// The job file: TOML to a Job, with every mistake at its place.
#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "planner/base/diagnostic.h"
#include "planner/work/job.h"

namespace planner::files {

struct JobReading {
  std::optional<work::Job> job;   // missing when there is an error among the diagnostics
  base::Diagnostics diagnostics;  // by place
};

// All mistakes of the file that can be seen without making the solids; job_check.h sees the rest.
// Starters are expanded into parts. Never throws or crashes, whatever the text. `file` is how the
// user named it.
// `own_woods`: the shop's, that a species may name beside the table's.
JobReading read_job(const std::string& file, std::string_view text,
                    const work::OwnWoods& own_woods = {});

}  // namespace planner::files
