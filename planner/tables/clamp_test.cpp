#include "planner/tables/clamp.h"

#include <algorithm>

#include <doctest/doctest.h>

using namespace planner;

TEST_SUITE("planner/tables/clamp") {
  TEST_CASE("every kind has sizes, sorted, and a force between weak and strong hands") {
    REQUIRE(clamp_kinds().size() == 14);
    for (const ClampKind& kind : clamp_kinds()) {
      CAPTURE(kind.id);
      CHECK_FALSE(kind.openings_mm.empty());
      CHECK(std::is_sorted(kind.openings_mm.begin(), kind.openings_mm.end()));
      CHECK(kind.openings_mm.front() > 0);
      CHECK(kind.force_N.lo < kind.force_typ_N);
      CHECK(kind.force_typ_N < kind.force_N.hi);
      CHECK_FALSE(kind.force_source.text.empty());
      CHECK((kind.use != ClampUse::press || kind.throat_mm.has_value()));
    }
  }

  TEST_CASE("clamps answer to both sides of the ocean") {
    REQUIRE(find_clamp_kind("c_clamp_100"));
    CHECK(find_clamp_kind("G-cramp") == find_clamp_kind("c_clamp_100"));
    CHECK(find_clamp_kind("sash cramp") == find_clamp_kind("sash"));
    CHECK(find_clamp_kind("mitre clamp") == find_clamp_kind("corner"));
    CHECK(find_clamp_kind("bulldozer") == nullptr);
  }

  // Fine Woodworking, "The right number of clamps", 11 May 2010: 370, 470, 680, 1,050, 1,350 lbf.
  TEST_CASE("measured forces are the published ones, and marked so") {
    const std::pair<const char*, double> lbf[] = {
        {"parallel", 370}, {"trigger", 470}, {"alu_bar", 680}, {"pipe_3_4", 1050}, {"sash", 1350}};
    for (const auto& measured : lbf) {
      CAPTURE(measured.first);
      const auto& [id, force] = measured;
      CHECK(find_clamp_kind(id)->force_typ_N == doctest::Approx(force * 4.44822).epsilon(0.003));
      CHECK(find_clamp_kind(id)->force_source.mark == Mark::published);
    }
    CHECK(find_clamp_kind("f_heavy")->force_source.mark == Mark::from_memory);
  }

  TEST_CASE("the size that opens far enough is the smallest one sold") {
    const ClampKind& kind = *find_clamp_kind("f_heavy");
    CHECK(opening_at_least(kind, 301) == 450);
    CHECK(opening_at_least(kind, 300) == 300);
    CHECK_FALSE(opening_at_least(kind, 2000).has_value());
  }
}
