// Keys that were called otherwise once. Files that people have go on being read.
#pragma once
#include "planner/files/file_notes.h"

namespace planner::files {

// Gives keys of a file by their old names the ones they have now, and takes out what nothing takes
// the place of. Each old name is noted as a warning, once a file, where it stands first.
void rename_old_job_keys(Node& job, FileNotes& notes);
void rename_old_shop_keys(Node& shop, FileNotes& notes);

}  // namespace planner::files
