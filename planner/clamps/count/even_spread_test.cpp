#include "planner/clamps/count/even_spread.h"

#include <cmath>

#include <doctest/doctest.h>

namespace planner::clamps::count {
namespace {

// Spots every 10 mm on a line; a clamp's pressure falls off with distance like a beam's.
struct Line {
  PlacementQuestion question;
  std::vector<TrackSpots> tracks;
  std::vector<std::size_t> track_of_place;
};

Line line_of(double length_mm, double spread_mm) {
  Line line;
  const auto n = static_cast<std::size_t>(length_mm / 10) + 1;
  line.question.table.places = line.question.table.spots = n;
  line.question.table.at_rest.assign(n, 0.0);
  line.question.snug_N.assign(n, 0.0);
  line.question.limit_N.assign(n, 3000.0);
  line.tracks.push_back({{}, {}, length_mm, 1});
  for (std::size_t s = 0; s < n; ++s) {
    line.tracks[0].spots.push_back(s);
    line.tracks[0].x_mm.push_back(10.0 * static_cast<double>(s));
    for (std::size_t p = 0; p < n; ++p) {
      const double u = 10 * std::abs(static_cast<double>(s) - static_cast<double>(p)) / spread_mm;
      line.question.table.per_N.push_back(1e-3 * std::exp(-u) * (std::cos(u) + std::sin(u)));
    }
  }
  line.track_of_place.assign(n, 0);
  return line;
}

}  // namespace

TEST_SUITE("planner/even_spread") {
  TEST_CASE("clamps stand at equal distances and mirrored about the middle") {
    const Line line = line_of(600, 60);
    const auto placed = even_spread(line.question, line.tracks, line.track_of_place, 20);
    REQUIRE(placed);
    const auto& spots = placed->spots;
    REQUIRE(spots.size() >= 3);
    for (std::size_t i = 0; i < spots.size(); ++i) {
      const std::size_t mirror = spots[spots.size() - 1 - i];
      CHECK(std::abs(static_cast<int>(spots[i] + mirror) - 60) <= 1);
    }
  }
  TEST_CASE("a line that takes four has its ends nearer the board's ends than half the spacing") {
    const Line line = line_of(600, 60);
    const auto placed = even_spread(line.question, line.tracks, line.track_of_place, 20);
    REQUIRE(placed);
    const double spacing = 600.0 / static_cast<double>(placed->spots.size());
    CHECK(10.0 * static_cast<double>(placed->spots.front()) <= 0.6 * spacing);
  }
  TEST_CASE("when the clamps allowed don't do, nothing is promised") {
    const Line line = line_of(600, 20);
    CHECK(!even_spread(line.question, line.tracks, line.track_of_place, 3));
  }
  TEST_CASE("evening moves clamps, never adds one, and never makes the worst place worse") {
    const Line line = line_of(600, 60);
    for (const std::vector<std::size_t>& crooked :
         {std::vector<std::size_t>{3, 15, 29, 45, 58}, {2, 20, 31, 40, 57}}) {
      const auto start = try_spots(line.question, crooked);
      REQUIRE(start);
      const Placement better = evened(line.question, line.tracks, *start);
      CHECK(better.spots.size() == crooked.size());
      CHECK(worst_at_equal_force(line.question, better.spots).share >=
            worst_at_equal_force(line.question, crooked).share);
    }
  }
}

}  // namespace planner::clamps::count
