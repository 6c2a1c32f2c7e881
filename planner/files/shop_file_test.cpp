#include "planner/files/shop_file.h"

#include <string>

#include <doctest/doctest.h>

#include "planner/files/job_file.h"
#include "planner/tables/clamp.h"

namespace planner::files {
namespace {

std::string said(const std::string& text) {
  const ShopReading read = read_shop("shop.toml", text);
  CHECK(read.shop.has_value() != has_errors(read.diagnostics));
  std::string all;
  for (const base::Diagnostic& d : read.diagnostics) {
    all += to_text(d) + "\n";
  }
  return all;
}

work::Shop shop_of(const std::string& text) {
  const ShopReading read = read_shop("shop.toml", text);
  for (const base::Diagnostic& d : read.diagnostics) {
    MESSAGE(to_text(d));
  }
  REQUIRE(read.shop.has_value());
  return *read.shop;
}

TEST_SUITE("planner/shop_file") {
  // Black cherry by its green-to-oven-dry shrinkage (GTR-190 Table 4-3: 3.7 and 7.1 %) against its coefficients
  // of movement (Table 13-5: 0.00126, 0.00248), and by its density against its stiffness (Table 5-3a: 10.3 GPa).
  // Outside, handbook: GTR-190 Tables 4-3, 13-5 and 5-3a: black cherry
  TEST_CASE("a wood that the table hasn't moves and bends as the handbook's own figures have it") {
    const work::Shop shop = shop_of(
        "units='mm'\n[[wood]]\nname='cherry from the lane'\ndensity=560\nshrinkage_radial='3.7 %'\n"
        "shrinkage_tangential='7.1 %'\noily=true\n");
    REQUIRE(shop.woods.size() == 1);
    const tables::Wood& wood = *shop.woods[0];
    CHECK(*wood.movement_radial == doctest::Approx(0.00126).epsilon(0.01));
    CHECK(*wood.movement_tangential == doctest::Approx(0.00248).epsilon(0.01));
    CHECK(wood.moe_MPa == doctest::Approx(10'300).epsilon(0.02));
    CHECK(density_kg_per_m3(wood) == doctest::Approx(560));
    CHECK(wood.oily);
    CHECK(elastic_of(wood).from_class);
    const std::string job = "units='mm'\nspecies='cherry from the lane'\n[panel]\nlength=600\nthickness=20\n"
                            "boards=[90, 90]\n";
    const JobReading read = read_job("job.toml", job, shop.woods);
    REQUIRE(read.job);
    CHECK(wood_of(read.job->parts[1]) == shop.woods[0].get());
    CHECK_FALSE(read_job("job.toml", job).job);
  }
  TEST_CASE("what the file leaves out of a clamp is the table's") {
    const work::Shop shop = shop_of(
        "units='in'\n[[clamp]]\nkind='f_heavy'\ncount=6\nopening=24\n"
        "[[clamp]]\nkind='f_heavy'\ncount=1\nopening='12 in'\nthroat=5\npad=[2, 1]\nforce='400 "
        "lbf'\nsnug_force='90 lbf'\n");
    CHECK_FALSE(shop.unlimited_rack);
    REQUIRE(shop.clamps.size() == 2);
    const tables::ClampKind& kind = *tables::find_clamp_kind("f_heavy");
    CHECK(shop.clamps[0].force_N == kind.force_typ_N);
    CHECK(shop.clamps[0].throat == geometry::Length::whole_mm(100));  // the low end of the table's range
    CHECK(shop.clamps[0].opening == geometry::Length::in_64ths(24 * 64));
    CHECK(shop.clamps[1].force_N == doctest::Approx(1779.3));
    CHECK_FALSE(shop.clamps[0].snug_force_N);
    CHECK(*shop.clamps[1].snug_force_N == doctest::Approx(400.34));
    CHECK(shop.clamps[1].pad_width == geometry::Length::in_64ths(128));
    CHECK(shop.clamps[1].throat == geometry::Length::in_64ths(5 * 64));
  }

  TEST_CASE("cramps are clamps") {
    CHECK(shop_of("units='mm'\n[[cramp]]\nkind='sash cramp'\ncount=2\nopening=900\n")
              .clamps[0]
              .kind == "sash");
  }

  TEST_CASE("the label of a bottle and the pace of the hands are read") {
    const work::Shop shop = shop_of(
        "units='in'\npeople=2\ntemperature='68 F'\n[[glue]]\nname='shop "
        "bottle'\nfamily='pva_type2'\n"
        "open='6 min'\ntotal='12 min'\nleft='8 fl oz'\n[pace]\nchannel='30 s per ft'\nsnug='20 "
        "s'\n");
    CHECK(shop.people == 2);
    CHECK(*shop.temperature_C == doctest::Approx(20));
    CHECK(*shop.glues[0].total_s == 720);
    CHECK(*shop.glues[0].left_ml == doctest::Approx(236.588));
    CHECK(shop.pace.channel_s_per_mm == doctest::Approx(30 / 304.8));
    CHECK(shop.pace.any_snug_s == 20.0);
    CHECK(shop.pace.join_s == 20);
    CHECK(shop.unlimited_rack);  // it lists no clamps
    CHECK(shop.clamps.size() == unlimited_shop().clamps.size());
  }

  TEST_CASE("clamps have a pace of their own by kind") {
    const work::Shop shop = shop_of("units='mm'\n[pace]\nsnug.sash='40 s'\nsnug.f_heavy='12 s'\n");
    CHECK(shop.pace.snug_s.at("sash") == 40);
    CHECK(shop.pace.snug_s.at("f_heavy") == 12);
    CHECK_FALSE(shop.pace.any_snug_s.has_value());
  }

  TEST_CASE("a pace by its old keys is read, with a notice each") {
    const ShopReading read = read_shop(
        "shop.toml",
        "units='mm'\n[pace]\nnarrow='30 s per ft'\njoint='5 s'\nplace='22 s'\nclose='50 s'\n");
    REQUIRE(read.shop);
    CHECK(read.shop->pace.channel_s_per_mm == doctest::Approx(30 / 304.8));
    CHECK(read.shop->pace.channel_joint_s == 5);
    CHECK(read.shop->pace.join_s == 22);
    REQUIRE(read.diagnostics.size() == 4);
    CHECK(read.diagnostics[0].message == "\"narrow\" is called \"channel\" now");
    CHECK(read.diagnostics[3].message.starts_with("\"close\" is not asked for any more"));
  }

  TEST_CASE("of more than a thousand mistakes the rest is counted") {
    std::string text = "units = 'mm'\n";
    for (int i = 0; i < 5'000; ++i) {
      text += "key" + std::to_string(i) + " = 1\n";
    }
    const ShopReading read = read_shop("shop.toml", text);
    CHECK(read.diagnostics.size() == 1'001);
    CHECK(read.diagnostics.back().message == "and 4000 more mistakes");
    CHECK_FALSE(read.shop.has_value());
  }

  TEST_CASE("an unlimited rack has every kind in every size it is sold in") {
    std::size_t sizes = 0;
    for (const tables::ClampKind& kind : tables::clamp_kinds()) {
      sizes += kind.openings_mm.size();
    }
    const work::Shop shop = unlimited_shop();
    CHECK(shop.unlimited_rack);
    CHECK(shop.file.empty());
    CHECK(shop.clamps.size() == sizes);
  }

  TEST_CASE("a rack, a bottle or a shop that cannot be is refused with the reason") {
    const std::string all = said(
        "units='in'\npeople=0\ntemperature='180 C'\n[[clamp]]\nkind='f_hevy'\ncount=-1\nopening=0\n"
        "[[clamp]]\nkind='f_heavy'\ncount=2\n[[glue]]\nname='a'\nfamily='pva_type2'\nopen='10 "
        "min'\ntotal='5 min'\n"
        "[[glue]]\nname='a'\nfamily='stickum'\nleft=8\n[pace]\njoin=25\nwide='60 s per "
        "ft'\n[oven]\n");
    for (const char* part :
         {"shop.toml:2:8: people 0: not a whole number from 1 to 4",
          "shop.toml:3:13: temperature \"180 C\": no shop is that",
          "shop.toml:5:6: kind \"f_hevy\": not in the table\n  did you mean \"f_heavy\"?",
          "shop.toml:6:7: count -1: not a whole number",
          "shop.toml:7:9: opening 0: a size must be above zero",
          "shop.toml:8:1: [[clamp]] has no opening",
          "shop.toml:14:6: open \"10 min\": the open time is a part",
          "shop.toml:17:6: name \"a\": two glues have this name",
          "shop.toml:18:8: family \"stickum\": not in the table",
          "shop.toml:19:6: left 8: it has no unit", "shop.toml:21:6: join 25: it has no unit",
          "shop.toml:22:6: wide \"60 s per ft\": \"ft\" is not a unit of area",
          "shop.toml:23:2: the shop file has no key \"oven\""}) {
      CAPTURE(all);
      CAPTURE(part);
      CHECK(all.find(part) != std::string::npos);
    }
  }
}

}  // namespace
}  // namespace planner::files
