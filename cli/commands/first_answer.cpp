#include "cli/commands/first_answer.h"

#include <string>
#include <utility>
#include <vector>

#include "cli/model/verdict.h"
#include "planner/make_plan.h"
#include "planner/verify/verify_plan.h"

namespace cli::commands {
namespace {

std::vector<std::string> so_far(const planner::plan::Plan& plan) {
  const model::Headline found = model::headline(plan);
  std::vector<std::string> wordings;
  for (const std::string& rest : found.rest) {
    wordings.push_back("so far: " + found.word + ": " + rest + "; looking on,");
  }
  wordings.push_back("so far: " + found.word + "; looking on,");
  return wordings;
}

}  // namespace

FirstAnswer::FirstAnswer(const Inputs& inputs, const planner::stage::PlanOptions& options,
                         terminal::Progress& progress) {
  if (!progress.seen() || options.drawing_only) {
    return;
  }
  planner::stage::PlanOptions soon = options;
  soon.try_glues = soon.explain = false;  // the line tells of neither
  soon.stop = [this, stop = options.stop] { return over_ || (stop && stop()); };
  thread_ = std::thread([this, &inputs, &progress, soon = std::move(soon)] {
    const planner::Planned first = planner::make_first_plan(*inputs.job, *inputs.shop, soon);
    if (!over_ && first.plan &&
        planner::verify::verify_plan(*inputs.job, *inputs.shop, *first.plan).empty()) {
      progress.say(so_far(*first.plan));
    }
  });
}

FirstAnswer::~FirstAnswer() {
  over_ = true;
  if (thread_.joinable()) {
    thread_.join();
  }
}

}  // namespace cli::commands
