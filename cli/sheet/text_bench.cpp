#include <algorithm>

#include <fmt/format.h>

#include "cli/sentences.h"
#include "cli/sheet/text_sections.h"
#include "cli/trade_words.h"

namespace cli {
namespace {

using planner::Plan;
using planner::Stage;
using planner::Step;

// "1+2"; nothing where one person does everything.
std::string who_text(const Plan& plan, const Step& step) {
  if (plan.people <= 1) {
    return "";
  }
  std::string who;
  for (const int person : step.people) {
    who += (who.empty() ? "" : "+") + std::to_string(person);
  }
  return who;
}

// "  12   7:05  1+2  text", wrapped under the text.
void step_line(const std::string& number, const std::string& clock, const std::string& who,
               const std::string& text, int who_width, Page& page) {
  const std::string lead = right_aligned(number, 2) + "  " + right_aligned(clock, 5) + " " +
                           (who_width > 0 ? " " + padded(who, who_width) : "");
  page.item(lead, text);
}

void why_line(const std::string& why, Page& page) {
  if (!why.empty()) {
    page.item(std::string(10, ' '), "why: " + printable(why));
  }
}

int widest_who(const Plan& plan, const Stage& stage) {
  int width = 0;
  for (const Step& step : stage.steps) {
    width = std::max(width, columns(who_text(plan, step)));
  }
  return width;
}

std::string proof_text(const Stage& stage) {
  switch (stage.status) {
    case planner::Proof::proven:
      return "no possible order has more time to spare";
    case planner::Proof::bounded:
      return stage.bound_s ? fmt::format("best order found; none can have more than {} to spare",
                                         duration_text(*stage.bound_s))
                           : "best order found";
    case planner::Proof::impossible:
      return "no order keeps every joint inside the glue's time";
  }
  return {};
}

void stage_intro(const Plan& plan, const Stage& stage, const TextStyle& style, double since_start_s,
                 Page& page) {
  std::string intro = fmt::format("  {} down on the bench. The clock starts with the first glue",
                                  side_word(stage.bench_face));
  intro[2] = static_cast<char>(intro[2] - 'a' + 'A');
  if (style.start_minute) {
    intro += fmt::format(", {}", time_of_day_text(*style.start_minute, since_start_s));
  }
  page.line(intro + ".", 2);
  if (plan.people > 1) {
    page.line("  The third column says who: 1, 2 or both.");
  }
  if (style.explain) {
    page.line("  why: " + proof_text(stage) + ".", 4);
  }
}

void steps_of(const Plan& plan, const Stage& stage, const TextStyle& style, Page& page) {
  const int who_width = widest_who(plan, stage);
  bool warned = false;
  const auto last_moment = [&] {
    step_line("", clock_text(stage.pull_apart_by_s), "",
              "LAST MOMENT to pull it apart, if it is not together by now.", who_width, page);
    warned = true;
  };
  for (const Step& step : stage.steps) {
    if (!warned && step.start_s > stage.pull_apart_by_s) {
      last_moment();
    }
    step_line(std::to_string(step.n), clock_text(step.start_s), who_text(plan, step),
              step_sentence(plan, stage, step, style.wording), who_width, page);
    if (style.explain) {
      why_line(step.why, page);
    }
  }
  if (!warned && stage.pull_apart_by_s <= stage.makespan_s) {
    last_moment();
  }
  step_line("", clock_text(stage.makespan_s), "",
            fmt::format("All {} tight.", style.wording.uk_words ? "cramps" : "clamps"), who_width,
            page);
}

}  // namespace

void glue_up_section(const Plan& plan, const TextStyle& style, Page& page) {
  double since_start_s = 0;
  for (std::size_t i = 0; i < plan.stages.size(); ++i) {
    const Stage& stage = plan.stages[i];
    page.heading(plan.stages.size() == 1
                     ? "GLUE UP"
                     : fmt::format("GLUE UP, stage {} of {}: {}", i + 1, plan.stages.size(),
                                   part_names(plan, stage.parts)));
    stage_intro(plan, stage, style, since_start_s, page);
    steps_of(plan, stage, style, page);
    since_start_s += stage.makespan_s + stage.clamp_time_s;
  }
}

}  // namespace cli
