#include "cli/commands/commands.h"
#include "cli/commands/inputs.h"
#include "cli/terminal/output.h"
#include "cli/text/fit_sheet.h"
#include "planner/dry_fit/fit.h"

namespace cli::commands {
namespace {

// What was measured at the bench just now stands in for what the file says.
void apply(const terminal::Options& options, planner::work::Job& job) {
  const auto lengths = [&](const std::vector<std::string>& texts) {
    std::vector<geometry::Length> out;
    for (const std::string& text : texts) {
      out.push_back(
          *planner::base::length_from(text, job.units).value);  // looked at in option_values
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

terminal::ExitStatus run_dry_fit(const terminal::Options& options) {
  // Measured in the file's units, whatever is printed.
  terminal::Options as_filed = options;
  as_filed.units.reset();
  Inputs inputs = read_job_input(as_filed);
  if (!inputs.job) {
    terminal::complain(text::mistakes_text(inputs.diagnostics, inputs.texts, !options.quiet));
    return terminal::ExitStatus::bad_input;
  }
  planner::work::Job& job = *inputs.job;
  apply(options, job);
  job.units = options.units.value_or(job.units);
  const planner::dry_fit::FitAnswer answer = planner::dry_fit::judge_fit(job);
  planner::base::Diagnostics diagnostics = inputs.diagnostics;
  append(diagnostics, answer.diagnostics);
  terminal::complain(text::mistakes_text(diagnostics, inputs.texts, !options.quiet));
  if (!answer.fit) {
    return terminal::ExitStatus::bad_input;
  }
  words::TextStyle style = style_for(options);
  style.wording.units = job.units;
  style.wording.uk_words = job.uk_words;
  if (!terminal::print(text::fit_sheet(job, *answer.fit, style))) {
    return terminal::ExitStatus::bad_input;
  }
  return answer.fit->good() ? terminal::ExitStatus::works : terminal::ExitStatus::does_not_work;
}

}  // namespace cli::commands
