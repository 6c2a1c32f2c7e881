#include "cli/calendar/calendar.h"
#include "cli/commands/commands.h"
#include "cli/commands/planned.h"
#include "cli/html/html.h"
#include "cli/json/json.h"
#include "cli/terminal/output.h"
#include "cli/text/text.h"
#include "cli/text/text_check.h"
#include "planner/files/job_text.h"

namespace cli::commands {
namespace {

using planner::plan::Plan;

words::TextStyle style_of(const Plan& plan, const terminal::Options& options) {
  words::TextStyle style = style_for(options);
  style.wording.units = plan.units;
  style.wording.uk_words = plan.uk_words;
  return style;
}

std::string sheet_of(const PlannedJob& planned, const terminal::Options& options) {
  const Plan& plan = *planned.plan;
  const words::TextStyle style = style_of(plan, options);
  switch (options.command) {
    case words::Command::clamps:
      return text::clamps_sheet(plan, style);
    case words::Command::glue:
      return text::glue_sheet(plan, planned.glue_trials, style);
    case words::Command::check:
      return options.expand ? planner::files::job_text(*planned.inputs.job)
                            : text::check_sheet(plan, style);
    case words::Command::plan:
    case words::Command::create:
    case words::Command::rehearse:
    case words::Command::dry_fit:
    case words::Command::page:
    case words::Command::tables:
      break;
  }
  return text::text_sheet(plan, style);
}

bool put_out(const PlannedJob& planned, const terminal::Options& options) {
  const Plan& plan = *planned.plan;
  if (options.json && !terminal::put_json(*options.json, json::json_sheet(plan))) {
    return false;
  }
  if (options.sheet && !terminal::put_html(*options.sheet, html_sheet(plan, style_of(plan, options),
                                                                      options.paper))) {
    return false;
  }
  if (options.calendar) {
    const auto day = std::chrono::local_days(*options.start_day);
    if (!terminal::put_calendar(*options.calendar,
                                calendar::calendar_file(plan, style_of(plan, options),
                                                        day + std::chrono::minutes(*options.start_minute)))) {
      return false;
    }
  }
  return options.json == "-" || options.calendar == "-" || options.sheet == "-" || terminal::print(sheet_of(planned, options));
}

// Of the user's own clamps that is asked whether they do.
bool works(const Plan& plan, words::Command command) {
  return command == words::Command::check ||
         (command == words::Command::clamps && plan.placed ? plan.placed->holds : plan.verdict.ok);
}

}  // namespace

terminal::ExitStatus run_job(const terminal::Options& options) {
  const PlannedJob planned = plan_job(options);
  if (!planned.plan) {
    return planned.status;
  }
  if (!put_out(planned, options)) {
    return terminal::ExitStatus::bad_input;
  }
  if (planned.plan->verdict.stopped) {
    return terminal::ExitStatus::interrupted;
  }
  return works(*planned.plan, options.command) ? terminal::ExitStatus::works
                                               : terminal::ExitStatus::does_not_work;
}

}  // namespace cli::commands
