#include "cli/json/advice_json.h"

#include "cli/words/placed_words.h"
#include "cli/words/spare_words.h"
#include "cli/words/way_out_words.h"

namespace cli::json {
namespace {

using planner::plan::Plan;

struct WayAmounts {
  const Plan& plan;

  Json operator()(const planner::plan::HelpersWay& way) const {
    Json json = {{"helpers", way.helpers}};
    if (way.slack_s) {
      json["slack_s"] = second(*way.slack_s);
    }
    return json;
  }
  Json operator()(const planner::plan::GlueWay& way) const {
    return {{"glue", way.name},
            {"on_shelf", way.on_shelf},
            {"slack_s", second(way.slack_s)},
            {"longer_s", second(way.longer_s)}};
  }
  Json operator()(const planner::plan::CoolerWay& way) const {
    return {{"temperature_C", rounded(way.temperature_C, 1)},
            {"slack_s", second(way.slack_s)},
            {"longer_s", second(way.longer_s)}};
  }
  Json operator()(const planner::plan::WarmerWay& way) const {
    return {{"temperature_C", rounded(way.temperature_C, 1)}};
  }
  Json operator()(const planner::plan::ColdGlueWay& way) const {
    return {{"glue", way.name}, {"on_shelf", way.on_shelf}, {"least_C", rounded(way.least_C, 1)}};
  }
  Json operator()(const planner::plan::RollerWay& way) const {
    return {{"slack_s", second(way.slack_s)}};
  }
  Json operator()(const planner::plan::StagesWay& way) const {
    return {{"stages", way.stages}, {"slack_s", second(way.slack_s)}};
  }
  Json operator()(const planner::plan::DoubleSpreadWay& way) const {
    return {{"slack_s", second(way.slack_s)}};
  }
  Json operator()(const planner::plan::FasterSpreadWay& way) const {
    return {{"percent", way.percent}, {"second_pair", way.second_pair}};
  }
  Json operator()(const planner::plan::SmallerJoinWay& way) const {
    return {{"parts", names(plan, way.first)},
            {"to_parts", names(plan, way.second)},
            {"short_by_s", second(way.short_by_s)}};
  }
  Json operator()(const planner::plan::GoesWay& way) const {
    return {{"goes", way.goes}, {"first_parts", names(plan, way.first)}, {"clamps", way.clamps}};
  }
  Json operator()(const planner::plan::BorrowWay& way) const {
    Json json = {{"borrow", array_of(way.lacking,
                                     [](const planner::plan::ClampsToBorrow& lacking) -> Json {
                                       return {{"clamp", lacking.kind},
                                               {"count", lacking.count},
                                               {"opening_mm", mm(lacking.opening_mm)}};
                                     })},
                 {"clamps", way.clamps},
                 {"level", way.full ? "full" : "hold"}};
    if (way.full) {
      json["more_s"] = second(way.more_s);
    }
    return json;
  }
  Json operator()(const planner::plan::StrapsWay& way) const {
    Json json = {{"straps", way.straps}, {"owned", way.owned}, {"strap_mm", mm(way.strap_mm)}};
    if (way.clamps) {
      json["in_place_of_clamps"] = *way.clamps;
    }
    return json;
  }
  Json operator()(const planner::plan::BagWay& way) const { return {{"joints", way.joints}}; }
  Json operator()(const planner::plan::HoldWay& way) const {
    return {{"hold_MPa", mpa(way.hold_MPa)}};
  }
};

// Each with its kind first.
struct FindingAmounts {
  const Plan& plan;

