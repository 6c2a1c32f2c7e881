#include "cli/words/trade_words.h"

#include <algorithm>
#include <cmath>

#include "planner/base/units.h"
#include "planner/tables/clamp.h"
#include "planner/work/joint_kind.h"

namespace cli::words {
namespace {

using planner::plan::Level;
using planner::plan::Plan;
using planner::work::GrainClass;
using planner::work::Joint;
using planner::work::JointKind;

std::string with_blanks(std::string id) {
  std::replace(id.begin(), id.end(), '_', ' ');
  return printable(id);
}

}  // namespace

std::string clamp_text(const std::string& kind, const Wording& wording) {
  const planner::tables::ClampKind* row = planner::tables::find_clamp_kind(kind);
  return row == nullptr ? with_blanks(kind) : wording.uk_words ? row->uk_name : row->name;
}

std::string sold_size_text(double opening_mm, const Wording& wording) {
  return wording.units == planner::base::Units::inch
             ? "about " + length_text(std::round(opening_mm / planner::base::kMmPerInch) *
                                          planner::base::kMmPerInch,
                                      wording)
             : length_text(opening_mm, wording);
}

std::string clamp_short(const std::string& kind, const Wording& wording) {
  const planner::tables::ClampKind* row = planner::tables::find_clamp_kind(kind);
  if (row == nullptr || !wording.uk_words) {
    return row == nullptr ? with_blanks(kind) : row->short_name;
  }
  std::string name = row->uk_name;  // "sash cramp": "sash"
  for (const char* uk_noun : {" cramp", " clamp"}) {
    if (const std::size_t at = name.find(uk_noun); at != std::string::npos) {
      name.erase(at, std::string_view(uk_noun).size());
    }
  }
  return name;
}

std::string clamp_noun(const Wording& wording) {
  return wording.uk_words ? "cramp" : "clamp";
}

std::string least_opening_text(double mm, const Wording& wording) {
  const double step =
      wording.units == planner::base::Units::inch ? planner::base::kMmPerInch / 4 : 1;
  return length_text(step * std::ceil(mm / step - 1e-3), wording);
}

std::string axis_word(const geometry::Direction& axis) {
  constexpr double kOnAxis = 0.999;
  return std::abs(axis[static_cast<std::size_t>(side_towards(axis).axis)]) > kOnAxis
             ? axis_text(axis)
             : "slantwise";
}

std::string clamp_way(const planner::plan::PlannedClamp& clamp) {
  return clamp.round.empty() ? axis_word(clamp.axis) : "round";
}

std::string side_word(planner::work::Face face) {
  constexpr const char* kWords[3][2] = {{"left", "right"}, {"front", "back"}, {"bottom", "top"}};
  return kWords[face.axis][face.positive ? 1 : 0];
}

planner::work::Face side_towards(const geometry::Direction& direction) {
  int axis = 0;
  for (int i = 1; i < 3; ++i) {
    const auto at = [&](int k) { return std::abs(direction[static_cast<std::size_t>(k)]); };
    if (at(i) > at(axis) + 1e-9) {
      axis = i;
    }
  }
  return {axis, direction[static_cast<std::size_t>(axis)] > 0};
}

std::string way_text(const geometry::Direction& direction) {
  const planner::work::Face side = side_towards(direction);
  return side.axis == 2 ? (side.positive ? "up" : "down") : "to the " + side_word(side);
}

std::string axis_text(const geometry::Direction& axis) {
  constexpr const char* kWays[] = {"left-right", "front-back", "top-bottom"};
  return kWays[side_towards(axis).axis];
}

std::string clamp_how_word(const planner::plan::PlannedClamp& clamp) {
  using planner::plan::Strength;
  return clamp.level == Level::seat           ? "home"
         : clamp.level == Level::full         ? "boost"
         : clamp.strength == Strength::gentle ? "hold gentle"
         : clamp.strength == Strength::firm   ? "hold firm"
                                              : "hold hard";
}

std::string line_level_word(Level level) {
  switch (level) {
    case Level::full:
      return "full";
    case Level::hold:
      return "held";
    case Level::seat:
      return "home";
    case Level::light:
      return "lightly held";
    case Level::contact:
      return "contact";
    case Level::short_of_hold:
      return "not held";
  }
  return {};
}

std::string glue_name_text(const planner::work::GlueInUse& glue) {
  const planner::tables::GlueFamily* family = planner::tables::find_glue_family(glue.family);
  const bool own = family != nullptr && family->name != glue.name;
  return printable(glue.name) + (own ? " (" + family->name + ")" : "");
}

std::string part_name(const Plan& plan, planner::work::PartId id) {
  return id < plan.parts.size() ? printable(plan.parts[id].name) : "?";
}

std::string part_names(const Plan& plan, const std::vector<planner::work::PartId>& ids) {
  std::vector<std::string> names;
  names.reserve(ids.size());
  for (const planner::work::PartId id : ids) {
    names.push_back(part_name(plan, id));
  }
  return list_text(runs_of_names(names));
}

std::string comma_names(const Plan& plan, const std::vector<planner::work::PartId>& ids) {
  std::vector<std::string> names;
  for (const planner::work::PartId id : ids) {
    names.push_back(part_name(plan, id));
  }
  std::string text;
  for (const std::string& name : runs_of_names(names)) {
    text += (text.empty() ? "" : ", ") + name;
  }
  return text;
}

std::string joint_text(const Plan& plan, planner::work::JointId id) {
  const Joint& joint = plan.joints[id];
  return part_name(plan, joint.parts[0]) + " - " + part_name(plan, joint.parts[1]);
}

std::string joint_texts(const Plan& plan, const std::vector<planner::work::JointId>& ids) {
  std::vector<std::string> names;
  for (const planner::work::JointId id : ids) {
    names.push_back(joint_text(plan, id));
  }
  return list_text(names);
}

std::string face_text(const Plan& plan, planner::work::JointId id, std::size_t face) {
  const Joint& joint = plan.joints[id];
  const std::string name = joint_text(plan, id);
  if (joint.faces.size() <= 1) {
    return name;
  }
  if (trade_of(joint.kind).has(planner::work::kStepped) && joint.faces.size() == 2) {
    return name + (face == 0 ? ", cheek" : ", shoulder");
  }
  return name + ", face " + std::to_string(face + 1);
}

bool has_the_cut(const Joint& joint, planner::work::PartId part) {
  return trade_of(joint.kind).has(planner::work::kHasCut) && joint.host &&
         joint.parts[*joint.host] == part;
}

std::string place_noun(const Joint& joint, planner::work::PartId part, const Wording& wording) {
  const planner::work::JointTrade& trade = trade_of(joint.kind);
  const std::size_t side = joint.parts[0] == part ? 0 : 1;
  const bool on_end = !joint.faces.empty() && joint.faces[0].grain[side] == GrainClass::end_grain;
  if (joint.kind == JointKind::butt && on_end) {
    return "end";
  }
  if (!trade.mate_place.empty() && !has_the_cut(joint, part)) {
    return std::string(trade.mate_place);
  }
  return std::string(trade.place_in(wording.uk_words));
}

}  // namespace cli::words
