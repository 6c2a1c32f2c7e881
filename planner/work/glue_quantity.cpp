#include "planner/work/glue_quantity.h"

#include <algorithm>
#include <cmath>

#include "planner/base/spelling.h"
#include "planner/base/units.h"
#include "planner/tables/pressure_range.h"
#include "planner/work/step_seconds.h"
#include "planner/work/sizing.h"

namespace planner::work {

namespace {

// A thin coat that fills the pores before the glue itself goes on. Common practice.
constexpr double kSizeCoat_g_per_m2 = 100;
constexpr double kWasteShare = 0.15;
constexpr double kLeastWaste_ml = 10;
constexpr double kM2PerMm2 = 1e-6;
constexpr const char* kDefaultGlue = "pva_type2";

// A hair's breadth over a mark (rounding noise) is not over it.
double up_to_step(double amount, double step) {
  return step * std::ceil(amount / step - 1e-9);
}

GlueInUse from_table(const tables::GlueFamily& family, const Shop& shop) {
  const tables::GlueTimes times = times_at(family, shop.temperature_C, shop.humidity);
  GlueInUse glue;
  glue.name = family.name;
  glue.family = family.id;
  glue.warmth = times.warmth;
  glue.times_share = times.times_share;
  glue.total_s = times.total_s;
  glue.open_s = times.open_s.value_or(times.total_s);
  glue.clamp_s = times.clamp_s.hi;
  glue.cure_s = 3600 * family.full_cure_h.value_or(0);
  glue.min_wait_s = times.min_wait_s ? times.min_wait_s->lo : 0;
  glue.shared_budget = family.shared_budget;
  glue.spread_g_per_m2 = family.spread_g_per_m2.hi;
  glue.second_g_per_m2 = family.second_g_per_m2 ? family.second_g_per_m2->hi : 0;
  glue.density_g_per_ml = family.density_kg_per_l;
  glue.max_gap_mm = family.max_gap_mm;
  glue.both_faces = family.spread_on == tables::SpreadOn::two;
  glue.mixed = family.mixed;
  glue.hold_MPa = hold_pressure(family).lo_MPa;
  glue.min_temperature_C = family.min_temperature_C;
  glue.pot_life_s = times.pot_life_s;
  return glue;
}

// What the label says holds at about 20 C, so hot or dry air shortens its times too.
void apply_label(GlueInUse& glue, const ShopGlue& label) {
  glue.name = label.name;
  glue.left_ml = label.left_ml;
  if (label.total_s) {
    glue.total_s = glue.times_share * *label.total_s;
    glue.total_from_label = true;
  }
  if (label.open_s) {
    glue.open_s = glue.times_share * *label.open_s;
    glue.open_from_label = true;
    // A label with a long open time and no total outlasts the table's.
    if (!label.total_s) {
      glue.total_s = std::max(glue.total_s, glue.open_s);
    }
  }
  if (label.clamp_s) {
    glue.clamp_s = *label.clamp_s;
    glue.clamp_from_label = true;
  }
}

bool takes(const Joint& joint, const GlueInUse& glue) {
  if (joint.glue.empty() || joint.glue == glue.name) {
    return true;
  }
  const tables::GlueFamily* family = tables::find_glue_family(joint.glue);
  return family && family->id == glue.family;
}

FaceGlue glue_on(const Joint& joint, std::size_t index, const GlueInUse& glue) {
  const GlueFace& face = joint.faces[index];
  FaceGlue out;
  out.area_mm2 = joint.glued_share(face) * face.contact.area_mm2;
  out.net_g = glue.spread_g_per_m2 * kM2PerMm2 * out.area_mm2;
  out.size_coat_g = kSizeCoat_g_per_m2 * kM2PerMm2 * out.area_mm2 * sized_sides(joint, index, glue);
  return out;
}

// Mix only what will be used within half the pot life (maker's sheet in the aircraft construction
// manual, App. D): as many equal batches as the spreading takes halves.
std::vector<GlueBatch> batches(const GlueNeed& need, double spreading_s) {
  if (!need.glue.mixed || !need.glue.pot_life_s || need.faces.empty()) {
    return {};
  }
  const double halves = std::ceil(spreading_s / (*need.glue.pot_life_s / 2) - 1e-9);
  const auto count = static_cast<std::size_t>(std::max(1.0, halves));
  const double each_ml = (need.net_ml + need.waste_ml) / static_cast<double>(count);
  return std::vector<GlueBatch>(
      count, {measurable_up(each_ml), measurable_up(each_ml * need.glue.density_g_per_ml)});
}

}  // namespace

double waste_ml(double net_ml) {
  return std::max(kWasteShare * net_ml, kLeastWaste_ml);
}

double measurable_up(double ml_or_g) {
  if (ml_or_g <= 100) {
    return up_to_step(ml_or_g, 5);
  }
  return up_to_step(ml_or_g, ml_or_g <= 500 ? 10 : 50);
}

double measurable_fl_oz_up(double ml) {
  return up_to_step(ml / base::kMlPerFluidOunce, 0.25);
}

GlueChoice glue_named(const std::string& name, const base::Place& place, const Shop& shop) {
  std::vector<std::string> known;
  for (const ShopGlue& label : shop.glues) {
    known.push_back(label.name);
    const tables::GlueFamily* family = tables::find_glue_family(label.family);
    if (label.name == name && family) {
      GlueInUse glue = from_table(*family, shop);
      apply_label(glue, label);
      return {glue, {}};
    }
  }
  if (const tables::GlueFamily* family = tables::find_glue_family(name)) {
    GlueInUse glue = from_table(*family, shop);
    const auto own =
        std::find_if(shop.glues.begin(), shop.glues.end(), [family](const ShopGlue& label) {
          return tables::find_glue_family(label.family) == family;
        });
    if (own != shop.glues.end()) {
      apply_label(glue, *own);
    }
    return {glue, {}};
  }
  const std::vector<std::string> ids = tables::glue_ids();
  known.insert(known.end(), ids.begin(), ids.end());
  const std::string remedy = base::did_you_mean(
      name, known, "`glueup tables glues` lists them, or name one in the shop file");
  return {
      {},
      {{base::Severity::error, place, "no glue is called \"" + base::shown(name) + "\"", remedy}}};
}

GlueChoice choose_glue(const Job& job, const Shop& shop) {
  GlueChoice choice =
      job.glue.empty() && !shop.glues.empty()
          ? glue_named(shop.glues.front().name, shop.glues.front().place, shop)
          : glue_named(job.glue.empty() ? kDefaultGlue : job.glue, job.glue_place, shop);
  for (const JointOverride& joint : job.overrides) {
    if (joint.glue) {
      append(choice.problem, glue_named(*joint.glue, joint.place, shop).problem);
    }
  }
  return choice;
}

GlueNeed glue_quantity(std::span<const Joint> joints, const GlueInUse& glue, const Pace& pace) {
  GlueNeed need;
  need.glue = glue;
  double spreading_s = 0;
  for (JointId j = 0; j < joints.size(); ++j) {
    const Joint& joint = joints[j];
    if (!joint.glued || !takes(joint, glue)) {
      continue;
    }
    spreading_s += spread_seconds(joint, pace);
    for (std::size_t f = 0; f < joint.faces.size(); ++f) {
      FaceGlue face = glue_on(joint, f, glue);
      face.joint = j;
      face.face = f;
      need.area_mm2 += face.area_mm2;
      need.net_g += face.net_g + face.size_coat_g;
      need.size_coat_g += face.size_coat_g;
      need.faces.push_back(face);
    }
  }
  if (need.faces.empty()) {
    return need;
  }
  need.net_ml = need.net_g / glue.density_g_per_ml;
  need.waste_ml = waste_ml(need.net_ml);
  const double wanted_ml = need.net_ml + need.waste_ml;
  need.ready_ml = measurable_up(wanted_ml);
  need.ready_g = measurable_up(wanted_ml * glue.density_g_per_ml);
  need.ready_fl_oz = measurable_fl_oz_up(wanted_ml);
  const double hardener_g = glue.second_g_per_m2 * kM2PerMm2 * need.area_mm2;
  need.hardener_ready_g = measurable_up((1 + kWasteShare) * hardener_g);
  need.mix = batches(need, spreading_s);
  need.enough_left = !glue.left_ml || wanted_ml <= *glue.left_ml;
  return need;
}

}  // namespace planner::work
