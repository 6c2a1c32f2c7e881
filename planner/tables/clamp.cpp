#include "planner/tables/clamp.h"

#include <algorithm>
#include <charconv>

#include "planner/tables/csv.h"
#include "planner/tables/trade_name.h"

namespace planner::tables {

namespace {

ClampKind clamp_kind_from(const Row& row) {
  ClampKind kind;
  kind.id = row.text("id");
  kind.name = row.text("kind");
  kind.short_name = row.text("short");
  kind.uk_name = row.text("uk");
  kind.note = row.text("note");
  kind.also = row.list("also");
  kind.use = row.choice<ClampUse>("use", {{"press", ClampUse::press},
                                          {"band", ClampUse::band},
                                          {"corner", ClampUse::corner},
                                          {"position", ClampUse::position}});
  kind.force_N = row.range("force_n_lo", "force_n_hi");
  kind.force_typ_N = row.number("force_n_typ");
  kind.force_source = row.source("force_source");
  kind.pad_width_mm = row.number("pad_w_mm");
  kind.pad_height_mm = row.maybe("pad_h_mm").value_or(kind.pad_width_mm);
  kind.throat_mm = row.maybe_range("throat_mm_lo", "throat_mm_hi");
  kind.pad_source = row.source("pad_source");
  for (const std::string& opening : row.list("openings_mm")) {
    double mm = 0;
    std::from_chars(opening.data(), opening.data() + opening.size(), mm);
    kind.openings_mm.push_back(mm);
  }
  kind.bar_width_mm = row.number("bar_w_mm");
  kind.bar_depth_mm = row.number("bar_d_mm");
  kind.head_mm = row.number("head_mm");
  kind.fixed_jaw_mm = row.number("fixed_jaw_mm");
  kind.travel_mm = row.number("travel_mm");
  kind.mass_kg = row.number("mass_kg");
  kind.mass_kg_per_m = row.number("mass_kg_per_m");
  kind.body_source = row.source("body_source");
  kind.bare_iron = row.yes("bare_iron");
  kind.iron_source = row.source("iron_source");
  kind.wooden_jaws = row.yes("wooden_jaws");
  kind.jaws_source = row.source("jaws_source");
  kind.snug_s = row.number("snug_s");
  kind.snug_source = row.source("snug_source");
  kind.choice = static_cast<int>(row.maybe("choice").value_or(0));
  kind.choice_source = row.source("choice_source");
  kind.couples = row.yes("couples");
  kind.couples_source = row.source("couples_source");
  return kind;
}

}  // namespace

const std::vector<ClampKind>& clamp_kinds() {
  static const std::vector<ClampKind> all = typed_rows("clamps", clamp_kind_from);
  return all;
}

const ClampKind* find_clamp_kind(std::string_view name) {
  return find_by_name(clamp_kinds(), name);
}

double mass_kg(const ClampKind& kind, double opening_mm) {
  return kind.mass_kg + kind.mass_kg_per_m * opening_mm / 1000;
}

std::vector<std::string> clamp_ids() {
  return ids_of(clamp_kinds());
}

const std::vector<const ClampKind*>& first_choices() {
  static const std::vector<const ClampKind*> all = [] {
    std::vector<const ClampKind*> chosen;
    for (const ClampKind& kind : clamp_kinds()) {
      if (kind.choice > 0) {
        chosen.push_back(&kind);
      }
    }
    std::sort(chosen.begin(), chosen.end(),
              [](const ClampKind* a, const ClampKind* b) { return a->choice < b->choice; });
    return chosen;
  }();
  return all;
}

const ClampKind& band_kind() {
  return *std::find_if(clamp_kinds().begin(), clamp_kinds().end(),
                       [](const ClampKind& kind) { return kind.use == ClampUse::band; });
}

bool presses(const ClampKind& kind) {
  return kind.use == ClampUse::press || kind.use == ClampUse::position;
}

std::optional<double> opening_at_least(const ClampKind& kind, double wanted_mm) {
  for (const double opening : kind.openings_mm)
    if (opening >= wanted_mm)
      return opening;
  return {};
}

}  // namespace planner::tables
