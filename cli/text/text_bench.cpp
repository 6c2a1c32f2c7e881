#include "cli/text/text_bench.h"

#include <algorithm>

#include <fmt/format.h>

#include "cli/model/lists.h"
#include "cli/text/text_timeline.h"
#include "cli/words/order_words.h"
#include "cli/words/sentences.h"
#include "cli/words/trade_words.h"

namespace cli::text {
namespace {

using planner::plan::Plan;
using planner::plan::Stage;
using planner::plan::Step;

// "  12 7:05  1+2  text", wrapped under the text: columns as wide as a stage's widest entry.
struct StepColumns {
  int number = 2, clock = 4, who = 0;

  std::string lead(const std::string& n, const std::string& at, const std::string& name) const {
    return words::right_aligned(n, number) + " " + words::right_aligned(at, clock) + " " +
           (who > 0 ? " " + words::padded(name, who) : "");
  }
};

StepColumns columns_of(const Plan& plan, const Stage& stage,
                       const std::vector<words::BenchStep>& steps) {
  StepColumns widths;
  widths.clock = words::columns(words::clock_text(stage.makespan_s));
  for (const words::BenchStep& each : steps) {
    widths.number = std::max(widths.number, words::columns(number_text(each)));
    widths.who = std::max(widths.who, words::columns(words::who_text(plan, each.step)));
  }
  return widths;
}

std::string proof_text(const Stage& stage) {
  switch (stage.status) {
    case planner::plan::Proof::proven:
      return "no possible order has more time to spare";
    case planner::plan::Proof::bounded:
      return stage.bound_s ? fmt::format("best order found; none can have more than {} to spare",
                                         words::duration_text(*stage.bound_s))
                           : "best order found";
    case planner::plan::Proof::impossible:
      return "no order keeps every joint inside the glue's time";
  }
  return {};
}

// "bottom down on the risers, from 14:30"
std::string setting_text(const Stage& stage, const words::TextStyle& style) {
  std::string text = fmt::format("{} down on {}", words::side_word(stage.bench_face),
                                 stage.risers_mm > 0 ? "the risers" : "the bench");
  if (style.start_minute) {
    text += ", from " + words::time_of_day_text(*style.start_minute, stage.starts_s);
  }
  return text;
}

void stage_intro(const Plan& plan, const Stage& stage, const words::TextStyle& style, Page& page) {
  if (&stage == &plan.stages[plan.stages_done]) {
    for (const std::string& item : model::just_before_items(plan)) {
      page.item("-", item);
    }
  }
  if (plan.people > 1) {
    page.line(plan.people == 2 ? "  The third column says who: 1, 2 or both."
                               : "  The third column says who: 1+3 is persons 1 and 3.");
  }
  if (style.explain) {
    page.line("  why: " + proof_text(stage) + ".", 4);
    for (const planner::plan::OrderReason& why : stage.why) {
      page.line("  why: " + words::order_reason_text(plan, why) + ".", 4);
    }
  }
}

void steps_of(const Plan& plan, const Stage& stage, const words::TextStyle& style, Page& page) {
  const std::vector<words::BenchStep> steps = words::bench_steps(stage);
  const StepColumns widths = columns_of(plan, stage, steps);
  const auto mark = [&](double at_s, const std::string& text) {
    page.item(widths.lead("", words::clock_text(at_s), ""), text);
  };
  bool warned = false;
  const auto last_moment = [&] {
    mark(stage.pull_apart_by_s, "PULL IT APART BY NOW, if it is going badly.");
    warned = true;
  };
  for (const words::BenchStep& each : steps) {
    const Step& step = each.step;
    if (!warned && stage.turns_back() && step.start_s > stage.pull_apart_by_s) {
      last_moment();
    }
    page.item(widths.lead(number_text(each), words::clock_text(step.start_s),
                          words::who_text(plan, step)),
              step_sentence(plan, stage, step, style.wording));
    if (const std::string why = words::step_reason_text(plan, step.why);
        style.explain && !why.empty()) {
      page.item(widths.lead("", "", ""), "why: " + why);
    }
  }
  if (!warned && stage.turns_back()) {
    last_moment();
  }
  mark(stage.makespan_s, stage.clamps.empty() && plan.verdict.pressure == planner::plan::Level::short_of_hold ? "All is together."
                         : stage.clamps.empty()     ? "All is held."
                         : style.wording.uk_words ? "All cramps tight."
                                                  : "All clamps tight.");
}

}  // namespace

void glue_up_section(const Plan& plan, const words::TextStyle& style, Page& page) {
  for (std::size_t i = plan.stages_done; i < plan.stages.size(); ++i) {
    const Stage& stage = plan.stages[i];
    const std::string title =
        plan.stages.size() == 1 ? "GLUE UP" : "GLUE UP, stage " + words::stage_title(plan, i);
    if (stage.steps.empty()) {
      page.heading(title);
      page.line("  There is no order to go by: see WHY NOT.");
      continue;
    }
    const std::string setting = setting_text(stage, style);
    if (plan.stages.size() == 1) {
      page.heading(title + ", " + setting);
    } else {
      page.heading(title);
      page.line("  " + words::as_sentence(setting));
    }
    stage_intro(plan, stage, style, page);
    steps_of(plan, stage, style, page);
    if (i + 1 < plan.stages.size()) {
      page.line("  " + between_text(plan, i, style.wording), 2);
    }
    if (style.details) {
      timeline_section(plan, i, page);
    }
  }
}

}  // namespace cli::text
