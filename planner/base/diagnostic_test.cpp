#include "planner/base/diagnostic.h"

#include <doctest/doctest.h>

using namespace planner;
using namespace planner::base;

TEST_SUITE("planner/diagnostic") {
  TEST_CASE("a slip of the pen is recognised, another word is not") {
    CHECK(base::nearest("lenght", {"width", "length", "depth"}) == "length");
    CHECK(base::nearest("stok", {"stock", "species"}) == "stock");
    CHECK(base::nearest("honey", {"stock", "species"}).empty());
    CHECK(base::nearest(std::string(100'000, 'x'), {"stock"}).empty());
  }
  TEST_CASE("a mistake reads file, line, column, what and what to write") {
    const base::Diagnostic d{
        base::Severity::error, {"chest.toml", 4, 9}, "unknown key 'stok'", "did you mean 'stock'?"};
    CHECK(to_text(d) == "chest.toml:4:9: unknown key 'stok'\n  did you mean 'stock'?");
  }
  TEST_CASE("mistakes come in the order of the file") {
    base::Diagnostics all{{base::Severity::error, {"a", 9, 1}, "late", ""},
                          {base::Severity::error, {"a", 2, 5}, "early", ""}};
    sort_by_place(all);
    CHECK(all[0].message == "early");
  }
}
