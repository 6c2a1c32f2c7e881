#include "planner/clamps/axis/clamp_sites.h"

#include <algorithm>
#include <cmath>

#include <doctest/doctest.h>

#include "planner/clamps/layout/clamp_work_test.h"

namespace planner::clamps::axis {
namespace {

constexpr double kIn = 25.4;

struct Sites {
  layout::TestWork work;
  pressure::Work all;
  std::vector<AskedLine> lines;
  std::vector<ClampTrack> tracks;
  std::vector<ClampSite> sites;

  // Over the larger faces that look along the axis.
  Sites(layout::TestWork w, std::size_t axis, double throat_mm) : work(std::move(w)) {
    const layout::ClampProblem problem = work.problem(work::Shop{});
    all = pressure::work_of(problem.parts, work.solids);
    const geometry::Direction& d = geometry::kAxis[axis];
    for (work::JointId j = 0; j < work.joints.size(); ++j) {
      if (std::abs(dot(work.joints[j].faces[0].contact.normal, d)) > 0.9) {
        lines.push_back({glue_line(work.job, work.joints, all, j, 0, d)});
      }
    }
    tracks = clamp_tracks(lines, d);
    const auto bearing = geometry::find_bearing_faces(all.solids, d, {});
    SiteSearch search{work.job, work.joints, all, bearing, lines, d, {70, 32, 19}};
    search.throat_mm = throat_mm;
    sites = clamp_sites(search, tracks);
  }
};

}  // namespace

TEST_SUITE("planner/clamp_sites") {
  TEST_CASE("lid and bottom, lying behind one another, share four tracks") {
    const Sites down(layout::hive_tool_chest(), 2, 100);
    CHECK(down.lines.size() == 8);
    REQUIRE(down.tracks.size() == 4);
    for (const ClampTrack& track : down.tracks) {
      CHECK(track.lines.size() == 2);
    }
  }
  TEST_CASE("a clamp stands over the middle of a wall, never over the hollow") {
    const Sites down(layout::hive_tool_chest(), 2, 100);
    REQUIRE(!down.sites.empty());
    for (const ClampSite& site : down.sites) {
      const bool over_side =
          std::abs(site.at.x - 0.375 * kIn) < 0.1 || std::abs(site.at.x - 13.625 * kIn) < 0.1;
      const bool over_front =
          std::abs(site.at.y - 0.375 * kIn) < 0.1 || std::abs(site.at.y - 8.625 * kIn) < 0.1;
      CHECK((over_side || over_front));
      CHECK(site.path.size() == 3);  // bottom, a wall, lid
      CHECK(site.presses.size() == 2);
      CHECK(site.span_mm == doctest::Approx(8 * kIn));
    }
  }
  TEST_CASE("spots are at most 10 mm apart, the outermost with the pad flush with the end") {
    const Sites across(layout::bench_panel(), 1, 100);
    REQUIRE(across.tracks.size() == 1);
    CHECK(across.sites.front().x_mm == doctest::Approx(35));
    CHECK(across.sites.back().x_mm == doctest::Approx(48 * kIn - 35));
    for (std::size_t i = 1; i < across.sites.size(); ++i) {
      CHECK(across.sites[i].x_mm - across.sites[i - 1].x_mm <= 10.0001);
    }
    const auto middle =
        std::find_if(across.sites.begin(), across.sites.end(),
                     [](const ClampSite& s) { return std::abs(s.x_mm - 24 * kIn) < 0.01; });
    CHECK(middle != across.sites.end());
  }
  TEST_CASE("a shallow clamp can't reach the middle of a deep case") {
    const Sites deep(layout::shelf_case(1), 0, 160), shallow(layout::shelf_case(1), 0, 60);
    const auto farthest_in = [](const Sites& s) {
      double most = 0;
      for (const ClampSite& site : s.sites) {
        most = std::max(most, *std::min_element(site.reach_mm.begin(), site.reach_mm.end()));
      }
      return most;
    };
    CHECK(farthest_in(shallow) <= 57);
    CHECK(farthest_in(deep) > 57);
  }
  TEST_CASE("a shallow clamp stands up to a sixth beside the middle of a thick slab, below and above by turns") {
    const auto slab = [](const char* thick) {
      return layout::work_of_text(std::string("title = \"slab\"\nunits = \"mm\"\n[panel]\nlength = 1800\nthickness = ") +
                                  thick + "\nboards = [45, 45]\nspecies = \"beech\"\n");
    };
    const Sites deep(slab("90"), 1, 60);
    Sites shallow(slab("90"), 1, 42);
    const Sites too_shallow(slab("140"), 1, 42);
    const auto off_mm = [](const ClampSite& site, double thick_mm) {
      return site.at.z - thick_mm / 2;
    };
    std::vector<ClampSite*> row;  // away from the ends, which a bar reaches in past
    for (ClampSite& site : shallow.sites) {
      if (site.x_mm > 100 && site.x_mm < 1700) {
        row.push_back(&site);
      }
    }
    const auto inner = [](const ClampSite& site) { return site.x_mm > 100 && site.x_mm < 1700; };
    CHECK(std::ranges::none_of(too_shallow.sites, inner));
    CHECK(std::ranges::any_of(deep.sites, inner));
    CHECK(std::ranges::all_of(deep.sites, [&](const ClampSite& site) {
      return std::abs(off_mm(site, 90)) < 0.01 && !site.opposite;
    }));
    REQUIRE(row.size() > 2);
    const double side = off_mm(*row.front(), 90);
    CHECK(std::abs(side) > 0);
    CHECK(std::abs(side) <= 15);
    stand_alternately(row);
    for (std::size_t i = 0; i < row.size(); ++i) {
      CHECK(off_mm(*row[i], 90) == doctest::Approx(i % 2 == 0 ? side : -side));
      CHECK(std::ranges::min(row[i]->reach_mm) + kBarClears_mm <= 42);
    }
  }
  TEST_CASE("pads keep out of the way of a saw cut that is made later") {
    for (int up = 4 * 64; up <= 6 * 64; up += 4) {
      layout::TestWork chest = layout::hive_tool_chest();
      chest.job.saw_later.push_back({2, geometry::Length::in_64ths(up), geometry::Length::whole_mm(3), {}});
      const Sites across(chest, 1, 100);
      REQUIRE(!across.sites.empty());
      for (const ClampSite& site : across.sites) {
        CHECK(std::abs(site.at.z - up * kIn / 64) >= 35 + 1.5);
      }
    }
  }
  TEST_CASE("two pads on one edge need their length between them") {
    const Sites across(layout::bench_panel(), 1, 100);
    for (std::size_t i = 1; i < across.sites.size(); ++i) {
      const bool near = across.sites[i].x_mm - across.sites[0].x_mm < 72 - 1e-6;
      CHECK(pads_collide(across.sites[0], across.sites[i], across.tracks, geometry::kAxis[1]) ==
            near);
    }
  }
  TEST_CASE("a caul between two others is cut to fit between them") {
    const Sites down(layout::hive_tool_chest(), 2, 100);
    double shortest = 1e9, longest = 0;
    for (std::size_t t = 0; t < down.tracks.size(); ++t) {
      const double length = caul_run(down.tracks, t, geometry::kAxis[2]).size();
      shortest = std::min(shortest, length);
      longest = std::max(longest, length);
    }
    CHECK(longest == doctest::Approx(14 * kIn));
    CHECK(shortest == doctest::Approx(7.5 * kIn));
  }
}

}  // namespace planner::clamps::axis
