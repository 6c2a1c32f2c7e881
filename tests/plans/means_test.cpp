// Whole plans of what isn't clamped: pinned backs, taped boxes, rubbed edges, strapped frames; and the
// damage that the verifier must see in them.
#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>
#include <string>

#include <doctest/doctest.h>

#include "planner/files/job_file.h"
#include "planner/files/shop_file.h"
#include "planner/make_plan.h"
#include "planner/verify/verify_plan.h"

using namespace planner;

namespace {

struct Whole {
  work::Job job;
  work::Shop shop;
  plan::Plan plan;
  Whole(const std::string& job_text, const std::string& shop_text) {
    files::JobReading job_read = files::read_job("job.toml", job_text);
    files::ShopReading shop_read = files::read_shop("shop.toml", shop_text);
    REQUIRE(job_read.job);
    REQUIRE(shop_read.shop);
    job = std::move(*job_read.job);
    shop = std::move(*shop_read.shop);
    Planned planned = make_plan(job, shop, {});
    REQUIRE(planned.plan);
    plan = std::move(*planned.plan);
  }
  std::vector<std::string> faults() const { return verify::verify_plan(job, shop, plan); }
  std::size_t clamps() const {
    std::size_t most = 0;
    for (const plan::Stage& stage : plan.stages) {
      most = std::max(most, stage.clamps.size());
    }
    return most;
  }
  int steps(plan::StepKind kind) const {
    int count = 0;
    for (const plan::Stage& stage : plan.stages) {
      count += static_cast<int>(
          std::ranges::count(stage.steps, kind, [](const plan::Step& s) { return s.kind; }));
    }
    return count;
  }
};

std::string rack(const std::string& rows) {
  return "units = \"mm\"\npeople = 2\ntemperature = \"20 C\"\n" + rows;
}
std::string some(const std::string& kind, int count, int opening) {
  return "[[clamp]]\nkind = \"" + kind + "\"\ncount = " + std::to_string(count) +
         "\nopening = " + std::to_string(opening) + "\n";
}

Whole bookcase(const std::string& fit) {
  return Whole("title = \"bookcase\"\nunits = \"mm\"\n[carcass]\noutside = [600, 250, 700]\n"
               "stock = 18\nshelves = 1\nback = \"rabbet\"\nback_fit = \"" +
                   fit +
                   "\"\nback_species = \"plywood_birch\"\nspecies = \"eastern_white_pine\"\n"
                   "[glue]\nuse = \"pva_type1\"\n",
               rack(some("f_heavy", 12, 800) + some("sash", 6, 900)));
}

Whole taped_box(const std::string& rows) {
  return Whole("title = \"box\"\nunits = \"mm\"\n[box]\noutside = [150, 100, 60]\nstock = 9\n"
               "corners = \"mitre\"\nspecies = \"black_walnut\"\n[glue]\nuse = \"pva_yellow\"\n",
               rack(rows));
}

Whole frame(const std::string& rows) {
  return Whole("title = \"frame\"\nunits = \"mm\"\n[frame]\noutside = [400, 300]\nthickness = 20\n"
               "member = 35\ncorners = \"mitre\"\nspecies = \"red_oak\"\n[glue]\nuse = \"pva_yellow\"\n",
               rack(rows));
}

// Between the last clamp of two layers that is set and the first that is drawn.
double tack_s(const std::string& glue) {
  const Whole layers("units = \"mm\"\n[lamination]\nlength = 400\nwidth = 60\nlayers = [20, 20]\n"
                     "species = \"sugar_maple\"\n[glue]\nuse = \"" + glue + "\"\n",
                     rack(some("f_heavy", 8, 300)));
  double set = 0, drawn = 1e9;
  for (const plan::Step& step : layers.plan.stages.at(0).steps) {
    set = step.kind == plan::StepKind::snug ? std::max(set, step.end_s) : set;
    drawn = step.kind == plan::StepKind::tighten ? std::min(drawn, step.start_s) : drawn;
  }
  return drawn - set;
}

Whole panel_with(const std::string& how, const std::string& glue, const std::string& shop) {
  return Whole("title = \"panel\"\nunits = \"mm\"\n[panel]\nlength = 320\nthickness = 8\n"
               "boards = [75, 75]\nspecies = \"sitka_spruce\"\n" +
                   how + "[glue]\nuse = \"" + glue + "\"\n",
               rack(shop));
}

Whole bow(const std::string& shop) {
  return Whole("title = \"bow\"\nunits = \"mm\"\n[bent]\nradius = 400\narc = 90\nplies = 8\nply = 3\nwidth = 60\n"
               "species = \"white_ash\"\n[glue]\nuse = \"pva_type1\"\n",
               rack(shop));
}

Whole veneered(const std::string& shop) {
  return Whole("title = \"lid\"\nunits = \"mm\"\n[veneer]\nsize = [400, 250]\ncore = 16\nface = 0.9\n"
               "species = \"black_walnut\"\ncore_species = \"mdf\"\n[glue]\nuse = \"pva_yellow\"\n",
               rack(shop));
}

// Whether the verifier sees what is done to a stage of a sound plan.
bool seen(const Whole& sound, const std::function<void(plan::Stage&)>& damage) {
  REQUIRE(sound.faults() == std::vector<std::string>{});
  Whole copy = sound;
  damage(copy.plan.stages.back());
  return !copy.faults().empty();
}

}  // namespace

