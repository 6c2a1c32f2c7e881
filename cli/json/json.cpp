#include "cli/json/json.h"

#include "cli/json/advice_json.h"
#include "cli/json/facts.h"
#include "cli/json/json_values.h"
#include "cli/json/json_words.h"
#include "cli/words/caution_words.h"
#include "cli/words/note_words.h"
#include "cli/words/order_words.h"
#include "cli/words/verdict_words.h"
#include "planner/advice/drawing_faults.h"
#include "planner/plan/plan_parts.h"
#include "planner/work/sizing.h"

namespace cli::json {
namespace {

using geometry::Point;
using planner::plan::Plan;
using planner::plan::Stage;

Json size_of(const planner::plan::PadSize& p) {
  return {mm(p.along_mm), mm(p.across_mm), mm(p.thick_mm)};
}

Json verdict_json(const Plan& plan) {
  const planner::plan::Verdict& verdict = plan.verdict;
  Json json{
      {"ok", verdict.ok},
      {"time", word(verdict.time)},
      {"comfort", word(verdict.comfort)},
      {"pressure",
       verdict.pressure == planner::plan::Level::seat ? "hold" : word(verdict.pressure)},
      {"reasons", words::reason_texts(plan)},
      {"reasons_data", facts(plan, verdict.reasons)},
      {"ways_out", array_of(verdict.ways_out,
                            [&](const planner::plan::WayOut& way) { return way_json(plan, way); })},
      {"risk", words::risk_text(plan, false)},
      {"risk_data", fact(plan, verdict.risk)}};
  if (verdict.helps_most) {
    json["helps_most"] = way_json(plan, verdict.helps_most->way);
    json["helps_most"]["before_s"] = second(verdict.helps_most->before_s);
  }
  if (verdict.other) {
    json["other"] = {{"stages", verdict.other->stages},
                     {"slack_s", second(verdict.other->slack_s)},
                     {"comfortable", verdict.other->comfortable}};
  }
  if (verdict.stopped) {
    json["stopped"] = true;
  }
  return json;
}

Json part_json(const planner::plan::PlanPart& part) {
  Json show = Json::array();
  for (const planner::work::Face face : part.show) {
    show.push_back(to_text(face));
  }
  return {{"name", part.name},
          {"species", part.species},
          {"size_mm", {mm(part.size_mm[0]), mm(part.size_mm[1]), mm(part.size_mm[2])}},
          {"grain", vector_of(part.grain)},
          {"volume_mm3", rounded(part.volume_mm3, 0)},
          {"mass_g", gram(part.mass_g)},
          {"show", std::move(show)},
          {"bounds_mm", {vector_of(part.bounds.lo), vector_of(part.bounds.hi)}}};
}

Json face_json(const planner::work::GlueFace& face) {
  Json outline = Json::array();
  if (!face.contact.regions.empty()) {
    for (const Point& p : face.contact.regions.front().outer) {
      outline.push_back(vector_of(p));
    }
  }
  return {{"area_mm2", mm2(face.contact.area_mm2)},
          {"normal", vector_of(face.contact.normal)},
          {"gap_mm", mm(face.contact.gap_mm)},
          {"grain", {word(face.grain[0]), word(face.grain[1])}},
          {"crossed", face.crossed},
          {"outline_mm", std::move(outline)}};
}

Json joint_json(const Plan& plan, planner::work::JointId id) {
  const planner::work::Joint& joint = plan.joints[id];
  Json faces = Json::array();
  for (const planner::work::GlueFace& face : joint.faces) {
    faces.push_back(face_json(face));
  }
  return {{"id", id},
          {"parts", {plan.parts[joint.parts[0]].name, plan.parts[joint.parts[1]].name}},
          {"kind", to_text(joint.kind, false)},
          {"glued", joint.glued},
          {"sized", is_sized(joint, plan.glue.glue)},
          {"held_by", word(joint.held_by)},
          {"faces", std::move(faces)}};
}

Json glue_json(const Plan& plan) {
  const planner::work::GlueNeed& need = plan.glue;
  Json json = {{"name", need.glue.name},         {"family", need.glue.family},
               {"area_mm2", mm2(need.area_mm2)}, {"net_ml", ml(need.net_ml)},
               {"ready_ml", ml(need.ready_ml)},  {"mass_g", gram(need.ready_g)}};
  if (!need.mix.empty()) {
    json["mix"] = Json::array();
    for (const planner::work::GlueBatch& batch : need.mix) {
      json["mix"].push_back({{"ml", ml(batch.ml)}, {"g", gram(batch.g)}});
    }
  }
  if (need.glue.left_ml) {
    json["left_ml"] = ml(*need.glue.left_ml);
  }
  json["long_mm2"] = mm2(plan.long_mm2);
  json["cross_mm2"] = mm2(plan.cross_mm2);
  json["end_mm2"] = mm2(plan.end_mm2);
  return json;
}

Json step_json(const Plan& plan, const planner::plan::Stage& stage, const planner::plan::Step& step) {
  Json json = {{"n", step.n},
               {"start_s", second(step.start_s)},
               {"end_s", second(step.end_s)},
               {"people", step.people},
               {"do", word(step.kind)},
               {"parts", names(plan, step.parts)},
               {"joints", step.joints},
               {"clamps", step.clamps}};
  if (step.motion) {
    json["motion"] = {{"moving", names(plan, step.motion->moving)},
                      {"direction", vector_of(step.motion->direction)},
                      {"rubbed", step.motion->rubbed}};
    if (const auto& fold = step.motion->fold) {
      json["motion"]["fold"] = {{"at_mm", vector_of(fold->hinge.at)},
                                {"axis", vector_of(fold->hinge.along)},
                                {"angle_deg", rounded(fold->angle_deg, 2)},
                                {"turns", names(plan, {fold->turns})[0]},
                                {"stays", names(plan, {fold->stays})[0]}};
    }
  }
  if (step.kind == planner::plan::StepKind::check) {
    json["inside"] = step.check == planner::plan::Check::inside_diagonals;
    if (step.check) {
      json["check"] = word(*step.check);
    }
    if (!step.rings.empty()) {
      json["rings"] = step.rings;
    }
  }
  json["wants_hand"] = step.wants_hand;
  if (step.motion || step.kind == planner::plan::StepKind::turn) {
    json["lifted_kg"] = rounded(step.lifted_kg, 1);
  }
  if (step.kind == planner::plan::StepKind::turn) {
    json["bench_face"] = to_text(bench_face_after(stage, step));
  }
  json["why"] = words::step_reason_text(plan, step.why);
  json["why_data"] = fact(plan, step.why);
  return json;
}

Json clamp_json(const planner::plan::PlannedClamp& clamp) {
  Json json = {{"n", clamp.n},
               // A strap presses all round, along no line of action.
               {"axis", vector_of(clamp.round.empty() ? clamp.axis : geometry::Direction{})},
               {"at_mm", vector_of(clamp.at)},
               {"span_mm", mm(clamp.span_mm)},
               {"kind", clamp.kind},
               {"size_mm", mm(clamp.size_mm)},
               {"opening_mm", mm(clamp.opening_mm)},
               {"force_N", newton(clamp.force_N)},
               {"strength", word(clamp.strength)},
               {"snug_N", newton(clamp.snug_N)},
               {"level", word(clamp.level)}};
  if (clamp.pad.thick_mm > 0) {
    json["pad_mm"] = size_of(clamp.pad);
  }
  if (clamp.caul) {
    json["caul_mm"] = size_of(*clamp.caul);
    json["caul_camber_mm"] = mm(clamp.caul_camber_mm);
    json["caul_lining_mm"] = mm(clamp.caul_lining_mm);
  }
  if (clamp.platen_mm > 0) {
    json["platen_mm"] = mm(clamp.platen_mm);
  }
  if (clamp.form_mm > 0) {
    json["form_mm"] = mm(clamp.form_mm);
  }
  for (const planner::plan::Wedge& wedge : clamp.wedge) {
    if (wedge.angle_deg > 0) {
      json["wedges"].push_back({{"end", &wedge == &clamp.wedge[0] ? "low" : "high"},
                                {"angle_deg", rounded(wedge.angle_deg, 2)},
                                {"thin_mm", mm(wedge.thin_mm)},
                                {"thick_mm", mm(wedge.thick_mm)},
                                {"rises", vector_of(wedge.rises)}});
    }
  }
  json["bar_side"] = vector_of(clamp.bar_side);
  if (clamp.meets > 0) {
    json["meets"] = clamp.meets;
  }
  if (clamp.laid_before > 0) {
    json["laid_before"] = clamp.laid_before;
  }
  for (const Point& corner : clamp.round) {
    json["round_mm"].push_back(vector_of(corner));
  }
  json["bearing_MPa"] = mpa(clamp.bearing_MPa);
  json["bearing_limit_MPa"] = mpa(clamp.bearing_limit_MPa);
  json["barrier"] = clamp.barrier;
  json["joints"] = clamp.joints;
  return json;
}

Json fastening_json(const Plan& plan, const planner::plan::Fastening& row) {
  Json json = {{"joint", row.joint},
               {"sheet", names(plan, {row.sheet})[0]},
               {"by", word(row.by)},
               {"count", row.at.size()},
               {"spacing_mm", mm(row.spacing_mm)},
               {"at_mm", array_of(row.at, [](const Point& at) -> Json { return vector_of(at); })}};
  if (row.pocket) {
    json["pocket"] = true;
  }
  return json;
}

Json stage_json(const Plan& plan, const Stage& stage) {
  Json steps = Json::array(), clamps = Json::array(), limits = Json::array();
  for (const planner::plan::Step& step : stage.steps) {
    steps.push_back(step_json(plan, stage, step));
  }
  for (const planner::plan::PlannedClamp& clamp : stage.clamps) {
    clamps.push_back(clamp_json(clamp));
    clamps.back()["edge_caul"] = clamp.edge_caul;
    clamps.back()["why"] = words::clamp_reason_text(plan, clamp);
  }
  for (const planner::plan::FaceLimit& limit : stage.limits) {
    limits.push_back({{"joint", limit.joint},
                      {"face", limit.face},
                      {"open_s", second(limit.open_s)},
                      {"used_open_s", second(limit.used_open_s)},
                      {"total_s", second(limit.total_s)},
                      {"used_total_s", second(limit.used_total_s)},
                      {"pressed_by", word(limit.pressed_by)}});
  }
  Json json = {{"parts", names(plan, stage.parts)},
               {"joints", stage.joints},
               {"bench_face", to_text(stage.bench_face)},
               {"risers_mm", mm(stage.risers_mm)},
               {"steps", std::move(steps)},
               {"clamps", std::move(clamps)},
               {"slack_s", second(stage.slack_s)},
               {"starts_s", second(stage.starts_s)},
               {"makespan_s", second(stage.makespan_s)},
               {"pull_apart_by_s", second(stage.pull_apart_by_s)},
               {"clamp_time_s", second(stage.clamp_time_s)},
               {"status", word(stage.status)},
               {"why", array_of(stage.why,
                                [&](const planner::plan::OrderReason& why) -> Json {
                                  return words::order_reason_text(plan, why);
                                })},
               {"why_data", facts(plan, stage.why)}};
  if (!stage.name.empty()) {
    json["name"] = stage.name;
  }
  if (stage.bound_s) {
    json["bound_s"] = second(*stage.bound_s);
  }
  json["limits"] = std::move(limits);
  if (stage.cross_cauls) {
    const planner::plan::CrossCauls& cauls = *stage.cross_cauls;
    json["cross_cauls"] = {
        {"along", std::string(1, "xyz"[cauls.along_axis])},
        {"at_mm", array_of(cauls.at_mm, [](double at) -> Json { return mm(at); })},
        {"length_mm", mm(cauls.length_mm)},
        {"side_mm", mm(cauls.side_mm)},
        {"clamp", cauls.kind},
        {"clamps", cauls.clamps()},
        {"opening_mm", mm(cauls.opening_mm)}};
  }
  for (const planner::plan::Loading& load : stage.loadings) {
    json["loadings"].push_back({{"by", word(load.by)},
                                {"joints", load.joints},
                                {"weights", load.weights},
                                {"mass_kg", rounded(load.mass_kg, 2)},
                                {"pressure_MPa", mpa(load.pressure_MPa)}});
  }
  for (const planner::plan::Fastening& row : stage.fastenings) {
    json["fastenings"].push_back(fastening_json(plan, row));
  }
  for (const planner::plan::CornerClamp& c : stage.corner_clamps) {
    json["locators"].push_back(
        {{"joint", c.joint}, {"at_mm", vector_of(c.at)}, {"kind", c.kind}, {"stays", c.stays}});
  }
  return json;
}

Json pressure_json(const planner::plan::LinePressure& line) {
  Json samples = Json::array();
  for (const auto& [at, p] : line.samples) {
    samples.push_back({mm(at), mpa(p)});
  }
  return {{"joint", line.joint},
          {"face", line.face},
          {"axis", vector_of(line.axis)},
          {"level", word(line.level)},
          {"min_MPa", mpa(line.min_MPa)},
          {"mean_MPa", mpa(line.mean_MPa)},
          {"max_MPa", mpa(line.max_MPa)},
          {"hold_MPa", mpa(line.hold_MPa)},
          {"full_MPa", mpa(line.full_MPa)},
          {"most_MPa", mpa(line.most_MPa)},
          {"open_gap_mm", mm(line.open_gap_mm)},
          {"size_mm", {mm(line.size_mm[0]), mm(line.size_mm[1])}},
          {"off_mm", {mm(line.off_mm[0]), mm(line.off_mm[1])}},
          {"bow_mm", mm(line.bow_mm)},
          {"closing_N", newton(line.closing_N)},
          {"estimated", line.estimated},
          {"samples", std::move(samples)}};
}

// A user's clamp is what the file says: which way its bar stands is its owner's business.
Json placed_json(const Plan& plan) {
  const planner::plan::PlacedTrial& trial = *plan.placed;
  return {{"holds", trial.holds},
          {"clamps", array_of(trial.clamps, clamp_json)},
          {"pressure", array_of(trial.pressure, pressure_json)},
          {"findings", array_of(trial.findings,
                                [&](const planner::plan::PlacedFinding& finding) {
                                  return finding_json(plan, finding);
                                })},
          {"mends", array_of(trial.mends, [&](const planner::plan::PlacedMend& mend) {
             return placed_mend_json(plan, mend);
           })}};
}

Json mend_json(const Plan& plan, const planner::advice::DrawingFault& mend) {
  Json json = {{"kind", word(mend.kind)}};
  switch (mend.kind) {
    case planner::advice::FaultKind::locked:
      json["parts"] = names(plan, mend.parts);
      break;
    case planner::advice::FaultKind::gap:
      json["gap_mm"] = mm(mend.gap_mm);
      [[fallthrough]];
    case planner::advice::FaultKind::across_grain:
      json["joints"] = mend.joints;
      break;
  }
  return json;
}

// Names come from the user: a byte that is no UTF-8 is replaced, never thrown over.
std::string dumped(const Json& json) {
  return json.dump(1, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace

std::string json_sheet(const Plan& plan) {
  Json json = {
      {"schema_version", kSchemaVersion}, {"title", plan.title}, {"verdict", verdict_json(plan)}};
  json["parts"] = array_of(plan.parts, part_json);
  json["joints"] = Json::array();
  for (planner::work::JointId id = 0; id < plan.joints.size(); ++id) {
    json["joints"].push_back(joint_json(plan, id));
  }
  json["rings"] = array_of(plan.rings, [&](const planner::work::Ring& ring) -> Json {
    return {{"parts", names(plan, ring.parts)},
            {"normal", std::string(1, "xyz"[ring.normal_axis])},
            {"inside_mm", {mm(ring.inside_mm[0]), mm(ring.inside_mm[1])}},
            {"outside_mm", {mm(ring.outside_mm[0]), mm(ring.outside_mm[1])}}};
  });
  json["glue"] = glue_json(plan);
  if (plan.stages_done > 0) {
    json["stages_done"] = plan.stages_done;
  }
  json["stages"] =
      array_of(plan.stages, [&](const Stage& stage) { return stage_json(plan, stage); });
  json["pressure"] = array_of(plan.pressure, pressure_json);
  if (plan.placed) {
    json["placed"] = placed_json(plan);
  }
  json["inventory"] = array_of(plan.inventory, [](const planner::plan::InventoryRow& row) -> Json {
    return {{"kind", row.kind},
            {"opening_mm", mm(row.opening_mm)},
            {"owned", row.owned},
            {"used", row.used},
            {"short", row.short_by}};
  });
  json["cross_grain"] =
      array_of(plan.cross_grain, [&](const planner::work::CrossGrainNote& note) -> Json {
        const std::string& moving = plan.parts[note.moving].name;
        return {{"joint", note.joint},
                {"moving", moving},
                {"glued_mm", mm(note.glued_mm)},
                {"movement_mm", mm(note.movement_mm)},
                {"warning", note.warning}};
      });
  json["mend_first"] =
      array_of(planner::advice::drawing_faults(plan),
               [&](const planner::advice::DrawingFault& mend) { return mend_json(plan, mend); });
  json["notes"] = array_of(
      plan.notes, [&](const planner::plan::Note& n) -> Json { return words::note_text(plan, n); });
  json["notes_data"] = facts(plan, plan.notes);
  json["spare"] = array_of(plan.spare_notes, [&](const planner::plan::SpareNote& note) {
    return spare_json(plan, note);
  });
  json["cautions"] = array_of(plan.cautions, [&](const planner::plan::Caution& c) -> Json {
    return words::caution_text(plan, c);
  });
  json["cautions_data"] = facts(plan, plan.cautions);
  return dumped(json);
}

std::string json_failure(const planner::base::Diagnostics& diagnostics) {
  Json errors = array_of(diagnostics, [](const planner::base::Diagnostic& d) -> Json {
    return {{"severity", d.severity == planner::base::Severity::error ? "error" : "warning"},
            {"file", d.place.file},
            {"line", d.place.line},
            {"column", d.place.column},
            {"message", d.message},
            {"remedy", d.remedy}};
  });
  return dumped({{"schema_version", kSchemaVersion}, {"errors", std::move(errors)}});
}

std::string json_table(const planner::tables::Listing& listing) {
  Json rows = array_of(listing.rows, [](const planner::tables::ListedRow& row) -> Json {
    Json values = array_of(row.values, [](const planner::tables::ListedValue& v) -> Json {
      return {{"what", v.label},
              {"value", v.text},
              {"unit", v.unit},
              {"mark", to_text(v.source.mark)},
              {"source", v.source.text}};
    });
    return {{"id", row.id},
            {"name", row.name},
            {"also", row.also},
            {"values", std::move(values)},
            {"notes", row.notes}};
  });
  return dumped({{"schema_version", kSchemaVersion},
                 {"table", listing.title},
                 {"reading", listing.reading},
                 {"rows", std::move(rows)}});
}

bool is_json(const std::string& text) {
  return Json::accept(text);
}

}  // namespace cli::json
