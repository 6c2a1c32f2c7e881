// What is wrong with a job or shop file, each mistake with the line it is on and a mark under it:
//   job.toml:12:11: no wood "chery" in the table
//      12 | species = "chery"
//         |           ^
//     write "black_cherry"
#pragma once
#include <string>

#include "planner/base/diagnostic.h"

namespace cli::text {

// The files as they were read, for quoting the line that is wrong.
struct InputTexts {
  std::string job_name, job, shop;
};

std::string mistakes_text(const planner::base::Diagnostics& diagnostics, const InputTexts& texts,
                          bool with_warnings);

}  // namespace cli::text
