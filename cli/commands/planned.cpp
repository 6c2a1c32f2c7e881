#include "cli/commands/planned.h"

#include <fmt/format.h>

#include "cli/commands/first_answer.h"
#include "cli/json/json.h"
#include "cli/terminal/output.h"
#include "cli/terminal/progress.h"
#include "cli/words/words.h"
#include "planner/from_stage.h"
#include "planner/make_plan.h"
#include "planner/verify/verify_plan.h"

namespace cli::commands {
namespace {

terminal::ExitStatus tell_bad_input(const terminal::Options& options, const Inputs& inputs,
                                    const planner::base::Diagnostics& diagnostics) {
  terminal::complain(text::mistakes_text(diagnostics, inputs.texts, !options.quiet));
  if (options.json == "-") {
    terminal::print(json::json_failure(diagnostics));
  }
  return terminal::ExitStatus::bad_input;
}

terminal::ExitStatus tell_program_fault(const terminal::Options& options,
                                      const std::vector<std::string>& violations) {
  std::string text = "glueup: this plan fails its own check, so it isn't shown:\n";
  for (const std::string& violation : violations) {
    text += "  " + words::printable(violation) + "\n";
  }
  terminal::complain(text +
                     fmt::format("  It is a program fault: please send us {} and the shop file.\n",
                                 options.job == "-" ? "the job" : options.job));
  return terminal::ExitStatus::program_fault;
}

// What `check` prints is in the drawing; a program is told of the whole plan.
bool drawing_only(const terminal::Options& options) {
  return options.command == words::Command::check && !options.json;
}

planner::Planned planned_with_progress(const terminal::Options& options, const Inputs& inputs) {
  terminal::Progress progress(
      fmt::format("planning {}:", options.job == "-" ? "the job" : words::printable(options.job)),
      options.quiet);
  planner::stage::PlanOptions wanted;
  wanted.prove = options.no_limit;
  wanted.goal = options.full ? planner::plan::Level::full : planner::plan::Level::hold;
  wanted.stages = options.stages;
  wanted.explain = options.explain;
  wanted.try_glues = options.command == words::Command::glue;
  wanted.drawing_only = drawing_only(options);
  wanted.stop = terminal::Progress::stop_asked;
  const FirstAnswer first(inputs, wanted, progress);
  return planner::make_plan(*inputs.job, *inputs.shop, wanted);
}

// Told where there is no such stage.
bool go_on(planner::plan::Plan& plan, std::size_t first, const planner::work::Shop& shop) {
  const std::size_t stages = plan.stages.size();
  if (first > stages) {
    terminal::complain(fmt::format(
        "glueup: --from-stage {}: {}\n", first,
        stages == 1 ? "it is glued up in one go; leave the option out"
                    : fmt::format("the plan has {} stages; write 2 to {}", stages, stages)));
    return false;
  }
  planner::go_on_from(plan, first, shop);
  return true;
}

}  // namespace

PlannedJob plan_job(const terminal::Options& options) {
  PlannedJob out;
  out.inputs = read_inputs(options);
  const Inputs& inputs = out.inputs;
  if (!inputs.job || !inputs.shop) {
    out.status = tell_bad_input(options, inputs, inputs.diagnostics);
    return out;
  }
  planner::Planned planned = planned_with_progress(options, inputs);
  if (planned.stopped && !planned.plan) {
    terminal::complain(
        "glueup: stopped before a way to put it together was found; nothing was written\n");
    out.status = terminal::ExitStatus::interrupted;
    return out;
  }
  planner::base::Diagnostics diagnostics = inputs.diagnostics;
  append(diagnostics, planned.diagnostics);
  if (!planned.plan) {
    out.status = tell_bad_input(options, inputs, diagnostics);
    return out;
  }
  const std::vector<std::string> violations =
      drawing_only(options)
          ? std::vector<std::string>()
          : planner::verify::verify_plan(*inputs.job, *inputs.shop, *planned.plan);
  if (!violations.empty()) {
    out.status = tell_program_fault(options, violations);
    return out;
  }
  terminal::complain(text::mistakes_text(diagnostics, inputs.texts, !options.quiet));
  if (options.from_stage > 1 && !go_on(*planned.plan, static_cast<std::size_t>(options.from_stage), *inputs.shop)) {
    out.status = terminal::ExitStatus::bad_input;
    return out;
  }
  out.plan = std::move(planned.plan);
  out.glue_trials = std::move(planned.glue_trials);
  return out;
}

}  // namespace cli::commands
