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
  if (!verdict.ways_out.empty()) {
    page.heading("WAYS OUT, least trouble first");
    int n = 0;
    for (const planner::WayOut& way : verdict.ways_out) {
      page.item(std::to_string(++n) + ".",
                as_sentence(fmt::format("{}: {}{}", printable(way.what), printable(way.gain),
                                        way.mends ? " (then it works)" : "")));
    }
  }
}

}  // namespace cli
