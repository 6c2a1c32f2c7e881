#include "cli/text/text.h"

#include <algorithm>
#include <sstream>

#include <doctest/doctest.h>

#include "cli/text/sample_plan.h"
#include "cli/text/text_check.h"

using namespace cli;
using namespace cli::text;
using planner::plan::Plan;

namespace {

words::TextStyle style_of(const Plan& plan) {
  words::TextStyle style;
  style.wording.units = plan.units;
  style.wording.uk_words = plan.uk_words;
  return style;
}

words::TextStyle with_details(const Plan& plan) {
  words::TextStyle style = style_of(plan);
  style.details = true;
  return style;
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) {
    lines.push_back(line);
  }
  return lines;
}

// Lines before the first blank one.
std::vector<std::string> verdict_of(const std::string& text) {
  std::vector<std::string> lines = lines_of(text);
  lines.erase(std::find(lines.begin(), lines.end(), ""), lines.end());
  return lines;
}

bool has(const std::string& text, const std::string& piece) {
  return text.find(piece) != std::string::npos;
}

// Every sheet of a plan fits the page and ends its lines cleanly.
void check_page(const Plan& plan, const words::TextStyle& style) {
  for (const std::string& sheet : {text_sheet(plan, style), clamps_sheet(plan, style),
                                   glue_sheet(plan, {}, style), check_sheet(plan, style)}) {
    for (const std::string& line : lines_of(sheet)) {
      INFO(line);
      CHECK(words::columns(line) <= 80);
      CHECK_FALSE(line.ends_with(' '));
    }
    CHECK_FALSE(has(sheet, "\n\n\n"));
  }
}

}  // namespace

