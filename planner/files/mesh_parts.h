// The parts of a job that come from CAD meshes.
#pragma once
#include <span>
#include <string>

#include "planner/work/job.h"

namespace planner::files {

// A file of the job's mesh, as MeshSource::files names it, and all its bytes.
struct MeshBytes {
  std::string file, bytes;
};

// Puts the meshes' parts before the job's own, with what the job says of them: their wood, and
// their grain where it does not run along the longest edge. Their names are the file's own, or the
// file's name without its ending. Defects are told by part, at [mesh]; names that no part has at
// their place. REQUIRES: one for each of job.mesh->files, in their order.
base::Diagnostics add_mesh_parts(work::Job& job, std::span<const MeshBytes> files);

}  // namespace planner::files
