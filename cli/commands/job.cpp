#include "cli/commands/commands.h"
#include "cli/commands/planned.h"
#include "cli/output.h"
#include "cli/sheet/html.h"
#include "cli/sheet/json.h"
#include "cli/sheet/text.h"
#include "planner/job_text.h"

namespace cli {
namespace {

using planner::Plan;

TextStyle style_of(const Plan& plan, const Options& options) {
  TextStyle style = style_for(options);
  style.wording.units = plan.units;
  style.wording.uk_words = plan.uk_words;
  return style;
}

std::string sheet_of(const PlannedJob& planned, const Options& options) {
  const Plan& plan = *planned.plan;
  const TextStyle style = style_of(plan, options);
  switch (options.command) {
    case Command::clamps:
      return clamps_sheet(plan, style);
    case Command::glue:
      return glue_sheet(plan, planned.glue_trials, style);
    case Command::check:
      return options.expand ? job_text(*planned.inputs.job) : check_sheet(plan, style);
    case Command::plan:
    case Command::create:
    case Command::rehearse:
    case Command::fit:
    case Command::tables:
      break;
  }
  return text_sheet(plan, style);
}

bool put_out(const PlannedJob& planned, const Options& options) {
  const Plan& plan = *planned.plan;
  if (options.json && !put_json(*options.json, json_sheet(plan))) {
    return false;
  }
  if (options.sheet &&
      !put_html(*options.sheet, html_sheet(plan, style_of(plan, options), options.paper))) {
    return false;
  }
  return options.json == "-" || options.sheet == "-" || print(sheet_of(planned, options));
}

// Of the user's own clamps that is asked whether they do.
bool works(const Plan& plan, Command command) {
  return command == Command::check ||
         (command == Command::clamps && plan.placed ? plan.placed->holds : plan.verdict.ok);
}

}  // namespace

ExitStatus run_job(const Options& options) {
  const PlannedJob planned = plan_job(options);
  if (!planned.plan) {
    return planned.status;
  }
  if (!put_out(planned, options)) {
    return ExitStatus::bad_input;
  }
  if (planned.plan->verdict.stopped) {
    return ExitStatus::interrupted;
  }
  return works(*planned.plan, options.command) ? ExitStatus::works : ExitStatus::does_not_work;
}

}  // namespace cli
