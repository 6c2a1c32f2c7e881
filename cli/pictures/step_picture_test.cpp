#include "cli/pictures/step_picture.h"

#include <cctype>
#include <optional>
#include <regex>
#include <set>

#include <doctest/doctest.h>

#include "cli/pictures/situation.h"
#include "cli/text/sample_plan.h"

using namespace cli;
using planner::plan::Plan;
using planner::plan::Stage;

namespace {

int count(const std::string& text, const std::string& piece) {
  int n = 0;
  for (std::size_t at = text.find(piece); at != std::string::npos; at = text.find(piece, at + 1)) {
    ++n;
  }
  return n;
}

struct Pen {
  double u = 0, v = 0, start_u = 0, start_v = 0;
  // One letter with one number or pair.
  void go(char order, double a, double b) {
    const bool from_here = std::islower(static_cast<unsigned char>(order)) != 0;
    u = order == 'v' ? u : from_here ? u + a : a;
    v = order == 'h' ? v : from_here ? v + (order == 'v' ? a : b) : b;
    if (order == 'm' || order == 'M') {
      start_u = u;
      start_v = v;
    }
  }
};

void check_here(const Pen& pen) {
  CHECK(pen.u >= 0);
  CHECK(pen.u <= 720);
  CHECK(pen.v >= 0);
  CHECK(pen.v <= 540);
}

// Where the pen comes on the sheet, over all path data.
void check_on_the_sheet(const std::string& svg) {
  static const std::regex path(" d=\"([^\"]*)\""), word("([MLmlhvzZ])|(-?[0-9.]+)");
  for (auto d = std::sregex_iterator(svg.begin(), svg.end(), path); d != std::sregex_iterator(); ++d) {
    const std::string text = (*d)[1];
    if (text.find('q') != std::string::npos) {
      continue;  // the hand has a place of its own
    }
    CHECK(text.find_first_not_of("MLmlhvzZ0123456789 -") == std::string::npos);
    Pen pen;
    char order = '?';
    std::optional<double> first;
    for (auto w = std::sregex_iterator(text.begin(), text.end(), word); w != std::sregex_iterator(); ++w) {
      if ((*w)[1].matched) {
        CHECK_FALSE(first);
        order = (*w)[1].str()[0];
        if (order == 'z' || order == 'Z') {
          pen.u = pen.start_u;
          pen.v = pen.start_v;
        }
        continue;
      }
      const double number = std::stod((*w)[2]);
      if (order != 'h' && order != 'v' && !first) {
        first = number;
        continue;
      }
      pen.go(order, first.value_or(number), number);
      check_here(pen);
      first.reset();
      // Pairs behind a move are lines.
      order = order == 'm' ? 'l' : order == 'M' ? 'L' : order;
    }
  }
}

template <typename Act>
void each_step(const Plan& plan, const Act& act) {
  for (const Stage& stage : plan.stages) {
    const std::vector<words::BenchStep> steps = words::bench_steps(stage);
    for (std::size_t i = 0; i < steps.size(); ++i) {
      act(stage, steps, i,
          pictures::step_picture(plan, stage, steps, i, {planner::base::Units::inch, false, false}));
    }
  }
}

}  // namespace

