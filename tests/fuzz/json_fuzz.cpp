// Any bytes as a file that --json is asked to overwrite, and as the words of a mistake, which stay
// JSON whatever they are.
#include "cli/json/json.h"
#include "tests/fuzz/bytes.h"
#include "tests/fuzz/fuzz_check.h"

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
  cli::is_json(std::string(reinterpret_cast<const char*>(data), size));
  fuzz::Bytes bytes(data, size);
  const planner::Diagnostic mistake{
      planner::Severity::error, {bytes.text(), 1, 1}, bytes.text(), bytes.text()};
  fuzz::require(cli::is_json(cli::json_failure({mistake})), "mistakes as JSON are JSON");
  return 0;
}
