#include "planner/tables/clamp.h"

#include <algorithm>

#include <doctest/doctest.h>

using namespace planner;
using namespace planner::tables;

TEST_SUITE("planner/tables/clamp") {
  TEST_CASE("every kind has sizes, sorted, and a force between weak and strong hands") {
    REQUIRE(tables::clamp_kinds().size() >= 14);
    for (const tables::ClampKind& kind : tables::clamp_kinds()) {
      CAPTURE(kind.id);
      CHECK_FALSE(kind.openings_mm.empty());
      CHECK(std::is_sorted(kind.openings_mm.begin(), kind.openings_mm.end()));
      CHECK(kind.openings_mm.front() > 0);
      CHECK(kind.force_N.lo < kind.force_typ_N);
      CHECK(kind.force_typ_N < kind.force_N.hi);
      CHECK_FALSE(kind.force_source.text.empty());
      CHECK((kind.use != tables::ClampUse::press || kind.throat_mm.has_value()));
    }
  }

  TEST_CASE("kinds that are left open are taken in the order people reach for them") {
    std::vector<std::string> ids;
    for (const tables::ClampKind* kind : tables::first_choices()) {
      ids.push_back(kind->id);
      CHECK(kind->choice == static_cast<int>(ids.size()));
      CHECK(kind->choice_source.mark == tables::Mark::common_practice);
      CHECK(kind->use == tables::ClampUse::press);
    }
    CHECK(ids == std::vector<std::string>{"f_heavy", "pipe_3_4", "sash", "deep"});
    CHECK(tables::band_kind().id == "band");
    CHECK(tables::find_clamp_kind("pipe_3_4")->couples);  // whatever has to be spanned, one does
  }

  TEST_CASE("clamps answer to both sides of the ocean") {
    REQUIRE(tables::find_clamp_kind("c_clamp_100"));
    CHECK(tables::find_clamp_kind("G-cramp") == tables::find_clamp_kind("c_clamp_100"));
    CHECK(tables::find_clamp_kind("sash cramp") == tables::find_clamp_kind("sash"));
    CHECK(tables::find_clamp_kind("mitre clamp") == tables::find_clamp_kind("corner"));
    CHECK(tables::find_clamp_kind("bulldozer") == nullptr);
  }

  // Fine Woodworking, "The right number of clamps", 11 May 2010: 370, 470, 680, 1,050, 1,350 lbf.
  // Outside, published: Fine Woodworking, The right number of clamps, 11 May 2010
  TEST_CASE("measured forces are the published ones, and marked so") {
    const std::pair<const char*, double> lbf[] = {
        {"parallel", 370}, {"trigger", 470}, {"alu_bar", 680}, {"pipe_3_4", 1050}, {"sash", 1350}};
    for (const auto& measured : lbf) {
      CAPTURE(measured.first);
      const auto& [id, force] = measured;
      CHECK(tables::find_clamp_kind(id)->force_typ_N ==
            doctest::Approx(force * 4.44822).epsilon(0.003));
      CHECK(tables::find_clamp_kind(id)->force_source.mark == tables::Mark::published);
    }
    CHECK(tables::find_clamp_kind("f_heavy")->force_source.mark == tables::Mark::from_memory);
  }

  TEST_CASE("the size that opens far enough is the smallest one sold") {
    const tables::ClampKind& kind = *tables::find_clamp_kind("f_heavy");
    CHECK(opening_at_least(kind, 301) == 450);
    CHECK(opening_at_least(kind, 300) == 300);
    CHECK_FALSE(opening_at_least(kind, 2000).has_value());
  }
}
