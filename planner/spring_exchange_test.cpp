#include "planner/spring_exchange.h"

#include <doctest/doctest.h>

using namespace planner;

TEST_SUITE("planner/spring_exchange") {
  TEST_CASE("what pulls is let go, what overlaps holds, what is right stays") {
    SpringExchange exchange(4);
    std::vector<char> holding{1, 1, 0, 0};
    CHECK(exchange.next({2, -1, 1, -1}, holding));
    CHECK(holding == std::vector<char>{1, 0, 1, 0});
    CHECK_FALSE(exchange.next({2, -1, 1, -1}, holding));
    CHECK(holding == std::vector<char>{1, 0, 1, 0});
  }
  TEST_CASE("at first the faint ones go with those that pull") {
    SpringExchange exchange(3);
    std::vector<char> holding{1, 1, 1};
    CHECK(exchange.next({1, 1e-5, -1}, holding));
    CHECK(holding == std::vector<char>{1, 0, 0});
    CHECK_FALSE(exchange.next({1, -1, -1}, holding));
  }
  TEST_CASE("where the wrong ones do not become fewer they are taken one at a time") {
    SpringExchange exchange(2);
    std::vector<char> holding{1, 1};
    const std::vector<double> both_pull{-1, -1}, both_overlap{1, 1};
    for (int round = 0; round < 4; ++round) {  // all of them, to and fro
      CHECK(exchange.next(round % 2 == 0 ? both_pull : both_overlap, holding));
      CHECK(holding[0] == holding[1]);
    }
    CHECK(exchange.next(both_pull, holding));
    CHECK(holding == std::vector<char>{1, 0});
  }
}
