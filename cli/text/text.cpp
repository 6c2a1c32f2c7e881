#include "cli/text/text.h"

#include <fmt/format.h>

#include "cli/model/brief_lists.h"
#include "cli/model/fetch_list.h"
#include "cli/model/lists.h"
#include "cli/model/wait_list.h"
#include "cli/text/glue_trials.h"
#include "cli/text/text_bench.h"
#include "cli/text/text_clamp_groups.h"
#include "cli/text/text_clamps.h"
#include "cli/text/text_placed.h"
#include "cli/text/text_timeline.h"
#include "cli/text/text_verdict.h"
#include "cli/words/trade_words.h"

namespace cli::text {
namespace {

using planner::plan::Plan;
using planner::work::Joint;

void list_items(const std::string& mark, const std::vector<std::string>& items, Page& page) {
  for (const std::string& item : items) {
    page.item(mark, item);
  }
}

void glue_table(const Plan& plan, const words::TextStyle& style, Page& page) {
  page.heading("GLUE, joint by joint");
  Table table{{Align::left, Align::left, Align::right, Align::right},
              {{"joint", "kind", "area", "glue"}}};
  for (planner::work::JointId id = 0; id < plan.joints.size(); ++id) {
    const Joint& joint = plan.joints[id];
    double grams = 0;
    for (const planner::work::FaceGlue& face : plan.glue.faces) {
      grams += face.joint == id ? face.net_g + face.size_coat_g : 0;
    }
    table.rows.push_back({words::joint_text(plan, id), to_text(joint.kind, style.wording.uk_words),
                          joint.glued ? area_text(joint.glued_area_mm2(), style.wording) : "dry",
                          joint.glued ? words::gram_text(grams) : "-"});
  }
  lay_out(table, 2, page);
}

// A batch that has stood for half its pot life is thrown away, not thinned.
void mix_items(const planner::work::GlueNeed& need, const words::Wording& wording, Page& page) {
  if (!need.mix.empty()) {
    const planner::work::GlueBatch& each = need.mix.front();
    const std::string half = words::duration_text(*need.glue.pot_life_s / 2);
    page.item("-", need.mix.size() == 1
                       ? fmt::format("Mix it by the label's ratio, all at once: spread within {}, "
                                     "half its pot life.",
                                     half)
                       : fmt::format("Mix {} of {} by the label's ratio, one at a time: what is "
                                     "older than {}, half its pot life, is thrown away.",
                                     words::count_text(static_cast<int>(need.mix.size()), "batch"),
                                     glue_text(each.ml, each.g, wording), half));
  }
  if (need.hardener_ready_g > 0) {
    page.item("-", fmt::format("That is the resin, for one face; for the other {} of hardener. "
                               "They meet when the joint closes.",
                               mass_text(need.hardener_ready_g, wording)));
  }
}

void glue_sum(const Plan& plan, const words::TextStyle& style, Page& page) {
  const planner::work::GlueNeed& need = plan.glue;
  const words::Wording& wording = style.wording;
  page.heading("HOW MUCH");
  page.item("-", fmt::format("{} of glue face takes {}{}.", area_text(need.area_mm2, wording),
                             glue_text(need.net_ml, need.net_g, words::Wording{}),
                             need.size_coat_g > 0 ? fmt::format(", {} of it sizing end grain",
                                                                words::gram_text(need.size_coat_g))
                                                  : ""));
  page.item("-", fmt::format("{} for brush, cup and squeeze-out (common practice).",
                             volume_text(need.waste_ml, words::Wording{})));
  page.item("-",
            fmt::format("Have ready: {} of {}.", glue_text(need.ready_ml, need.ready_g, wording),
                        words::glue_name_text(need.glue)));
  mix_items(need, wording, page);
  if (need.glue.left_ml) {
    page.item("-",
              fmt::format("Left in the shop: {}; {}.", volume_text(*need.glue.left_ml, wording),
                          need.enough_left ? "enough" : "NOT ENOUGH"));
  }
  std::vector<std::string> shares;
  for (const auto& [area_mm2, grain] :
       {std::pair(plan.long_mm2, "long grain"), std::pair(plan.cross_mm2, "cross grain"),
        std::pair(plan.end_mm2, "end grain")}) {
    if (area_mm2 > 0) {
      shares.push_back(fmt::format("{} {}", area_text(area_mm2, wording), grain));
    }
  }
  if (!shares.empty()) {
    page.item("-", fmt::format("Of the glue face: {}.", words::list_text(shares)));
  }
}

}  // namespace

namespace {

std::vector<std::string> fetched(const Plan& plan, const words::TextStyle& style) {
  return style.details ? model::fetch_items(plan, style) : model::brief_fetch_items(plan, style);
}

std::vector<std::string> tried_dry(const Plan& plan, const words::TextStyle& style) {
  return style.details ? model::dry_fit_items(plan, style)
                       : model::brief_dry_fit_items(plan, style);
}

// How the clamps go on: a line each, or a group of like ones at a time.
void all_clamps(const Plan& plan, const words::TextStyle& style, Page& page) {
  if (style.details) {
    clamps_section(plan, style, page);
    pressure_section(plan, plan.pressure, style, page);
  } else {
    clamp_groups_section(plan, style, page);
  }
}

void last_lists(const Plan& plan, const words::TextStyle& style, Page& page) {
  page.heading("WAIT");
  list_items("-", style.details ? model::wait_items(plan, style) : model::brief_wait_items(plan, style),
             page);
  if (!style.details) {
    const model::BriefWatchOut watch = model::brief_watch_out(plan, style);
    page.heading(watch.more == 0 ? "WATCH OUT" : fmt::format("WATCH OUT; {} more with --details", watch.more));
    list_items("-", watch.items, page);
    return;
  }
  page.heading("WATCH OUT");
  list_items("-", model::watch_out_items(plan, style), page);
  page.heading("IF IT GOES WRONG");
  list_items("-", model::rescue_items(plan, style), page);
}

}  // namespace

std::string text_sheet(const Plan& plan, const words::TextStyle& style) {
  Page page(style.colour);
  verdict_section(plan, style, page);
  ways_out_section(plan, page);
  page.heading(plan.no_shop_file ? "FETCH: no shop file, so borrow or buy" : "FETCH");
  list_items("[ ]", fetched(plan, style), page);
  page.heading(style.details ? "DRY FIT" : "DRY FIT, in the order below, all pads on");
  list_items("[ ]", tried_dry(plan, style), page);
  glue_up_section(plan, style, page);
  all_clamps(plan, style, page);
  last_lists(plan, style, page);
  return page.text();
}

std::string clamps_sheet(const Plan& plan, const words::TextStyle& style) {
  Page page(style.colour);
  if (plan.placed) {
    placed_section(plan, style, page);
    return page.text();
  }
  verdict_section(plan, style, page);
  ways_out_section(plan, page);
  clamps_section(plan, style, page);
  pressure_section(plan, plan.pressure, style, page);
  return page.text();
}

std::string glue_sheet(const Plan& plan, const std::vector<planner::stage::GlueTrial>& trials,
                       const words::TextStyle& style) {
  Page page(style.colour);
  glue_table(plan, style, page);
  glue_sum(plan, style, page);
  glue_trials_section(plan, trials, style, page);
  return page.text();
}

}  // namespace cli::text
