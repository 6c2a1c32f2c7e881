#include "planner/clamps/layout/clamp_rack.h"

#include <algorithm>
#include <iterator>

#include "planner/tables/clamp.h"

namespace planner::clamps::layout {
namespace {

PlannedKind planned(const tables::ClampKind& kind) {
  return {{kind.pad_width_mm, kind.pad_height_mm, kind.force_typ_N,
           kind.throat_mm ? kind.throat_mm->lo : 0},
          kind.id,
          kind.wooden_jaws};
}

// No screw or lever whose force hangs on the hand.
PlannedKind owned_kind(const work::OwnedClamp& row) {
  const tables::ClampKind& of_table = *tables::find_clamp_kind(row.kind);
  PlannedKind kind{{row.pad_width.mm(), row.pad_height.mm(), row.force_N, row.throat.mm()},
                   row.kind,
                   of_table.wooden_jaws,
                   of_table.use == tables::ClampUse::position,
                   row.count,
                   false,
                   tables::mass_kg(of_table, row.opening.mm())};
  if (kind.springs) {  // hands neither add to it nor take from it
    kind.weak_hand = 1;
    kind.drawn = 1;
  }
  return kind;
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
  out.several = true;
  int most = 0;
  out.count = 0;
  for (const PlannedKind& k : kinds) {
    if (k.count > most) {
      most = k.count;
      out.kind = k.kind;
    }
    out.count += k.count;
    out.mass_kg = std::max(out.mass_kg, k.mass_kg);
    out.wooden_jaws &= k.wooden_jaws;
    out.jaw_mm = std::min(out.jaw_mm, k.jaw_mm);
    out.jaw_high_mm = std::min(out.jaw_high_mm, k.jaw_high_mm);
    out.throat_mm = std::min(out.throat_mm, k.throat_mm);
    out.force_N = std::min(out.force_N, k.force_N);
  }
  return out;
}

// Rows of one kind of the table planned on as one.
std::vector<PlannedKind> by_kind(const std::vector<PlannedKind>& rows) {
  std::vector<PlannedKind> out;
  for (const PlannedKind& first : rows) {
    if (std::ranges::find(out, first.kind, &PlannedKind::kind) != out.end()) {
      continue;
    }
    std::vector<PlannedKind> alike;
    std::ranges::copy_if(rows, std::back_inserter(alike),
                         [&](const PlannedKind& row) { return row.kind == first.kind; });
    out.push_back(alike.size() == 1 ? first : together(alike));
  }
  return out;
}

}  // namespace

plan::Strength strength_of(double force_N, double hands_N) {
  constexpr double kRounding = 1 + 1e-6;
  return force_N <= plan::kGentle * hands_N * kRounding ? plan::Strength::gentle
         : force_N <= plan::kFirm * hands_N * kRounding ? plan::Strength::firm
                                                        : plan::Strength::hard;
}

std::vector<PlannedKind> kinds_that_open(const work::Shop& shop, double opening_mm) {
  if (shop.unlimited_rack) {
    return on_the_market(opening_mm);
  }
  std::vector<PlannedKind> kinds;
  for (const work::OwnedClamp& row : shop.clamps) {
    if (row.count < 1 || !serves(row, {opening_mm})) {
      continue;
    }
    const PlannedKind kind = owned_kind(row);
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
  // Each is laid out in turn: of a rack with very many unlike rows only the table's kinds.
  constexpr std::size_t kMostApart = 12;
  if (kinds.size() > kMostApart) {
    kinds = by_kind(kinds);
  }
  std::stable_sort(kinds.begin(), kinds.end(), [](const PlannedKind& a, const PlannedKind& b) {
    return a.force_N != b.force_N ? a.force_N < b.force_N : a.mass_kg < b.mass_kg;
  });
  std::vector<PlannedKind> out = kinds;
  std::erase_if(kinds, [](const PlannedKind& k) { return k.springs; });
  std::reverse(kinds.begin(), kinds.end());
  for (std::size_t n = 2; n <= kinds.size(); ++n) {
    out.push_back(together(std::span(kinds).first(n)));
  }
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
  const bool spring = of_table.use == tables::ClampUse::position;  // it draws itself
  clamp.strength =
      spring ? plan::Strength::gentle
             : strength_of(clamp.force_N, row ? shop.clamps[*row].force_N : of_table.force_typ_N);
  clamp.barrier = of_table.bare_iron;
  clamp.snug_N = snug_force_N(clamp, of_table, row ? &shop.clamps[*row] : nullptr);
}

}  // namespace planner::clamps::layout
