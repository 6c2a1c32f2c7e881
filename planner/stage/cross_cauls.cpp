#include "planner/stage/cross_cauls.h"

#include <algorithm>
#include <cmath>

#include "planner/base/units.h"
#include "planner/stage/stage_reach.h"
#include "planner/tables/clamp.h"
#include "planner/work/step_seconds.h"

namespace planner::stage {
namespace {

// All common practice.
constexpr double kThinner_mm = 1.25 * base::kMmPerInch;
constexpr double kWider_mm = 12 * base::kMmPerInch;
constexpr double kOneMoreEach_mm = 48 * base::kMmPerInch;
constexpr double kFromEnd_mm = 2 * base::kMmPerInch;
constexpr double kCaul_mm = 1.5 * base::kMmPerInch;  // wide and high
constexpr double kClear_mm = 2.5 * base::kMmPerInch;  // between a caul's middle and a bar's

// A panel as it lies: which way its boards run and are wide, and where it begins and ends.
struct Panel {
  std::size_t along = 0, across = 0, through = 0;
  StageReach reach;
};

// The axis that all joints are pressed along, where they are edge joints square to it.
std::optional<std::size_t> pressed_along(const StageWork& work,
                                         std::span<const work::Joint> joints) {
  std::optional<std::size_t> axis;
  for (const work::JointId id : work.joints) {
    const geometry::Direction& normal = joints[id].faces[0].contact.normal;
    for (std::size_t k = 0; k < 3; ++k) {
      if (std::abs(normal[k]) > 1 - 1e-6) {
        if (joints[id].kind != work::JointKind::edge || axis.value_or(k) != k) {
          return std::nullopt;
        }
        axis = k;
      }
    }
  }
  return axis;
}

std::optional<Panel> panel_of(const StageWork& work, std::span<const work::Joint> joints,
                              std::span<const geometry::Box> bounds) {
  const std::optional<std::size_t> across = pressed_along(work, joints);
  if (!across || work.units.size() < 3) {
    return std::nullopt;
  }
  Panel panel;
  panel.reach = stage_reach(work, bounds);
  panel.across = *across;
  const std::size_t one = (*across + 1) % 3, other = (*across + 2) % 3;
  panel.through = panel.reach.size(one) < panel.reach.size(other) ? one : other;
  panel.along = panel.through == one ? other : one;
  const bool wants =
      panel.reach.size(panel.through) < kThinner_mm && panel.reach.size(panel.across) > kWider_mm;
  return wants ? std::optional(panel) : std::nullopt;
}

// The place nearest to the one wanted that no clamp's bar is near; nothing within reach of it.
std::optional<double> clear_place(double wanted, const Panel& panel,
                                  const clamps::layout::ClampLayout& layout) {
  constexpr double kStep_mm = 5;
  const auto clear = [&](double at) {
    return std::ranges::all_of(
        layout.rounds, [&](const clamps::layout::PressingAxis& round) {
          return std::ranges::all_of(round.clamps, [&](const plan::PlannedClamp& clamp) {
            return std::abs(clamp.at[panel.along] - at) >= kClear_mm;
          });
        });
  };
  for (double off = 0; off < kOneMoreEach_mm / 2; off += kStep_mm) {
    for (const double at : {wanted + off, wanted - off}) {
      const double low = panel.reach.lo[panel.along] + kCaul_mm / 2;
      const double high = panel.reach.hi[panel.along] - kCaul_mm / 2;
      if (at >= low && at <= high && clear(at)) {
        return at;
      }
    }
  }
  return std::nullopt;
}

// The ends first, then what is between.
std::vector<double> places(const Panel& panel, const clamps::layout::ClampLayout& layout) {
  const double low = panel.reach.lo[panel.along] + kFromEnd_mm;
  const double high = panel.reach.hi[panel.along] - kFromEnd_mm;
  const int between = static_cast<int>(std::ceil(panel.reach.size(panel.along) / kOneMoreEach_mm)) - 1;
  std::vector<double> wanted = {low, high};
  for (int i = 1; i <= between; ++i) {
    wanted.push_back(low + (high - low) * i / (between + 1));
  }
  std::vector<double> found;
  for (const double at : wanted) {
    if (const std::optional<double> place = clear_place(at, panel, layout)) {
      found.push_back(*place);
    }
  }
  return found;
}

int used_of(const clamps::layout::ClampLayout& layout, const work::OwnedClamp& row) {
  for (const plan::InventoryRow& used : layout.inventory) {
    if (used.kind == row.kind && used.opening_mm == row.opening.mm()) {
      return used.used;
    }
  }
  return 0;
}

// What is left of a rack for at least one pair: the lightest that opens far enough.
const work::OwnedClamp* lightest_left(const work::Shop& shop, double opens_mm,
                                      const clamps::layout::ClampLayout& layout) {
  const work::OwnedClamp* best = nullptr;
  for (const work::OwnedClamp& row : shop.clamps) {
    const tables::ClampKind* kind = tables::find_clamp_kind(row.kind);
    const bool serves = kind != nullptr && kind->use == tables::ClampUse::press &&
                        row.opening.mm() >= opens_mm && row.count - used_of(layout, row) >= 2;
    const auto weight = [](const work::OwnedClamp& clamp) {
      return std::pair(clamp.force_N, clamp.opening.mm());
    };
    best = serves && (best == nullptr || weight(row) < weight(*best)) ? &row : best;
  }
  return best;
}

}  // namespace

std::optional<plan::CrossCauls> cross_cauls(const StageWork& work,
                                            std::span<const work::Joint> joints,
                                            std::span<const geometry::Box> bounds,
                                            const work::Shop& shop,
                                            const clamps::layout::ClampLayout& layout) {
  const std::optional<Panel> panel = panel_of(work, joints, bounds);
  if (!panel) {
    return std::nullopt;
  }
  plan::CrossCauls cauls;
  cauls.opening_mm = panel->reach.size(panel->through) + 2 * kCaul_mm;
  const work::OwnedClamp* row = lightest_left(shop, cauls.opening_mm, layout);
  cauls.at_mm = places(*panel, layout);
  if (row == nullptr || cauls.at_mm.empty()) {
    return std::nullopt;
  }
  const auto pairs = static_cast<std::size_t>((row->count - used_of(layout, *row)) / 2);
  cauls.at_mm.resize(std::min(cauls.at_mm.size(), pairs));
  std::ranges::sort(cauls.at_mm);
  cauls.along_axis = static_cast<int>(panel->along);
  cauls.kind = row->kind;
  cauls.size_mm = row->opening.mm();
  cauls.length_mm = panel->reach.size(panel->across);
  cauls.side_mm = kCaul_mm;
  return cauls;
}

int cauls_seconds(const plan::CrossCauls& cauls, const work::Shop& shop) {
  const int pairs = static_cast<int>(cauls.at_mm.size());
  return (pairs + shop.people - 1) / shop.people * work::whole_seconds(shop.pace.caul_pair_s);
}

void count_clamps(const plan::CrossCauls& cauls, const work::Shop& shop,
                  clamps::layout::ClampLayout& layout) {
  for (plan::InventoryRow& row : layout.inventory) {
    if (row.kind == cauls.kind && row.opening_mm == cauls.size_mm) {
      row.used += cauls.clamps();
      return;
    }
  }
  int owned = 0;
  for (const work::OwnedClamp& row : shop.clamps) {
    owned += row.kind == cauls.kind && row.opening.mm() == cauls.size_mm ? row.count : 0;
  }
  layout.inventory.push_back({cauls.kind, cauls.size_mm, owned, cauls.clamps(), 0});
}

}  // namespace planner::stage