  Json operator()(const planner::plan::UntouchedAxis& f) const {
    return {{"kind", "untouched_axis"}, {"axis", vector_of(f.axis)}, {"joints", f.joints}};
  }
  Json operator()(const planner::plan::StarvedJoint& f) const {
    using How = planner::plan::StarvedJoint::How;
    Json json = {{"kind", f.how == How::no_pressure ? "no_pressure"
                          : f.how == How::open      ? "open_joint"
                          : f.how == How::weak      ? "weak_joint"
                                                    : "starved_joint"},
                 {"joint", f.joint},
                 {"axis", vector_of(f.axis)}};
    if (f.how != How::no_pressure) {
      json["open_gap_mm"] = mm(f.open_gap_mm);
      json["held_share"] = share(f.held_share);
      json["end"] = vector_of(f.end);
      json["from_end_mm"] = mm(f.from_end_mm);
      json["starved_share"] = share(f.starved_share);
    }
    return json;
  }
  Json operator()(const planner::plan::DentingClamp& f) const {
    return {{"kind", "denting_clamp"},
            {"clamp", f.clamp},
            {"parts", {plan.parts[f.low].name, plan.parts[f.high].name}},
            {"bearing_share", share(f.bearing_share)}};
  }
  Json operator()(const planner::plan::OffMiddle& f) const {
    return {{"kind", "off_middle"},
            {"joint", f.joint},
            {"off_mm", mm(f.off_mm)},
            {"towards", vector_of(f.towards)},
            {"over_half", f.over_half}};
  }
  Json operator()(const planner::plan::IdleClamp& f) const {
    return {{"kind", "idle_clamp"}, {"clamp", f.clamp}};
  }
};

struct ChangeAmounts {
  Json operator()(const planner::plan::MoveClamp& c) const {
    return {{"kind", "move_clamp"},
            {"clamp", c.clamp},
            {"by_mm", mm(c.by_mm)},
            {"towards", vector_of(c.towards)}};
  }
  Json operator()(const planner::plan::PutBlocks& c) const {
    return {{"kind", c.edge_cauls ? "put_edge_cauls" : "put_blocks"},
            {"clamps", c.clamps},
            {"long_mm", mm(c.long_mm)},
            {"thick_mm", mm(c.thick_mm)}};
  }
  Json operator()(const planner::plan::DrawHarder& c) const {
    return {{"kind", "draw_harder"},
            {"draws", array_of(c.draws, [](const planner::plan::DrawHarder::Draw& d) -> Json {
               return {{"clamp", d.clamp},
                       {"force_N", newton(d.force_N)},
                       {"more_share", share(d.more_share)}};
             })}};
  }
  Json operator()(const planner::plan::SpreadEvenly& c) const {
    return {{"kind", "spread_evenly"},
            {"lines", array_of(c.lines, [](const planner::plan::SpreadEvenly::Line& l) -> Json {
               return {{"apart_mm", mm(l.apart_mm)}, {"from_end_mm", mm(l.from_end_mm)}};
             })}};
  }
  Json operator()(const planner::plan::LayStrip& c) const {
    return {{"kind", "lay_strip"}, {"thick_mm", mm(c.thick_mm)}};
  }
  Json operator()(const planner::plan::SetMore& c) const {
    return {{"kind", "set_more"},
            {"at_mm", array_of(c.at, [](const geometry::Point& p) { return vector_of(p); })}};
  }
  Json operator()(const planner::plan::SetAnew& c) const {
    Json json = {{"kind", "set_anew"},
                 {"clamps", c.clamps},
                 {"lines", array_of(c.lines, [](const planner::plan::SetAnew::Lines& l) -> Json {
                    return {{"lines", l.lines},
                            {"clamps_each", l.clamps_each},
                            {"length_mm", mm(l.length_mm)},
                            {"apart_mm", mm(l.apart_mm)},
                            {"from_end_mm", mm(l.from_end_mm)}};
                  })}};
    if (c.strips) {
      json["strip_thick_mm"] = mm(c.thick_mm);
    } else if (c.block_mm > 0) {
      json["block_mm"] = {mm(c.block_mm), mm(c.thick_mm)};
    }
    json["force_N"] = newton(c.force_N);
    return json;
  }
};

struct SpareAmounts {
  Json operator()(const planner::plan::SpareClampsNote& n) const {
    return {{"kind", "spare_clamps"},
            {"axis", vector_of(n.axis)},
            {"places",
             array_of(n.places,
                      [](const planner::plan::SpareClampsNote::Place& p) -> Json {
                        return {{"clamp", p.kind}, {"from_corner_mm", vector_of(p.from_corner)}};
                      })},
            {"joint", n.joint},
            {"before_MPa", mpa(n.before_MPa)},
            {"after_MPa", mpa(n.after_MPa)},
            {"more_s", second(n.more_s)}};
  }
  Json operator()(const planner::plan::StrapShortNote& n) const {
    return {{"kind", "straps_short"}, {"straps", n.straps}, {"share", share(n.share)}};
  }
  Json operator()(const planner::plan::NotFullNote&) const { return {{"kind", "not_full"}}; }
  Json operator()(const planner::plan::FullLeftOutNote& n) const {
    using Why = planner::plan::FullLeftOutNote::Why;
    return {{"kind", "full_left_out"}, {"why", n.why == Why::no_time ? "no time" : "no more"}};
  }
  Json operator()(const planner::plan::CornerClampsNote& n) const {
    using Why = planner::plan::CornerClampsNote::Why;
    return {{"kind", "corner_clamps_unused"},
            {"why", n.why == Why::one_alone   ? "one alone"
                    : n.why == Why::too_thick ? "too thick"
                    : n.why == Why::no_room   ? "no room"
                                              : "no time"}};
  }
};

}  // namespace

Json way_json(const Plan& plan, const planner::plan::WayOut& way) {
  const words::WayOutWords told = words::way_out_words(plan, way);
  Json json = {{"kind", told.kind}};
  json.update(std::visit(WayAmounts{plan}, way.change));
  json["what"] = told.what;
  json["gain"] = told.gain;
  json["mends"] = way.mends;
  return json;
}

Json finding_json(const Plan& plan, const planner::plan::PlacedFinding& finding) {
  Json json = std::visit(FindingAmounts{plan}, finding);
  json["text"] = words::finding_text(plan, finding);
  return json;
}

Json placed_mend_json(const Plan& plan, const planner::plan::PlacedMend& mend) {
  return {{"axis", vector_of(mend.axis)},
          {"changes", array_of(mend.changes,
                               [&](const planner::plan::PlacedChange& change) {
                                 Json json = std::visit(ChangeAmounts{}, change);
                                 json["text"] = words::change_text(plan, change);
                                 return json;
                               })},
          {"what", words::mend_text(plan, mend)},
          {"gain", words::kMendGain},
          {"mends", true}};
}

Json spare_json(const Plan& plan, const planner::plan::SpareNote& note) {
  Json json = std::visit(SpareAmounts{}, note);
  json["text"] = words::spare_text(plan, note);
  return json;
}

}  // namespace cli::json
