#include "cli/html/html.h"

#include <algorithm>

#include <fmt/format.h>

#include "cli/html/html_clamps.h"
#include "cli/html/html_pictures.h"
#include "cli/html/html_sections.h"
#include "cli/html/svg_strips.h"
#include "cli/model/lists.h"
#include "cli/model/verdict.h"
#include "cli/model/wait_list.h"
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

void verdict(const Plan& plan, const words::TextStyle& style, Markup& html) {
  const model::Headline line = model::headline(plan);
  html.open("header");
  html.element("h1", plan.title.empty() ? "Glue-up" : plan.title);
  html.open("p", {{"class", "verdict"}}).element("strong", line.word);
  html.text(": " + line.rest.front()).close();
  html.close();
  html.open("section", {{"id", "verdict"}, {"aria-label", "Verdict"}}).open("dl");
  for (const model::Matter& matter : model::verdict_matters(plan, style)) {
    html.open("div").element("dt", matter.label).element("dd", matter.wordings.front()).close();
  }
  html.close();
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
  html.close();
}

// Empty until the script fills it: without one, the steps below and a kitchen clock do.
void clock(Markup& html) {
  html.open("section", {{"id", "clock"}, {"aria-label", "Clock"}, {"hidden", "hidden"}}).close();
}

}  // namespace

std::string html_sheet(const Plan& plan, const words::TextStyle& style, Paper paper) {
  Markup html;
  head(plan, paper, html);
  html.open("body");
  html.raw(svg_patterns());
  verdict(plan, style, html);
  html.open("main");
  checklist_section(plan, style, html);
  clock(html);
  for (std::size_t i = 0; i < plan.stages.size(); ++i) {
    stage_section(plan, i, style, html);
  }
  pressure_figures(plan, style, html);
  placed_figures(plan, style, html);
  html.open("section", {{"id", "after"}, {"aria-label", "If it goes wrong, and afterwards"}});
  html.open("div", {{"class", "rescue"}});
  list("If it goes wrong", model::rescue_items(plan, style), html);
  html.close();
  list("Wait", model::wait_items(plan, style), html);
  list("Watch out", model::watch_out_items(plan, style), html);
  html.close();
  strips_section(plan, style, html);
  html.close();
  html.open("script").raw(std::string(bench_js().text)).close();
  html.close().close();
  return html.str();
}

}  // namespace cli::html