TEST_SUITE("cli/pictures/step_picture") {
  TEST_CASE("each part that a step is about is drawn once, in view and on the sheet") {
    for (const Plan& plan : {text::sample::chest(), text::sample::staged_chest()}) {
      each_step(plan, [&](const Stage& stage, const auto& steps, std::size_t i, const std::string& svg) {
        CAPTURE(steps[i].step.n);
        const pictures::Situation at = pictures::situation_at(plan, stage, steps, i);
        std::set<planner::work::PartId> parts(at.still.begin(), at.still.end());
        parts.insert(at.moving.begin(), at.moving.end());
        for (const planner::work::PartId part : steps[i].step.parts) {
          CHECK(parts.contains(part));
        }
        CHECK(count(svg, "data-part=\"") == static_cast<int>(parts.size()));
        for (const planner::work::PartId part : parts) {
          CHECK(count(svg, "data-part=\"" + std::to_string(part) + "\"") == 1);
        }
        CHECK(count(svg, " d=\"\"") == 0);
        check_on_the_sheet(svg);
      });
    }
  }

  TEST_CASE("a step's clamps are drawn with their numbers, each once, and no others have one") {
    const Plan plan = text::sample::chest();
    each_step(plan, [&](const Stage&, const auto& steps, std::size_t i, const std::string& svg) {
      CHECK(count(svg, "data-no=\"") == static_cast<int>(steps[i].step.clamps.size()));
      for (const int n : steps[i].step.clamps) {
        CHECK(count(svg, "data-no=\"" + std::to_string(n) + "\"") == 1);
      }
    });
  }

  TEST_CASE("where clamps are tightened in an order the first is dark, and each points to the next") {
    const Plan plan = text::sample::chest();
    each_step(plan, [&](const Stage&, const auto& steps, std::size_t i, const std::string& svg) {
      const planner::plan::Step& step = steps[i].step;
      const bool ordered = step.kind == planner::plan::StepKind::tighten && step.clamps.size() > 1;
      CHECK(count(svg, "class=\"number turn\"") == (ordered ? 1 : 0));
      // All of them in one path, a closed point each.
      const std::size_t then = svg.find("class=\"then\"");
      CHECK(count(svg, "class=\"then\"") == (ordered ? 1 : 0));
      const std::string points = then == std::string::npos ? "" : svg.substr(then, svg.find("/>", then) - then);
      CHECK(count(points, "M") == (ordered ? static_cast<int>(step.clamps.size()) - 1 : 0));
      CHECK(count(points, "Z") == count(points, "M"));
      if (ordered) {
        CHECK(count(svg, "turn\" data-no=\"" + std::to_string(step.clamps.front()) + "\"") == 1);
      }
    });
  }

  TEST_CASE("what moves has an arrow, what is spread has glue") {
    const Plan plan = text::sample::chest();
    each_step(plan, [&](const Stage&, const auto& steps, std::size_t i, const std::string& svg) {
      const planner::plan::StepKind kind = steps[i].step.kind;
      CHECK(count(svg, "class=\"go\"") == (kind == planner::plan::StepKind::join ? 1 : 0));
      if (kind == planner::plan::StepKind::spread) {
        CHECK(std::regex_search(svg, std::regex("class=\"(g[0-2]|ghost)\"")));
      }
    });
  }

  TEST_CASE("every picture tells the front and the top, once") {
    for (const Plan& plan : {text::sample::chest(), text::sample::staged_chest()}) {
      each_step(plan, [&](const Stage&, const auto&, std::size_t, const std::string& svg) {
        CHECK(count(svg, ">FRONT</text>") == 1);
        CHECK(count(svg, ">TOP</text>") == 1);
      });
    }
  }

  TEST_CASE("the first picture tints and outlines the parts of the joint that is told, and greys all others") {
    const Plan plan = text::sample::chest();
    CHECK(count(pictures::hero_picture(plan), "out bold") == 0);
    const std::regex grey("class=\"s[0-2]\"");
    CHECK_FALSE(std::regex_search(pictures::hero_picture(plan), grey));
    const std::string svg = pictures::hero_picture(plan, 0);
    CHECK(count(svg, "class=\"out bold\"") == 2);
    for (const planner::work::PartId part : plan.joints[0].parts) {
      CHECK(count(svg, "class=\"out bold\" data-part=\"" + std::to_string(part) + "\"") == 1);
    }
    CHECK(std::regex_search(svg, grey));
  }

  TEST_CASE("letters follow the order in which parts come") {
    const std::map<planner::work::PartId, std::string> letters =
        pictures::part_letters(text::sample::chest());
    // bottom 4, back 1, left 2, right 3, front 0, top 5
    CHECK(letters.at(4) == "A");
    CHECK(letters.at(1) == "B");
    CHECK(letters.at(0) == "E");
    CHECK(letters.at(5) == "F");
  }

  TEST_CASE("the first picture shows every part") {
    const Plan plan = text::sample::chest();
    const std::string svg = pictures::hero_picture(plan);
    CHECK(count(svg, "data-part=\"") == static_cast<int>(plan.parts.size()));
    check_on_the_sheet(svg);
  }
}
