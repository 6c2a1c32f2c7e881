#include "planner/clamp_rack.h"

#include <algorithm>

#include "planner/tables/clamp.h"

namespace planner {
namespace {

// In the order people reach for them; common practice.
constexpr const char* kFirstChoice[] = {"f_heavy", "pipe_3_4", "sash"};

std::vector<PlannedKind> on_the_market(double opening_mm) {
  std::vector<PlannedKind> out;
  for (const char* id : kFirstChoice) {
    const ClampKind* kind = find_clamp_kind(id);
    if (kind != nullptr && opening_at_least(*kind, opening_mm)) {
      out.push_back({kind->id, kind->pad_width_mm, kind->pad_height_mm, kind->force_typ_N});
    }
  }
  return out;
}

}  // namespace

std::vector<PlannedKind> kinds_that_open(const Shop& shop, double opening_mm) {
  if (shop.unlimited_rack) {
    return on_the_market(opening_mm);
  }
  struct Owned {
    PlannedKind kind;
    int count;
  };
  std::vector<Owned> owned;
  for (const OwnedClamp& row : shop.clamps) {
    if (row.count < 1 || !serves(row, {opening_mm, 0, 0, 0})) {
      continue;
    }
    const PlannedKind kind{row.kind, row.pad_width.mm(), row.pad_height.mm(), row.force_N};
    const auto it = std::find_if(owned.begin(), owned.end(), [&](const Owned& o) {
      return o.kind.kind == row.kind && o.kind.jaw_mm == kind.jaw_mm &&
             o.kind.force_N == kind.force_N;
    });
    if (it == owned.end()) {
      owned.push_back({kind, row.count});
    } else {
      it->count += row.count;
    }
  }
  std::stable_sort(owned.begin(), owned.end(), [](const Owned& a, const Owned& b) {
    return a.count != b.count ? a.count > b.count : a.kind.force_N > b.kind.force_N;
  });
  std::vector<PlannedKind> out;
  for (const Owned& o : owned) {
    out.push_back(o.kind);
  }
  if (out.size() > 1) {
    PlannedKind all = out.front();
    for (const PlannedKind& k : out) {
      all.jaw_mm = std::min(all.jaw_mm, k.jaw_mm);
      all.jaw_high_mm = std::min(all.jaw_high_mm, k.jaw_high_mm);
      all.force_N = std::min(all.force_N, k.force_N);
    }
    out.push_back(all);
  }
  return out;
}

double sold_opening_mm(const std::string& kind, double opening_mm) {
  const ClampKind* found = find_clamp_kind(kind);
  const auto size = found != nullptr ? opening_at_least(*found, opening_mm) : std::nullopt;
  return size.value_or(opening_mm);
}

}  // namespace planner
