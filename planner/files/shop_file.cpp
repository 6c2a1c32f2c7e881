#include "planner/files/shop_file.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <utility>

#include "planner/files/old_names.h"
#include "planner/files/table_reader.h"
#include "planner/tables/clamp.h"
#include "planner/tables/glue.h"
#include "planner/tables/wood.h"

namespace planner::files {
namespace {

constexpr int kMostClamps = 10'000;

geometry::Length nearest_length(double mm) {
  return geometry::Length::nm(std::llround(mm * 1e6));
}

work::OwnedClamp clamp_of(const tables::ClampKind& kind) {
  work::OwnedClamp clamp;
  clamp.kind = kind.id;
  // A limit is planned on the low end of what the table gives.
  clamp.throat = nearest_length(kind.throat_mm ? kind.throat_mm->lo : 0);
  clamp.pad_width = nearest_length(kind.pad_width_mm);
  clamp.pad_height = nearest_length(kind.pad_height_mm);
  clamp.force_N = kind.force_typ_N;
  return clamp;
}

void fill_rack(work::Shop& shop) {
  shop.unlimited_rack = true;
  for (const tables::ClampKind& kind : tables::clamp_kinds()) {
    for (const double opening : kind.openings_mm) {
      work::OwnedClamp clamp = clamp_of(kind);
      clamp.opening = nearest_length(opening);
      clamp.count = kPlenty;
      shop.clamps.push_back(std::move(clamp));
    }
  }
}

// Finds the row that a key names, or notes the nearest.
template <class Row>
const Row* named_row(TableReader& table, std::string_view key, const Row* (*find)(std::string_view),
                     const std::vector<std::string>& ids, const std::string& listed_by) {
  const auto name = table.text(key, Needed::yes);
  const Row* row = name ? find(*name) : nullptr;
  if (name && row == nullptr) {
    table.refuse(key, "not in the table",
                 base::did_you_mean(*name, ids, "`glueup tables " + listed_by + "` lists them"));
  }
  return row;
}

class ShopReader {
 public:
  ShopReader(const std::string& file, const Node& root, FileNotes& notes)
      : notes_(notes), root_(root, shop_keys(""), notes) {
    shop_.file = file;
  }

  work::Shop read() {
    root_.units();
    shop_.people = root_.whole("people", 1, work::kMostPeople, Needed::no).value_or(1);
    read_temperature();
    read_humidity();
    shop_.unlimited_rack = false;
    for (const Node* node : root_.tables("clamp")) {
      read_clamp(*node);
    }
    if (!root_.has("clamp")) {
      fill_rack(shop_);
    }
    for (const Node* node : root_.tables("weight")) {
      read_weight(*node);
    }
    shop_.vacuum = root_.truth("vacuum").value_or(false);
    if (const auto wide = root_.length("planer", Sign::above_zero, Needed::no)) {
      shop_.planer_mm = wide->mm();
    }
    shop_.tape = root_.truth("tape").value_or(true);
    for (const Node* node : root_.tables("wood")) {
      read_wood(*node);
    }
    for (const Node* node : root_.tables("glue")) {
      read_glue(*node);
    }
    if (const Node* node = root_.table("pace")) {
      read_pace(*node);
    }
    root_.finish();
    return std::move(shop_);
  }

 private:
  void read_temperature() {
    constexpr double kColdest = -30, kHottest = 60;  // nobody glues beyond: a slip of the unit
    shop_.temperature_C = root_.celsius("temperature");
    if (shop_.temperature_C &&
        !(*shop_.temperature_C >= kColdest && *shop_.temperature_C <= kHottest)) {
      root_.refuse("temperature", "no shop is that cold or hot",
                   "check the unit: \"20 C\" or \"68 F\"");
    }
  }

  void read_humidity() {
    shop_.humidity = root_.share("humidity");
    if (shop_.humidity && !(*shop_.humidity >= 0 && *shop_.humidity <= 1)) {
      root_.refuse("humidity", "air holds 0 to 100 % of the water it can", "write \"40 %\"");
    }
  }

  void read_clamp(const Node& node) {
    TableReader table(node, shop_keys("clamp"), notes_);
    const tables::ClampKind* kind =
        named_row(table, "kind", tables::find_clamp_kind, tables::clamp_ids(), "clamps");
    work::OwnedClamp clamp = kind != nullptr ? clamp_of(*kind) : work::OwnedClamp();
    clamp.place = notes_.place(node);
    clamp.count = table.whole("count", 0, kMostClamps, Needed::yes).value_or(0);
    // A kind that is sold in one size needs no opening.
    const bool one_size = kind != nullptr && kind->openings_mm.size() == 1;
    clamp.opening = table.length("opening", Sign::above_zero, one_size ? Needed::no : Needed::yes)
                        .value_or(one_size ? nearest_length(kind->openings_mm[0]) : geometry::Length());
    clamp.throat = table.length("throat", Sign::above_zero, Needed::no).value_or(clamp.throat);
    if (const auto pad =
            table.lengths("pad", 2, "width and height", Sign::above_zero, Needed::no)) {
      clamp.pad_width = (*pad)[0];
      clamp.pad_height = (*pad)[1];
    }
    clamp.force_N = table.newtons("force").value_or(clamp.force_N);
    clamp.snug_force_N = table.newtons("snug_force");
    if (clamp.snug_force_N && *clamp.snug_force_N > clamp.force_N) {
      table.refuse("snug_force", "snug is less than tight: the clamp gives no more than its force",
                   "write \"" + std::to_string(static_cast<int>(clamp.force_N / 4)) +
                       " N\" or so, or leave it out");
    }
    table.finish();
    shop_.clamps.push_back(std::move(clamp));
  }

