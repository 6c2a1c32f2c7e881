#include "cli/text/rack_sheet.h"

#include <algorithm>

#include <fmt/format.h>

#include "cli/model/verdict.h"
#include "cli/text/page.h"
#include "cli/words/trade_words.h"
#include "cli/words/verdict_words.h"

namespace cli::text {
namespace {

using planner::advice::ClampPurchase;
using planner::plan::Plan;

std::string names_of(const std::vector<std::size_t>& which, const std::vector<std::string>& jobs) {
  std::vector<std::string> names;
  for (const std::size_t job : which) {
    names.push_back(words::printable(jobs[job]));
  }
  return words::list_text(names);
}

void jobs_table(const std::vector<std::string>& jobs, std::span<const Plan> plans, Page& page) {
  Table table{{Align::left, Align::left, Align::right, Align::right},
                    {{"job", "", "clamps", "short by"}}};
  for (std::size_t i = 0; i < jobs.size(); ++i) {
    int wanted = 0, lacking = 0;
    for (const planner::plan::InventoryRow& row : plans[i].inventory) {
      wanted += row.used + row.short_by;
      lacking += row.short_by;
    }
    table.rows.push_back({words::fullest_that_fits({words::printable(jobs[i])}, 40),
                          plans[i].verdict.ok ? model::headline(plans[i]).word : "NO",
                          std::to_string(wanted), lacking == 0 ? "-" : std::to_string(lacking)});
  }
  lay_out(table, 2, page);
  for (std::size_t i = 0; i < jobs.size(); ++i) {
    if (!plans[i].verdict.ok && !plans[i].verdict.reasons.empty()) {
      page.item("-", fmt::format("{}: {}.", words::printable(jobs[i]),
                                 words::reason_text(plans[i], plans[i].verdict.reasons.front())));
    }
  }
}

std::string purchase_text(const ClampPurchase& clamp, const words::Wording& wording) {
  return fmt::format("{} of {}", words::count_text(clamp.count, clamp_text(clamp.kind, wording)),
                     sold_size_text(clamp.opening_mm, wording));
}

void purchases(const std::vector<ClampPurchase>& buy, bool stopped,
               const std::vector<std::string>& jobs, const words::Wording& wording, Page& page) {
  constexpr std::size_t kMostTold = 4;
  page.heading("BUY NEXT");
  if (stopped) {
    page.line("  Stopped before every clamp was tried: there may be a better one.");
  } else if (buy.empty()) {
    page.line("  No one kind and size of clamp turns a no into a yes; see each job's ways out.", 2);
  }
  for (std::size_t i = 0; i < buy.size() && i < kMostTold; ++i) {
    page.item(
        std::to_string(i + 1) + ".",
        fmt::format("{}: then {} {}.", purchase_text(buy[i], wording), names_of(buy[i].mends, jobs),
                    buy[i].mends.size() == 1 ? "works too" : "work too"));
  }
}

}  // namespace

bool all_work(std::span<const Plan> plans) {
  return std::all_of(plans.begin(), plans.end(), [](const Plan& plan) { return plan.verdict.ok; });
}

std::string rack_sheet(const std::vector<std::string>& jobs, std::span<const Plan> plans,
                       const Purchases& buy, const words::TextStyle& style) {
  const auto good =
      std::count_if(plans.begin(), plans.end(), [](const Plan& plan) { return plan.verdict.ok; });
  Page page(style.colour);
  page.line(fmt::format("{} of {} jobs work with this rack.", good, jobs.size()));
  jobs_table(jobs, plans, page);
  if (!all_work(plans)) {
    purchases(buy.clamps, buy.stopped, jobs, style.wording, page);
  }
  return page.text();
}

}  // namespace cli::text
