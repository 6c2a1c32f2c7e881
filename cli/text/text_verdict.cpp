#include "cli/text/text_verdict.h"

#include <fmt/format.h>

#include "cli/model/verdict.h"
#include "cli/words/verdict_words.h"

namespace cli::text {

using planner::plan::Plan;

void verdict_section(const Plan& plan, const words::TextStyle& style, Page& page) {
  const model::Headline head = model::headline(plan);
  const Ink ink = !plan.verdict.ok ? Ink::red : head.word == "GO" ? Ink::green : Ink::yellow;
  const int room = kPageWidth - words::columns(head.word) - 2;
  page.inked_line(ink, head.word, ": " + words::fullest_that_fits(head.rest, room));
  constexpr int kLabelWidth = 12;
  for (const model::Matter& matter : model::verdict_matters(plan, style)) {
    if (matter.label == "Square" && !style.details) {
      continue;  // the dry fit, a few lines on, begins with it
    }
    page.line(words::padded(matter.label, kLabelWidth) +
              words::fullest_that_fits(matter.wordings, kPageWidth - kLabelWidth));
  }
}

void ways_out_section(const Plan& plan, Page& page) {
  const planner::plan::Verdict& verdict = plan.verdict;
  if (!verdict.ok && !verdict.reasons.empty()) {
    page.heading("WHY NOT");
    for (const std::string& reason : words::reason_texts(plan)) {
      page.item("-", reason + ".");
    }
  }
  const auto ways = model::way_texts(plan);
  if (!ways.empty()) {
    page.heading(std::string(verdict.ok ? "CHOICES" : "WAYS OUT") + ", least trouble first");
    int n = 0;
    for (const std::string& way : ways) {
      page.item(std::to_string(++n) + ".", way);
    }
  }
}

}  // namespace cli::text
