#include "planner/work/glue_quantity.h"

#include <doctest/doctest.h>

using namespace planner;
using namespace planner::work;

namespace {

constexpr double kGsmPerLbPer1000SqFt = 453.59237 / 92.90304;  // exact definitions of lb and ft

work::Joint joint_of(double area_m2, std::array<work::GrainClass, 2> grain) {
  work::GlueFace face;
  face.contact.area_mm2 = 1e6 * area_m2;
  face.contact.length_mm = 1000;
  face.contact.width_mm = 1000 * area_m2;
  face.grain = grain;
  work::Joint joint;
  joint.parts = {0, 1};
  joint.faces = {face};
  return joint;
}
constexpr std::array kLong{work::GrainClass::long_grain, work::GrainClass::long_grain};
constexpr std::array kMitred{work::GrainClass::end_grain, work::GrainClass::end_grain};
constexpr std::array kButted{work::GrainClass::long_grain, work::GrainClass::end_grain};

work::ShopGlue bottle(const char* name) {
  work::ShopGlue glue;
  glue.name = name;
  glue.family = "PVA-D3";
  return glue;
}

work::GlueInUse table_glue(const char* id) {
  return *glue_named(id, {}, work::Shop{}).glue;
}

}  // namespace

TEST_SUITE("planner/glue_quantity") {
  // Exact definition: 1 lb is 453.59237 g, 1 ft is 304.8 mm.
  // Outside, published: aircraft construction manual rev. 4 (2002), App. D p. D-7: 50 to 70 lb a 1000 ft2
  TEST_CASE("a pound on a thousand square feet is 4.88243 g on a square metre") {
    CHECK(kGsmPerLbPer1000SqFt == doctest::Approx(4.88243).epsilon(1e-6));
    // Resorcinol's 50-70 lb/1000 ft2 (aircraft construction manual App. D p. D-7).
    CHECK(tables::find_glue_family("resorcinol")->spread_g_per_m2.lo ==
          doctest::Approx(50 * kGsmPerLbPer1000SqFt).epsilon(0.001));
    CHECK(tables::find_glue_family("resorcinol")->spread_g_per_m2.hi ==
          doctest::Approx(70 * kGsmPerLbPer1000SqFt).epsilon(0.001));
  }

  // Hand sum: 0.30 m2 at 175 g/m2 and 15 % is 60.4 g, at 1.08 kg/l 55.9 ml; ten times it here, so
  // that 15 % is more than the least waste of 10 ml.
  TEST_CASE("three square metres at 175 g/m2 and 15 % for the brush take 559 ml") {
    work::GlueInUse glue = table_glue("pva_white");
    glue.spread_g_per_m2 = 175;
    const work::GlueNeed need =
        glue_quantity(std::vector{joint_of(3.0, kLong)}, glue, work::Pace{});
    CHECK((need.net_ml + need.waste_ml) * 1.08 == doctest::Approx(603.75));
    CHECK(need.net_ml + need.waste_ml == doctest::Approx(559.03));
    CHECK(need.ready_ml == 600);
    CHECK(need.ready_g == 650);
    CHECK(need.ready_fl_oz == 19);
  }

  TEST_CASE("a small job still loses 10 ml to brush and cup") {
    const work::GlueNeed need =
        glue_quantity(std::vector{joint_of(0.01, kLong)}, table_glue("pva_white"), work::Pace{});
    CHECK(need.net_g == doctest::Approx(2.0));  // 200 g/m2, the high end, to have enough
    CHECK(need.waste_ml == 10);
    CHECK(need.ready_ml == 15);
  }

  // What scales and cups tell apart: fives up to 100, tens up to 500, fifties above.
  TEST_CASE("what is to be ready is rounded up to what can be measured") {
    CHECK(measurable_up(12) == 15);
    CHECK(measurable_up(100) == 100);
    CHECK(measurable_up(101) == 110);
    CHECK(measurable_up(500) == 500);
    CHECK(measurable_up(501) == 550);
  }
  TEST_CASE("end grain that clamps press takes a size coat on each side that shows it") {
    const auto sized = [](work::JointKind kind, std::array<work::GrainClass, 2> grain,
                          const char* family = "pva_white") {
      work::Joint joint = joint_of(0.1, grain);
      joint.kind = kind;
      return glue_quantity(std::vector{joint}, table_glue(family), work::Pace{}).size_coat_g;
    };
    CHECK(sized(work::JointKind::butt, kLong) == 0);
    CHECK(sized(work::JointKind::butt, kButted) == doctest::Approx(10));
    CHECK(sized(work::JointKind::mitre, kMitred) == doctest::Approx(20));
    // A coat would swell what slides into a tight fit; two glues want none.
    CHECK(sized(work::JointKind::dado, kButted) == 0);
    CHECK(sized(work::JointKind::butt, kButted, "polyurethane") == 0);
    CHECK(sized(work::JointKind::butt, kButted, "epoxy_slow") == 0);
  }

  TEST_CASE("a floating panel takes none, a panel glued in its middle takes the middle's share") {
    std::vector joints{joint_of(0.1, kLong), joint_of(0.1, kLong)};
    joints[0].glued = false;
    joints[1].middle_mm = 250;  // of 1000
    const work::GlueNeed need = glue_quantity(joints, table_glue("pva_white"), work::Pace{});
    REQUIRE(need.faces.size() == 1);
    CHECK(need.faces[0].joint == 1);
    CHECK(need.area_mm2 == doctest::Approx(0.025e6));
  }

  TEST_CASE("a joint with a glue of its own is not counted with the job's") {
    std::vector joints{joint_of(0.1, kLong), joint_of(0.2, kLong)};
    joints[1].glue = "epoxy";
    CHECK(glue_quantity(joints, table_glue("pva_white"), work::Pace{}).area_mm2 ==
          doctest::Approx(0.1e6));
  }

  // By brush 60 s/ft2 (common practice): 3 m2 are 32.29 ft2, 1,938 s; half of 30 min is 900 s.
  TEST_CASE("epoxy is mixed in batches that half its pot life can spread") {
    const work::GlueNeed need =
        glue_quantity(std::vector{joint_of(3.0, kLong)}, table_glue("epoxy_slow"), work::Pace{});
    REQUIRE(need.mix.size() == 3);
    CHECK(3 * need.mix[0].ml >= need.net_ml + need.waste_ml);
    CHECK(glue_quantity(std::vector{joint_of(3.0, kLong)}, table_glue("pva_white"), work::Pace{})
              .mix.empty());
  }

  TEST_CASE("resin and hardener that go on different faces are told apart") {
    const work::GlueNeed need =
        glue_quantity(std::vector{joint_of(1.0, kLong)}, table_glue("uf_two_part"), work::Pace{});
    CHECK(need.mix.empty());
    CHECK(need.net_g == doctest::Approx(400));
    CHECK(need.hardener_ready_g == 180);  // 150 g/m2 and 15 %: 172.5
  }

  TEST_CASE("what is left in the bottle is compared with need and waste together") {
    work::Shop shop;
    shop.glues = {bottle("shop bottle")};
    shop.glues[0].left_ml = 236.6;  // 8 fl oz
    work::GlueInUse glue = *glue_named("shop bottle", {}, shop).glue;
    CHECK(glue_quantity(std::vector{joint_of(1.0, kLong)}, glue, work::Pace{}).enough_left);
    CHECK_FALSE(glue_quantity(std::vector{joint_of(1.2, kLong)}, glue, work::Pace{}).enough_left);
  }

  TEST_CASE("the label wins over the table, which answers where the label is silent") {
    work::Shop shop;
    shop.glues = {bottle("shop bottle")};
    shop.glues[0].open_s = 360;
    const work::GlueInUse glue = *choose_glue(work::Job{}, shop).glue;
    CHECK(glue.family == "pva_type2");
    CHECK(glue.open_s == 360);
    CHECK(glue.open_from_label);
    CHECK(glue.total_s == 600);
    CHECK_FALSE(glue.total_from_label);
    CHECK(glue.hold_MPa == doctest::Approx(0.17237));
  }

  TEST_CASE("a job that names the kind of glue gets the shop's bottle of it") {
    work::Shop shop;
    shop.glues = {bottle("shop bottle")};
    shop.glues[0].total_s = 720;
    const work::GlueInUse glue = *glue_named("pva_type2", {}, shop).glue;
    CHECK(glue.name == "shop bottle");
    CHECK(glue.total_s == 720);
    CHECK(glue_named("pva_type1", {}, shop).glue->total_from_label == false);
  }

  TEST_CASE("a label's long open time is not cut short by the table's total") {
    work::Shop shop;
    shop.glues = {bottle("slow")};
    shop.glues[0].open_s = 900;
    CHECK(glue_named("slow", {}, shop).glue->total_s == 900);
  }

  TEST_CASE("with neither job nor shop naming a glue, water-resistant PVA is planned") {
    CHECK(choose_glue(work::Job{}, work::Shop{}).glue->family == "pva_type2");
  }

  TEST_CASE("a misspelt glue is answered with the nearest one") {
    work::Job job;
    job.glue = "epoxy_slwo";
    job.glue_place = {"job.toml", 12, 7};
    const work::GlueChoice choice = choose_glue(job, work::Shop{});
    CHECK_FALSE(choice.glue.has_value());
    REQUIRE(choice.problem.size() == 1);
    CHECK(choice.problem[0].place.line == 12);
    CHECK(choice.problem[0].remedy == "did you mean \"epoxy_slow\"?");
  }

  TEST_CASE("a cold shop is a no, whatever the label says") {
    work::Shop shop;
    shop.temperature_C = 8;
    CHECK(choose_glue(work::Job{}, shop).glue->warmth == tables::Warmth::too_cold);
  }
}
