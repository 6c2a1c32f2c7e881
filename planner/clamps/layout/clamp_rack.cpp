#include "planner/clamps/layout/clamp_rack.h"

#include <algorithm>

#include "planner/tables/clamp.h"

namespace planner::clamps::layout {
namespace {

PlannedKind planned(const tables::ClampKind& kind) {
  return {{kind.pad_width_mm, kind.pad_height_mm, kind.force_typ_N,
           kind.throat_mm ? kind.throat_mm->lo : 0},
          kind.id,
          kind.wooden_jaws};
}

std::vector<PlannedKind> on_the_market(double opening_mm) {
  std::vector<PlannedKind> out;
  for (const tables::ClampKind* kind : tables::first_choices()) {
    if (opening_at_least(*kind, opening_mm)) {
      out.push_back(planned(*kind));
    }
  }
  for (const tables::ClampKind* kind : tables::first_choices()) {
    if (out.empty() && kind->couples) {
      out.push_back(planned(*kind));
    }
  }
  return out;
}

// Named for the one with most clamps.
PlannedKind together(std::span<const PlannedKind> kinds) {
  PlannedKind out = kinds.front();
  int most = 0;
  out.count = 0;
  for (const PlannedKind& k : kinds) {
    if (k.count > most) {
      most = k.count;
      out.kind = k.kind;
    }
    out.count += k.count;
    out.wooden_jaws &= k.wooden_jaws;
    out.jaw_mm = std::min(out.jaw_mm, k.jaw_mm);
    out.jaw_high_mm = std::min(out.jaw_high_mm, k.jaw_high_mm);
    out.throat_mm = std::min(out.throat_mm, k.throat_mm);
    out.force_N = std::min(out.force_N, k.force_N);
  }
  return out;
}

}  // namespace

std::vector<PlannedKind> kinds_that_open(const work::Shop& shop, double opening_mm) {
  if (shop.unlimited_rack) {
    return on_the_market(opening_mm);
  }
  std::vector<PlannedKind> kinds;
  for (const work::OwnedClamp& row : shop.clamps) {
    if (row.count < 1 || !serves(row, {opening_mm})) {
      continue;
    }
    const tables::ClampKind& of_table = *tables::find_clamp_kind(row.kind);
    const PlannedKind kind{{row.pad_width.mm(), row.pad_height.mm(), row.force_N, row.throat.mm()},
                           row.kind,
                           of_table.wooden_jaws,
                           of_table.use == tables::ClampUse::position,
                           row.count};
    const auto it = std::ranges::find_if(kinds, [&](const PlannedKind& k) {
      const axis::KindInUse &a = k, &b = kind;
      return k.kind == kind.kind && a == b;
    });
    if (it == kinds.end()) {
      kinds.push_back(kind);
    } else {
      it->count += row.count;
    }
  }
  const auto springs = std::stable_partition(kinds.begin(), kinds.end(),
                                             [](const PlannedKind& k) { return !k.springs; });
  const std::vector<PlannedKind> last(springs, kinds.end());
  kinds.erase(springs, kinds.end());
  std::stable_sort(kinds.begin(), kinds.end(), [](const PlannedKind& a, const PlannedKind& b) {
    return a.count != b.count ? a.count > b.count : a.force_N > b.force_N;
  });
  std::vector<PlannedKind> out = kinds;
  std::stable_sort(kinds.begin(), kinds.end(), [](const PlannedKind& a, const PlannedKind& b) {
    return a.force_N > b.force_N;
  });
  for (std::size_t n = 2; n <= kinds.size(); ++n) {
    out.push_back(together(std::span(kinds).first(n)));
  }
  out.insert(out.end(), last.begin(), last.end());
  return out;
}

double sold_opening_mm(const std::string& kind, double opening_mm) {
  const tables::ClampKind* found = tables::find_clamp_kind(kind);
  const auto size = found != nullptr ? opening_at_least(*found, opening_mm) : std::nullopt;
  return size.value_or(opening_mm);
}

namespace {

// Just snug, a screw gives a quarter of what a hand can with it, and no more than half of what is
// planned: common practice. A spring presses as it always does.
double snug_force_N(const plan::PlannedClamp& clamp, const tables::ClampKind& kind,
                    const work::OwnedClamp* row) {
  if (row != nullptr && row->snug_force_N) {
    return std::min(*row->snug_force_N, clamp.force_N);
  }
  if (kind.use == tables::ClampUse::position) {
    return clamp.force_N;
  }
  const double typical_N = row != nullptr ? row->force_N : kind.force_typ_N;
  return std::min(typical_N / 4, clamp.force_N / 2);
}

}  // namespace

void take_from_rack(plan::PlannedClamp& clamp, const work::Shop& shop,
                    std::optional<std::size_t> row, const std::string& kind) {
  clamp.owned = row;
  clamp.kind = row ? shop.clamps[*row].kind : kind;
  clamp.size_mm =
      row ? shop.clamps[*row].opening.mm() : sold_opening_mm(clamp.kind, clamp.opening_mm);
  const tables::ClampKind& of_table = *tables::find_clamp_kind(clamp.kind);
  clamp.barrier = of_table.bare_iron;
  clamp.snug_N = snug_force_N(clamp, of_table, row ? &shop.clamps[*row] : nullptr);
}

}  // namespace planner::clamps::layout
