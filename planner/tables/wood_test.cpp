#include "planner/tables/wood.h"

#include <cmath>

#include <doctest/doctest.h>

using namespace planner;
using namespace planner::tables;

TEST_SUITE("planner/tables/wood") {
  TEST_CASE("every wood says where its strength comes from") {
    REQUIRE(tables::woods().size() > 40);
    for (const tables::Wood& wood : tables::woods()) {
      CAPTURE(wood.id);
      CHECK_FALSE(wood.strength_source.text.empty());
      CHECK(wood.movement_radial.has_value() == !wood.movement_source.text.empty());
      CHECK(wood.et_over_el.has_value() == !wood.ratio_source.text.empty());
      CHECK(wood.iron_stains.has_value() == !wood.stain_source.text.empty());
      CHECK(wood.bond_ease.empty() == wood.bond_source.text.empty());
      CHECK(wood.specific_gravity > 0.3);
      CHECK(wood.specific_gravity < 1.1);
    }
  }

  TEST_CASE("a wood is found by the names people write") {
    REQUIRE(tables::find_wood("black_cherry"));
    CHECK(tables::find_wood("Black cherry") == tables::find_wood("black_cherry"));
    CHECK(tables::find_wood("cherry") == tables::find_wood("black_cherry"));
    CHECK(tables::find_wood("Cherry, black") == tables::find_wood("black_cherry"));
    CHECK(tables::find_wood("Medium-density fibreboard") == tables::find_wood("mdf"));
    CHECK(tables::find_wood("birch plywood") == tables::find_wood("plywood_birch"));
    CHECK(tables::find_wood("granite") == nullptr);
  }

  TEST_CASE("no two woods answer to one name") {
    for (const tables::Wood& wood : tables::woods()) {
      CAPTURE(wood.id);
      CHECK(tables::find_wood(wood.id) == &wood);
      CHECK(tables::find_wood(wood.name) == &wood);
      for (const std::string& also : wood.also) {
        CAPTURE(also);
        CHECK(tables::find_wood(also) == &wood);
      }
    }
  }

  // GTR-282 Table 5-1 note: E_L is 1.1 times the tabulated MOE. Hard maple: 13,860 MPa, and
  // G_LR 1,538 (the caul of the handbook's beam formulas, eq. 9-2).
  // Outside, handbook: GTR-282 Table 5-1 and its note: E_L is 1.1 x MOE
  TEST_CASE("a hard maple caul is as stiff as the handbook has it") {
    const tables::Elastic maple = elastic_of(*tables::find_wood("hard_maple"));
    CHECK(maple.e_length_MPa == doctest::Approx(13860));
    CHECK(maple.g_length_thickness_MPa == doctest::Approx(1538).epsilon(0.001));
    CHECK_FALSE(maple.from_class);
  }

  // Yellow-poplar under a caul, tangential: 0.043 x 1.1 x 10,900 = 515.6 MPa.
  // Outside, handbook: Wood Handbook Table 5-1, from memory: yellow-poplar's E_T and E_R over E_L
  TEST_CASE("across its width a flatsawn board is tangential, through its thickness radial") {
    const tables::Elastic poplar = elastic_of(*tables::find_wood("yellow_poplar"));
    CHECK(poplar.e_width_MPa == doctest::Approx(515.57));
    CHECK(poplar.e_thickness_MPa == doctest::Approx(0.092 * 11990));
  }

  TEST_CASE("a wood with blank ratios takes its class's and says so") {
    const tables::Elastic beech = elastic_of(*tables::find_wood("beech"));
    CHECK(beech.from_class);
    CHECK(beech.e_width_MPa == doctest::Approx(0.061 * 1.1 * 11900));
    CHECK(beech.sources.back().mark == tables::Mark::derived);
    // One blank of four (G_LT of white oak) is enough to say it.
    CHECK(elastic_of(*tables::find_wood("white_oak")).from_class);
    CHECK(elastic_of(*tables::find_wood("white_oak")).e_width_MPa ==
          doctest::Approx(0.072 * 1.1 * 12300));
  }

  TEST_CASE("plywood is as stiff across its sheet as along, and soft through it") {
    const tables::Elastic ply = elastic_of(*tables::find_wood("plywood_generic"));
    CHECK(ply.e_width_MPa == ply.e_length_MPa);
    CHECK(ply.e_thickness_MPa == doctest::Approx(0.05 * ply.e_length_MPa));
  }

  // Outside, handbook: GTR-190 Table 5-3a: black cherry; Table 5-11a, from memory: hardwoods, 21.6 G^2.09
  TEST_CASE("what dents a wood is its own figure, or its class's from its weight") {
    CHECK(crush_strength_of(*tables::find_wood("black_cherry")).MPa == 4.8);
    CHECK_FALSE(crush_strength_of(*tables::find_wood("black_cherry")).from_class);
    const tables::CrushStrength teak = crush_strength_of(*tables::find_wood("teak"));
    CHECK(teak.from_class);
    CHECK(teak.MPa == doctest::Approx(21.6 * std::pow(0.6027, 2.09)).epsilon(0.001));
  }

  // Chudnoff, Tropical Timbers of the World: sapele's air-dry density is 42 lb/ft3, 673 kg/m3.
  // Outside, published: Chudnoff, Tropical Timbers of the World: 42 lb/ft3 air-dry
  TEST_CASE("sapele weighs what its species sheet says") {
    CHECK(density_kg_per_m3(*tables::find_wood("sapele")) == doctest::Approx(673).epsilon(0.01));
  }
}
