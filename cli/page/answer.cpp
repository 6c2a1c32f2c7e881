#include "cli/page/answer.h"

#include <algorithm>
#include <optional>
#include <vector>

#include "cli/html/html.h"
#include "cli/json/json.h"
#include "cli/text/mistakes.h"
#include "cli/text/text.h"
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
  auto job = planner::files::read_job(kJob, question.job);
  in.told = std::move(job.diagnostics);
  in.job = std::move(job.job);
  if (in.job && in.job->mesh) {
    read_meshes(question.meshes, *in.job, in.told);
  }
  if (question.shop.empty()) {
    in.shop = planner::files::unlimited_shop();
  } else {
    auto shop = planner::files::read_shop(kShop, question.shop);
    append(in.told, shop.diagnostics);
    in.shop = std::move(shop.shop);
  }
  return in;
}

void put(const planner::plan::Plan& plan, Answer& answer) {
  words::TextStyle style;
  style.wording.units = plan.units;
  style.wording.uk_words = plan.uk_words;
  answer.text = text::text_sheet(plan, style);
  answer.sheet = html::html_sheet(plan, style, html::Paper::a4);
  answer.json = json::json_sheet(plan);
  answer.status = plan.verdict.ok ? kWorks : kDoesNotWork;
}

}  // namespace

Answer answer(const Question& question) {
  Inputs in = read(question);
  Answer out;
  planner::Planned planned;
  if (!has_errors(in.told) && in.job && in.shop) {
    planned = planner::make_plan(*in.job, *in.shop, {});
    append(in.told, planned.diagnostics);
  }
  out.told = text::mistakes_text(in.told, {kJob, question.job, question.shop}, true);
  if (!planned.plan) {
    out.json = json::json_failure(in.told);
    out.status = kBadInput;
  } else if (!planner::verify::verify_plan(*in.job, *in.shop, *planned.plan).empty()) {
    out.told = "This plan fails its own check, so it isn't shown. It is a program fault.\n";
    out.status = kProgramFault;
  } else {
    put(*planned.plan, out);
  }
  return out;
}

}  // namespace cli::page
