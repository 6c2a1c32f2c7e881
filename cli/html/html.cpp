#include "cli/html/html.h"

#include <algorithm>

#include <fmt/format.h>

#include "cli/html/html_clamps.h"
#include "cli/html/html_pictures.h"
#include "cli/html/html_sections.h"
#include "cli/html/svg_exploded.h"
#include "cli/html/svg_strips.h"
#include "cli/model/lists.h"
#include "cli/model/verdict.h"
#include "cli/model/wait_list.h"
#include "cli/pictures/step_picture.h"
#include "cli/pictures/turning.h"
#include "cli/words/sentences.h"
#include "cli/words/trade_words.h"
#include "cli/words/verdict_words.h"

namespace cli::html {
namespace {

using planner::plan::Plan;

std::string policy(Paper paper) {
  return fmt::format(
      "default-src 'none'; script-src '{}'; style-src '{}' '{}'; base-uri 'none'; "
      "form-action 'none'",
      bench_js().policy_hash, bench_css().policy_hash, page_css(paper).policy_hash);
}

void head(const Plan& plan, Paper paper, Markup& html) {
  html.raw("<!doctype html>\n").open("html", {{"lang", plan.uk_words ? "en-GB" : "en-US"}});
  html.open("head");
  html.lone("meta", {{"charset", "utf-8"}});
  html.lone("meta", {{"http-equiv", "Content-Security-Policy"}, {"content", policy(paper)}});
  html.lone("meta", {{"name", "viewport"}, {"content", "width=device-width, initial-scale=1"}});
  html.element("title", plan.title.empty() ? "Glue-up" : plan.title + ": glue-up");
  for (const Embedded& css : {bench_css(), page_css(paper)}) {
    html.open("style").raw(std::string(css.text)).close();
  }
  html.close();
}

// Told by shape as well as by word and colour: a tick in a disc, a bang in a triangle, a bar in an octagon.
struct Sign {
  const char *kind, *shape, *mark;
};
Sign sign_of(const Plan& plan) {
  if (!plan.verdict.ok) {
    return {"stop", "M16 3h16l13 13v16L32 45H16L3 32V16z", "M12 24h24"};
  }
  if (plan.verdict.comfort != planner::plan::Comfort::comfortable) {
    return {"tight", "M24 3l22 40H2z", "M24 17v13m0 6v1"};
  }
  return {"go", "M24 3a21 21 0 1 0 .1 0z", "M13 25l8 8 15-17"};
}

void banner(const Plan& plan, Markup& html) {
  const model::Headline line = model::headline(plan);
  const Sign sign = sign_of(plan);
  html.open("header", {{"class", std::string("banner ") + sign.kind}}).open("div");
  html.element("h1", plan.title.empty() ? "Glue-up" : plan.title);
  html.open("p", {{"class", "verdict"}});
  html.open("svg", {{"class", "sign"}, {"viewBox", "0 0 48 48"}, {"aria-hidden", "true"}});
  html.lone("path", {{"class", "ground"}, {"d", sign.shape}});
  html.lone("path", {{"class", "stroke"}, {"d", sign.mark}}).close();
  html.open("span").element("strong", line.word).text(": " + line.rest.front()).close();
  html.close().close();
  const std::optional<planner::work::JointId> tightest = model::tightest_joint(plan);
  html.open("div", {{"class", "hero"}}).raw(pictures::hero_picture(plan, tightest));
  if (tightest) {
    html.element("p", "Heavy lines: " + words::joint_text(plan, *tightest) + ", least time to spare.");
  }
  html.close().close();
}

void matters(const std::vector<model::Matter>& all, Markup& html) {
  html.open("dl");
  for (const model::Matter& matter : all) {
    html.open("div").element("dt", matter.label).element("dd", matter.wordings.front()).close();
  }
  html.close();
}

// The figures that one decides by stand in a row, the rest folds.
void verdict(const Plan& plan, const words::TextStyle& style, Markup& html) {
  banner(plan, html);
  html.open("section", {{"id", "verdict"}, {"aria-label", "Verdict"}});
  std::vector<model::Matter> first, rest;
  for (const model::Matter& matter : model::verdict_matters(plan, style)) {
    const std::string& label = matter.label;
    const bool folds = label == "Glue" || label == "Order" || label == "Set jaws" || label == "Square";
    (folds ? rest : first).push_back(matter);
  }
  matters(first, html);
  if (!plan.verdict.ok) {
    list("Why not", words::reason_texts(plan), html);
  }
  if (!plan.verdict.ways_out.empty()) {
    html.element("h2", plan.verdict.ok ? "Choices" : "Ways out").open("ol");
    for (const std::string& way : model::way_texts(plan)) {
      html.element("li", way);
    }
    html.close();
  }
  if (!rest.empty()) {
    open_fold("h2", "More of the plan", html);
    matters(rest, html);
    html.close();
  }
  html.close();
}

void folded_list(const char* title, const std::vector<std::string>& items, Markup& html) {
  open_fold("h2", title, html);
  html.open("ul");
  for (const std::string& item : items) {
    html.element("li", words::as_sentence(item));
  }
  html.close().close();
}

// What keeps from harm stays in sight.
void after(const Plan& plan, const words::TextStyle& style, Markup& html) {
  const model::WatchOut watch = model::watch_out_parted(plan, style);
  html.open("section", {{"id", "after"}, {"aria-label", "If it goes wrong, and afterwards"}});
  if (!watch.harm.empty()) {
    list("Safety", watch.harm, html);
  }
  html.open("div", {{"class", "rescue"}});
  folded_list("If it goes wrong", model::rescue_items(plan, style), html);
  html.close();
  folded_list("Wait", model::wait_items(plan, style), html);
  if (!watch.rest.empty()) {
    folded_list("Watch out", watch.rest, html);
  }
  html.close();
}

// Empty until the script fills it: without one, the steps below and a kitchen clock do.
// A plan that can't work gets no clock but for a dry rehearsal.
void clock(const Plan& plan, Markup& html) {
  html.open("section", {{"id", "clock"},
                        {"aria-label", "Clock"},
                        {"data-ok", plan.verdict.ok ? "yes" : "no"},
                        {"hidden", "hidden"}});
  html.close();
}

// For the script too: it draws what the attribute holds.
void turning(const Plan& plan, Markup& html) {
  if (plan.stages.empty()) {
    return;
  }
  html.open("figure", {{"id", "turn"},
                       {"data-model", pictures::turning_model(plan, pulled_apart(plan))},
                       {"hidden", "hidden"}});
  html.close();
}

}  // namespace

std::string html_sheet(const Plan& plan, const words::TextStyle& style, Paper paper) {
  Markup html;
  head(plan, paper, html);
  html.open("body", {{"data-clamp", words::clamp_noun(style.wording)}});
  html.raw(svg_patterns());
  verdict(plan, style, html);
  html.open("main");
  checklist_section(plan, style, html);
  clock(plan, html);
  turning(plan, html);
  for (std::size_t i = plan.stages_done; i < plan.stages.size(); ++i) {
    stage_section(plan, i, style, html);
  }
  pressure_figures(plan, style, html);
  placed_figures(plan, style, html);
  after(plan, style, html);
  strips_section(plan, style, html);
  html.close();
  html.open("script").raw(std::string(bench_js().text)).close();
  html.close().close();
  return html.str();
}

}  // namespace cli::html
