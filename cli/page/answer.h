// What the page asks of the planner: texts in, texts out, no files. The same words, sheet and JSON as
// the command line's for the same job and shop.
#pragma once
#include <span>
#include <string>

#include "planner/files/mesh_parts.h"

namespace cli::page {

struct Question {
  std::string job, shop;  // the files' texts; without a shop an unlimited rack
  std::span<const planner::files::MeshBytes> meshes = {};  // whatever lies beside the job
};

struct Answer {
  std::string text, sheet, json;  // empty where there is no plan; then the JSON says why
  std::string told;               // mistakes and warnings, each with its line
  int status = 0;                 // as the command line ends
};
Answer answer(const Question& question);

}  // namespace cli::page
