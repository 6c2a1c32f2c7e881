#include <algorithm>
#include <filesystem>

#include <fmt/format.h>

#include "cli/commands/commands.h"
#include "cli/commands/planned.h"
#include "cli/model/verdict.h"
#include "cli/terminal/output.h"
#include "cli/terminal/progress.h"
#include "cli/text/page.h"
#include "cli/words/trade_words.h"
#include "cli/words/verdict_words.h"
#include "planner/advice/next_clamp.h"
#include "planner/make_plan.h"

namespace cli::commands {
namespace {

using planner::advice::ClampPurchase;
using planner::plan::Plan;

struct Job {
  std::string name;
  planner::work::Job job;
};

std::string names_of(const std::vector<std::size_t>& which, const std::vector<Job>& jobs) {
  std::vector<std::string> names;
  for (const std::size_t job : which) {
    names.push_back(words::printable(jobs[job].name));
  }
  return words::list_text(names);
}

void jobs_table(const std::vector<Job>& jobs, const std::vector<Plan>& plans, text::Page& page) {
  text::Table table{{text::Align::left, text::Align::left, text::Align::right, text::Align::right},
                    {{"job", "", "clamps", "short by"}}};
  for (std::size_t i = 0; i < jobs.size(); ++i) {
    int wanted = 0, lacking = 0;
    for (const planner::plan::InventoryRow& row : plans[i].inventory) {
      wanted += row.used + row.short_by;
      lacking += row.short_by;
    }
    table.rows.push_back({words::fullest_that_fits({words::printable(jobs[i].name)}, 40),
                          plans[i].verdict.ok ? model::headline(plans[i]).word : "NO",
                          std::to_string(wanted), lacking == 0 ? "-" : std::to_string(lacking)});
  }
  lay_out(table, 2, page);
  for (std::size_t i = 0; i < jobs.size(); ++i) {
    if (!plans[i].verdict.ok && !plans[i].verdict.reasons.empty()) {
      page.item("-", fmt::format("{}: {}.", words::printable(jobs[i].name),
                                 words::reason_text(plans[i], plans[i].verdict.reasons.front())));
    }
  }
}

std::string purchase_text(const ClampPurchase& clamp, const words::Wording& wording) {
  return fmt::format("{} of {}", words::count_text(clamp.count, clamp_text(clamp.kind, wording)),
                     sold_size_text(clamp.opening_mm, wording));
}

void purchases(const std::vector<ClampPurchase>& buy, const std::vector<Job>& jobs,
               const words::Wording& wording, text::Page& page) {
  constexpr std::size_t kMostTold = 4;
  page.heading("BUY NEXT");
  if (terminal::Progress::stop_asked()) {
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

// All but the shop's own file, which the shell's *.toml has too.
std::vector<std::string> job_files(const terminal::Options& options) {
  const std::optional<std::string> own = shop_file(options);
  std::vector<std::string> files = options.jobs;
  std::erase_if(files, [&own](const std::string& path) {
    std::error_code ignored;
    return own && std::filesystem::equivalent(path, *own, ignored);
  });
  return files;
}

}  // namespace

terminal::ExitStatus run_clamps_of_jobs(const terminal::Options& options) {
  std::vector<Job> jobs;
  std::vector<Plan> plans;
  std::optional<planner::work::Shop> shop;
  for (const std::string& path : job_files(options)) {
    terminal::Options one = options;
    one.job = path;
    PlannedJob planned = plan_job(one);
    if (!planned.plan) {
      return planned.status;
    }
    if (planned.plan->verdict.stopped) {
      terminal::complain("glueup: stopped before all jobs were planned; nothing was written\n");
      return terminal::ExitStatus::interrupted;
    }
    jobs.push_back({path, std::move(*planned.inputs.job)});
    plans.push_back(std::move(*planned.plan));
    shop = std::move(planned.inputs.shop);
  }
  if (jobs.empty()) {
    terminal::complain("glueup: no job among these files, only the shop's\n");
    return terminal::ExitStatus::bad_input;
  }
  if (shop->unlimited_rack) {
    terminal::complain(
        "glueup: no clamps in a shop file to compare with; glueup new shop writes one\n");
    return terminal::ExitStatus::bad_input;
  }
  planner::stage::PlanOptions options_of_trial;
  options_of_trial.stop = terminal::Progress::stop_asked;
  const auto works = [&](std::size_t job, const planner::work::Shop& with) {
    const auto planned = planner::make_plan(jobs[job].job, with, options_of_trial);
    return planned.plan && planned.plan->verdict.ok;
  };
  words::TextStyle style = style_for(options);
  style.wording.units = options.units.value_or(plans.front().units);
  style.wording.uk_words = plans.front().uk_words;
  const auto good =
      std::count_if(plans.begin(), plans.end(), [](const Plan& plan) { return plan.verdict.ok; });
  text::Page page(style.colour);
  page.line(fmt::format("{} of {} jobs work with this rack.", good, jobs.size()));
  jobs_table(jobs, plans, page);
  const bool all = good == static_cast<std::ptrdiff_t>(jobs.size());
  if (!all) {
    const terminal::Progress progress("trying clamps:", options.quiet);
    const auto buy = planner::advice::clamps_to_buy(plans, *shop, works);
    purchases(buy, jobs, style.wording, page);
  }
  if (!terminal::print(page.text())) {
    return terminal::ExitStatus::bad_input;
  }
  if (terminal::Progress::stop_asked()) {
    return terminal::ExitStatus::interrupted;
  }
  return all ? terminal::ExitStatus::works : terminal::ExitStatus::does_not_work;
}

}  // namespace cli::commands
