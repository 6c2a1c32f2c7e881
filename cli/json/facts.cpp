#include "cli/json/facts.h"

#include "cli/words/trade_words.h"

namespace cli::json {
namespace {

using planner::plan::CautionKind;
using planner::plan::Plan;

struct Facts {
  const Plan& plan;

  Json parts(const std::vector<planner::work::PartId>& ids) const { return names(plan, ids); }
  Json part(planner::work::PartId id) const { return plan.parts[id].name; }
  static Json side(const geometry::Direction& d) { return to_text(words::side_towards(d)); }
};

struct NoteFacts : Facts {
  Json operator()(const planner::plan::PanelGluedNote& n) const {
    return {{"kind", "panel glued"},
            {"part", part(n.panel)},
            {"sides", n.sides},
            {"joints", n.joints},
            {"movement_mm", mm(n.movement_mm)}};
  }
  Json operator()(const planner::plan::PanelRoomNote& n) const {
    return {{"kind", "panel room"},
            {"part", part(n.panel)},
            {"movement_mm", mm(n.movement_mm)},
            {"room_mm", mm(n.room_mm)}};
  }
  Json operator()(const planner::plan::PanelDepthNote& n) const {
    return {{"kind", "panel depth"},
            {"part", part(n.panel)},
            {"engaged_mm", mm(n.engaged_mm)},
            {"movement_mm", mm(n.movement_mm)}};
  }
  Json operator()(const planner::plan::ShouldersByHandNote& n) const {
    return {{"kind", "shoulders by hand"},
            {"axis", vector_of(n.axis)},
            {"joints", n.joints},
            {"clamps", n.clamps},
            {"opening_mm", mm(n.opening_mm)}};
  }
  Json operator()(const planner::plan::HandsNote& n) const {
    return {{"kind", "hands"},  {"step", n.step},   {"and_later", n.and_later}, {"hands", n.hands},
            {"there", n.there}, {"props", n.props}, {"parts", parts(n.loose)}};
  }
  Json operator()(const planner::plan::CapturedNote& n) const {
    return {{"kind", "captured"}, {"part", part(n.part)}, {"neighbours", parts(n.neighbours)}};
  }
  Json operator()(const planner::plan::CapturedTogetherNote& n) const {
    return {{"kind", "captured together"}, {"parts", parts(n.parts)}};
  }
  Json operator()(const planner::plan::DryJointsNote& n) const {
    return {{"kind", "dry joints"}, {"joints", n.joints}};
  }
  Json operator()(const planner::plan::BowNote& n) const {
    return {{"kind", "bow"},
            {"joint", n.joint},
            {"bow_mm", mm(n.bow_mm)},
            {"open_gap_mm", mm(n.open_gap_mm)},
            {"closing_N", newton(n.closing_N)}};
  }
  Json operator()(const planner::plan::LightlyHeldNote& n) const {
    return {{"kind", "lightly held"},
            {"joints", n.joints},
            {"joint", n.weakest},
            {"least_MPa", mpa(n.least_MPa)},
            {"hold_MPa", mpa(n.hold_MPa)},
            {"at_an_end", n.at_an_end}};
  }
  Json operator()(const planner::plan::OffsetNote& n) const {
    return {{"kind", "offset"},
            {"joint", n.joint},
            {"way", n.along ? "along" : "across"},
            {"off_mm", mm(n.off_mm)}};
  }
  Json operator()(const planner::plan::RackingNote& n) const {
    return {
        {"kind", "racking"}, {"off_mm", mm(n.off_mm)}, {"moment_Nmm", rounded(n.moment_Nmm, 0)}};
  }
  Json operator()(const planner::plan::CamberNote& n) const {
    Json cauls = Json::array();
    for (const planner::plan::CamberNote::Caul& caul : n.cauls) {
      cauls.push_back({{"along_mm", mm(caul.along_mm)},
                       {"thick_mm", mm(caul.thick_mm)},
                       {"camber_mm", mm(caul.camber_mm)}});
    }
    return {{"kind", "camber"}, {"cauls", std::move(cauls)}, {"lining_mm", mm(n.lining_mm)}};
  }
  Json operator()(const planner::plan::DrivenNote& n) const {
    return {{"kind", "driven"}, {"joints", n.joints}, {"loose", n.loose}};
  }
  Json operator()(const planner::plan::RingTrueNote& n) const {
    return {{"kind", "ring true"}, {"sides", n.sides}, {"across_mm", mm(n.across_mm)}};
  }
  Json operator()(const planner::plan::LeaningSidesNote& n) const {
    return {{"kind", "leaning sides"},
            {"slope_deg", rounded(n.slope_deg, 2)},
            {"blade_deg", rounded(n.blade_deg, 2)},
            {"gauge_deg", rounded(n.gauge_deg, 2)}};
  }
  Json operator()(const planner::plan::BendNote& n) const {
    return {{"kind", "bend"},
            {"radius_mm", mm(n.radius_mm)},
            {"form_radius_mm", mm(n.form_radius_mm)},
            {"bending_N", newton(n.bending_N)}};
  }
  Json operator()(const planner::plan::CreepNote&) const { return {{"kind", "creep"}}; }
  Json operator()(const planner::plan::BreadboardNote& n) const {
    return {{"kind", "breadboard"},
            {"across_mm", mm(n.across_mm)},
            {"movement_mm", mm(n.movement_mm)}};
  }
  Json operator()(const planner::plan::KeysNote& n) const {
    return {{"kind", "keys"}, {"each", n.each}, {"corners", n.corners}};
  }
  Json operator()(const planner::plan::StrapNote&) const { return {{"kind", "strap"}}; }
  Json operator()(const planner::plan::EndGrainNote& n) const {
    return {{"kind", "end grain"}, {"share", share(n.share)}};
  }
  Json operator()(const planner::plan::ShortTimesNote& n) const {
    Json json = {{"kind", "short times"}, {"share", share(n.share)}};
    if (n.temperature_C) {
      json["temperature_C"] = rounded(*n.temperature_C, 1);
    }
    if (n.humidity) {
      json["humidity"] = share(*n.humidity);
    }
    return json;
  }
  Json operator()(const planner::plan::KeepWarmNote& n) const {
    return {{"kind", "keep warm"},
            {"temperature_C", rounded(n.temperature_C, 1)},
            {"least_C", rounded(n.least_C, 1)}};
  }
  Json operator()(const planner::plan::ClassValuesNote& n) const {
    return {{"kind", "class values"}, {"wood", n.wood}, {"elastic", n.elastic}, {"crush", n.crush}};
  }
};

const char* caution_word(CautionKind kind) {
  switch (kind) {
    case CautionKind::isocyanates:
      return "isocyanates";
    case CautionKind::uncured_epoxy:
      return "uncured epoxy";
    case CautionKind::formaldehyde:
      return "formaldehyde";
    case CautionKind::hot_pot:
      return "hot pot";
    case CautionKind::heavy_part:
      return "heavy part";
    case CautionKind::heavy_assembly:
      return "heavy assembly";
    case CautionKind::iron_stains:
      return "iron stains";
    case CautionKind::sawn_later:
      return "sawn later";
    case CautionKind::closed_inside:
      return "closed inside";
    case CautionKind::label_wins:
      return "label wins";
    case CautionKind::air_and_eyes:
      return "air and eyes";
    case CautionKind::fingers:
      return "fingers";
    case CautionKind::falling_clamps:
      return "falling clamps";
    case CautionKind::drips:
      return "drips";
    case CautionKind::no_structure:
      return "no structure";
  }
  return "";
}

struct ReasonFacts : Facts {
  Json operator()(const planner::plan::Locked& r) const {
    Json pairs = Json::array();
    for (const planner::plan::WaysApart& pair : r.pairs) {
      Json ways = Json::array();
      for (const geometry::Direction& way : pair.ways) {
        ways.push_back(vector_of(way));
      }
      pairs.push_back({{"stays", parts(pair.stays)},
                       {"leaves", parts(pair.leaves)},
                       {"ways", std::move(ways)}});
    }
    return {{"kind", "locked"}, {"parts", parts(r.parts)}, {"pairs", std::move(pairs)}};
  }
  Json operator()(const planner::plan::TooHeavy& r) const {
    return {{"kind", "too heavy"},
            {"limit_g", gram(r.limit_g)},
            {"parts", parts(r.heaviest)},
            {"mass_g", gram(r.mass_g)}};
  }
  Json operator()(const planner::plan::StoppedEarly&) const { return {{"kind", "stopped"}}; }
  Json operator()(const planner::plan::SearchCutShort&) const {
    return {{"kind", "search cut short"}};
  }
  Json operator()(const planner::plan::TooCold& r) const {
    return {{"kind", "too cold"},
            {"temperature_C", rounded(r.temperature_C, 1)},
            {"least_C", rounded(r.least_C, 1)}};
  }
  Json operator()(const planner::plan::TooWarm&) const { return {{"kind", "too warm"}}; }
  Json operator()(const planner::plan::OutOfTime& r) const {
    return {{"kind", "out of time"},
            {"joint", r.joint},
            {"limit", r.open ? "open" : "total"},
            {"slack_s", second(r.slack_s)}};
  }
  Json operator()(const planner::plan::NotHeld& r) const {
    return {{"kind", "not held"}, {"joints", r.joints}};
  }
  Json operator()(const planner::plan::TooLittleGlue& r) const {
    return {
        {"kind", "too little glue"}, {"needed_ml", ml(r.needed_ml)}, {"left_ml", ml(r.left_ml)}};
  }
};

struct RiskFacts : Facts {
  Json operator()(const planner::plan::VerdictReason& r) const { return fact(plan, r); }
  Json operator()(const planner::plan::ShouldersRisk& r) const {
    return {{"kind", "shoulders open"}, {"axis", vector_of(r.axis)}};
  }
  Json operator()(const planner::plan::CrossGrainRisk& r) const {
    return {{"kind", "across the grain"}, {"joint", r.joint}};
  }
  Json operator()(const planner::plan::SquareRisk&) const { return {{"kind", "out of square"}}; }
  Json operator()(const planner::plan::EndGrainRisk&) const { return {{"kind", "end grain"}}; }
  Json operator()(const planner::plan::SlipRisk&) const { return {{"kind", "boards slip"}}; }
};

struct OrderFacts : Facts {
  Json operator()(const planner::plan::TightestJoint& r) const {
    return {{"kind", "tightest joint"},           {"joint", r.joint},
            {"limit", r.open ? "open" : "total"}, {"used_s", second(r.used_s)},
            {"limit_s", second(r.limit_s)},       {"spreading_s", second(r.spreading_s)},
            {"joining_s", second(r.joining_s)},   {"snugging_s", second(r.snugging_s)},
            {"checking_s", second(r.checking_s)}, {"tightening_s", second(r.tightening_s)},
            {"waiting_s", second(r.waiting_s)}};
  }
  Json operator()(const planner::plan::NextBestOrder& r) const {
    return {{"kind", "next best order"},
            {"moving", parts(r.moving)},
            {"staying", parts(r.staying)},
            {"less_s", second(r.less_s)}};
  }
  Json operator()(const planner::plan::NoOtherOrder&) const { return {{"kind", "no other order"}}; }
  Json operator()(const planner::plan::NoneBetter&) const { return {{"kind", "none better"}}; }
  Json operator()(const planner::plan::MaybeBetter&) const { return {{"kind", "maybe better"}}; }
  Json operator()(const planner::plan::BenchSideChosen& r) const {
    return {{"kind", "bench side"},
            {"bench_face", side(r.down)},
            {"hands", r.hands},
            {"as_drawn", {{"bench_face", side(r.down_as_drawn)}, {"hands", r.hands_as_drawn}}}};
  }
  Json operator()(const planner::plan::ClosedFromAbove&) const {
    return {{"kind", "closed from above"}};
  }
};

struct StepFacts : Facts {
  Json operator()(const planner::plan::NothingToTell&) const { return {{"kind", "none"}}; }
  Json operator()(const planner::plan::OpenFor& r) const {
    return {{"kind", "open for"}, {"used_s", second(r.used_s)}, {"limit_s", second(r.limit_s)}};
  }
  Json operator()(const planner::plan::Closes& r) const {
    return {{"kind", "closes"}, {"joints", r.joints}};
  }
  Json operator()(const planner::plan::AllClosed& r) const {
    return {{"kind", "all closed"}, {"joints", r.joints}};
  }
  Json operator()(const planner::plan::InsideStillOpen& r) const {
    return {{"kind", "inside still open"}, {"parts", parts(r.next)}};
  }
  Json operator()(const planner::plan::StillMoves&) const { return {{"kind", "still moves"}}; }
  Json operator()(const planner::plan::EvenlyDrawn&) const { return {{"kind", "evenly drawn"}}; }
  Json operator()(const planner::plan::BoardsFlush&) const { return {{"kind", "boards flush"}}; }
  Json operator()(const planner::plan::LegsAlike&) const { return {{"kind", "legs alike"}}; }
  Json operator()(const planner::plan::FromAbove&) const { return {{"kind", "from above"}}; }
  Json operator()(const planner::plan::GlueGrabs&) const { return {{"kind", "glue grabs"}}; }
};

}  // namespace

Json fact(const Plan& plan, const planner::plan::Note& note) {
  return std::visit(NoteFacts{{plan}}, note);
}

Json fact(const Plan& plan, const planner::plan::Caution& caution) {
  Json json = {{"kind", caution_word(caution.kind)}};
  if (caution.part) {
    json["part"] = plan.parts[*caution.part].name;
  }
  return json;
}

Json fact(const Plan& plan, const planner::plan::VerdictReason& reason) {
  return std::visit(ReasonFacts{{plan}}, reason);
}

Json fact(const Plan& plan, const planner::plan::Risk& risk) {
  return std::visit(RiskFacts{{plan}}, risk);
}

Json fact(const Plan& plan, const planner::plan::OrderReason& reason) {
  return std::visit(OrderFacts{{plan}}, reason);
}

Json fact(const Plan& plan, const planner::plan::StepReason& reason) {
  return std::visit(StepFacts{{plan}}, reason);
}

}  // namespace cli::json