TEST_SUITE("cli/text/text") {
  TEST_CASE("a tired person reads the verdict in ten lines at most") {
    for (const Plan& plan : {sample::chest(), sample::short_chest(), sample::staged_chest()}) {
      const auto verdict = verdict_of(text_sheet(plan, style_of(plan)));
      CHECK(verdict.size() >= 7);
      CHECK(verdict.size() <= 10);
    }
  }

  TEST_CASE("the first words say go, short of time or don't open the glue") {
    Plan plan = sample::chest();
    CHECK(text_sheet(plan, style_of(plan)).starts_with("GO: Hive-tool chest in one go, with time"));
    plan.verdict.comfort = planner::plan::Comfort::tight;
    CHECK(text_sheet(plan, style_of(plan)).starts_with("SHORT OF TIME: "));
    plan = sample::short_chest();
    CHECK(text_sheet(plan, style_of(plan))
              .starts_with("DON'T OPEN THE GLUE: the clamps don't hold"));
  }

  TEST_CASE("the chest's verdict tells time, clamps, glue, order, jaws and after, and the dry fit what is square") {
    const Plan plan = sample::chest();
    const std::string text = text_sheet(plan, style_of(plan));
    // limits[0]: 364 s of 600 used; pull apart by 300 s.
    CHECK(has(text, "6:04 of 10:00 used on back - bottom"));
    CHECK(has(text, "10 heavy F clamps of 24 in (have 12)"));
    CHECK(has(text, "1 fl oz of shop bottle"));
    CHECK(has(text, "8 fl oz left"));
    CHECK(has(text, "bottom, back, left, right, front, then top"));
    // Pre-set openings of the chest with 3/4 in pads: 16 / 11 / 10 in.
    CHECK(has(text, "4 to 11 in, 4 to 10 in and 2 to 16 in"));
    // sqrt(12.5^2 + 7.5^2) = 14.577.
    CHECK(has(text, "Diagonals inside both 14 9/16 in"));
    CHECK(has(text, "clamps off after 1 h; full cure 24 h"));
  }

  TEST_CASE("steps are said in plain words, with the clock") {
    const Plan plan = sample::chest();
    const std::string text = text_sheet(plan, style_of(plan));
    CHECK(has(text, "  10  6:49  Spread all 4 rabbets of the top."));
    CHECK(has(text, "  11  8:09  Lower the top onto front, back, left and right."));
    CHECK(has(text, "   2  1:36  Lower the back into the rabbet of bottom."));
    CHECK(has(text, "Tighten clamps 1, 3, 2 and 4-10 in this order to a small even bead."));
    CHECK(has(text, "     5:00  PULL IT APART BY NOW"));
  }

  TEST_CASE("the timeline has a row a joint, in the order they are wet, the one with least to spare starred") {
    const Plan plan = sample::chest();
    const std::string text = text_sheet(plan, with_details(plan));
    const std::string timeline = text.substr(text.find("\nTIMELINE"));
    // Spread first, together at 44 s, held at 364 s of 600: the rest is to spare.
    CHECK(has(timeline, "back - bottom *"));
    CHECK(has(timeline, " 6:04 of 10:00 held"));
    std::size_t rows = 0;
    for (const std::string& line : lines_of(timeline.substr(0, timeline.find("\n\n")))) {
      rows += line.ends_with(" held") || line.ends_with(" open") ? 1 : 0;
    }
    CHECK(rows == plan.stages[0].limits.size());
  }

  TEST_CASE("a joint that stays open too long runs past its mark") {
    Plan plan = sample::chest();
    planner::plan::FaceLimit& face = plan.stages[0].limits[0];
    face.open_s = face.used_open_s / 2;
    const std::string text = text_sheet(plan, with_details(plan));
    CHECK(has(text.substr(text.find("\nTIMELINE")), "~:="));
  }

  TEST_CASE("between stages the clamps stay on, then come back") {
    const Plan plan = sample::staged_chest();
    const std::string text = text_sheet(plan, style_of(plan));
    CHECK(
        has(text, "Leave it in the cramps 1 h and don't move it; then take them off for stage 2."));
    CHECK(has(text, "stage 2 of 2: the piece from stage 1 and top"));
  }

  TEST_CASE("every clamp has a row, measured from the front-left-bottom corner") {
    const Plan plan = sample::chest();
    const std::string text = clamps_sheet(plan, style_of(plan));
    CHECK(has(text, "front-left-bottom corner"));
    CHECK(has(text, "   2  front-back  13 5/8      -       2  heavy F    11  above  A    hold firm\n"));
    CHECK(has(text, "   8  top-bottom  10 1/2  8 5/8       -  heavy F    10  front  A    boost\n"));
    CHECK(has(text, "   9  left-right       -  4 1/2       2  heavy F    16  above  A    home\n"));
    CHECK(has(text, "Force: 900 lbf on no. 1-8."));
  }

  TEST_CASE("a stage is measured from its own corner") {
    Plan plan = sample::staged_chest();
    plan.stages[0].parts = {0, 1, 2, 3};  // the walls alone start 3/8 in above the bottom
    CHECK(has(clamps_sheet(plan, style_of(plan)), "   1  front-back    10      -      41  heavy F"));
  }

  TEST_CASE("a line's pressure strip is as bad as its worst spot") {
    const Plan plan = sample::chest();
    CHECK(has(clamps_sheet(plan, style_of(plan)), "front - bottom, cheek  ----------------"));
    Plan starved = plan;
    starved.pressure[0].samples[0][1] = 0.05;
    CHECK(has(clamps_sheet(starved, style_of(starved)), "front - bottom, cheek  .--------"));
  }

  TEST_CASE("a rack that is short is told with what is missing and the ways out") {
    const Plan plan = sample::short_chest();
    const std::string text = text_sheet(plan, style_of(plan));
    CHECK(has(text, "(have 6, SHORT by 4)"));
    CHECK(has(text, "NOT ENOUGH"));
    CHECK(has(text, "WAYS OUT, least trouble first\n  1. Borrow 4 heavy F clamps"));
    CHECK(has(text, "(then it works)"));
    CHECK(has(text, "GLUE UP"));  // the sheet is still whole
  }

  TEST_CASE("where no order was found there is no clock that runs from nothing to nothing") {
    Plan plan = sample::short_chest();
    plan.stages.front().steps.clear();
    const std::string text = text_sheet(plan, style_of(plan));
    CHECK(has(text, "There is no order to go by: see WHY NOT."));
    CHECK_FALSE(has(text, "PULL IT APART"));
  }

  TEST_CASE("without a shop file it lists what to borrow or buy") {
    const Plan plan = sample::staged_chest();
    const std::string text = text_sheet(plan, style_of(plan));
    CHECK(has(text, "FETCH: no shop file, so borrow or buy"));
    CHECK(has(text, "to borrow or buy: 10 heavy F cramps"));
  }

  TEST_CASE("a UK job is told in UK words and millimetres") {
    const Plan plan = sample::staged_chest();
    const std::string text = text_sheet(plan, style_of(plan));
    CHECK(has(text, "rebate"));
    CHECK(has(text, "Snug cramps 1-4"));
    CHECK_FALSE(has(text, "rabbet"));
    CHECK_FALSE(has(text, "clamp"));
    CHECK_FALSE(has(text, " in across"));
  }

  TEST_CASE("with a start the sheet tells the time of day the clamps come off") {
    const Plan plan = sample::staged_chest();
    words::TextStyle style = style_of(plan);
    CHECK_FALSE(has(text_sheet(plan, style), "15:36"));
    style.start_minute = 14 * 60 + 30;
    // 14:30 and 6 min 49 s of gluing and an hour in the clamps.
    CHECK(has(text_sheet(plan, style), "(15:36)"));
  }

  TEST_CASE("explained, each step and clamp carries its reason") {
    const Plan plan = sample::chest();
    words::TextStyle style = style_of(plan);
    style.explain = true;
    const std::string text = text_sheet(plan, style);
    for (int n = 1; n <= 15; ++n) {
      CHECK(has(text, "why: open for " + std::to_string(n) + " min of 1 h"));
    }
    for (int n = 1; n <= 10; ++n) {
      CHECK(has(text, "why " + std::to_string(n) + ":"));
    }
    check_page(plan, style);
  }

  TEST_CASE("no sheet is wider than 80 columns or ends a line with a blank") {
    for (const Plan& plan : {sample::chest(), sample::short_chest(), sample::staged_chest()}) {
      check_page(plan, style_of(plan));
    }
  }

  TEST_CASE("a name as long as a sentence still fits the page") {
    Plan plan = sample::chest();
    for (planner::plan::PlanPart& part : plan.parts) {
      part.name +=
          " of the observation hive with the brass hinges that the club keeps in the shed"
          " and " +
          std::string(200, 'x');
    }
    plan.title = std::string(300, 't');
    plan.verdict.risk = planner::plan::CrossGrainRisk{0};  // with both names of a joint
    plan.glue.glue.name = std::string(120, 'g');
    check_page(plan, style_of(plan));
    CHECK(verdict_of(text_sheet(plan, style_of(plan))).size() <= 10);
  }

  TEST_CASE("a name that tries to drive the terminal is shown harmless") {
    Plan plan = sample::chest();
    plan.parts[0].name = "front\x1b]0;gotcha\x07\r\n";
    plan.title = "\x1b[2J";
    plan.glue.glue.name = "\x1b[31m";
    const std::string text = text_sheet(plan, style_of(plan));
    CHECK(std::none_of(text.begin(), text.end(),
                       [](char c) { return static_cast<unsigned char>(c) < 0x20 && c != '\n'; }));
  }

  TEST_CASE("the plain form is plain ASCII, and colour only adds escapes to it") {
    const Plan plan = sample::chest();
    words::TextStyle style = style_of(plan);
    const std::string plain = text_sheet(plan, style);
    CHECK(std::all_of(plain.begin(), plain.end(),
                      [](char c) { return static_cast<unsigned char>(c) < 0x7F; }));
    style.colour = true;
    std::string coloured = text_sheet(plan, style);
    CHECK(has(coloured, "\x1b[1;32mGO\x1b[0m"));
    for (std::size_t at = coloured.find('\x1b'); at != std::string::npos;
         at = coloured.find('\x1b')) {
      coloured.erase(at, coloured.find('m', at) + 1 - at);
    }
    CHECK(coloured == plain);
  }

  TEST_CASE("how much glue each joint takes adds up to the bottle") {
    const Plan plan = sample::chest();
    const std::string text = glue_sheet(plan, {}, style_of(plan));
    CHECK(has(text, "front - left "));
    CHECK(has(text, "Have ready: 1 fl oz (30 ml, 33 g) of shop bottle (water-resistant"));
    CHECK(has(text, "58.5 sq in long grain, 24.8 sq in cross grain and 43.9"));
  }
}
