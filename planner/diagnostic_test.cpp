#include "planner/diagnostic.h"

#include <doctest/doctest.h>

using namespace planner;

TEST_SUITE("planner/diagnostic") {
  TEST_CASE("a slip of the pen is recognised, another word is not") {
    CHECK(nearest("lenght", {"width", "length", "depth"}) == "length");
    CHECK(nearest("stok", {"stock", "species"}) == "stock");
    CHECK(nearest("honey", {"stock", "species"}).empty());
    CHECK(nearest(std::string(100'000, 'x'), {"stock"}).empty());
  }
  TEST_CASE("a mistake reads file, line, column, what and what to write") {
    const Diagnostic d{
        Severity::error, {"chest.toml", 4, 9}, "unknown key 'stok'", "did you mean 'stock'?"};
    CHECK(to_text(d) == "chest.toml:4:9: unknown key 'stok'\n  did you mean 'stock'?");
  }
  TEST_CASE("mistakes come in the order of the file") {
    Diagnostics all{{Severity::error, {"a", 9, 1}, "late", ""},
                    {Severity::error, {"a", 2, 5}, "early", ""}};
    sort_by_place(all);
    CHECK(all[0].message == "early");
  }
}
