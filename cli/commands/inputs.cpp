#include "cli/commands/inputs.h"

#include <cstdlib>
#include <filesystem>
#include <utility>

#include <fmt/format.h>

#include "cli/terminal/file_text.h"
#include "planner/files/job_file.h"
#include "planner/files/mesh_parts.h"
#include "planner/files/shop_file.h"

namespace cli::commands {
namespace {

std::string environment(const char* name) {
  const char* value = std::getenv(name);
  return value == nullptr ? "" : value;
}

std::string shown_name(const std::string& path) {
  return path == "-" ? "standard input" : path;
}

// A file that isn't there is soon written: `kind` is what `new` calls its sort.
planner::base::Diagnostic unreadable(const std::string& path, const std::string& why,
                                     const char* kind) {
  std::error_code ignored;
  return {planner::base::Severity::error,
          {shown_name(path), 0, 0},
          why,
          path == "-" || std::filesystem::exists(path, ignored)
              ? ""
              : fmt::format("`glueup new {} -o {}` writes one to start from", kind, path)};
}

void read_job_into(const terminal::Options& options, Inputs& inputs) {
  terminal::FileText file = terminal::read_file(options.job);
  if (!file.error.empty()) {
    inputs.diagnostics.push_back(unreadable(options.job, file.error, "box"));
    return;
  }
  inputs.texts.job_name = shown_name(options.job);
  inputs.texts.job = std::move(file.text);
  auto read = planner::files::read_job(inputs.texts.job_name, inputs.texts.job,
                                       inputs.shop ? inputs.shop->woods : planner::work::OwnWoods{});
  append(inputs.diagnostics, read.diagnostics);
  inputs.job = std::move(read.job);
}

// The files of the job's mesh lie in the job's folder unless their names say otherwise.
void read_meshes_into(const terminal::Options& options, Inputs& inputs) {
  if (!inputs.job || !inputs.job->mesh) {
    return;
  }
  const std::filesystem::path folder = options.job == "-"
                                           ? std::filesystem::path()
                                           : std::filesystem::path(options.job).parent_path();
  std::vector<planner::files::MeshBytes> meshes;
  bool complete = true;
  for (const std::string& name : inputs.job->mesh->files) {
    terminal::FileText file = terminal::read_file((folder / name).string());
    if (!file.error.empty()) {
      inputs.diagnostics.push_back(
          {planner::base::Severity::error, inputs.job->mesh->place, name + ": " + file.error, ""});
      complete = false;
    }
    meshes.push_back({name, std::move(file.text)});
  }
  if (complete) {
    append(inputs.diagnostics, planner::files::add_mesh_parts(*inputs.job, meshes));
  }
}

void read_shop_into(const terminal::Options& options, Inputs& inputs) {
  const std::optional<std::string> path = shop_file(options);
  if (!path) {
    inputs.shop = planner::files::unlimited_shop();
    return;
  }
  terminal::FileText file = terminal::read_file(*path);
  if (!file.error.empty()) {
    inputs.diagnostics.push_back(unreadable(*path, file.error, "shop"));
    return;
  }
  inputs.texts.shop = std::move(file.text);
  auto read = planner::files::read_shop(shown_name(*path), inputs.texts.shop);
  append(inputs.diagnostics, read.diagnostics);
  inputs.shop = std::move(read.shop);
}

// What the command line says wins over both files.
void apply_options(const terminal::Options& options, Inputs& inputs) {
  if (options.glue) {
    inputs.job->glue = *options.glue;
    inputs.job->glue_place = {"--glue", 0, 0};
  }
  if (options.units) {
    inputs.job->units = *options.units;
  }
  if (options.people) {
    inputs.shop->people = *options.people;
  }
  if (options.temperature_C) {
    inputs.shop->temperature_C = options.temperature_C;
  }
  if (options.humidity) {
    inputs.shop->humidity = options.humidity;
  }
}

}  // namespace

std::optional<std::string> usual_shop_file() {
  std::string folder = environment("XDG_CONFIG_HOME");
  if (folder.empty()) {
    const std::string home = environment("HOME");
    folder = home.empty() ? "" : home + "/.config";
  }
  return folder.empty() ? std::nullopt : std::optional(folder + "/glueup/shop.toml");
}

std::optional<std::string> shop_file(const terminal::Options& options) {
  if (options.shop) {
    return options.shop;
  }
  if (const std::string named = environment("GLUEUP_SHOP"); !named.empty()) {
    return named;
  }
  const std::optional<std::string> path = usual_shop_file();
  std::error_code ignored;
  return path && std::filesystem::exists(*path, ignored) ? path : std::nullopt;
}

Inputs read_inputs(const terminal::Options& options) {
  Inputs inputs;
  read_shop_into(options, inputs);  // first: a job may name a wood of the shop's
  const planner::base::Diagnostics of_shop = std::exchange(inputs.diagnostics, {});
  read_job_into(options, inputs);
  read_meshes_into(options, inputs);
  append(inputs.diagnostics, of_shop);
  if (planner::base::has_errors(inputs.diagnostics)) {
    inputs.job.reset();
    inputs.shop.reset();
  } else {
    apply_options(options, inputs);
  }
  return inputs;
}

Inputs read_job_input(const terminal::Options& options) {
  Inputs inputs;
  read_shop_into(options, inputs);  // for its woods alone
  inputs.diagnostics.clear();
  read_job_into(options, inputs);
  if (planner::base::has_errors(inputs.diagnostics)) {
    inputs.job.reset();
  } else if (options.units) {
    inputs.job->units = *options.units;
  }
  return inputs;
}

}  // namespace cli::commands
