// Order and clock: every solved instance of tests/reference/schedules.json, beside Gecode where
// MiniZinc is installed; then jobs that need stages.
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <optional>
#include <sstream>

#include "bench/table.h"
#include "planner/order/stages.h"
#include "tests/schedules/instances.h"
#include "tests/source_dir.h"

using namespace planner;
using namespace planner::base;
using namespace planner::work;
using namespace planner::plan;
using namespace planner::order;

namespace {

constexpr const char* kStatus[] = {"proven", "best known", "impossible"};
constexpr int kPatience_s = 20;

// To reach, ms, with one person and with two.
const std::map<std::string, std::pair<double, double>> kReach = {
    {"mitred_frame", {1, 1}},   {"door_floating_panel", {1, 1}}, {"open_tray", {5, 30}},
    {"rabbeted_box", {10, 60}}, {"case_4_shelves", {5, 30}},     {"panel_6_boards", {5, 5}}};

std::string people(int n) {
  return n == 1 ? "one person" : std::to_string(n) + " people";
}

struct Gecode {
  double ms = 0;
  bool proven = false;
};

// Wall time of MiniZinc with Gecode, given up after kPatience_s. Nothing where it isn't installed.
std::optional<Gecode> ask_gecode(const std::string& name, int crew) {
  if (std::system("command -v minizinc >/dev/null 2>&1") != 0) {
    return std::nullopt;
  }
  const std::string reference = source_dir() + "/tests/reference/";
  const std::string data = std::filesystem::temp_directory_path() / "glueup_bench.dzn";
  const std::string answer = data + ".txt";
  const std::string write = "/usr/bin/python3 '" + reference + "schedule_dzn.py' '" + reference +
                            "schedules.json' " + name + " " + std::to_string(crew) + " >" + data;
  const std::string solve = "timeout " + std::to_string(kPatience_s) +
                            " minizinc --solver gecode '" + reference + "schedule.mzn' " + data +
                            " >" + answer + " 2>&1";
  if (std::system(write.c_str()) != 0) {
    return std::nullopt;
  }
  int status = 0;
  Gecode out;
  out.ms = bench::once_ms([&] { status = std::system(solve.c_str()); });
  std::stringstream text;
  text << std::ifstream(answer).rdbuf();
  out.proven = status == 0 && text.str().find("==========") != std::string::npos;
  std::filesystem::remove(data);
  std::filesystem::remove(answer);
  return out;
}

void show(const tests::SolvedInstance& instance) {
  const auto reach = kReach.find(instance.name);
  if (reach == kReach.end()) {
    return;  // the case of 8 shelves: stages
  }
  const Schedule s = solve_schedule(instance.problem);
  const std::string what = "order of " + instance.name + ", " + people(instance.people);
  const std::string aim =
      bench::ms(instance.people == 1 ? reach->second.first : reach->second.second);
  const double ours = bench::median_ms([&] { solve_schedule(instance.problem); });
  const std::string answer = std::string(", ") + kStatus[static_cast<int>(s.status)];
  const std::optional<Gecode> gecode = ask_gecode(instance.name, instance.people);
  if (!gecode) {
    bench::row(what, aim, bench::ms(ours) + answer, "Gecode: no minizinc here");
    return;
  }
  char times[16];
  std::snprintf(times, sizeof times, "%s%.0f", gecode->proven ? "" : ">", gecode->ms / ours);
  bench::row(what, aim, bench::ms(ours) + answer,
             "Gecode, " + bench::ms(gecode->ms) + (gecode->proven ? ", proven" : ", given up"),
             times);
}

// Two sides and shelves in dadoes, a clamp a dado.
StageProblem shelved_case(int shelves, int people) {
  StageProblem p;
  AssemblyProblem& a = p.whole.assembly;
  a.units = 2 + shelves;
  a.removals = {{{1, 0, 0}, false, 1}, {{-1, 0, 0}, false, 0}};
  const auto n = static_cast<std::size_t>(a.units);
  a.leaves.assign(2 * n * n, kRefused);
  a.touch.assign(n * n, false);
  const auto free = [&a](int d, int i, int j) {
    a.leaves[static_cast<std::size_t>((d * a.units + i) * a.units + j)] = 0;
    a.leaves[static_cast<std::size_t>(((1 - d) * a.units + j) * a.units + i)] = 0;
  };
  free(1, 0, 1);
  for (int s = 2; s < a.units; ++s) {
    free(1, 0, s);
    free(0, 1, s);
    for (int below = 2; below < s; ++below) {
      free(0, s, below);
      free(1, s, below);
    }
    for (const int side : {0, 1}) {
      a.joints.emplace_back(side, s);
      p.whole.joints.push_back({18, 300, 600, 0, 0, -1});
      a.touch[static_cast<std::size_t>(side * a.units + s)] = true;
      a.touch[static_cast<std::size_t>(s * a.units + side)] = true;
    }
  }
  p.whole.people = people;
  p.clamps = [](std::span<const int> joints) {
    StageClamps clamps;
    clamps.groups = {{static_cast<int>(joints.size()), 30, 10, 0, {}, {}}};
    clamps.rings = {{0, 45}};
    clamps.group_of.assign(joints.size(), 0);
    return clamps;
  };
  return p;
}

void show_stages(int shelves, int crew, double reach_ms) {
  const StageProblem problem = shelved_case(shelves, crew);
  const StageOrders orders = solve_stages(problem);
  const double ours = bench::median_ms([&] { solve_stages(problem); });
  const std::string answer =
      orders.unavoidable ? "a join too long" : std::to_string(orders.stages.size()) + " stages";
  bench::row("stages of a case of " + std::to_string(shelves + 2) + " parts, " + people(crew),
             bench::ms(reach_ms), bench::ms(ours) + ", " + answer);
}

}  // namespace

int main() {
  for (const tests::SolvedInstance& instance : tests::solved_instances()) {
    show(instance);
  }
  for (const int crew : {1, 2}) {
    show_stages(8, crew, 50);
    show_stages(38, crew, 500);
  }
}
