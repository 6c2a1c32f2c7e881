#include "planner/pressure/spring_contact.h"

#include <array>

#include <doctest/doctest.h>

using namespace planner;
using namespace planner::pressure;

TEST_SUITE("planner/spring_contact") {
  TEST_CASE("none may pull that holds, none overlap that is open") {
    const std::array<double, 3> closing{2, -1, -1e-15};
    CHECK(pressure::hold_rightly(std::array<char, 3>{1, 0, 1}, closing, 1e-12));
    CHECK_FALSE(pressure::hold_rightly(std::array<char, 3>{1, 1, 1}, closing, 1e-12));
    CHECK_FALSE(pressure::hold_rightly(std::array<char, 3>{0, 0, 1}, closing, 1e-12));
  }
  TEST_CASE("the faint ones are let go with those that pull") {
    const std::array<double, 3> closing{1, 1e-5, -1};
    CHECK(pressure::closed_by(closing, 0) == std::vector<char>{1, 1, 0});
    CHECK(pressure::closed_by(closing, 1e-4) == std::vector<char>{1, 0, 0});
  }
  TEST_CASE("where nothing opens or closes the whole way is gone") {
    const std::array<pressure::SpringOnTheWay, 2> springs{{{5, 2, -1}, {5, -3, 1}}};
    CHECK(descent_step(springs, 1) == 1);
  }
  // By hand: 1/2 x^2 - 3 x on the beam, and a spring of stiffness 2 that closes at x = 1: the least
  // is at x = 5/3, and without the spring one would go from 0 to 3.
  // Outside, closed form: least of a sum of two parabolas
  TEST_CASE("a spring met on the way stops it where the energy is least") {
    const std::array<pressure::SpringOnTheWay, 1> springs{{{2, -1, 3}}};
    CHECK(descent_step(springs, 9) == doctest::Approx(5.0 / 9));
  }
  // 1/2 x^2 + (x + 1)^2 while x > -1, pulled by 8 the other way: with the spring the least is at
  // x = -10/3, where it has long let go; without it lies at -8, further on.
  // Outside, closed form: least of a sum of two parabolas
  TEST_CASE("a spring that lets go on the way doesn't stop it") {
    const std::array<pressure::SpringOnTheWay, 1> springs{{{2, 1, -10.0 / 3}}};
    CHECK(descent_step(springs, 100.0 / 9) == 1);
  }
}