TEST_SUITE("plans/means") {
  // Epoxy fills 2 mm, and asks for contact: plies as thin, and the force that bends thick ones.
  TEST_CASE("narrow and wide bends, thin plies and thick, in a glue that wants contact and in one that is pressed") {
    for (const char* glue : {"epoxy_slow", "uf_powder"}) {
      for (const char* ply : {"2", "4"}) {
        for (const char* width : {"20", "40", "100"}) {
          CAPTURE(glue);
          CAPTURE(ply);
          CAPTURE(width);
          const Whole bow(std::string("units = \"mm\"\n[bent]\nradius = 400\narc = 60\nplies = 5\nply = ") + ply +
                              "\nwidth = " + width + "\nspecies = \"red_oak\"\n[glue]\nuse = \"" + glue + "\"\n",
                          "units = \"mm\"\n[[clamp]]\nkind = \"f_heavy\"\ncount = 40\nopening = 300\n");
          CHECK(bow.faults().empty());
          CHECK(bow.plan.verdict.ok);
          CHECK(bow.plan.joints.size() == 4);  // none through a ply
        }
      }
    }
  }

  TEST_CASE("a pinned back gets no clamp: it goes on last, is fastened once the case is tight, and its time ends there") {
    const Whole pinned = bookcase("pins");
    CHECK(pinned.faults() == std::vector<std::string>{});
    CHECK(pinned.steps(plan::StepKind::fasten) == 1);
    CHECK(pinned.clamps() < bookcase("glue").clamps());
    for (const plan::Stage& stage : pinned.plan.stages) {
      for (const plan::PlannedClamp& clamp : stage.clamps) {
        CHECK(std::abs(clamp.axis.y) < 0.1);
      }
      for (const plan::FaceLimit& limit : stage.limits) {
        const bool back = pinned.plan.joints[limit.joint].held_by == work::HeldBy::pins;
        CHECK((limit.pressed_by == plan::PressedBy::fasteners) == back);
      }
    }
    CHECK(bookcase("screws").plan.stages.back().fastenings.front().by == work::HeldBy::screws);
  }
  TEST_CASE("the verifier sees fasteners left out, too far apart, beside the sheet or too early") {
    const Whole sound = bookcase("pins");
    REQUIRE(sound.faults().empty());
    const auto broken = [&](const std::function<void(plan::Stage&)>& damage) {
      Whole copy = sound;
      damage(copy.plan.stages.back());
      return !copy.faults().empty();
    };
    CHECK(broken([](plan::Stage& s) { s.fastenings.pop_back(); }));
    CHECK(broken([](plan::Stage& s) { s.fastenings[0].at.resize(1); }));
    CHECK(broken([](plan::Stage& s) { s.fastenings[0].at[0].x -= 400; }));
    CHECK(broken([](plan::Stage& s) { s.fastenings[0].by = work::HeldBy::screws; }));
    CHECK(broken([](plan::Stage& s) {
      for (plan::Step& step : s.steps) {
        step.start_s -= step.kind == plan::StepKind::fasten ? 600 : 0;
      }
    }));
    CHECK(broken([](plan::Stage& s) {
      std::erase_if(s.steps, [](const plan::Step& t) { return t.kind == plan::StepKind::fasten; });
      int n = 0;
      for (plan::Step& step : s.steps) {
        step.n = ++n;
      }
    }));
    Whole copy = sound;
    for (work::Joint& joint : copy.plan.joints) {
      joint.held_by = work::HeldBy::tape;
    }
    CHECK_FALSE(copy.faults().empty());
  }
  TEST_CASE("a small mitred box is folded up on tape, with a strap over it if there is one") {
    const Whole bare = taped_box(some("f_light", 1, 150));
    CHECK(bare.faults() == std::vector<std::string>{});
    CHECK(bare.clamps() == 0);
    CHECK(bare.plan.verdict.ok);
    const auto& steps = bare.plan.stages[0].steps;
    CHECK(std::ranges::count_if(steps, [](const plan::Step& s) { return s.motion && s.motion->fold; }) == 3);
    const Whole strapped = taped_box(some("band", 1, 4000));
    CHECK(strapped.faults() == std::vector<std::string>{});
    CHECK(strapped.clamps() == 1);
    CHECK(strapped.plan.verdict.ok);
    for (const work::Joint& joint : strapped.plan.joints) {
      CHECK(joint.held_by == work::HeldBy::tape);
    }
  }
  // Common practice: a minute; water-based glues take hold, others stay slippery until they set.
  TEST_CASE("layers that swim on their glue are left to tack, where the glue takes hold") {
    CHECK(tack_s("pva_type2") >= 60);
    CHECK(tack_s("epoxy_slow") < 60);
  }
  // Outside, closed form: a polygon of inradius r has its corners at r / cos(pi / n)
  TEST_CASE("a ring of six is measured from corner to corner, one of five from corner to side") {
    const auto across_mm = [](const std::string& sides) {
      const Whole ring("units = \"mm\"\n[ring]\nsides = " + sides + "\nacross = 300\nheight = 60\nthickness = 12\n"
                       "species = \"red_oak\"\n[glue]\nuse = \"pva_yellow\"\n",
                       rack(some("band", 1, 4000)));
      for (const plan::Note& note : ring.plan.notes) {
        if (const auto* told = std::get_if<plan::RingTrueNote>(&note)) {
          return told->across_mm;
        }
      }
      return 0.0;
    };
    CHECK(across_mm("6") == doctest::Approx(2 * 150 / std::cos(std::numbers::pi / 6)));
    CHECK(across_mm("5") == doctest::Approx(150 + 150 / std::cos(std::numbers::pi / 5)));
  }
  TEST_CASE("a frame's strap is drawn, then lifted and tapped at each corner") {
    const Whole one = frame(some("band", 1, 4000) + some("f_heavy", 8, 600));
    CHECK(one.faults() == std::vector<std::string>{});
    CHECK(one.plan.verdict.ok);
    REQUIRE(one.clamps() == 1);
    CHECK(one.plan.stages[0].clamps[0].kind == "band");
    CHECK(one.steps(plan::StepKind::ease) == 1);
    for (const work::Joint& joint : one.plan.joints) {
      CHECK(joint.held_by == work::HeldBy::strap);
    }
  }
  TEST_CASE("bars draw a frame's mitres alike along both axes; the verifier sees where they don't") {
    Whole bars = frame(some("f_heavy", 8, 600));
    REQUIRE(bars.faults().empty());
    CHECK(bars.plan.verdict.ok);
    for (plan::LinePressure& line : bars.plan.pressure) {
      line.mean_MPa *= std::abs(line.axis.x) > 0.9 ? 0.7 : 1;
      line.min_MPa = std::min(line.min_MPa, line.mean_MPa);
    }
    CHECK_FALSE(bars.faults().empty());
  }
  TEST_CASE("hot hide edges are rubbed; weights and the bag press what they are asked to") {
    const Whole rubbed = panel_with("", "hide_hot", some("f_light", 2, 300));
    CHECK(rubbed.faults() == std::vector<std::string>{});
    CHECK(rubbed.clamps() == 0);
    const std::string bag = "[[joint]]\nbetween = [\"board 1\", \"board 2\"]\nheld_by = \"vacuum\"\n";
    const Whole sucked = panel_with(bag, "pva_yellow", "vacuum = true\n");
    CHECK(sucked.faults() == std::vector<std::string>{});
    CHECK(sucked.steps(plan::StepKind::load) == 1);
    const Whole none = panel_with(bag, "pva_yellow", some("f_light", 4, 300));
    CHECK(none.steps(plan::StepKind::load) == 0);
    const std::string laid = "[[joint]]\nbetween = [\"board 1\", \"board 2\"]\nheld_by = \"weights\"\n";
    const Whole weighed =
        panel_with(laid, "pva_yellow", "[[weight]]\nmass = \"10 kg\"\ncount = 4\n");
    CHECK(weighed.faults() == std::vector<std::string>{});
    REQUIRE(weighed.plan.stages[0].loadings.size() == 1);
    CHECK(weighed.plan.stages[0].loadings[0].mass_kg == doctest::Approx(40));
  }
  // Sums of fixtures/swarm_bow/worked.md.
  // Outside, closed form: E I / R of a ply (fixtures/swarm_bow/worked.md)
  TEST_CASE("plies are drawn onto their form from the middle out, and what bends them presses no glue") {
    const Whole bent = bow(some("f_heavy", 20, 300));
    REQUIRE(bent.plan.verdict.ok);
    const std::vector<plan::PlannedClamp>& clamps = bent.plan.stages[0].clamps;
    const double middle = 206 * std::numbers::pi / 2;
    REQUIRE(clamps.size() >= 6);
    double last = 0, force = 0;
    for (const plan::PlannedClamp& clamp : clamps) {
      const double off = std::abs(clamp.at.x - middle);
      CHECK(off > last - 1);
      last = off;
      force += clamp.force_N;
      CHECK(clamp.opening_mm == doctest::Approx(24 + 76.2 + clamp.caul->thick_mm + 12.7));
    }
    CHECK(bent.job.bend->form_radius_mm() == doctest::Approx(393.75));
    CHECK(bent.job.bend->moment_Nmm(13'200) == doctest::Approx(36'206).epsilon(1e-4));
    const auto stood = static_cast<double>(clamps.size());
    const double bends = 4 * 36'206 * stood / 647.168;
    for (const plan::LinePressure& line : bent.plan.pressure) {
      CHECK(line.closing_N == doctest::Approx(bends).epsilon(1e-3));
      CHECK(line.mean_MPa == doctest::Approx((force - bends) / (647.168 * 60)).epsilon(0.01));
    }
    const auto note = std::ranges::find_if(bent.plan.notes, [](const plan::Note& n) {
      return std::holds_alternative<plan::BendNote>(n);
    });
    REQUIRE(note != bent.plan.notes.end());
    CHECK(std::get<plan::BendNote>(*note).form_radius_mm == doctest::Approx(393.75));
    CHECK(std::holds_alternative<plan::CreepNote>(*(note + 1)));  // as this glue does
    CHECK(seen(bent, [](plan::Stage& s) { s.clamps[0].form_mm = 0; }));
    CHECK(seen(bent, [](plan::Stage& s) { std::swap(s.clamps.front().at.x, s.clamps.back().at.x); }));
    CHECK(seen(bent, [](plan::Stage& s) { s.clamps[0].opening_mm -= 76; }));
    CHECK(seen(bent, [](plan::Stage& s) { s.clamps.erase(s.clamps.begin()); }));
  }
  TEST_CASE("veneers without bag or weights lie under platens with a bearer every 4 in") {
    const Whole pressed = veneered(some("f_heavy", 30, 300));
    REQUIRE(pressed.plan.verdict.ok);
    for (const plan::PlannedClamp& clamp : pressed.plan.stages[0].clamps) {
      CHECK(clamp.platen_mm == doctest::Approx(19.05));
      CHECK(clamp.opening_mm ==
            doctest::Approx(16 + 2 * 0.9 + 2 * (19.05 + clamp.caul->thick_mm) + 12.7));
    }
    CHECK(seen(pressed, [](plan::Stage& s) { s.clamps[0].platen_mm = 0; }));
    CHECK(seen(pressed, [](plan::Stage& s) {
      for (plan::PlannedClamp& clamp : s.clamps) {
        clamp.at.x = 200 + 2.2 * (clamp.at.x - 200);
      }
    }));
    CHECK(veneered("vacuum = true\n" + some("f_heavy", 30, 300)).clamps() == 0);
  }
  TEST_CASE("bearers on a platen are cut alike, the outer ones flush with its ends") {
    const Whole lid("units = \"mm\"\n[veneer]\nsize = [200, 60]\ncore = 10\nface = 0.9\ncore_species = \"mdf\"\n"
                    "species = \"black_cherry\"\n[glue]\nuse = \"pva_type1\"\n",
                    rack(some("f_heavy", 24, 300)));
    REQUIRE(lid.clamps() > 1);
    double least = 1e300;
    for (const plan::PlannedClamp& clamp : lid.plan.stages.front().clamps) {
      REQUIRE(clamp.caul);
      CHECK(clamp.caul->across_mm == doctest::Approx(lid.plan.stages.front().clamps.front().caul->across_mm));
      least = std::min(least, clamp.at.x - clamp.caul->across_mm / 2);
    }
    CHECK(least == doctest::Approx(0));
  }
  TEST_CASE("veneers that the rack can't press are told of a bag first") {
    const Whole few = veneered(some("f_heavy", 2, 300));
    CHECK(!few.plan.verdict.ok);
    REQUIRE(!few.plan.verdict.ways_out.empty());
    CHECK(few.plan.verdict.ways_out.front().mends);
    CHECK(std::holds_alternative<plan::BagWay>(few.plan.verdict.ways_out.front().change));
  }
  TEST_CASE("a frame screwed from pockets wants no clamp but the one that moves from screw to screw") {
    const Whole screwed("title = \"frame\"\nunits = \"mm\"\n[frame]\noutside = [600, 700]\nthickness = 20\n"
                        "member = 50\ncorners = \"pocket-screw\"\nrails_between = 1\nspecies = \"red_oak\"\n"
                        "[glue]\nuse = \"pva_yellow\"\n",
                        rack(some("f_heavy", 2, 800)));
    CHECK(screwed.plan.verdict.ok);
    CHECK(screwed.clamps() == 0);
    std::size_t screws = 0;
    for (const plan::Fastening& row : screwed.plan.stages[0].fastenings) {
      CHECK(row.pocket);
      screws += row.at.size();
      for (const geometry::Point& at : row.at) {  // from above, 1 1/2 in from the rail's end
        CHECK(at.z == doctest::Approx(20));
        CHECK(std::min(at.x - 50, 550 - at.x) == doctest::Approx(38.1));
      }
    }
    CHECK(screws == 12);
    CHECK(seen(screwed, [](plan::Stage& s) { s.fastenings.pop_back(); }));
    CHECK(seen(screwed, [](plan::Stage& s) { s.fastenings[0].at[0].y += 200; }));
  }
}
