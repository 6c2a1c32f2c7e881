#include "planner/tables/listing.h"

#include <doctest/doctest.h>

#include "planner/tables/clamp.h"
#include "planner/tables/glue.h"
#include "planner/tables/wood.h"

using namespace planner;
using namespace planner::tables;

namespace {

const tables::ListedValue* value_of(const tables::Listing& table, const char* id,
                                    const char* label) {
  for (const tables::ListedRow& row : table.rows)
    for (const tables::ListedValue& value : row.values)
      if (row.id == id && value.label == label)
        return &value;
  return nullptr;
}

}  // namespace

TEST_SUITE("planner/tables/listing") {
  TEST_CASE("every value of every table stands beside a source") {
    for (const std::string& name : tables::listing_names()) {
      CAPTURE(name);
      const auto table = tables::listing(name);
      REQUIRE(table);
      CHECK_FALSE(table->rows.empty());
      for (const tables::ListedRow& row : table->rows) {
        CAPTURE(row.id);
        CHECK_FALSE(row.values.empty());
        for (const tables::ListedValue& value : row.values) {
          CAPTURE(value.label);
          CHECK_FALSE(value.source.text.empty());
        }
      }
    }
    CHECK_FALSE(tables::listing("spoons").has_value());
  }

  TEST_CASE("ranges, sizes and single values read as a person writes them") {
    const tables::Listing glues = *tables::listing("glues"), clamps = *tables::listing("clamps");
    REQUIRE(value_of(glues, "pva_white", "open time"));
    CHECK(value_of(glues, "pva_white", "open time")->text == "3-5");
    CHECK(value_of(glues, "pva_type2", "open time")->text == "5");
    CHECK(value_of(glues, "pva_white", "pot life") == nullptr);
    CHECK(value_of(clamps, "parallel", "jaw face")->text == "38 x 95");
    CHECK(value_of(clamps, "c_clamp_100", "jaw face")->text == "20 x 20");
    CHECK(value_of(clamps, "f_light", "openings")->text == "150, 300, 450, 600");
  }

  TEST_CASE("pressures keep the unit of their source") {
    const tables::Listing pressures = *tables::listing("pressures");
    CHECK(value_of(pressures, "planner_medium", "pressure")->unit == "psi");
    CHECK(value_of(pressures, "epoxy", "pressure")->text == "0-100");
    CHECK(value_of(pressures, "epoxy", "pressure")->unit == "kPa");
  }

  TEST_CASE("the listing has the rows that the planner reads") {
    CHECK(tables::listing("woods")->rows.size() == tables::woods().size());
    CHECK(tables::listing("glues")->rows.size() == tables::glue_families().size());
    CHECK(tables::listing("clamps")->rows.size() == tables::clamp_kinds().size());
  }
}
