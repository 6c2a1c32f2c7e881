#include <algorithm>
#include <filesystem>

#include "cli/commands/commands.h"
#include "cli/commands/planned.h"
#include "cli/terminal/output.h"
#include "cli/terminal/progress.h"
#include "cli/text/rack_sheet.h"
#include "planner/advice/next_clamp.h"
#include "planner/make_plan.h"

namespace cli::commands {
namespace {

using planner::plan::Plan;

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
  std::vector<std::string> names;
  std::vector<planner::work::Job> jobs;
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
    names.push_back(path);
    jobs.push_back(std::move(*planned.inputs.job));
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
    const auto planned = planner::make_plan(jobs[job], with, options_of_trial);
    return planned.plan && planned.plan->verdict.ok;
  };
  words::TextStyle style = style_for(options);
  style.wording.units = options.units.value_or(plans.front().units);
  style.wording.uk_words = plans.front().uk_words;
  text::Purchases buy;
  if (!text::all_work(plans)) {
    const terminal::Progress progress("trying clamps:", options.quiet);
    buy.clamps = planner::advice::clamps_to_buy(plans, *shop, works);
    buy.stopped = terminal::Progress::stop_asked();
  }
  if (!terminal::print(text::rack_sheet(names, plans, buy, style))) {
    return terminal::ExitStatus::bad_input;
  }
  if (terminal::Progress::stop_asked()) {
    return terminal::ExitStatus::interrupted;
  }
  return text::all_work(plans) ? terminal::ExitStatus::works : terminal::ExitStatus::does_not_work;
}

}  // namespace cli::commands
