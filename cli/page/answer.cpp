#include "cli/page/answer.h"

#include <algorithm>
#include <optional>
#include <vector>

#include "cli/html/html.h"
#include "cli/json/json.h"
#include "cli/pictures/step_picture.h"
#include "cli/text/fit_sheet.h"
#include "cli/text/mistakes.h"
#include "cli/text/rack_sheet.h"
#include "cli/text/text.h"
#include "cli/text/text_check.h"
#include "planner/dry_fit/fit.h"
#include "planner/files/job_file.h"
#include "planner/files/shop_file.h"
#include "planner/make_plan.h"
#include "planner/verify/verify_plan.h"

namespace cli::page {
namespace {

using planner::base::Diagnostics;
using planner::files::MeshBytes;

constexpr const char* kJob = "job.toml";
constexpr const char* kShop = "shop.toml";
// As the command line's exit status.
constexpr int kWorks = 0, kDoesNotWork = 1, kBadInput = 2, kProgramFault = 3;

// The job's meshes by the names it gives them; what isn't there is told at [mesh].
void read_meshes(std::span<const MeshBytes> there, planner::work::Job& job, Diagnostics& told) {
  std::vector<MeshBytes> wanted;
  for (const std::string& name : job.mesh->files) {
    const auto found = std::find_if(there.begin(), there.end(),
                                    [&](const MeshBytes& mesh) { return mesh.file == name; });
    if (found == there.end()) {
      told.push_back({planner::base::Severity::error, job.mesh->place, name + ": no such file", ""});
    } else {
      wanted.push_back(*found);
    }
  }
  if (wanted.size() == job.mesh->files.size()) {
    append(told, planner::files::add_mesh_parts(job, wanted));
  }
}

struct Inputs {
  std::optional<planner::work::Job> job;
  std::optional<planner::work::Shop> shop;
  Diagnostics told;
};

Inputs read(const Question& question) {
  Inputs in;
  Diagnostics of_shop;
  if (question.shop.empty()) {
    in.shop = planner::files::unlimited_shop();
  } else {
    auto shop = planner::files::read_shop(kShop, question.shop);
    of_shop = std::move(shop.diagnostics);
    in.shop = std::move(shop.shop);
  }
  // After it: a job may name a wood of the shop's.
  auto job = planner::files::read_job(kJob, question.job, in.shop ? in.shop->woods : planner::work::OwnWoods{});
  in.told = std::move(job.diagnostics);
  in.job = std::move(job.job);
  if (in.job && in.job->mesh) {
    read_meshes(question.meshes, *in.job, in.told);
  }
  append(in.told, of_shop);
  return in;
}

words::TextStyle style_of(const planner::plan::Plan& plan) {
  words::TextStyle style;
  style.wording.units = plan.units;
  style.wording.uk_words = plan.uk_words;
  return style;
}

std::string told_of(const Diagnostics& all, const Question& question) {
  return text::mistakes_text(all, {kJob, question.job, question.shop}, true);
}

// The plan, where both files allow one; what planning found wrong is added to theirs.
planner::Planned planned(Inputs& in, const planner::stage::PlanOptions& options, bool soon = false) {
  if (has_errors(in.told) || !in.job || !in.shop) {
    return {};
  }
  planner::Planned made = soon ? planner::make_first_plan(*in.job, *in.shop, options)
                               : planner::make_plan(*in.job, *in.shop, options);
  append(in.told, made.diagnostics);
  return made;
}

std::string fit_view(const Question& question, Inputs& in) {
  if (!in.job) {
    return told_of(in.told, question);
  }
  const planner::dry_fit::FitAnswer judged = planner::dry_fit::judge_fit(*in.job);
  append(in.told, judged.diagnostics);
  if (!judged.fit) {
    return told_of(in.told, question);
  }
  words::TextStyle style;
  style.wording.units = in.job->units;
  style.wording.uk_words = in.job->uk_words;
  return text::fit_sheet(*in.job, *judged.fit, style);
}

}  // namespace

namespace {

Answer answer_to(const Question& question, bool soon) {
  Inputs in = read(question);
  const planner::Planned made = planned(in, {}, soon);
  Answer out;
  out.stopped = made.stopped;
  out.told = told_of(in.told, question);
  if (!made.plan) {
    out.json = json::json_failure(in.told);
    out.status = kBadInput;
    return out;
  }
  const planner::plan::Plan& plan = *made.plan;
  if (!planner::verify::verify_plan(*in.job, *in.shop, plan).empty()) {
    out.told = "This plan fails its own check, so it isn't shown. It is a program fault.\n";
    out.status = kProgramFault;
    return out;
  }
  const words::TextStyle style = style_of(plan);
  out.text = text::text_sheet(plan, style);
  out.sheet = html::html_sheet(plan, style, question.paper);
  out.json = json::json_sheet(plan);
  out.picture = pictures::hero_picture(plan);
  out.status = plan.verdict.ok ? kWorks : kDoesNotWork;
  return out;
}

}  // namespace

Answer answer(const Question& question) { return answer_to(question, false); }

Answer first_answer(const Question& question) { return answer_to(question, true); }

std::string picture(const Question& question) {
  Inputs in = read({question.job, "", question.meshes});
  planner::stage::PlanOptions options;
  options.drawing_only = true;
  const planner::Planned made = planned(in, options);
  return made.plan ? pictures::hero_picture(*made.plan) : "";
}

std::string view(const std::string& name, const Question& question) {
  Inputs in = read(question);
  if (name == "fit") {
    return fit_view(question, in);
  }
  planner::stage::PlanOptions options;
  options.try_glues = name == "glue";
  options.drawing_only = name == "check";
  const planner::Planned made = planned(in, options);
  if (!made.plan) {
    return told_of(in.told, question);
  }
  const words::TextStyle style = style_of(*made.plan);
  return name == "clamps" ? text::clamps_sheet(*made.plan, style)
         : name == "glue" ? text::glue_sheet(*made.plan, made.glue_trials, style)
                          : text::check_sheet(*made.plan, style);
}

std::string rack(const std::string& shop, const std::vector<NamedJob>& jobs) {
  std::vector<std::string> names;
  std::vector<Inputs> inputs;
  std::vector<planner::plan::Plan> plans;
  std::string told;
  for (const NamedJob& job : jobs) {
    Inputs in = read({job.text, shop});
    planner::Planned made = planned(in, {});
    if (made.plan) {
      names.push_back(job.name);
      inputs.push_back(std::move(in));
      plans.push_back(std::move(*made.plan));
    } else {
      told += job.name + ":\n" + told_of(in.told, {job.text, shop});
    }
  }
  if (plans.empty() || inputs.front().shop->unlimited_rack) {
    return told + "No clamps in the shop to compare with, or no job that can be planned.\n";
  }
  const auto works = [&](std::size_t job, const planner::work::Shop& with) {
    const planner::Planned made = planner::make_plan(*inputs[job].job, with, {});
    return made.plan && made.plan->verdict.ok;
  };
  text::Purchases buy;
  if (!text::all_work(plans)) {
    buy.clamps = planner::advice::clamps_to_buy(plans, *inputs.front().shop, works);
  }
  return told + text::rack_sheet(names, plans, buy, style_of(plans.front()));
}

std::string calendar_file(const Question& question, calendar::Moment start) {
  Inputs in = read(question);
  const planner::Planned made = planned(in, {});
  return made.plan ? calendar::calendar_file(*made.plan, style_of(*made.plan), start) : "";
}

std::string mistakes(const Question& question) {
  return json::json_failure(read(question).told);
}

}  // namespace cli::page
