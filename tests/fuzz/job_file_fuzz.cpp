// Any bytes as a job file: an answer or its mistakes, never both, never neither.
#include "planner/files/job_file.h"
#include "tests/fuzz/fuzz_check.h"

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const planner::JobReading read = planner::read_job("job.toml", text);
  fuzz::check(read.diagnostics, text);
  fuzz::require(read.job.has_value() != planner::has_errors(read.diagnostics),
                "a job is read, or an error says why not");
  return 0;
}
