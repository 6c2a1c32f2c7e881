// Keys that were called otherwise once. Files that people have go on being read.
#pragma once
#include "planner/files/file_notes.h"

namespace planner::files {

// Gives keys of a job file by their old names the ones they have now. Each old name is noted as a
// warning, once a file, where it stands first.
void rename_old_keys(Node& job, FileNotes& notes);

}  // namespace planner::files
