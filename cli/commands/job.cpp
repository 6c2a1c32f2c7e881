#include <fmt/format.h>

#include "cli/commands/commands.h"
#include "cli/commands/inputs.h"
#include "cli/output.h"
#include "cli/sheet/html.h"
#include "cli/sheet/json.h"
#include "cli/sheet/text.h"
#include "planner/make_plan.h"
#include "planner/verify_plan.h"

namespace cli {
namespace {

using planner::Plan;

ExitStatus tell_bad_input(const Options& options, const Inputs& inputs,
                          const planner::Diagnostics& diagnostics) {
  complain(diagnostics_text(diagnostics, inputs, !options.quiet));
  if (options.json == "-") {
    print(json_failure(diagnostics));
  }
  return ExitStatus::bad_input;
}

ExitStatus tell_our_mistake(const Options& options, const std::vector<std::string>& violations) {
  std::string text = "glueup: this plan fails its own check, so it isn't shown:\n";
  for (const std::string& violation : violations) {
    text += "  " + printable(violation) + "\n";
  }
  complain(text + fmt::format("  It is our mistake: please send us {} and the shop file.\n",
                              options.job == "-" ? "the job" : options.job));
  return ExitStatus::our_mistake;
}

TextStyle style_of(const Plan& plan, const Options& options) {
  TextStyle style = style_for(options);
  style.wording.units = plan.units;
  style.wording.uk_words = plan.uk_words;
  return style;
}

std::string sheet_of(const Plan& plan, const Options& options) {
  const TextStyle style = style_of(plan, options);
  switch (options.command) {
    case Command::clamps:
      return clamps_sheet(plan, style);
    case Command::glue:
      return glue_sheet(plan, style);
    case Command::check:
      return check_sheet(plan, style);
    case Command::plan:
    case Command::tables:
      break;
  }
  return text_sheet(plan, style);
}

bool put_out(const Plan& plan, const Options& options) {
  if (options.json && !put_json(*options.json, json_sheet(plan))) {
    return false;
  }
  if (options.sheet &&
      !put_html(*options.sheet, html_sheet(plan, style_of(plan, options), options.paper))) {
    return false;
  }
  return options.json == "-" || options.sheet == "-" || print(sheet_of(plan, options));
}

// Of the user's own clamps that is asked whether they do.
bool works(const Plan& plan, Command command) {
  return command == Command::check ||
         (command == Command::clamps && plan.placed ? plan.placed->holds : plan.verdict.ok);
}

}  // namespace

ExitStatus run_job(const Options& options) {
  const Inputs inputs = read_inputs(options);
  if (!inputs.job || !inputs.shop) {
    return tell_bad_input(options, inputs, inputs.diagnostics);
  }
  const planner::Planned planned = planner::make_plan(
      *inputs.job, *inputs.shop, planner::PlanOptions{options.prove, options.explain});
  planner::Diagnostics diagnostics = inputs.diagnostics;
  diagnostics.insert(diagnostics.end(), planned.diagnostics.begin(), planned.diagnostics.end());
  if (!planned.plan) {
    return tell_bad_input(options, inputs, diagnostics);
  }
  const std::vector<std::string> violations =
      planner::verify_plan(*inputs.job, *inputs.shop, *planned.plan);
  if (!violations.empty()) {
    return tell_our_mistake(options, violations);
  }
  complain(diagnostics_text(diagnostics, inputs, !options.quiet));
  if (!put_out(*planned.plan, options)) {
    return ExitStatus::bad_input;
  }
  return works(*planned.plan, options.command) ? ExitStatus::works : ExitStatus::does_not_work;
}

}  // namespace cli
