#include "planner/clamps/count/fewest_clamps.h"

#include <cmath>

#include <doctest/doctest.h>

namespace planner::clamps::count {
namespace {

// A row of places 10 mm apart; a clamp presses those within `reach` evenly, 1/1000 of the need a
// newton, and lifts what lies farther off by a tenth of that.
PlacementQuestion row_of_places(std::size_t places, std::size_t reach, double limit_N) {
  PlacementQuestion q;
  q.table.places = q.table.spots = places;
  q.table.at_rest.assign(places, 0.0);
  for (std::size_t s = 0; s < places; ++s) {
    for (std::size_t p = 0; p < places; ++p) {
      const std::size_t off = s > p ? s - p : p - s;
      q.table.per_N.push_back(off <= reach ? 1e-3 : off <= 2 * reach ? -1e-4 : 0);
    }
  }
  q.snug_N.assign(places, 0.0);
  q.limit_N.assign(places, limit_N);
  return q;
}

// Every set of `count` spots, smallest indices first.
bool any_set_works(const PlacementQuestion& q, std::size_t count,
                   std::vector<std::size_t>& chosen) {
  if (chosen.size() == count) {
    return try_spots(q, chosen).has_value();
  }
  for (std::size_t s = chosen.empty() ? 0 : chosen.back() + 1; s < q.limit_N.size(); ++s) {
    chosen.push_back(s);
    const bool works = any_set_works(q, count, chosen);
    chosen.pop_back();
    if (works) {
      return true;
    }
  }
  return false;
}

}  // namespace

TEST_SUITE("planner/fewest_clamps") {
  TEST_CASE("forces press the worst place as hard as the limits allow") {
    // Two clamps at the ends of a stiff beam share a middle place; one is weak.
    PressTable table;
    table.places = 3;
    table.spots = 2;
    table.at_rest = {0, 0, 0};
    table.per_N = {1e-3, 5e-4, 0, 0, 5e-4, 1e-3};
    const std::vector<std::size_t> both{0, 1};
    const MaxMinForces f =
        max_min_forces(table, both, std::vector{0.0, 0.0}, std::vector{2000.0, 800.0});
    CHECK(f.least == doctest::Approx(0.8));
    CHECK(f.force_N[1] == doctest::Approx(800));
    double sum = 0;
    for (const double w : f.weight) {
      sum += w;
    }
    CHECK(sum == doctest::Approx(1));
  }
  TEST_CASE("a gap takes its share of the force before anything is pressed") {
    PressTable table{1, 1, {1e-3}, {-0.5}};
    const MaxMinForces f =
        max_min_forces(table, std::vector<std::size_t>{0}, std::vector{0.0}, std::vector{2000.0});
    CHECK(f.least == doctest::Approx(1.5));
  }
  TEST_CASE("each clamp reaching three places either side, 21 places want three clamps") {
    const PlacementQuestion q = row_of_places(21, 3, 5000);
    const FewestClamps found = fewest_clamps(q, std::nullopt, {});
    REQUIRE(found.best);
    CHECK(found.best->spots == std::vector<std::size_t>{3, 10, 17});
    CHECK(found.proven());
  }
  TEST_CASE("weak clamps: force, not reach, sets the count") {
    // One clamp of 500 N reaches all, yet gives half of what is needed.
    const PlacementQuestion q = row_of_places(5, 4, 500);
    const FewestClamps found = fewest_clamps(q, std::nullopt, {});
    REQUIRE(found.best);
    CHECK(found.best->spots.size() == 2);
    CHECK(found.proven());
  }
  TEST_CASE("a long line gets two clamps though one would press it") {
    PlacementQuestion q = row_of_places(5, 4, 5000);
    q.rules.push_back({{0, 1, 2, 3, 4}, 2});
    q.exclusive = {{0, 1}, {1, 2}, {2, 3}, {3, 4}};
    const FewestClamps found = fewest_clamps(q, std::nullopt, {});
    REQUIRE(found.best);
    CHECK(found.best->spots.size() == 2);
    CHECK(found.best->spots[1] - found.best->spots[0] >= 2);
    CHECK(found.proven());
  }
  TEST_CASE("what no number of clamps can press is called impossible") {
    const PlacementQuestion q = row_of_places(4, 0, 900);
    const FewestClamps found = fewest_clamps(q, std::nullopt, {});
    CHECK(!found.best);
    CHECK(found.impossible);
  }
  TEST_CASE("the count is the one that trying every set gives") {
    for (std::size_t places = 6; places <= 14; ++places) {
      for (std::size_t reach = 1; reach <= 3; ++reach) {
        CAPTURE(places);
        CAPTURE(reach);
        const PlacementQuestion q = row_of_places(places, reach, 1400);
        const FewestClamps found = fewest_clamps(q, std::nullopt, {1e12});
        REQUIRE(found.proven());
        std::vector<std::size_t> chosen;
        CHECK(!any_set_works(q, found.best->spots.size() - 1, chosen));
      }
    }
  }
  // The same search with the published assumptions in place of the pressure model.
  // Outside, published: Wood magazine, September 2021
  TEST_CASE("published (Wood magazine, 2021): 25 in2 at 150 psi take 9 clamps of 420 lbf") {
    // All force arrives everywhere alike: 1 in 3750 lbf of what is asked.
    PlacementQuestion q;
    q.table.places = 3;
    q.table.spots = 20;
    q.table.at_rest.assign(3, 0.0);
    q.table.per_N.assign(60, 1 / 3750.0);
    q.snug_N.assign(20, 0.0);
    for (const auto& [each_lbf, count] : {std::pair{420.0, 9}, std::pair{470.0, 8}}) {
      q.limit_N.assign(20, each_lbf);
      const FewestClamps found = fewest_clamps(q, std::nullopt, {});
      REQUIRE(found.proven());
      CHECK(found.bound == count);
    }
  }
  // Outside, published: a retailer's technique page, Clamping Up: 45 degrees from each pad
  TEST_CASE("published (Clamping Up): two 2 in boards 48 in long take 8 clamps, with wide pads 4") {
    // Each clamp covers its pad and 45 degrees either side: 1 in + 2 x depth; half-inch spots.
    for (const auto& [depth_in, count] : {std::pair{2.5, 8}, std::pair{5.5, 4}}) {
      PlacementQuestion q;
      q.table.places = 96;
      q.table.spots = 97;
      q.table.at_rest.assign(96, 0.0);
      for (int s = 0; s < 97; ++s) {
        for (int p = 0; p < 96; ++p) {
          const double off_in = std::abs(0.5 * s - (0.5 * p + 0.25));
          q.table.per_N.push_back(off_in <= 0.5 + depth_in ? 1e-3 : 0);
        }
      }
      q.snug_N.assign(97, 0.0);
      q.limit_N.assign(97, 1000);
      const FewestClamps found = fewest_clamps(q, std::nullopt, {1e12});
      REQUIRE(found.proven());
      CHECK(found.bound == count);
    }
  }
  TEST_CASE("a placement that is already fewest is kept and called proven") {
    const PlacementQuestion q = row_of_places(21, 3, 5000);
    const auto known = try_spots(q, std::vector<std::size_t>{3, 10, 17});
    REQUIRE(known);
    const FewestClamps found = fewest_clamps(q, known, {});
    CHECK(found.proven());
    CHECK(found.best->spots == known->spots);
  }
  TEST_CASE("cut short, the search says how few it has ruled out") {
    const FewestClamps found = fewest_clamps(row_of_places(40, 2, 1100), std::nullopt, {100});
    CHECK(!found.best);
    CHECK(!found.impossible);
    CHECK(found.bound >= 1);
  }
}

}  // namespace planner::clamps::count
