#include "cli/html/html_sections.h"

#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "cli/html/html_clamps.h"
#include "cli/html/html_pictures.h"
#include "cli/model/fetch_list.h"
#include "cli/model/lists.h"
#include "cli/model/wait_list.h"
#include "cli/pictures/situation.h"
#include "cli/pictures/step_picture.h"
#include "cli/words/order_words.h"
#include "cli/words/sentences.h"
#include "cli/words/trade_words.h"
#include "planner/plan/stage_starts.h"

namespace cli::html {
namespace {

using planner::plan::Plan;
using planner::plan::PlannedClamp;
using planner::plan::Stage;
using planner::plan::Step;
using planner::plan::StepKind;

std::string seconds(double s) {
  return fmt::format("{:.0f}", s);
}

void boxes(const char* title, const char* key, const std::vector<std::string>& items,
           Markup& html) {
  html.element("h2", title).open("ul", {{"class", "boxes"}});
  for (std::size_t i = 0; i < items.size(); ++i) {
    html.open("li").open("label");
    html.lone("input", {{"type", "checkbox"}, {"data-key", fmt::format("{}{}", key, i)}});
    html.element("span", words::as_sentence(items[i])).close().close();
  }
  html.close();
}

bool has_joint(const Step& step, planner::work::JointId joint) {
  return std::find(step.joints.begin(), step.joints.end(), joint) != step.joints.end();
}

// The number of the first step of a kind that has the joint; 0 where there is none.
int first_with(const Stage& stage, StepKind kind, planner::work::JointId joint) {
  const auto found = std::find_if(stage.steps.begin(), stage.steps.end(), [&](const Step& step) {
    return step.kind == kind && has_joint(step, joint);
  });
  return found == stage.steps.end() ? 0 : found->n;
}

bool only_seats(const Stage& stage, const Step& round) {
  return std::all_of(stage.clamps.begin(), stage.clamps.end(), [&](const PlannedClamp& clamp) {
    const bool in_round =
        std::find(round.clamps.begin(), round.clamps.end(), clamp.n) != round.clamps.end();
    return !in_round || clamp.level == planner::plan::Level::seat;
  });
}

// The number of the round after which the joint is held: the last that presses it with more than
// seating clamps, or else the last at all.
int held_by(const Stage& stage, planner::work::JointId joint) {
  int holding = 0, any = 0;
  for (const Step& step : stage.steps) {
    if (step.kind == StepKind::snug && has_joint(step, joint)) {
      any = step.n;
      holding = only_seats(stage, step) ? holding : step.n;
    }
  }
  return holding > 0 ? holding : any;
}

// When each of the plan's steps begins that the line stands for: "78 92".
std::string planned_times(const Stage& stage, const words::BenchStep& line) {
  std::string times;
  for (const Step& step : stage.steps) {
    if (step.n >= line.step.n && step.n <= line.last_n) {
      times += (times.empty() ? "" : " ") + seconds(step.start_s);
    }
  }
  return times;
}

// Of what is snugged or tightened one by one: "3 4 5 6".
std::string clamp_numbers(const Step& step) {
  return step.kind == StepKind::snug || step.kind == StepKind::tighten ? fmt::format("{}", fmt::join(step.clamps, " ")) : "";
}

void steps(const Plan& plan, const Stage& stage, const words::TextStyle& style, Markup& html) {
  html.open("ol", {{"class", plan.people == 2 ? "steps two" : "steps"},
                   {"start", std::to_string(stage.steps.empty() ? 1 : stage.steps.front().n)}});
  const std::vector<words::BenchStep> all = words::bench_steps(stage);
  for (std::size_t i = 0; i < all.size(); ++i) {
    const words::BenchStep& each = all[i];
    const Step& step = each.step;
    html.open("li", {{"id", fmt::format("step-{}", step.n)},
                     {"data-n", std::to_string(step.n)},
                     {"data-last", std::to_string(each.last_n)},
                     {"data-start", seconds(step.start_s)},
                     {"data-end", seconds(step.end_s)},
                     {"data-steps", planned_times(stage, each)},
                     {"data-who", fmt::format("{}", fmt::join(step.people, " "))},
                     {"data-clamps", clamp_numbers(step)}});
    html.element("span", {{"class", "n"}}, number_text(each));
    html.element("time", words::clock_text(step.start_s));
    html.element("span", {{"class", "say"}}, step_sentence(plan, stage, step, style.wording));
    if (plan.people > 1) {
      std::vector<std::string> who;
      for (const int person : step.people) {
        who.push_back(std::to_string(person));
      }
      html.element("span", {{"class", "who"}},
                   (who.size() == 1 ? "person " : "persons ") + words::list_text(who));
    }
    if (const std::string why = words::step_reason_text(plan, step.why);
        style.explain && !why.empty()) {
      html.element("span", {{"class", "why"}}, why);
    }
    html.raw(pictures::step_picture(plan, stage, all, i, style.wording));
    html.close();
  }
  html.close();
}

// How the work lies, and when the clock starts.
std::string lying_text(const Plan& plan, const Stage& stage, const words::TextStyle& style) {
  const std::string down = fmt::format("{} down on {}", words::side_word(stage.bench_face),
                                       stage.risers_mm > 0 ? "the risers" : "the bench");
  const bool first = &stage == &plan.stages[plan.stages_done];
  return words::as_sentence(
      style.start_minute && first
          ? fmt::format("{}; the glue is opened at {}", down, words::time_of_day_text(*style.start_minute, 0))
          : down);
}

// A joint's two parts for the clock: where it outlines them in the picture, and where names have no room.
std::string part_numbers(const Plan& plan, planner::work::JointId joint) {
  return fmt::format("{}", fmt::join(plan.joints[joint].parts, " "));
}
std::string part_letters_of(const Plan& plan, planner::work::JointId joint) {
  const auto letters = pictures::part_letters(plan);
  const auto& [a, b] = plan.joints[joint].parts;
  return letters.at(a) + "\u2013" + letters.at(b);
}

// One row a joint, tightest first: its faces' smallest limits.
void limits(const Plan& plan, const Stage& stage, Markup& html) {
  html.open("div", {{"class", "wide"},
                    {"tabindex", "0"},
                    {"role", "region"},
                    {"aria-label", "The glue's limits" + of_stage(plan, stage)}});
  html.open("table", {{"class", "limits"}});
  html.element("caption", "The glue's limits, the joint with least to spare first");
  html.open("thead").open("tr");
  for (const char* title : {"joint", "open", "of", "total", "of"}) {
    html.element("th", {{"scope", "col"}}, title);
  }
  html.close().close().open("tbody");
  std::vector<planner::work::JointId> told;
  for (const planner::plan::FaceLimit& face : stage.limits) {
    if (std::find(told.begin(), told.end(), face.joint) != told.end()) {
      continue;
    }
    told.push_back(face.joint);
    html.open("tr",
              {{"data-joint", words::joint_text(plan, face.joint)},
               {"data-spread", std::to_string(first_with(stage, StepKind::spread, face.joint))},
               {"data-join", std::to_string(first_with(stage, StepKind::join, face.joint))},
               {"data-snug", std::to_string(held_by(stage, face.joint))},
               {"data-open", seconds(face.open_s)},
               {"data-total", seconds(face.total_s)},
               {"data-parts", part_numbers(plan, face.joint)},
               {"data-letters", part_letters_of(plan, face.joint)}});
    html.element("th", {{"scope", "row"}}, words::joint_text(plan, face.joint));
    for (const double s : {face.used_open_s, face.open_s, face.used_total_s, face.total_s}) {
      html.element("td", words::clock_text(s));
    }
    html.close();
  }
  html.close().close().close();
}

}  // namespace

std::string of_stage(const Plan& plan, const Stage& stage) {
  return plan.stages.size() < 2 ? "" : fmt::format(", stage {}", &stage - plan.stages.data() + 1);
}

void list(const char* title, const std::vector<std::string>& items, Markup& html) {
  html.element("h2", title).open("ul");
  for (const std::string& item : items) {
    html.element("li", words::as_sentence(item));
  }
  html.close();
}

void open_fold(const char* level, const std::string& title, Markup& html) {
  html.open("details", {{"class", "fold"}, {"open", "open"}});
  html.open("summary").element(level, title).close();
}

void checklist_section(const Plan& plan, const words::TextStyle& style, Markup& html) {
  html.open("section", {{"id", "ready"}, {"aria-label", "Before the glue is opened"}});
  boxes("Fetch", "fetch", model::fetch_items(plan, style), html);
  boxes("Dry fit", "dry", model::dry_fit_items(plan, style), html);
  if (const auto items = model::just_before_items(plan); !items.empty()) {
    boxes("Just before", "before", items, html);
  }
  html.close();
}

void stage_section(const Plan& plan, std::size_t index, const words::TextStyle& style,
                   Markup& html) {
  const Stage& stage = plan.stages[index];
  const std::string title = plan.stages.size() == 1
                                ? "Glue up"
                                : "Stage " + words::stage_title(plan, index);
  html.open("section", {{"class", "stage"},
                        {"data-n", std::to_string(index + 1)},
                        {"aria-label", title},
                        {"data-pull-apart-by", seconds(stage.pull_apart_by_s)},
                        {"data-clamp-time", seconds(clamps_off_s(plan, stage))},
                        {"data-squeeze-out", seconds(model::squeeze_out_s(plan).value_or(0))}});
  html.element("h2", title);
  if (stage.steps.empty()) {
    html.element("p", "There is no order to go by: see Why not.");
  } else {
    html.element("p", lying_text(plan, stage, style));
    html.element("p", {{"class", "by"}},
                 stage.turns_back() ? fmt::format("Pull it apart by {} if it is going badly.",
                                                  words::clock_text(stage.pull_apart_by_s))
                                    : "It can be pulled apart until all is tight.");
    steps(plan, stage, style, html);
  }
  if (index + 1 < plan.stages.size()) {
    html.element("p", between_text(plan, index, style.wording));
  }
  const std::string of = of_stage(plan, stage);
  open_fold("h3", "All of it at once" + of, html);
  stage_pictures(plan, stage, html);
  html.close();
  open_fold("h3", (style.wording.uk_words ? "Where the cramps go" : "Where the clamps go") + of, html);
  html.open("div", {{"class", "pictures"}});
  clamp_pictures(plan, stage, style, html);
  html.close();
  clamp_table(plan, stage, style, html);
  html.close();
  open_fold("h3", "What to spread" + of, html);
  spreading_section(plan, stage, html);
  html.close();
  open_fold("h3", "The glue's limits" + of, html);
  limits(plan, stage, html);
  html.close().close();
}

}  // namespace cli::html
