#include "cli/words/trade_words.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "planner/tables/clamp.h"

namespace cli::words {
namespace {

using planner::plan::Level;
using planner::plan::Plan;
using planner::work::GrainClass;
using planner::work::Joint;
using planner::work::JointKind;

struct ClampWord {
  const char* id;
  const char* brief;
  const char* uk;  // the US word is the table's
};
constexpr std::array<ClampWord, 14> kClampWords{{
    {"f_light", "light F", "light F cramp"},
    {"f_heavy", "heavy F", "heavy F cramp"},
    {"parallel", "parallel-jaw", "parallel-jaw cramp"},
    {"trigger", "one-handed", "one-handed cramp"},
    {"alu_bar", "aluminum bar", "aluminium bar cramp"},
    {"pipe_1_2", "pipe 1/2 in", "pipe cramp (1/2 in)"},
    {"pipe_3_4", "pipe 3/4 in", "pipe cramp (3/4 in)"},
    {"sash", "I-bar", "sash cramp"},
    {"c_clamp_100", "C-clamp", "G-cramp"},
    {"hand_screw", "hand screw", "hand screw"},
    {"spring", "spring", "spring clamp"},
    {"band", "band", "band cramp"},
    {"corner", "corner", "corner cramp"},
    {"deep", "deep-reach", "deep-reach cramp"},
}};

const ClampWord* find_clamp_word(const std::string& kind) {
  const auto* found = std::find_if(kClampWords.begin(), kClampWords.end(),
                                   [&](const ClampWord& word) { return kind == word.id; });
  return found == kClampWords.end() ? nullptr : found;
}

std::string with_blanks(std::string id) {
  std::replace(id.begin(), id.end(), '_', ' ');
  return printable(id);
}

// A joint with a small face beside a large one at right angles: cheek and shoulder.
bool is_stepped(JointKind kind) {
  return kind == JointKind::rabbet || kind == JointKind::half_lap || kind == JointKind::bridle ||
         kind == JointKind::mortise_and_tenon;
}

}  // namespace

std::string clamp_text(const std::string& kind, const Wording& wording) {
  if (const ClampWord* word = find_clamp_word(kind); word != nullptr && wording.uk_words) {
    return word->uk;
  }
  const planner::tables::ClampKind* row = planner::tables::find_clamp_kind(kind);
  return row == nullptr ? with_blanks(kind) : row->name;
}

std::string sold_size_text(double opening_mm, const Wording& wording) {
  constexpr double kInch_mm = 25.4;
  return wording.units == planner::base::Units::inch
             ? "about " + length_text(std::round(opening_mm / kInch_mm) * kInch_mm, wording)
             : length_text(opening_mm, wording);
}

std::string clamp_short(const std::string& kind) {
  const ClampWord* word = find_clamp_word(kind);
  return word == nullptr ? with_blanks(kind) : word->brief;
}

std::string axis_word(const geometry::Direction& axis) {
  constexpr double kOnAxis = 0.999;
  return std::abs(axis.x) > kOnAxis   ? "along"
         : std::abs(axis.y) > kOnAxis ? "across"
         : std::abs(axis.z) > kOnAxis ? "down"
                                      : "askew";
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

std::string clamp_level_word(Level level) {
  return level == Level::seat ? "snug" : level == Level::full ? "extra" : "tight";
}

std::string line_level_word(Level level) {
  switch (level) {
    case Level::full:
      return "full";
    case Level::hold:
      return "held";
    case Level::seat:
      return "seated";
    case Level::short_of_hold:
      return "SHORT";
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
  return list_text(names);
}

std::string joint_text(const Plan& plan, planner::work::JointId id) {
  const Joint& joint = plan.joints[id];
  return part_name(plan, joint.parts[0]) + " - " + part_name(plan, joint.parts[1]);
}

std::string face_text(const Plan& plan, planner::work::JointId id, std::size_t face) {
  const Joint& joint = plan.joints[id];
  const std::string name = joint_text(plan, id);
  if (joint.faces.size() <= 1) {
    return name;
  }
  if (is_stepped(joint.kind) && joint.faces.size() == 2) {
    return name + (face == 0 ? ", cheek" : ", shoulder");
  }
  return name + ", face " + std::to_string(face + 1);
}

bool has_the_cut(const Joint& joint, planner::work::PartId part) {
  const bool cut = joint.kind == JointKind::rabbet || joint.kind == JointKind::dado ||
                   joint.kind == JointKind::groove || joint.kind == JointKind::mortise_and_tenon ||
                   joint.kind == JointKind::dowel;
  return cut && joint.host && joint.parts[*joint.host] == part;
}

std::string place_noun(const Joint& joint, planner::work::PartId part, const Wording& wording) {
  const std::size_t side = joint.parts[0] == part ? 0 : 1;
  const bool on_end = !joint.faces.empty() && joint.faces[0].grain[side] == GrainClass::end_grain;
  switch (joint.kind) {
    case JointKind::edge:
      return "edge";
    case JointKind::butt:
      return on_end ? "end" : "place";
    case JointKind::lap:
    case JointKind::lamination:
      return "face";
    case JointKind::rabbet:
      return wording.uk_words ? "rebate" : "rabbet";
    case JointKind::dado:
      return wording.uk_words ? "housing" : "dado";
    case JointKind::groove:
      return "groove";
    case JointKind::mortise_and_tenon:
      return !has_the_cut(joint, part) ? "joint" : wording.uk_words ? "mortice" : "mortise";
    case JointKind::bridle:
      return "bridle joint";
    case JointKind::half_lap:
      return "half-lap";
    case JointKind::fingers:
      return "row of fingers";
    case JointKind::dowel:
      return has_the_cut(joint, part) ? "hole" : "dowel";
    case JointKind::mitre:
      return wording.uk_words ? "mitre" : "miter";
    case JointKind::other:
      return "joint";
  }
  return {};
}

}  // namespace cli::words
