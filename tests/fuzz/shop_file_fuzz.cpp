// Any bytes as a shop file: an answer or its mistakes, never both, never neither.
#include "planner/files/shop_file.h"
#include "tests/fuzz/fuzz_check.h"

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const planner::ShopReading read = planner::read_shop("shop.toml", text);
  fuzz::check(read.diagnostics, text);
  fuzz::require(read.shop.has_value() != planner::has_errors(read.diagnostics),
                "a shop is read, or an error says why not");
  return 0;
}