  void read_weight(const Node& node) {
    TableReader table(node, shop_keys("weight"), notes_);
    work::OwnedWeight weight;
    weight.place = notes_.place(node);
    weight.mass_kg = table.kilograms("mass").value_or(0);
    weight.count = table.whole("count", 0, kMostClamps, Needed::yes).value_or(0);
    table.finish();
    shop_.weights.push_back(std::move(weight));
  }

  void read_wood(const Node& node) {
    constexpr int kLightest = 80, kHeaviest = 1500;  // kg/m3: balsa; nothing that grows
    constexpr int kLimpest = 1000, kStiffest = 40'000;  // MPa
    TableReader table(node, shop_keys("wood"), notes_);
    tables::OwnWood own;
    own.name = table.text("name", Needed::yes).value_or("");
    own.softwood = table.truth("softwood").value_or(false);
    own.density_kg_per_m3 = table.whole("density", kLightest, kHeaviest, Needed::yes).value_or(kLightest);
    own.stiffness_MPa = table.whole("stiffness", kLimpest, kStiffest, Needed::no);
    own.shrinkage_radial = shrinkage(table, "shrinkage_radial");
    own.shrinkage_tangential = shrinkage(table, "shrinkage_tangential");
    own.oily = table.truth("oily").value_or(false);
    if (tables::find_wood(own.name) != nullptr) {
      table.refuse("name", "the table has this wood", "leave it out, or give yours another name");
    } else if (std::ranges::any_of(shop_.woods, [&](const auto& other) { return other->id == own.name; })) {
      table.refuse("name", "two woods have this name", "give one of them another name");
    }
    table.finish();
    shop_.woods.push_back(std::make_shared<const tables::Wood>(wood_from(own)));
  }

  // From green to oven-dry; no wood shrinks by more than a fifth.
  static std::optional<double> shrinkage(TableReader& table, std::string_view key) {
    const std::optional<double> share = table.share(key);
    if (share && !(*share > 0 && *share <= 0.2)) {
      table.refuse(key, "no wood shrinks so, from green to oven-dry", "write \"7.1 %\", from above 0 to 20");
      return std::nullopt;
    }
    return share;
  }

  void read_glue(const Node& node) {
    TableReader table(node, shop_keys("glue"), notes_);
    work::ShopGlue glue;
    glue.place = notes_.place(node);
    glue.name = table.text("name", Needed::yes).value_or("");
    const tables::GlueFamily* family =
        named_row(table, "family", tables::find_glue_family, tables::glue_ids(), "glues");
    glue.family = family != nullptr ? family->id : "";
    glue.open_s = table.seconds("open");
    glue.total_s = table.seconds("total");
    glue.clamp_s = table.seconds("clamp");
    glue.left_ml = table.millilitres("left");
    if (glue.open_s && glue.total_s && *glue.open_s > *glue.total_s) {
      table.refuse("open", "the open time is a part of the total time, and cannot be longer",
                   "exchange them");
    }
    const auto [first, fresh] = line_of_glue_.try_emplace(glue.name, glue.place.line);
    if (!fresh && !glue.name.empty()) {
      table.refuse("name", "two glues have this name",
                   "the first one stands at line " + std::to_string(first->second) +
                       ": give one of them another name");
    }
    table.finish();
    shop_.glues.push_back(std::move(glue));
  }

  void read_pace(const Node& node) {
    TableReader table(node, shop_keys("pace"), notes_);
    work::Pace& pace = shop_.pace;
    for (const work::PaceKey& key : work::kPaceKeys) {
      const std::optional<double> value = key.by == work::PaceBy::length
                                              ? table.seconds_per_mm(key.key)
                                              : table.seconds(key.key);
      pace.*key.value = value.value_or(pace.*key.value);
    }
    pace.wide_s_per_mm2 = table.seconds_per_mm2("wide");
    const Node* snug = table.value("snug");
    if (snug != nullptr && snug->kind == NodeKind::table) {
      read_snug(*snug);
    } else {
      pace.any_snug_s = table.seconds("snug");
    }
    table.finish();
  }

  void read_snug(const Node& node) {
    TableReader table(node, shop_keys("pace snug"), notes_);
    for (const std::string& kind : tables::clamp_ids()) {
      if (const std::optional<double> seconds = table.seconds(kind)) {
        shop_.pace.snug_s.emplace(kind, *seconds);
      }
    }
    table.finish();
  }

  FileNotes& notes_;
  TableReader root_;
  work::Shop shop_;
  std::map<std::string, int> line_of_glue_;  // by name, of the first that has it
};

}  // namespace

ShopReading read_shop(const std::string& file, std::string_view text) {
  auto [shop, diagnostics] =
      read_noted<work::Shop>(file, text, [&](Node& root, FileNotes& notes) {
        rename_old_shop_keys(root, notes);
        if (const Entry* jobs = of_other_file(root, shop_keys(""), job_keys(""))) {
          notes.error(notes.place(*jobs), "this is a job file, not the shop's",
                      "`glueup new shop` writes one for --shop");
          return work::Shop();
        }
        return ShopReader(file, root, notes).read();
      });
  return {std::move(shop), std::move(diagnostics)};
}

work::Shop unlimited_shop() {
  work::Shop shop;
  fill_rack(shop);
  return shop;
}

}  // namespace planner::files
