#include "planner/tables/glue.h"

#include <cmath>

#include <doctest/doctest.h>

using namespace planner;
using namespace planner::tables;

TEST_SUITE("planner/tables/glue") {
  TEST_CASE("every glue gives its ranges low end first, each with its source") {
    REQUIRE(tables::glue_families().size() == 12);
    for (const tables::GlueFamily& glue : tables::glue_families()) {
      CAPTURE(glue.id);
      CHECK(glue.total_min.lo <= glue.total_min.hi);
      CHECK(glue.clamp_min.lo <= glue.clamp_min.hi);
      CHECK(glue.spread_g_per_m2.lo <= glue.spread_g_per_m2.hi);
      CHECK_FALSE(glue.total_source.text.empty());
      CHECK_FALSE(glue.clamp_source.text.empty());
      CHECK_FALSE(glue.spread_source.text.empty());
      CHECK_FALSE(glue.density_source.text.empty());
      CHECK(glue.open_min.has_value() == !glue.open_source.text.empty());
      CHECK(glue.pot_life_min.has_value() == !glue.pot_source.text.empty());
      CHECK_FALSE(glue.pressure_rows.empty());
    }
  }

  TEST_CASE("a glue is found by the names people write") {
    REQUIRE(tables::find_glue_family("pva_type2"));
    CHECK(tables::find_glue_family("PVA-D3") == tables::find_glue_family("pva_type2"));
    CHECK(tables::find_glue_family("yellow glue") == tables::find_glue_family("pva_yellow"));
    CHECK(tables::find_glue_family("resorcinol-formaldehyde") ==
          tables::find_glue_family("resorcinol"));
    CHECK(tables::find_glue_family("custard") == nullptr);
  }

  TEST_CASE("water-resistant PVA is planned on five minutes open and ten in all") {
    const tables::GlueTimes times = times_at(*tables::find_glue_family("pva_type2"), 20.0);
    CHECK(times.warmth == tables::Warmth::as_tabled);
    CHECK(times.open_s == 300);
    CHECK(times.total_s == 600);
    CHECK(times.open_source.mark == tables::Mark::published);
    CHECK(times.total_source.mark == tables::Mark::common_practice);
  }

  TEST_CASE("below a glue's minimum the answer is no, above room warmth a warning") {
    const tables::GlueFamily& pva = *tables::find_glue_family("pva_type2");
    CHECK(times_at(pva, 12.9).warmth == tables::Warmth::too_cold);
    CHECK(times_at(pva, 13.0).warmth == tables::Warmth::as_tabled);
    CHECK(times_at(pva, 28.0).warmth == tables::Warmth::warm);
    CHECK(times_at(pva, 25.0).times_share == 1);
    CHECK(times_at(pva, 30.0).total_s == doctest::Approx(0.7 * 600));
    CHECK(*times_at(pva, 30.0).open_s == doctest::Approx(0.7 * 300));
    CHECK(times_at(pva, 32.5).times_share == doctest::Approx(0.6));
    CHECK(times_at(pva, 45.0).times_share == doctest::Approx(0.5));
    CHECK(times_at(pva, 20.0, 0.3).times_share == 1);
    CHECK(times_at(pva, {}, 0.29).total_s == doctest::Approx(0.7 * 600));
    CHECK(times_at(pva, 30.0, 0.2).times_share == doctest::Approx(0.49));
    // Neither hides nor what has a curve of its own dries.
    CHECK(times_at(*tables::find_glue_family("hide_liquid"), 30.0, 0.2).times_share == 1);
    CHECK(times_at(*tables::find_glue_family("uf_two_part"), 28.0, 0.2).times_share == 1);
    CHECK(times_at(*tables::find_glue_family("pva_white"), 33.0).warmth ==
          tables::Warmth::too_warm);
  }

  // Aircraft construction manual rev. 4 (2002) App. D p. D-7 Table 3.
  // Outside, published: aircraft construction manual rev. 4 (2002), App. D p. D-7 Table 3
  TEST_CASE("resorcinol's assembly times at the printed temperatures are the printed ones") {
    const tables::GlueFamily& glue = *tables::find_glue_family("resorcinol");
    const double printed[][3] = {{21.1, 10, 60}, {26.7, 5, 45}, {32.2, 1, 30}, {37.8, 0, 15}};
    for (const auto& row : printed) {
      CAPTURE(row[0]);
      const auto& [celsius, open, closed] = row;
      const tables::GlueTimes times = times_at(glue, celsius);
      CHECK(times.warmth == tables::Warmth::from_curve);
      CHECK(times.open_s == doctest::Approx(60 * open));
      CHECK(times.closed_max_s == doctest::Approx(60 * closed));
    }
    CHECK(times_at(glue, 21.1).min_wait_s->lo == 15 * 60);
  }

  // Outside, closed form: geometric mean
  TEST_CASE("between two readings time shrinks by the same share for every degree") {
    // Half-way from 10 min to 5 min is their geometric mean.
    CHECK(*curve_minutes("resorcinol", "max open assembly", (21.1 + 26.7) / 2) ==
          doctest::Approx(std::sqrt(50.0)));
    // Towards a reading of nothing there is nothing to count on.
    CHECK(*curve_minutes("resorcinol", "max open assembly", 35) == 0);
  }

  TEST_CASE("a curve is never carried past its last reading") {
    CHECK_FALSE(curve_minutes("resorcinol", "max open assembly", 21.0).has_value());
    CHECK_FALSE(curve_minutes("resorcinol", "max open assembly", 37.9).has_value());
    CHECK(times_at(*tables::find_glue_family("resorcinol"), 40.0).warmth ==
          tables::Warmth::too_warm);
    CHECK(times_at(*tables::find_glue_family("resorcinol"), 20.0).warmth ==
          tables::Warmth::too_cold);
    CHECK_FALSE(curve_minutes("pva_white", "max open assembly", 20).has_value());
  }

  // The same manual, p. D-2: at 30 C only the slow hardener is listed.
  // Outside, published: aircraft construction manual rev. 4 (2002), App. D p. D-2
  TEST_CASE("urea takes the slow hardener where the fast one is not listed") {
    CHECK(*curve_minutes("uf_two_part", "assembly after contact", 20) == 10);
    CHECK(*curve_minutes("uf_two_part", "assembly after contact", 30) == 5);
    CHECK(*curve_minutes("uf_two_part", "assembly after contact", 27.5) ==
          doctest::Approx(std::sqrt(50.0)));
    const tables::GlueTimes times = times_at(*tables::find_glue_family("uf_two_part"), 20.0);
    CHECK_FALSE(times.open_s.has_value());
    CHECK(times.clamp_s.lo == 105 * 60);
    CHECK(times.clamp_s.hi == 135 * 60);
  }
}
