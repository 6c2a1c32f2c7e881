#include "planner/plan/stage_starts.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <utility>

#include "planner/tables/glue.h"

namespace planner::plan {
namespace {

using Row = std::pair<std::string, double>;  // kind and opening, mm
constexpr double kAnySize = 0;               // of corner clamps, which are known by their kind

std::map<Row, int> rows_of(const Stage& stage) {
  std::map<Row, int> rows;
  for (const PlannedClamp& clamp : stage.clamps) {
    ++rows[{clamp.kind, clamp.size_mm}];
  }
  for (const CornerClamp& corner : stage.corner_clamps) {
    ++rows[{corner.kind, kAnySize}];
  }
  if (stage.cross_cauls) {
    rows[{stage.cross_cauls->kind, stage.cross_cauls->size_mm}] += stage.cross_cauls->clamps();
  }
  return rows;
}

bool is_row(const InventoryRow& row, const Row& wanted) {
  return row.kind == wanted.first && (wanted.second == kAnySize || row.opening_mm == wanted.second);
}

int owned(const Plan& plan, const Row& wanted) {
  int count = 0;
  for (const InventoryRow& row : plan.inventory) {
    count += is_row(row, wanted) ? row.owned : 0;
  }
  return count;
}

double off_s(const Plan& plan, std::size_t stage) {
  const Stage& s = plan.stages[stage];
  return s.starts_s + s.makespan_s + clamps_off_s(plan, s);
}

bool builds_on(const Stage& later, const Stage& earlier) {
  return std::ranges::any_of(later.parts, [&](work::PartId part) {
    return std::ranges::find(earlier.parts, part) != earlier.parts.end();
  });
}

// The rack has what all of them ask for at one time, and no two want its weights or its bag.
bool rack_serves(const Plan& plan, const std::vector<std::size_t>& stages) {
  std::map<Row, int> wanted;
  std::ptrdiff_t loaded = 0;
  for (const std::size_t s : stages) {
    loaded += plan.stages[s].loadings.empty() ? 0 : 1;
    for (const auto& [row, count] : rows_of(plan.stages[s])) {
      wanted[row] += count;
    }
  }
  return loaded < 2 && std::ranges::all_of(wanted, [&plan](const auto& row) {
           return row.second <= owned(plan, row.first);
         });
}

double start_of(const Plan& plan, std::size_t stage) {
  double ready_s = 0;
  for (std::size_t s = plan.stages_done; s < stage; ++s) {
    const bool wait = plan.no_shop_file || builds_on(plan.stages[stage], plan.stages[s]);
    ready_s = std::max(ready_s, wait ? off_s(plan, s)
                                     : plan.stages[s].starts_s + plan.stages[s].makespan_s);
  }
  while (true) {
    std::vector<std::size_t> at_once{stage};
    double next_s = ready_s;
    for (std::size_t s = plan.stages_done; s < stage; ++s) {
      if (off_s(plan, s) > ready_s) {
        next_s = at_once.size() == 1 ? off_s(plan, s) : std::min(next_s, off_s(plan, s));
        at_once.push_back(s);
      }
    }
    if (at_once.size() == 1 || rack_serves(plan, at_once)) {
      return ready_s;
    }
    ready_s = next_s;
  }
}

}  // namespace

bool is_cool(const Plan& plan) {
  const tables::GlueFamily* family = tables::find_glue_family(plan.glue.glue.family);
  return plan.temperature_C && *plan.temperature_C <= kUsual_C - 1 && !plan.stages.empty() &&
         (family == nullptr || family->chemistry == tables::Chemistry::pva);
}

double clamps_off_s(const Plan& plan, const Stage& stage) {
  if (!is_cool(plan)) {
    return stage.clamp_time_s;
  }
  const double longer_s = stage.clamp_time_s * std::exp2((kUsual_C - *plan.temperature_C) / kDoubles_C);
  return 300 * std::ceil(longer_s / 300 - 1e-9);
}

void set_starts(Plan& plan) {
  for (std::size_t s = plan.stages_done; s < plan.stages.size(); ++s) {
    plan.stages[s].starts_s = start_of(plan, s);
  }
  for (std::size_t s = plan.stages_done; s < plan.stages.size(); ++s) {
    std::map<Row, int> at_once;
    for (const std::size_t with : in_clamps_with(plan, s)) {
      for (const auto& [row, count] : rows_of(plan.stages[with])) {
        at_once[row] += count;
      }
    }
    for (const auto& [wanted, count] : at_once) {
      for (InventoryRow& row : plan.inventory) {
        row.used = is_row(row, wanted) && count <= row.owned ? std::max(row.used, count) : row.used;
      }
    }
  }
}

std::vector<std::size_t> in_clamps_with(const Plan& plan, std::size_t stage) {
  const double start_s = plan.stages[stage].starts_s;
  std::vector<std::size_t> stages;
  for (std::size_t s = plan.stages_done; s < plan.stages.size(); ++s) {
    if (s == stage || (s < stage && off_s(plan, s) > start_s)) {
      stages.push_back(s);
    }
  }
  return stages;
}

}  // namespace planner::plan
