#include "cli/html/html_pictures.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "cli/html/svg_clamps.h"
#include "cli/html/svg_edge_strips.h"
#include "cli/html/svg_exploded.h"
#include "cli/html/svg_parts.h"
#include "cli/html/svg_strips.h"
#include "cli/pictures/situation.h"
#include "cli/pictures/strip_key.h"
#include "cli/words/sentences.h"
#include "cli/words/trade_words.h"

namespace cli::html {
namespace {

using planner::plan::Plan;
using planner::plan::Stage;
using planner::work::Joint;
using planner::work::JointId;
using planner::work::PartId;

std::string lettered_names(const Plan& plan, const Stage& stage) {
  std::vector<std::string> names;
  const std::map<PartId, std::string> letters = pictures::part_letters(plan);
  for (const PartId id : placing_order(stage)) {
    names.push_back(fmt::format("{} {}", letters.at(id), words::part_name(plan, id)));
  }
  return words::list_text(names);
}

// "1 (left) and 3 (bottom)": the part's joints of the stage that it gets glue for, or not.
std::string joints_on(const Plan& plan, const Stage& stage, PartId id, bool spread) {
  std::vector<std::string> texts;
  for (const JointId joint_id : stage.joints) {
    const Joint& joint = plan.joints[joint_id];
    const std::size_t side = joint.parts[0] == id ? 0 : 1;
    if (joint.glued && joint.parts[side] == id && joint.spread[side] == spread) {
      texts.push_back(
          fmt::format("{} ({})", joint_id + 1, words::part_name(plan, joint.parts[1 - side])));
    }
  }
  return texts.empty() ? "" : words::list_text(texts);
}

void strips_of_stage(const Plan& plan, const Stage& stage, const words::TextStyle& style,
                     Markup& html) {
  for (const model::EdgeStrip& strip : model::edge_strips(plan, stage, style.wording)) {
    html.open("figure").open("div", {{"class", "where"}});
    html.raw(pictures::strip_key(plan, stage, strip)).open("figcaption");
    for (const std::string& place : strip.places) {
      html.element("div", words::as_sentence(place));
    }
    html.close().close();
    for (const std::string& piece : strip_pieces_svg(strip, style.wording)) {
      html.raw(piece);
    }
    html.close();
  }
}

// Too slender to be drawn at half a column's width.
bool is_long(const planner::plan::PlanPart& part) {
  return part.size_mm[0] > 4 * part.size_mm[1];
}

// As the table of clamps words it.
std::string way_word(const Stage& stage, const geometry::Direction& way) {
  const auto first = std::find_if(
      stage.clamps.begin(), stage.clamps.end(),
      [&](const planner::plan::PlannedClamp& clamp) { return presses_along(clamp, way); });
  return words::clamp_way(*first);
}

void order_pictures(const Plan& plan, const Stage& stage, Markup& html) {
  const bool folds =
      std::any_of(stage.steps.begin(), stage.steps.end(),
                  [](const planner::plan::Step& step) { return step.motion && step.motion->fold; });
  figure(exploded_svg(plan, stage),
         fmt::format("The order: {}. Hatched: spread glue there.{}", lettered_names(plan, stage),
                     folds ? " What folds comes round its corner, as its step says; its arrow "
                             "points the way it shuts."
                           : ""),
         html, "order");
  figure(timeline_svg(plan, stage),
         "Who does what when. Slanted: spread; solid: join; lined: press; white: check or wait. "
         "Below, thick: wet and open; thin: together, not yet pressed; strokes: the glue's limits.",
         html);
}

}  // namespace

void figure(const std::string& svg, const std::string& caption, Markup& html, const char* kind) {
  *kind == '\0' ? html.open("figure") : html.open("figure", {{"class", kind}});
  html.raw(svg).element("figcaption", caption).close();
}

void clamp_pictures(const Plan& plan, const Stage& stage, const words::TextStyle& style,
                    Markup& html) {
  const char* key = " Box: pad, dotted where it only brings home; dashed: caul; shaded: bar.";
  for (const geometry::Direction& way : clamp_ways(stage)) {
    figure(clamp_view_svg(plan, stage, way, style.wording),
           fmt::format("{} that press {}, seen {}, to scale; {} from the front-left-bottom corner, all of "
                       "them in the table.{}",
                       style.wording.uk_words ? "Cramps" : "Clamps", way_word(stage, way),
                       seen_text(way),
                       style.wording.units == planner::base::Units::inch ? "inches" : "mm", key),
           html);
    key = "";  // told once
  }
}

void stage_pictures(const Plan& plan, const Stage& stage, Markup& html) {
  html.open("div", {{"class", "pictures"}});
  if (!stage.steps.empty()) {
    order_pictures(plan, stage, html);
  }
  html.close();
}

void spreading_section(const Plan& plan, const Stage& stage, Markup& html) {
  html.element(
      "p",
      "Each part with its edges and ends folded out. Hatched: spread, and in a cut its walls "
      "too; dashed: stays dry, "
      "its mate is spread. Pencil the marks on both parts of a joint at the dry fit: A "
      "meets A, B meets B.");
  html.open("div", {{"class", "pictures spread"}});
  for (const PartId id : spread_parts(plan, stage)) {
    const std::string dry = joints_on(plan, stage, id, false);
    figure(opened_part_svg(plan, stage, id),
           fmt::format("{}: spread {}{}.", words::part_name(plan, id),
                       joints_on(plan, stage, id, true), dry.empty() ? "" : "; dry " + dry),
           html, is_long(plan.parts[id]) ? "long" : "");
  }
  html.close();
}

void strips_section(const Plan& plan, const words::TextStyle& style, Markup& html) {
  const bool any = std::any_of(plan.stages.begin(), plan.stages.end(), [&](const Stage& stage) {
    return !model::edge_strips(plan, stage, style.wording).empty();
  });
  if (!any) {
    return;
  }
  html.open("section", {{"id", "strips"}, {"aria-label", "Rulers at full size"}});
  html.element("p", {{"class", "on-screen"}},
               "Full-size rulers come with the printed sheet: print at 100 %.");
  html.open("div", {{"class", "on-paper"}});
  html.element("h2", "Paper rulers to lay along the edges, at full size");
  html.element("p",
               "Printed at 100 %? Hold a rule against this one first. Cut out, lay the middle line "
               "where it says and 0 at the end it says; a long edge takes several pieces, each "
               "begins at the measure on its left. The small drawing shows where it lies. Its 0 is the table's, unless it "
               "says what the table has there: it is the end of the part that it lies on, as the rest may not be "
               "there yet.");
  html.raw(check_rule_svg());
  for (std::size_t i = 0; i < plan.stages.size(); ++i) {
    if (plan.stages.size() > 1 &&
        !model::edge_strips(plan, plan.stages[i], style.wording).empty()) {
      html.element("h3", fmt::format("Stage {}", i + 1));
    }
    strips_of_stage(plan, plan.stages[i], style, html);
  }
  html.close().close();
}

}  // namespace cli::html
