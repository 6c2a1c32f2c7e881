#include <fmt/format.h>

#include "cli/sheet/text_sections.h"
#include "cli/sheet/verdict.h"

namespace cli {

using planner::Plan;

void verdict_section(const Plan& plan, const TextStyle& style, Page& page) {
  const Headline head = headline(plan);
  const Ink ink = !plan.verdict.ok ? Ink::red : head.word == "TIGHT" ? Ink::yellow : Ink::green;
  const int room = kPageWidth - columns(head.word) - 2;
  page.inked_line(ink, head.word, ": " + fullest_that_fits(head.rest, room));
  constexpr int kLabelWidth = 12;
  for (const Matter& matter : verdict_matters(plan, style)) {
    page.line(padded(matter.label, kLabelWidth) +
              fullest_that_fits(matter.wordings, kPageWidth - kLabelWidth));
  }
}

void ways_out_section(const Plan& plan, Page& page) {
  const planner::Verdict& verdict = plan.verdict;
  if (!verdict.ok && !verdict.reasons.empty()) {
    page.heading("WHY NOT");
    for (const std::string& reason : verdict.reasons) {
      page.item("-", printable(reason) + ".");
    }
  }
  const auto ways = way_texts(verdict);
  if (!ways.empty()) {
    page.heading(std::string(verdict.ok ? "CHOICES" : "WAYS OUT") + ", least trouble first");
    int n = 0;
    for (const std::string& way : ways) {
      page.item(std::to_string(++n) + ".", way);
    }
  }
}

}  // namespace cli
