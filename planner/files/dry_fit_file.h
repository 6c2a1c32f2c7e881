// [dry_fit] of a job file.
#pragma once
#include <span>

#include "planner/files/file_notes.h"
#include "planner/work/job.h"

namespace planner::files {

// What the table says was measured; what is wrong with it is in `notes`. Names are looked for
// among `parts`, unless the file has errors already, so that some may be missing.
work::DryFit read_dry_fit(const Node& table, std::span<const work::Part> parts, FileNotes& notes);

}  // namespace planner::files
