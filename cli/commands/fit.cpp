#include "planner/fit.h"

#include "cli/commands/commands.h"
#include "cli/commands/inputs.h"
#include "cli/output.h"
#include "cli/sheet/fit_sheet.h"

namespace cli {
namespace {

// What was measured at the bench just now stands in for what the file says.
void apply(const Options& options, planner::Job& job) {
  const auto lengths = [&](const std::vector<std::string>& texts) {
    std::vector<planner::Length> out;
    for (const std::string& text : texts) {
      out.push_back(*planner::length_from(text, job.units).value);  // looked at in option_values
    }
    return out;
  };
  if (options.openings.empty() && options.diagonals.empty()) {
    return;
  }
  if (!job.dry_fit) {
    job.dry_fit.emplace();
    job.dry_fit->place = {job.file, 0, 0};
  }
  if (!options.openings.empty()) {
    job.dry_fit->openings = lengths(options.openings);
  }
  if (!options.diagonals.empty()) {
    job.dry_fit->diagonals = lengths(options.diagonals);
  }
}

}  // namespace

ExitStatus run_fit(const Options& options) {
  // Measured in the file's units, whatever is printed.
  Options as_filed = options;
  as_filed.units.reset();
  Inputs inputs = read_job_input(as_filed);
  if (!inputs.job) {
    complain(diagnostics_text(inputs.diagnostics, inputs, !options.quiet));
    return ExitStatus::bad_input;
  }
  planner::Job& job = *inputs.job;
  apply(options, job);
  job.units = options.units.value_or(job.units);
  const planner::FitAnswer answer = planner::judge_fit(job);
  planner::Diagnostics diagnostics = inputs.diagnostics;
  diagnostics.insert(diagnostics.end(), answer.diagnostics.begin(), answer.diagnostics.end());
  complain(diagnostics_text(diagnostics, inputs, !options.quiet));
  if (!answer.fit) {
    return ExitStatus::bad_input;
  }
  TextStyle style = style_for(options);
  style.wording.units = job.units;
  style.wording.uk_words = job.uk_words;
  if (!print(fit_sheet(job, *answer.fit, style))) {
    return ExitStatus::bad_input;
  }
  return answer.fit->good() ? ExitStatus::works : ExitStatus::does_not_work;
}

}  // namespace cli
