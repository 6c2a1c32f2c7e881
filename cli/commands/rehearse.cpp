#include <cerrno>
#include <cstring>
#include <filesystem>

#include <fmt/format.h>

#include "cli/commands/commands.h"
#include "cli/commands/planned.h"
#include "cli/rehearse/rehearsal_session.h"
#include "cli/terminal/file_text.h"
#include "cli/terminal/output.h"
#include "cli/terminal/questions.h"
#include "cli/text/page.h"
#include "planner/rehearsal/learned_pace.h"

namespace cli::commands {
namespace {

using planner::plan::Plan;
using planner::rehearsal::LogLine;
using planner::rehearsal::PaceChange;

terminal::ExitStatus refuse(const std::string& why) {
  terminal::complain("glueup: " + why + "\n");
  return terminal::ExitStatus::bad_input;
}

std::string log_path(const terminal::Options& options) {
  if (options.log) {
    return *options.log;
  }
  return std::filesystem::path(options.job).replace_extension(".rehearsal.tsv").string();
}

// One step's time means another step's where the plan is another.
std::string of_another_plan(const std::string& path, const std::string& how) {
  return fmt::format("{} is the log of another plan: {}\n  ", path, how);
}

terminal::ExitStatus rehearse(const Plan& plan, const terminal::Options& options,
                              const std::string& path) {
  std::error_code ignored;
  std::string text;
  if (std::filesystem::exists(path, ignored)) {
    terminal::FileText file = terminal::read_file(path);
    if (!file.error.empty()) {
      return refuse(path + ": " + file.error);
    }
    text = std::move(file.text);
  }
  const planner::rehearsal::LogReading log = planner::rehearsal::read_log(path, text);
  if (has_errors(log.diagnostics)) {
    return refuse(path + " is there and is no log of a rehearsal\n  give another name with --log");
  }
  if (const std::string other = rehearse::RehearsalRun::misfit(plan, log.lines); !other.empty()) {
    return refuse(of_another_plan(path, other) + "give another name with --log, or remove it");
  }
  rehearse::RehearsalRun run(plan, log.lines);
  if (run.finished()) {
    return refuse(fmt::format(
        "{} is complete\n  --learn takes its pace over; --log FILE starts another", path));
  }
  if (!rehearse::mend_end(path, text)) {
    return refuse(path + ": can't be written");
  }
  rehearse::RehearsalLog file(path);
  if (!file.open()) {
    return refuse(path + ": can't be written: " + std::strerror(errno));
  }
  if (text.empty()) {
    file.put("# step\tplanned start\tplanned end\tstart\tend\tnote\n");
  }
  const bool in_stage = !run.stage_begins();
  return run_session(plan, options, file, run, rehearse::began_at(text, in_stage));
}

std::string pace_table(const std::vector<PaceChange>& changes) {
  text::Page page(false);
  text::Table table{{text::Align::left, text::Align::right, text::Align::right, text::Align::left},
                    {{"pace", "now", "learned", "from"}}};
  for (const PaceChange& change : changes) {
    table.rows.push_back(
        {change.key, change.old_text, change.new_text,
         words::count_text(change.seen, "step") +
             (change.ignored == 0 ? "" : fmt::format(" ({} far off left out)", change.ignored))});
  }
  lay_out(table, 2, page);
  return page.text();
}

terminal::ExitStatus learn(const PlannedJob& planned, const terminal::Options& options,
                           const std::string& path) {
  const terminal::FileText file = terminal::read_file(path);
  if (!file.error.empty()) {
    return refuse(path + ": " + file.error +
                  "\n  rehearse first: " + rehearse::same_command(options));
  }
  const planner::rehearsal::LogReading log = planner::rehearsal::read_log(path, file.text);
  if (has_errors(log.diagnostics)) {
    return refuse(to_text(log.diagnostics.front()));
  }
  if (const std::string other = rehearse::RehearsalRun::misfit(*planned.plan, log.lines);
      !other.empty()) {
    return refuse(of_another_plan(path, other) +
                  "give the job, shop and people it was written with, or rehearse anew: glueup "
                  "rehearse " +
                  options.job + " --log NEW.tsv");
  }
  const auto changes =
      planner::rehearsal::learn_pace(*planned.plan, log.lines, planned.inputs.shop->pace);
  if (changes.empty()) {
    return refuse(path + " has no finished step to learn from");
  }
  if (!terminal::print(pace_table(changes))) {
    return terminal::ExitStatus::bad_input;
  }
  const std::optional<std::string> shop = shop_file(options);
  if (!shop) {
    return refuse("no shop file to keep the pace in; glueup new shop writes one");
  }
  if (!terminal::agrees(fmt::format("Write the learned pace to {}?", *shop))) {
    terminal::complain("nothing written\n");
    return terminal::ExitStatus::works;
  }
  const auto text = planner::rehearsal::with_pace(*shop, planned.inputs.texts.shop, changes);
  if (!text) {
    return refuse(*shop + ": its [pace] can't be changed safely; write the values in by hand");
  }
  const std::string wrong = terminal::write_file(*shop, *text);
  terminal::complain(wrong.empty() ? *shop + " written\n" : "glueup: " + wrong + "\n");
  return wrong.empty() ? terminal::ExitStatus::works : terminal::ExitStatus::bad_input;
}

}  // namespace

terminal::ExitStatus run_rehearse(const terminal::Options& options) {
  if (options.job == "-" && !options.log) {
    return refuse("a job on standard input leaves no keys to press; give its file");
  }
  const PlannedJob planned = plan_job(options);
  if (!planned.plan) {
    return planned.status;
  }
  if (planned.plan->verdict.stopped) {
    // Another run would find another plan, and the log is of one.
    terminal::complain("glueup: stopped before the plan was done; nothing was written\n");
    return terminal::ExitStatus::interrupted;
  }
  const std::string path = log_path(options);
  return options.learn ? learn(planned, options, path) : rehearse(*planned.plan, options, path);
}

}  // namespace cli::commands
